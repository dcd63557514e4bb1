#include "geom/offset.h"

#include <cmath>

namespace dogear {

namespace {

Exact measured(double v) { return Exact::ratio(std::llround(v * 1e6), 1000000); }

Point intersect(const Point& a, const Point& da, const Point& b, const Point& db) {
  const Exact t = cross(b - a, db) / cross(da, db);
  return a + da * t;
}

}  // namespace

Point unit_along(const Point& d) {
  for (int k = 0; k < 24; ++k) {
    Point u = Transform::turned(k).apply_direction({Exact(1), Exact(0)});
    if (cross(u, d).is_zero() && dot(u, d).sign() > 0) return u;
  }
  const double x = d.x.approx();
  const double y = d.y.approx();
  const double length = std::sqrt(x * x + y * y);
  return {measured(x / length), measured(y / length)};
}

Polygon offset(const Polygon& p, const Exact& by) {
  Polygon out;
  const std::size_t n = p.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point before = unit_along(p.at(i) - p.at(i + n - 1));
    const Point after = unit_along(p.at(i + 1) - p.at(i));
    // Clockwise with y down, the outside lies to the left: (x, y) turned to (y, -x).
    const Point a = p.at(i) + Point{before.y, -before.x} * by;
    const Point b = p.at(i) + Point{after.y, -after.x} * by;
    out.corners.push_back(intersect(a, before, b, after));
  }
  return out;
}

std::optional<Polygon> clip(const Polygon& p, const Point& a, const Point& d) {
  Polygon out;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Point& from = p.at(i);
    const Point& to = p.at(i + 1);
    const Exact sf = cross(d, from - a);
    const Exact st = cross(d, to - a);
    if (sf.sign() >= 0) out.corners.push_back(from);
    if (sf.sign() * st.sign() < 0) out.corners.push_back(from + (to - from) * (sf / (sf - st)));
  }
  out = tidy(out);
  if (out.size() < 3) return std::nullopt;
  return out;
}

Point reflect(const Point& p, const Segment& line) {
  const Point d = line.b - line.a;
  const Point foot = line.a + d * (dot(p - line.a, d) / dot(d, d));
  return foot + (foot - p);
}

}  // namespace dogear
