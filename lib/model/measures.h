#pragma once
// Measures of shapes in grid steps, exact: "4", "2 1/2", "8 - 4√2".

#include <optional>
#include <string_view>

#include "base/exact.h"

namespace dogear {

// Sums and differences of numbers and multiples of √2, √3 and √6 (also spelled sqrt2 ...); nothing
// where it is anything else.
std::optional<Exact> parse_measure(std::string_view text);

// Where the first number of a text begins; npos when it has none.
std::size_t first_number(std::string_view text);

}  // namespace dogear
