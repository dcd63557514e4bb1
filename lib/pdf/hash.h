#pragma once
// FNV-1a, for identifiers that depend on nothing but the content.

#include <cstdint>
#include <string_view>

namespace dogear::pdf {

class Hash {
 public:
  explicit Hash(std::uint64_t start = 14695981039346656037ull) : state_(start) {}
  Hash& add(std::string_view bytes) {
    for (const char c : bytes) state_ = (state_ ^ static_cast<unsigned char>(c)) * 1099511628211ull;
    state_ = (state_ ^ 0xFFu) * 1099511628211ull;  // parts do not run together
    return *this;
  }
  std::uint64_t value() const { return state_; }

 private:
  std::uint64_t state_;
};

}  // namespace dogear::pdf
