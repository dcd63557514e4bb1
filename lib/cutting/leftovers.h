#pragma once
// What is left of the cloth.

#include <vector>

#include "cutting/cloth.h"

namespace dogear {

// Everything of a fabric's plan that is worth keeping, equal pieces counted, largest first.
std::vector<Leftover> leftovers_of(const Fabric& fabric, const std::vector<PieceCut>& cuts,
                                   const ClothWants& wants, const ClothPlan& plan);

}  // namespace dogear
