#pragma once
#include <optional>

#include "piecing/piecing.h"

namespace dogear {

// What the wishes of the designer settle: the press of unit and seam; nothing where they say
// nothing. D361 where a role is at no seam of its unit, or on both sides of all that it is at.
std::vector<std::vector<std::optional<Press>>> wished_presses(const Piecing& piecing,
                                                              Diagnostics& diagnostics);

}  // namespace dogear
