#pragma once
#include "piecing/piecing.h"

namespace dogear {

// Turns each unit that goes into all others the same way as it lies there, by quarter turns, so
// that it is drawn, measured and laid down in one way. Blocks, the assembly, and what is cut from
// strip sets, made in batches or on foundations stay as they are written.
void turn_as_used(Piecing& piecing);

}  // namespace dogear
