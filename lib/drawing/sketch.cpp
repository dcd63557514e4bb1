#include "drawing/sketch.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "geom/arcs.h"

namespace dogear::drawing {

Spot operator+(Spot a, Spot b) { return {a.x + b.x, a.y + b.y}; }
Spot operator-(Spot a, Spot b) { return {a.x - b.x, a.y - b.y}; }
Spot operator*(Spot a, double k) { return {a.x * k, a.y * k}; }
double dot(Spot a, Spot b) { return a.x * b.x + a.y * b.y; }
double cross(Spot a, Spot b) { return a.x * b.y - a.y * b.x; }
double length(Spot a) { return std::sqrt(dot(a, a)); }

Spot unit(Spot a) {
  const double l = length(a);
  return l > 0 ? a * (1 / l) : Spot{1, 0};
}

Spot spot(const dogear::Point& p, double scale) {
  return {p.x.approx() * scale, p.y.approx() * scale};
}

Ring ring(const Polygon& p, double scale) {
  Ring r;
  r.reserve(p.size());
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Segment e = p.edge(i);
    r.push_back(spot(e.a, scale));
    const auto arc = p.arcs.empty() ? std::nullopt : arc_near(e, p.arcs);
    if (!arc) continue;
    // A true arc to within 1/1000 in: halved four times, which needs no trigonometry.
    const Spot c = spot(arc->center, scale);
    const double far = std::sqrt(arc->squared.approx()) * scale;
    const auto halve = [&](const auto& self, Spot from, Spot to, int times) -> void {
      const Spot middle = c + unit((from - c) + (to - c)) * far;
      if (times > 1) self(self, from, middle, times - 1);
      r.push_back(middle);
      if (times > 1) self(self, middle, to, times - 1);
    };
    halve(halve, spot(e.a, scale), spot(e.b, scale), 4);
  }
  return r;
}

Motion motion(const dogear::Transform& t, double scale) {
  const Spot x = spot(t.apply_direction({1, 0}), 1);
  const Spot y = spot(t.apply_direction({0, 1}), 1);
  const Spot by = spot(t.shift, scale);
  return {x.x, x.y, y.x, y.y, by.x, by.y};
}

Ring moved(const Ring& r, const Motion& m) {
  Ring out;
  out.reserve(r.size());
  for (const Spot p : r) out.push_back(m.apply(p));
  return out;
}

Rect box(const Ring& r) {
  Rect b;
  for (const Spot p : r) b.add(p);
  return b;
}

canvas::Path outline(const Ring& r) { return canvas::Path::polygon(r); }

namespace {

double signed_area(const Ring& r) {
  double twice = 0;
  for (std::size_t i = 0; i < r.size(); ++i) twice += cross(r[i], r[(i + 1) % r.size()]);
  return twice / 2;
}

double distance(Spot p, Spot a, Spot b) {
  const Spot d = b - a;
  const double l = dot(d, d);
  const double t = l > 0 ? std::clamp(dot(p - a, d) / l, 0.0, 1.0) : 0;
  return length(p - (a + d * t));
}

}  // namespace

double area(const Ring& r) { return std::abs(signed_area(r)); }

Spot centroid(const Ring& r) {
  if (r.empty()) return {};
  const double twice = 2 * signed_area(r);
  if (twice == 0) return box(r).center();
  Spot sum;
  const Spot o = r[0];
  for (std::size_t i = 0; i < r.size(); ++i) {
    const Spot a = r[i] - o, b = r[(i + 1) % r.size()] - o;
    sum = sum + (a + b) * cross(a, b);
  }
  return o + sum * (1 / (3 * twice));
}

bool is_inside(const Ring& r, Spot p) {
  bool inside = false;
  for (std::size_t i = 0; i < r.size(); ++i) {
    const Spot a = r[i], b = r[i + 1 < r.size() ? i + 1 : 0];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) * (b.x - a.x) / (b.y - a.y)) {
      inside = !inside;
    }
  }
  return inside;
}

double depth(const Ring& r, Spot p) {
  double nearest = std::numeric_limits<double>::max();
  for (std::size_t i = 0; i < r.size(); ++i)
    nearest = std::min(nearest, distance(p, r[i], r[i + 1 < r.size() ? i + 1 : 0]));
  return is_inside(r, p) ? nearest : -nearest;
}

bool meets(const Rect& a, const Rect& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

bool meets(Spot a, Spot b, const Rect& r) {
  double from = 0, to = 1;
  const Spot d = b - a;
  const auto clip = [&](double start, double by, double least, double most) {
    if (by == 0) return start > least && start < most;
    const double t0 = (least - start) / by, t1 = (most - start) / by;
    from = std::max(from, std::min(t0, t1));
    to = std::min(to, std::max(t0, t1));
    return from < to;
  };
  return clip(a.x, d.x, r.left, r.right) && clip(a.y, d.y, r.top, r.bottom);
}

bool meets(const Ring& r, const Rect& other) {
  if (is_inside(r, other.center())) return true;
  for (std::size_t i = 0; i < r.size(); ++i) {
    if (meets(r[i], r[(i + 1) % r.size()], other)) return true;
  }
  return false;
}

bool holds(const Ring& r, const Rect& inner, double margin) {
  const Rect wide = inner.grown(margin);
  if (!is_inside(r, wide.center())) return false;
  for (std::size_t i = 0; i < r.size(); ++i) {
    if (meets(r[i], r[(i + 1) % r.size()], wide)) return false;
  }
  return true;
}

std::vector<Spot> depths(const Ring& r) {
  struct Deep {
    long depth;  // hundredths of a point: depths that differ by rounding keep the lattice's order
    Spot at;
  };
  std::vector<Deep> found;
  const Rect b = box(r);
  constexpr int steps = 24;
  for (int row = 1; row < steps; ++row) {
    for (int column = 1; column < steps; ++column) {
      const Spot p{b.left + b.width() * column / steps, b.top + b.height() * row / steps};
      if (!is_inside(r, p)) continue;
      if (const double d = depth(r, p); d > 0) found.push_back({std::lround(d * 100), p});
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Deep& x, const Deep& y) { return x.depth > y.depth; });
  std::vector<Spot> out;
  if (const Spot c = centroid(r); depth(r, c) > 0 || found.empty()) out.push_back(c);
  for (const Deep& d : found) out.push_back(d.at);
  return out;
}

Spot deepest(const Ring& r) {
  const Spot c = centroid(r);
  return depth(r, c) > 0 ? c : depths(r).front();
}

std::array<double, 2> reach(const Ring& r, Spot from, Spot direction) {
  std::array<double, 2> out{std::numeric_limits<double>::max(), std::numeric_limits<double>::max()};
  for (std::size_t i = 0; i < r.size(); ++i) {
    const Spot a = r[i], d = r[(i + 1) % r.size()] - a;
    const double under = cross(direction, d);
    if (std::abs(under) < 1e-9) continue;
    const double along = cross(a - from, d) / under;
    const double where = cross(a - from, direction) / under;
    if (where < -1e-9 || where > 1 + 1e-9) continue;
    double& side = along >= 0 ? out[0] : out[1];
    side = std::min(side, std::abs(along));
  }
  for (double& side : out) {
    if (side == std::numeric_limits<double>::max()) side = 0;
  }
  return out;
}

Ring grown(const Ring& r, double by) {
  const double side = signed_area(r) >= 0 ? 1 : -1;
  const std::size_t n = r.size();
  Ring out;
  for (std::size_t i = 0; i < n; ++i) {
    const Spot in = unit(r[i] - r[(i + n - 1) % n]);
    const Spot away = unit(r[(i + 1) % n] - r[i]);
    const Spot normal_in = Spot{in.y, -in.x} * side;
    const Spot normal_out = Spot{away.y, -away.x} * side;
    const double turn = dot(in, away);  // below 0: the corner is sharper than a right angle
    if (turn < -1e-6 && cross(in, away) * side > 0) {
      // Far enough from the corner for the blunt end to lie `by` x √2 away from it.
      const Spot tip = unit(normal_in + normal_out);
      const double ahead = by * 1.41421356237309505;
      const auto cut = [&](Spot normal, Spot along) {
        const double t = (ahead - by * dot(normal, tip)) / dot(along, tip);
        return r[i] + normal * by + along * t;
      };
      out.push_back(cut(normal_in, in));
      out.push_back(cut(normal_out, away * -1));
    } else {
      const Spot tip = normal_in + normal_out;
      out.push_back(r[i] + tip * (2 * by / dot(tip, tip)));
    }
  }
  return out;
}

canvas::Color mix(const canvas::Color& a, const canvas::Color& b, double part_of_b) {
  const auto between = [part_of_b](double x, double y) { return x + (y - x) * part_of_b; };
  return {between(a.r, b.r), between(a.g, b.g), between(a.b, b.b)};
}

canvas::Color colour(const Fabric& fabric) {
  return canvas::Color::parse(fabric.colour).value_or(canvas::Color::gray(0.8));
}

canvas::Color tint(const Fabric& fabric) { return mix(colour(fabric), canvas::white, 0.72); }

canvas::Style waste() {
  canvas::Style style = canvas::Style::filled(canvas::white);
  constexpr int falling = 4;  // of canvas::Hatch
  style.hatch = canvas::Hatch{falling, canvas::Color::gray(0.62), 5, fine};
  style.stroke = pale;
  style.width = fine;
  style.dash = {2, 1.4};
  return style;
}

canvas::Style cloth(const Fabric& fabric, double hatch_spacing, double line) {
  const canvas::Color base = colour(fabric);
  canvas::Style style = canvas::Style::filled(base);
  // So far from the ground that it shows in grey and to the colour-blind, whatever the colour.
  const bool light = base.luminance() > 0.2;
  canvas::Hatch hatch;
  hatch.kind = (fabric.number - 1) % canvas::hatch_kinds;
  hatch.color = mix(base, light ? canvas::black : canvas::white, light ? 0.45 : 0.55);
  // Fabrics beyond the last hatch have the first ones again, wider.
  hatch.spacing = hatch_spacing * (1 + 0.7 * ((fabric.number - 1) / canvas::hatch_kinds));
  hatch.line = fine;
  style.hatch = hatch;
  // A dark line between two dark patches would not be seen, nor one that is like their hatches.
  style.stroke = base.luminance() < 0.13 ? canvas::Color::gray(0.86) : ink;
  style.width = line;
  style.round_joins = true;
  return style;
}

}  // namespace dogear::drawing
