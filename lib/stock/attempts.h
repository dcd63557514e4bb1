#pragma once
// Plans that are quickly made.

#include "stock/search.h"

namespace dogear::stock {

// First fit in one manner or another. Returns what is left over by the first of them.
std::vector<long long> first_fits(const Reduced& reduced, Best& best);

// Fewer heights: strips only as high as some of the kinds, lower kinds cut from higher strips.
void few_heights(const Reduced& reduced, Best& best);

// The use from which on a plan costs as much as the best one: no bound need be greater.
Steps enough(const Reduced& reduced, const Best& best);

}  // namespace dogear::stock
