#pragma once
// What is sewn measures more than its finished outline by the allowances around it.

#include <utility>

#include "geom/polygon.h"

namespace dogear {

// Width and height of the outline with its allowances, inches; exact where the slants are multiples
// of 15°, else to a millionth.
std::pair<Exact, Exact> unfinished_size(const Polygon& outline, const Exact& allowance);

}  // namespace dogear
