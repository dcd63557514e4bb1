#pragma once
#include <string>

namespace dogear {

// A regular expression (ECMA-262) that matches every text which parse_length() reads, and few more:
// for editors, which know no lengths.
std::string length_pattern();

}  // namespace dogear
