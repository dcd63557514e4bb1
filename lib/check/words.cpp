#include "check/words.h"

#include <algorithm>

namespace dogear {

namespace {

bool right_angle(const Polygon& p, std::size_t i) {
  return dot(p.at(i + 1) - p.at(i), p.at(i + 2) - p.at(i + 1)).is_zero();
}

// The corner between edges i and i + 1 turns by 60° or 120°.
bool sixty(const Polygon& p, std::size_t i) {
  const Point a = p.at(i + 1) - p.at(i);
  const Point b = p.at(i + 2) - p.at(i + 1);
  const Exact d = dot(a, b);
  return d * d * Exact(4) == dot(a, a) * dot(b, b);
}

Exact squared(const Segment& s) { return dot(s.b - s.a, s.b - s.a); }

std::string name_triangle(const Polygon& p) {
  const bool all_sixty = sixty(p, 0) && sixty(p, 1) && sixty(p, 2);
  if (all_sixty && squared(p.edge(0)) == squared(p.edge(1))) return "60° triangle";
  for (std::size_t i = 0; i < 3; ++i) {
    if (!right_angle(p, i)) continue;
    if (squared(p.edge(i)) != squared(p.edge(i + 1))) return "half-triangle";
    const Segment longest = p.edge(i + 2);
    return (longest.a.y == longest.b.y) ? "quarter-square triangle" : "half-square triangle";
  }
  return "triangle";
}

std::string name_four(const Polygon& p) {
  const bool square_corners = right_angle(p, 0) && right_angle(p, 1) && right_angle(p, 2);
  const bool equal_sides = squared(p.edge(0)) == squared(p.edge(1)) &&
                           squared(p.edge(1)) == squared(p.edge(2)) &&
                           squared(p.edge(2)) == squared(p.edge(3));
  if (square_corners) return equal_sides ? "square" : "rectangle";
  const auto parallel = [&p](std::size_t i, std::size_t j) {
    return cross(p.at(i + 1) - p.at(i), p.at(j + 1) - p.at(j)).is_zero();
  };
  const bool both = parallel(0, 2) && parallel(1, 3);
  const bool is_sixty = sixty(p, 0) && sixty(p, 1);
  if (both && equal_sides) return is_sixty ? "60° diamond" : "diamond";
  if (both) return "parallelogram";
  if (!parallel(0, 2) && !parallel(1, 3)) return "four-sided shape";
  for (std::size_t i = 0; i < 4; ++i) {
    // Half as wide at the top as at the base, with equal sides: half of a hexagon.
    const bool halves =
        parallel(i, i + 2) && squared(p.edge(i)) * Exact(4) == squared(p.edge(i + 2));
    if (halves && sixty(p, i) && squared(p.edge(i + 1)) == squared(p.edge(i)) &&
        squared(p.edge(i + 3)) == squared(p.edge(i))) {
      return "half-hexagon";
    }
  }
  return sixty(p, 0) && sixty(p, 1) && sixty(p, 2) ? "60° trapezoid" : "trapezoid";
}

}  // namespace

std::string name_shape(const Polygon& shape) {
  switch (shape.size()) {
    case 3:
      return name_triangle(shape);
    case 4:
      return name_four(shape);
    case 6: {
      bool regular = true;
      for (std::size_t i = 0; i < 6; ++i) {
        regular =
            regular && sixty(shape, i) && squared(shape.edge(i)) == squared(shape.edge(i + 1));
      }
      return regular ? "hexagon" : "six-sided shape";
    }
    default:
      return "shape";
  }
}

}  // namespace dogear
