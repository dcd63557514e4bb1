#pragma once
// What the name of a sewn unit says of its place in the top; those of blocks are the designer's.

#include <string>

#include "piecing/piecing.h"

namespace dogear {

bool is_row(const std::string& unit_name);
bool is_border(const std::string& unit_name);         // or a part of one
bool is_pieced_border(const std::string& unit_name);  // blocks in a row
bool is_sashing(const std::string& unit_name);        // around the whole, or a part of that
bool goes_around(const std::string& unit_name);       // a border or such sashing
bool is_section(const std::string& unit_name);        // a part that only its step names
bool is_mitred(const SewnUnit& unit);                 // a border with corners on the diagonal

}  // namespace dogear
