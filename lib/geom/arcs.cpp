#include "geom/arcs.h"

#include <cmath>

namespace dogear {

namespace {

// The cosine of 15°, by which two spokes of a circle 15° apart are known.
Exact cosine15() { return (Exact::sqrt6() + Exact::sqrt2()) / Exact(4); }

std::optional<std::int64_t> whole_root(std::int64_t n) {
  const auto r = static_cast<std::int64_t>(std::llround(std::sqrt(static_cast<double>(n))));
  return r * r == n ? std::optional(r) : std::nullopt;
}

double reach(const Point& center, const Point& p) {
  const double x = (p.x - center.x).approx();
  const double y = (p.y - center.y).approx();
  return std::sqrt(x * x + y * y);
}

}  // namespace

std::optional<std::vector<Point>> arc_points(const Point& center, const Point& from,
                                             const Point& to) {
  const Point a = from - center;
  const Point b = to - center;
  if (a == b || dot(a, a) != dot(b, b)) return std::nullopt;
  for (int k = 1; k < 12; ++k) {
    for (const int way : {1, -1}) {
      if (Transform::turned(way * k).apply_direction(a) != b) continue;
      std::vector<Point> out;
      for (int i = 1; i < k; ++i) {
        out.push_back(center + Transform::turned(way * i).apply_direction(a));
      }
      return out;
    }
  }
  return std::nullopt;
}

std::optional<Arc> arc_of(const Segment& edge, const std::vector<Arc>& arcs) {
  for (const Arc& arc : arcs) {
    const Point a = edge.a - arc.center;
    const Point b = edge.b - arc.center;
    if (dot(a, a) != arc.squared || dot(b, b) != arc.squared) continue;
    if (dot(a, b) == arc.squared * cosine15()) return arc;
  }
  return std::nullopt;
}

std::optional<Arc> arc_near(const Segment& edge, const std::vector<Arc>& arcs) {
  constexpr double close = 2e-5;
  for (const Arc& arc : arcs) {
    const double r = std::sqrt(arc.squared.approx());
    if (std::abs(reach(arc.center, edge.a) - r) > close) continue;
    if (std::abs(reach(arc.center, edge.b) - r) > close) continue;
    constexpr double cosine50 = 0.64278760968653933;
    if (dot(edge.a - arc.center, edge.b - arc.center).approx() > cosine50 * r * r) return arc;
  }
  return std::nullopt;
}

bool bulges(const Segment& edge, const Arc& arc) {
  return cross(edge.b - edge.a, arc.center - edge.a).sign() > 0;
}

Exact radius(const Arc& arc) {
  if (const auto f = arc.squared.as_fraction()) {
    const auto num = whole_root(f->num);
    const auto den = whole_root(f->den);
    if (num && den) return Exact::ratio(*num, *den);
  }
  return Exact::ratio(std::llround(std::sqrt(arc.squared.approx()) * 1e6), 1000000);
}

bool is_on_curve(const Polygon& p, std::size_t corner) {
  if (p.arcs.empty()) return false;
  const auto before = arc_of(p.edge(corner + p.size() - 1), p.arcs);
  return before && before == arc_of(p.edge(corner), p.arcs);
}

bool comes_before(const Point& center, const Point& a, const Point& b) {
  const Point u = a - center;
  const Point v = b - center;
  const auto upper = [](const Point& d) {
    return d.y.sign() < 0 || (d.y.is_zero() && d.x.sign() < 0);
  };
  if (upper(u) != upper(v)) return upper(v);
  return cross(u, v).sign() > 0;
}

}  // namespace dogear
