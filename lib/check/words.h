#pragma once
#include <string>

#include "geom/polygon.h"

namespace dogear {

// The trade's name for a finished shape whose grain runs along x: "60° trapezoid", "rectangle".
std::string name_shape(const Polygon& shape);

}  // namespace dogear
