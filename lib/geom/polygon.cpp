#include "geom/polygon.h"

#include <algorithm>
#include <array>

#include "geom/arcs.h"

namespace dogear {

Exact cross(const Point& a, const Point& b) { return a.x * b.y - a.y * b.x; }
Exact dot(const Point& a, const Point& b) { return a.x * b.x + a.y * b.y; }

Exact area(const Polygon& p) {
  Exact twice = 0;
  for (std::size_t i = 0; i < p.size(); ++i) twice += cross(p.at(i), p.at(i + 1));
  return twice / Exact(2);
}

Box bounds(const Polygon& p) {
  Box box{p.corners.front(), p.corners.front()};
  for (const Point& c : p.corners) {
    box.least = {min(box.least.x, c.x), min(box.least.y, c.y)};
    box.most = {max(box.most.x, c.x), max(box.most.y, c.y)};
  }
  return box;
}

Polygon tidy(const Polygon& p) {
  Polygon out;
  const std::size_t n = p.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point& before = p.at(i + n - 1);
    const Point& here = p.at(i);
    if (!cross(here - before, p.at(i + 1) - here).is_zero()) out.corners.push_back(here);
  }
  if (out.corners.empty()) return out;
  if (area(out).sign() < 0) std::reverse(out.corners.begin(), out.corners.end());
  std::rotate(out.corners.begin(), std::min_element(out.corners.begin(), out.corners.end()),
              out.corners.end());
  for (const Arc& arc : p.arcs) {
    bool followed = false;
    for (std::size_t i = 0; i < out.size() && !followed; ++i) {
      followed = arc_near(out.edge(i), {arc}).has_value();
    }
    if (followed) out.arcs.push_back(arc);
  }
  std::sort(out.arcs.begin(), out.arcs.end());
  out.arcs.erase(std::unique(out.arcs.begin(), out.arcs.end()), out.arcs.end());
  return out;
}

bool is_convex(const Polygon& p) {
  for (std::size_t i = 0; i < p.size(); ++i) {
    if (cross(p.at(i + 1) - p.at(i), p.at(i + 2) - p.at(i + 1)).sign() < 0) return false;
  }
  return true;
}

namespace {

bool on_segment(const Point& p, const Segment& s) {
  return cross(s.b - s.a, p - s.a).is_zero() && dot(p - s.a, p - s.b).sign() <= 0;
}

bool touch(const Segment& s, const Segment& t) {
  if (on_segment(s.a, t) || on_segment(s.b, t) || on_segment(t.a, s) || on_segment(t.b, s)) {
    return true;
  }
  const auto side = [](const Segment& l, const Point& p) {
    return cross(l.b - l.a, p - l.a).sign();
  };
  return side(s, t.a) * side(s, t.b) < 0 && side(t, s.a) * side(t, s.b) < 0;
}

}  // namespace

bool is_simple(const Polygon& p) {
  const std::size_t n = p.size();
  if (n < 3) return false;
  for (std::size_t i = 0; i < n; ++i) {
    if (p.at(i) == p.at(i + 1)) return false;
    // Neighbouring edges may share their corner alone.
    if (on_segment(p.at(i + 2), p.edge(i))) return false;
    for (std::size_t j = i + 2; j < n; ++j) {
      if (i == 0 && j == n - 1) continue;
      if (touch(p.edge(i), p.edge(j))) return false;
    }
  }
  return true;
}

bool is_rectangle(const Polygon& p) {
  if (p.size() != 4) return false;
  const Box box = bounds(p);
  return area(p) == box.width() * box.height();
}

bool share_a_stretch(const Segment& edge, const Segment& seam) {
  const Point along = seam.b - seam.a;
  if (!cross(along, edge.a - seam.a).is_zero() || !cross(along, edge.b - seam.a).is_zero()) {
    return false;
  }
  const Exact a = dot(along, edge.a - seam.a);
  const Exact b = dot(along, edge.b - seam.a);
  return max(a, b).sign() > 0 && min(a, b) < dot(along, along);
}

namespace {

struct Turned {
  Exact cosine;
  Exact sine;
};

const std::array<Turned, 24>& turns() {
  static const std::array<Turned, 24> table = [] {
    const Exact half = Exact::ratio(1, 2);
    const Exact r2 = Exact::sqrt2() * half;
    const Exact r3 = Exact::sqrt3() * half;
    const Exact big = (Exact::sqrt6() + Exact::sqrt2()) * Exact::ratio(1, 4);
    const Exact small = (Exact::sqrt6() - Exact::sqrt2()) * Exact::ratio(1, 4);
    const std::array<Exact, 7> c{Exact(1), big, r3, r2, half, small, Exact(0)};
    std::array<Turned, 24> t;
    const auto cosine = [&c](int k) -> Exact {
      k = ((k % 24) + 24) % 24;
      if (k > 12) k = 24 - k;
      return k <= 6 ? c[static_cast<std::size_t>(k)] : -c[static_cast<std::size_t>(12 - k)];
    };
    for (int k = 0; k < 24; ++k) t[static_cast<std::size_t>(k)] = {cosine(k), cosine(k - 6)};
    return t;
  }();
  return table;
}

}  // namespace

Transform Transform::turned(int fifteenths) {
  Transform t;
  t.turn = ((fifteenths % 24) + 24) % 24;
  return t;
}

Transform Transform::moved(const Point& by) {
  Transform t;
  t.shift = by;
  return t;
}

Point Transform::apply_direction(const Point& d) const {
  Point p = mirrored ? Point{-d.x, d.y} : d;
  switch (turn) {  // quarter turns only change places
    case 0:
      return p;
    case 6:
      return {-p.y, p.x};
    case 12:
      return {-p.x, -p.y};
    case 18:
      return {p.y, -p.x};
    default:
      break;
  }
  const Turned& r = turns()[static_cast<std::size_t>(turn)];
  return {p.x * r.cosine - p.y * r.sine, p.x * r.sine + p.y * r.cosine};
}

Point Transform::apply(const Point& p) const { return apply_direction(p) + shift; }

Polygon Transform::apply(const Polygon& p) const {
  Polygon out;
  out.corners.reserve(p.size());
  for (const Point& c : p.corners) out.corners.push_back(apply(c));
  if (mirrored) std::reverse(out.corners.begin(), out.corners.end());
  for (const Arc& a : p.arcs) out.arcs.push_back({apply(a.center), a.squared});
  std::sort(out.arcs.begin(), out.arcs.end());
  return out;
}

Transform Transform::then(const Transform& next) const {
  Transform t;
  // Mirroring reverses the sense of every turn made before it.
  t.turn = ((next.mirrored ? next.turn - turn : next.turn + turn) % 24 + 24) % 24;
  t.mirrored = mirrored != next.mirrored;
  t.shift = next.apply(shift);
  return t;
}

Transform Transform::inverse() const {
  // A mirrored turn undoes itself; a plain one is undone by turning back.
  Transform t;
  t.mirrored = mirrored;
  t.turn = mirrored ? turn : (24 - turn) % 24;
  t.shift = Point{} - t.apply_direction(shift);
  return t;
}

}  // namespace dogear
