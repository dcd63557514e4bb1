#pragma once
// What is left of the cloth of a size, and the filler blocks that it would give.

#include <vector>

#include "compile/lists.h"

namespace dogear {

// leftovers; fillers from leftovers (each by itself, in its own fabrics); fillers of any fabric
// (all of them together, in whatever is left). Empty ones left out.
std::vector<List> leftover_lists(const Plan& plan, std::size_t size);

}  // namespace dogear
