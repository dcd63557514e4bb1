#pragma once
// Edges that follow a circle. Corners stand on it every 15°, so that they are exact and neighbours
// along a curve share them; whatever needs the curve itself asks here.

#include <optional>
#include <vector>

#include "geom/polygon.h"

namespace dogear {

// The points between two ends of an arc, every 15° on the shorter way round; nothing where the ends
// lie unlike far from the center, no multiple of 15° apart, or half a circle and more.
std::optional<std::vector<Point>> arc_points(const Point& center, const Point& from,
                                             const Point& to);

// The arc an edge follows: both of its ends lie on the circle, 15° apart. Exact.
std::optional<Arc> arc_of(const Segment& edge, const std::vector<Arc>& arcs);

// The same for cut shapes, whose ends are measured: within 1/50000 in and less than 50° apart.
std::optional<Arc> arc_near(const Segment& edge, const std::vector<Arc>& arcs);

// Does the polygon bulge along this edge? The center of a bulge lies on its inner side.
bool bulges(const Segment& edge, const Arc& arc);

// Exact where the square is one of a fraction, else to a millionth.
Exact radius(const Arc& arc);

// Corners that stand in for a curve: those between two edges of one arc.
bool is_on_curve(const Polygon& p, std::size_t corner);

// Clockwise about the center, beginning at its right.
bool comes_before(const Point& center, const Point& a, const Point& b);

}  // namespace dogear
