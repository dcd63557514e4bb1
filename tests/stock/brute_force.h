#pragma once
// The least cloth of a tiny problem by trying everything.

#include "stock/stock.h"

namespace dogear::stock {

// Cloth by the length only. Lists all that a strip of each height can yield, then finds the least
// sum of heights that yields what is needed.
Steps least_by_trying(const Problem& problem);

}  // namespace dogear::stock
