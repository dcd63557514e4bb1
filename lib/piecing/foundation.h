#pragma once
// Units pieced on a paper foundation, as sewn units.

#include "piecing/catalogue.h"

namespace dogear {

// The unit of a part with a foundation: its patches in the order in which they are sewn on. Errors:
// D330 there is no order, D331 the order that is written does not work.
std::optional<Input> foundation_unit(const CheckedPattern& checked, PartId part,
                                     Catalogue& catalogue, Diagnostics& diagnostics);

}  // namespace dogear
