#pragma once
#include "cutting/quantities.h"

namespace dogear {

// Shapes cut from sewn strips, gathered by the strips they come from: a set read from the other
// side gives the same shapes turned, so both orders of the strips share a set.
std::vector<StripSet> plan_strip_sets(const Piecing& piecing, const SizeSewing& sewing,
                                      const Pattern& pattern, Diagnostics& diagnostics);

}  // namespace dogear
