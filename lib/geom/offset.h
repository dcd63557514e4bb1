#pragma once
// Outlines moved outwards by the seam allowance, and polygons cut by straight lines.

#include <optional>

#include "geom/polygon.h"

namespace dogear {

// The unit vector along d. Exact for every multiple of 15°; any other direction leaves the field
// and is taken to a millionth (measured, well under the tolerance of 1/1000 in).
Point unit_along(const Point& d);

// Every edge of a convex or reflex clockwise polygon moved outwards by `by`, corners mitred; an arc
// by a radius longer or shorter by that, its ends measured where it meets another edge.
Polygon offset(const Polygon& p, const Exact& by);

// What of a convex polygon lies on the right of (or on) the line from a in direction d, seen with
// y down; nothing when no area is left.
std::optional<Polygon> clip(const Polygon& p, const Point& a, const Point& d);

Point reflect(const Point& p, const Segment& line);

}  // namespace dogear
