#pragma once
// What no plan can do better than.

#include "stock/master.h"

namespace dogear::stock {

// Needs and sheets of a whole reduced problem.
std::vector<long long> needs(const Reduced& reduced);
std::vector<long long> limited_sheets(const Reduced& reduced);

// Worth by size, from how much cloth a cut takes at the least.
Bound bound_by_size(const Reduced& reduced);

// From the duals of column generation, whose columns are added to `columns`. Stops early where a
// bound of `enough` is proved.
Bound bound_by_duals(const Reduced& reduced, Steps enough, Budget& budget,
                     std::vector<Column>& columns);

// The bound in the problem's own kinds and measures, use rounded up and priced.
Bound expand(const Reduced& reduced, const Bound& bound);

}  // namespace dogear::stock
