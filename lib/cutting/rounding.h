#pragma once
#include <vector>

#include "cutting/quantities.h"

namespace dogear {

// What cuts printed on the lines of rulers cost where the exact measure lies between lines: an
// error where they add up to more than the pattern's tolerance along a seam, across a block or
// across a top, else a warning for each piece. `cuts` holds one a piece.
void check_rounding(const CheckedPattern& checked, const Piecing& piecing,
                    const std::vector<PieceCut>& cuts, Diagnostics& diagnostics);

}  // namespace dogear
