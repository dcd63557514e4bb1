#pragma once
// Shapes by their trade names: "triangle 4", "half-hexagon 4", "rectangle 2 x 4".

#include <optional>
#include <string>

#include "model/pattern.h"

namespace dogear {

struct Shape {
  Polygon outline;    // inches, finished; base along x, least corner of its box at (0, 0)
  std::string words;  // "60° triangle"
};

std::optional<Shape> read_shape(const Node& node, GridKind grid, const Exact& unit,
                                Diagnostics& diagnostics);

// Adds D114 where a shape is over 10,000 in wide or high.
bool too_large(const Polygon& p, const Span& span, Diagnostics& diagnostics);

// A grid vertex in inches. On the triangle grid the second step runs down to the right at 60°.
Point grid_point(GridKind grid, const Exact& unit, const Exact& i, const Exact& j);

Polygon rectangle(const Exact& width, const Exact& height);  // its box at (0, 0)

Polygon at_origin(const Polygon& p);  // shifted so that its box starts at (0, 0), tidied

}  // namespace dogear
