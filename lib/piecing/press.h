#pragma once
#include "piecing/piecing.h"

namespace dogear {

// Sets the pressing of every seam: away from bulk, then towards the darker cloth; rows alternate
// so that their seams nest.
void plan_pressing(const CheckedPattern& checked, Piecing& piecing);

}  // namespace dogear
