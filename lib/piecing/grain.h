#pragma once
// How the edges of patches lie to the threads of their cloth.

#include "piecing/piecing.h"

namespace dogear {

// Of an edge in a piece's own coordinates, x along the strip; exact.
Thread thread_along(const Point& direction);
// Degrees between the edge and the nearer thread, 0 to 45; measured, for words alone.
double degrees_off(const Point& direction);

// Warns of bias at the outer edge of blocks and tops and of bias sewn to bias, where a unit cut
// another way would avoid it, and of directional prints that lie on their side or their head.
void check_grain(const CheckedPattern& checked, Diagnostics& diagnostics);

}  // namespace dogear
