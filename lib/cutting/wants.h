#pragma once
// What each fabric must give in a size.

#include "cutting/cloth.h"

namespace dogear {

// Pieces, strips of strip sets, borders, binding and sleeve of one fabric. Error D505: a piece that
// only yardage can give, of a fabric that is not bought by the yard.
std::optional<ClothWants> wants_of(const Pattern& pattern, const Piecing& piecing,
                                   const std::vector<PieceCut>& cuts, const SizeQuantities& size,
                                   FabricId fabric, Diagnostics& diagnostics);

// Error D501: the sheets of a fabric do not suffice; what finds no cloth is named.
void report_short(const Pattern& pattern, const Piecing& piecing, const ClothPlan& plan,
                  const SizeQuantities& size, Diagnostics& diagnostics);

}  // namespace dogear
