#pragma once
// The list to take along to the shop: what one quilt of a size asks for, nothing of how it is cut.

#include <vector>

#include "compile/lists.h"

namespace dogear {

// Empty ones left out: bundles, cloth, backing (each way it can be bought), batting, rulers,
// notions.
std::vector<List> shopping_lists(const Plan& plan, std::size_t size);

// What a backing of this size is, both ways it can be bought: "3 1/2 yd of 42 in", wide cloth.
List backing_list(const Plan& plan, std::size_t size);

}  // namespace dogear
