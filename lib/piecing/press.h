#pragma once
#include "piecing/piecing.h"

namespace dogear {

// Sets the pressing of every seam and finds what meets where; an error where a wish of the
// designer cannot be met.
void plan_pressing(const CheckedPattern& checked, Piecing& piecing, Diagnostics& diagnostics);

// Strips of two fabrics by turns, the first also the last: the unit is the same from both ends.
bool takes_turns(const Piecing& piecing, const SewnUnit& unit);

}  // namespace dogear
