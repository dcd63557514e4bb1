#pragma once
#include "piecing/piecing.h"

namespace dogear {

// Turns each unit that goes into all others the same way as it lies there, so that it is drawn,
// measured and laid down in one way: rectangles by quarter turns, other shapes half way round.
// Blocks, the assembly, units with seams that are not straight, and what is cut from strip sets,
// made in batches or on foundations stay as they are written.
void turn_as_used(Piecing& piecing);

}  // namespace dogear
