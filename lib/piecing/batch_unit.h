#pragma once
// Units that come out of larger pieces, as sewn units.

#include "piecing/catalogue.h"

namespace dogear {

// The unit of a part with a batch: its patches as inputs, its seams, what a batch takes.
Input batch_unit(const CheckedPattern& checked, const Part& part, Catalogue& catalogue);

}  // namespace dogear
