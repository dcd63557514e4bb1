#include "geom/offset.h"

#include <algorithm>
#include <cmath>

#include "geom/arcs.h"

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

namespace {

// An edge moved outwards: a line, or a circle where the edge follows an arc.
struct Moved {
  Point at, along;
  std::optional<Arc> from, arc;
  Exact radius;
};

Moved move_out(const Polygon& p, std::size_t i, const Exact& by) {
  const Segment e = p.edge(i);
  if (const auto arc = p.arcs.empty() ? std::nullopt : arc_of(e, p.arcs)) {
    const Exact r = radius(*arc) + (bulges(e, *arc) ? by : -by);
    return {{}, {}, arc, Arc{arc->center, r * r}, r};
  }
  const Point u = unit_along(e.b - e.a);
  // Clockwise with y down, the outside lies to the left: (x, y) turned to (y, -x).
  return {e.a + Point{u.y, -u.x} * by, u, {}, {}, 0};
}

// Where a line or circle meets a circle, nearest to a point; measured.
Point nearest_meeting(const Moved& one, const Moved& circle, const Point& near) {
  const double cx = circle.arc->center.x.approx(), cy = circle.arc->center.y.approx();
  const double r = circle.radius.approx();
  double px = 0, py = 0, ux = 0, uy = 0;  // the line that holds both meetings
  if (one.arc) {
    const double ox = one.arc->center.x.approx() - cx, oy = one.arc->center.y.approx() - cy;
    const double d = std::sqrt(ox * ox + oy * oy), other = one.radius.approx();
    const double along = (d * d + r * r - other * other) / (2 * d);
    px = cx + ox / d * along, py = cy + oy / d * along;
    ux = -oy / d, uy = ox / d;
  } else {
    px = one.at.x.approx(), py = one.at.y.approx();
    ux = one.along.x.approx(), uy = one.along.y.approx();
  }
  const double foot = (cx - px) * ux + (cy - py) * uy;
  const double fx = px + ux * foot, fy = py + uy * foot;
  const double off = (fx - cx) * (fx - cx) + (fy - cy) * (fy - cy);
  const double half = std::sqrt(std::max(0.0, r * r - off));
  const double nx = near.x.approx() - fx, ny = near.y.approx() - fy;
  const double side = nx * ux + ny * uy >= 0 ? half : -half;
  return {measured(fx + ux * side), measured(fy + uy * side)};
}

}  // namespace

Polygon offset(const Polygon& p, const Exact& by) {
  Polygon out;
  const std::size_t n = p.size();
  Moved before = move_out(p, n - 1, by);
  for (std::size_t i = 0; i < n; ++i) {
    Moved after = move_out(p, i, by);
    if (after.arc) out.arcs.push_back(*after.arc);
    if (before.from && before.from == after.from) {
      const Point spoke = p.at(i) - after.from->center;
      out.corners.push_back(after.from->center + spoke * (after.radius / radius(*after.from)));
    } else if (after.arc) {
      out.corners.push_back(nearest_meeting(before, after, p.at(i)));
    } else if (before.arc) {
      out.corners.push_back(nearest_meeting(after, before, p.at(i)));
    } else {
      out.corners.push_back(intersect(before.at, before.along, after.at, after.along));
    }
    before = std::move(after);
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
  out.arcs = p.arcs;
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
