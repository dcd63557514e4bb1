#include "check/words.h"

#include <algorithm>
#include <array>

namespace dogear {

namespace {

Exact squared(const Segment& s) { return dot(s.b - s.a, s.b - s.a); }

// The inside angle at corner i, in degrees, where it is one that shapes are named for; 0 otherwise.
int angle(const Polygon& p, std::size_t i) {
  const Point before = p.at(i + p.size() - 1) - p.at(i);
  const Point after = p.at(i + 1) - p.at(i);
  const Exact d = dot(before, after);
  if (d.is_zero()) return 90;
  const Exact part = d * d / (dot(before, before) * dot(after, after));
  const bool sharp = d.sign() > 0;
  if (part == Exact::ratio(3, 4)) return sharp ? 30 : 150;
  if (part == Exact::ratio(1, 2)) return sharp ? 45 : 135;
  if (part == Exact::ratio(1, 4)) return sharp ? 60 : 120;
  return 0;
}

std::vector<int> angles(const Polygon& p) {
  std::vector<int> out;
  for (std::size_t i = 0; i < p.size(); ++i) out.push_back(angle(p, i));
  return out;
}

bool all_of(const std::vector<int>& found, std::initializer_list<int> allowed) {
  return std::all_of(found.begin(), found.end(), [&](int a) {
    return std::find(allowed.begin(), allowed.end(), a) != allowed.end();
  });
}

bool equal_sides(const Polygon& p) {
  for (std::size_t i = 1; i < p.size(); ++i) {
    if (squared(p.edge(i)) != squared(p.edge(0))) return false;
  }
  return true;
}

std::string name_triangle(const Polygon& p, const std::vector<int>& at) {
  if (all_of(at, {60})) return "60° triangle";
  for (std::size_t i = 0; i < 3; ++i) {
    const Exact a = squared(p.edge(i));
    const Exact b = squared(p.edge(i + 2));
    if (at[i] == 45 && a == b) return "kaleidoscope wedge";
    if (at[i] != 90) continue;
    const Segment longest = p.edge(i + 1);
    if (a == b) {
      const bool level = longest.a.y == longest.b.y || longest.a.x == longest.b.x;
      return level ? "quarter-square triangle" : "half-square triangle";
    }
    return at[(i + 1) % 3] == 30 || at[(i + 2) % 3] == 30 ? "half-triangle"
                                                          : "half-rectangle triangle";
  }
  return "triangle";
}

std::string name_four(const Polygon& p, const std::vector<int>& at) {
  if (all_of(at, {90})) return equal_sides(p) ? "square" : "rectangle";
  const auto parallel = [&p](std::size_t i, std::size_t j) {
    return cross(p.at(i + 1) - p.at(i), p.at(j + 1) - p.at(j)).is_zero();
  };
  const std::string kind = all_of(at, {60, 120}) ? "60° " : all_of(at, {45, 135}) ? "45° " : "";
  const bool both = parallel(0, 2) && parallel(1, 3);
  if (both) return kind + (equal_sides(p) ? "diamond" : "parallelogram");
  if (!is_convex(p)) return "four-sided shape";
  if (!parallel(0, 2) && !parallel(1, 3)) {
    bool is_kite = false;
    for (std::size_t i = 0; i < 4; ++i) {
      const bool tip = squared(p.edge(i)) == squared(p.edge(i + 3)) &&
                       squared(p.edge(i + 1)) == squared(p.edge(i + 2));
      if (!tip) continue;
      is_kite = true;
      const bool square_sides = at[(i + 1) % 4] == 90 && at[(i + 3) % 4] == 90;
      if (square_sides && (at[i] == 45 || at[i] == 60)) return std::to_string(at[i]) + "° kite";
    }
    return is_kite ? "kite" : "four-sided shape";
  }
  for (std::size_t i = 0; i < 4; ++i) {
    // Half as wide at the top as at the base, with equal sides: half of a hexagon.
    const bool halves =
        parallel(i, i + 2) && squared(p.edge(i)) * Exact(4) == squared(p.edge(i + 2));
    if (halves && kind == "60° " && squared(p.edge(i + 1)) == squared(p.edge(i)) &&
        squared(p.edge(i + 3)) == squared(p.edge(i))) {
      return "half-hexagon";
    }
  }
  return kind + "trapezoid";
}

std::string name_curved(const Polygon& p) {
  if (p.arcs.size() != 1) return "curved shape";
  std::vector<std::size_t> off;  // corners that do not lie on the circle
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Point spoke = p.at(i) - p.arcs[0].center;
    if (dot(spoke, spoke) != p.arcs[0].squared) off.push_back(i);
  }
  const auto is = [&](std::size_t k, int degrees) { return angle(p, off[k]) == degrees; };
  if (off.size() == 1 && p.at(off[0]) == p.arcs[0].center && is(0, 90)) return "quarter circle";
  if (off.size() == 3 && is(0, 90) && is(1, 90) && is(2, 90)) return "quarter-circle background";
  return "curved shape";
}

}  // namespace

std::string name_shape(const Polygon& shape) {
  if (!shape.arcs.empty()) return name_curved(shape);
  if (shape.size() > 8) return "shape";
  const std::vector<int> at = angles(shape);
  switch (shape.size()) {
    case 3:
      return name_triangle(shape, at);
    case 4:
      return name_four(shape, at);
    case 5:
      return "five-sided shape";
    case 6:
      return all_of(at, {120}) && equal_sides(shape) ? "hexagon" : "six-sided shape";
    case 8:
      return all_of(at, {135}) && equal_sides(shape) ? "octagon" : "shape";
    default:
      return "shape";
  }
}

}  // namespace dogear
