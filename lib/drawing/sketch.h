#pragma once
// Shapes in points on the page, and the small measuring that figures need.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "canvas/display.h"
#include "geom/polygon.h"
#include "model/pattern.h"

namespace dogear::drawing {

using Spot = canvas::Point;
using Rect = canvas::Rect;
using Motion = canvas::Transform;
using Ring = std::vector<Spot>;  // a simple outline, not closed by a repeated corner

inline constexpr canvas::Color ink{0.16, 0.16, 0.18};     // outlines, marks and words
inline constexpr canvas::Color pale{0.62, 0.62, 0.64};    // what is only there for orientation
inline constexpr canvas::Color offcut{0.93, 0.93, 0.93};  // cloth left over
inline constexpr double fine = 0.44;  // pt, the thinnest line; 0.4 if set smaller
inline constexpr double edge = 0.5;   // pt, outlines of patches
inline constexpr double heavy = 1.3;  // pt, seams to notice

Spot operator+(Spot a, Spot b);
Spot operator-(Spot a, Spot b);
Spot operator*(Spot a, double k);
double dot(Spot a, Spot b);
double cross(Spot a, Spot b);
double length(Spot a);
Spot unit(Spot a);  // of length 1; (1, 0) for nothing

// Inches to points at `scale` points an inch.
Spot spot(const dogear::Point& p, double scale);
Ring ring(const Polygon& p, double scale);
Motion motion(const dogear::Transform& t, double scale);
Ring moved(const Ring& r, const Motion& m);
Rect box(const Ring& r);
canvas::Path outline(const Ring& r);

double area(const Ring& r);  // never negative
Spot centroid(const Ring& r);
double depth(const Ring& r, Spot p);  // distance to the boundary, negative outside
bool holds(const Ring& r, const Rect& inner, double margin);
bool meets(const Ring& r, const Rect& other);
bool meets(const Rect& a, const Rect& b);
bool meets(Spot a, Spot b, const Rect& r);
// The spots of a lattice inside the ring, deepest first, its centroid before all; never none.
std::vector<Spot> depths(const Ring& r);
Spot deepest(const Ring& r);  // the first of them
// How far a straight line through `from` can run within the ring, forwards and backwards.
std::array<double, 2> reach(const Ring& r, Spot from, Spot direction);

// Every edge moved outwards; a tip sharper than a right angle is cut off square to its bisector.
Ring grown(const Ring& r, double by);

canvas::Color mix(const canvas::Color& a, const canvas::Color& b, double part_of_b);
canvas::Color colour(const Fabric& fabric);
canvas::Color tint(const Fabric& fabric);  // pale, for seam allowances
canvas::Style cloth(const Fabric& fabric, double hatch_spacing = 4, double line = edge);
// Cloth left over or cut off: unlike every fabric, tint and wrong side.
canvas::Style waste();

}  // namespace dogear::drawing
