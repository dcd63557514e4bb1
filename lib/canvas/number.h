#pragma once
// Numbers in exported pictures: shortest decimal, never in exponent form, never locale dependent.

#include <string>

namespace dogear::canvas {

// At most `places` (0..6) digits after the point; not for NaN or infinity, which become "0".
void append_number(std::string& out, double value, int places = 3);

}  // namespace dogear::canvas
