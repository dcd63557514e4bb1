#pragma once
#include <cstddef>

// What any source file may hold, YAML and Markdown alike.
namespace dogear {

constexpr std::size_t most_bytes = 1 << 20;
constexpr std::size_t most_errors = 100;  // told of one file

}  // namespace dogear
