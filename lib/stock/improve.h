#pragma once
// Improves a plan a few strips at a time.

#include "stock/search.h"

namespace dogear::stock {

// Takes some strips out and lays their pieces again, by first fit in another order or strip by
// strip for the most worth, until the least price is met or the budget is spent.
void relay(const Reduced& reduced, Budget& budget, Best& best);

// The same at an equal price, for fewer heights and cuts: a limited number of tries.
void simplify(const Reduced& reduced, Best& best);

}  // namespace dogear::stock
