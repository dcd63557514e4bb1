#pragma once
#include <map>
#include <vector>

#include "cutting/quantities.h"

namespace dogear {

// How many batches of ready-made units a size sews: whole batches, what is over is extra. Adds D504
// where the patches of the batches are not those of the units, or do not come out of the pieces.
std::vector<BatchCount> plan_batches(const CheckedPattern& checked, const Piecing& piecing,
                                     const SizeSewing& sewing, Diagnostics& diagnostics);

// Pieces to cut: those sewn as they are, and those that the batches take.
std::map<PieceId, long long> pieces_to_cut(const Piecing& piecing, const SizeSewing& sewing,
                                           const std::vector<BatchCount>& batches);

}  // namespace dogear
