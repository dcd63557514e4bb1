#pragma once
// Whole strips: which of them, so many of each height, could hold all pieces?

#include "stock/search.h"

namespace dogear::stock {

// Goes through the strips that would cost less than the best plan. Either finds a plan that needs
// no others, or shows that none of them are enough; then `bound` is raised to the best plan's
// price, with the worths that show it.
void count_strips(const Reduced& reduced, Bound& bound, Budget& budget, Best& best);

}  // namespace dogear::stock
