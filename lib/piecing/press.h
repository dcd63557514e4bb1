#pragma once
#include "piecing/piecing.h"

namespace dogear {

// Sets the pressing of every seam and finds what meets where; an error where a wish of the
// designer cannot be met.
void plan_pressing(const CheckedPattern& checked, Piecing& piecing, Diagnostics& diagnostics);

}  // namespace dogear
