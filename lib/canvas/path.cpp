#include <algorithm>
#include <cmath>

#include "canvas/display.h"

namespace dogear::canvas {
namespace {

constexpr double pi = 3.14159265358979323846;

// Sine of an angle in degrees, exact at multiples of 90°.
double sine(double degrees) {
  double d = std::fmod(degrees, 360.0);
  if (d < 0) d += 360;
  if (d == 0 || d == 180) return 0;
  if (d == 90) return 1;
  if (d == 270) return -1;
  return std::sin(d * pi / 180);
}

double cosine(double degrees) { return sine(degrees + 90); }

double cubic_at(double t, double p0, double p1, double p2, double p3) {
  const double u = 1 - t;
  return u * u * u * p0 + 3 * u * u * t * p1 + 3 * u * t * t * p2 + t * t * t * p3;
}

// Widens [low, high] by the turning points of one coordinate of a cubic.
void add_extremes(double p0, double p1, double p2, double p3, double& low, double& high) {
  const double a = -p0 + 3 * p1 - 3 * p2 + p3;
  const double b = 2 * (p0 - 2 * p1 + p2);
  const double c = p1 - p0;
  const auto visit = [&](double t) {
    if (!(t > 0 && t < 1)) return;
    const double v = cubic_at(t, p0, p1, p2, p3);
    low = std::min(low, v);
    high = std::max(high, v);
  };
  if (std::abs(a) < 1e-12) {
    if (std::abs(b) > 1e-12) visit(-c / b);
    return;
  }
  const double inside = b * b - 4 * a * c;
  if (inside < 0) return;
  const double root = std::sqrt(inside);
  visit((-b + root) / (2 * a));
  visit((-b - root) / (2 * a));
}

}  // namespace

void Rect::add(Point p) {
  if (empty()) {
    *this = {p.x, p.y, p.x, p.y};
    return;
  }
  left = std::min(left, p.x);
  top = std::min(top, p.y);
  right = std::max(right, p.x);
  bottom = std::max(bottom, p.y);
}

void Rect::add(const Rect& r) {
  if (r.empty()) return;
  add(Point{r.left, r.top});
  add(Point{r.right, r.bottom});
}

Rect Rect::grown(double by) const {
  return empty() ? *this : Rect{left - by, top - by, right + by, bottom + by};
}

Transform Transform::turn(double degrees) {
  const double s = sine(degrees);
  const double c = cosine(degrees);
  return {c, s, -s, c, 0, 0};
}

Transform Transform::turn_about(double degrees, Point center) {
  return move(-center.x, -center.y).then(turn(degrees)).then(move(center.x, center.y));
}

Transform Transform::then(const Transform& n) const {
  return {n.a * a + n.c * b, n.b * a + n.d * b,       n.a * c + n.c * d,
          n.b * c + n.d * d, n.a * e + n.c * f + n.e, n.b * e + n.d * f + n.f};
}

Rect Transform::apply(const Rect& r) const {
  Rect box;
  if (r.empty()) return box;
  for (const Point corner : {Point{r.left, r.top}, Point{r.right, r.top}, Point{r.right, r.bottom},
                             Point{r.left, r.bottom}})
    box.add(apply(corner));
  return box;
}

Path& Path::move(double x, double y) {
  ops_.push_back(Op::move);
  points_.push_back({x, y});
  return *this;
}

Path& Path::line(double x, double y) {
  ops_.push_back(Op::line);
  points_.push_back({x, y});
  return *this;
}

Path& Path::cubic(Point control1, Point control2, Point end) {
  ops_.push_back(Op::cubic);
  points_.insert(points_.end(), {control1, control2, end});
  return *this;
}

Path& Path::close() {
  ops_.push_back(Op::close);
  return *this;
}

Path& Path::append(const Path& more) {
  ops_.insert(ops_.end(), more.ops_.begin(), more.ops_.end());
  points_.insert(points_.end(), more.points_.begin(), more.points_.end());
  return *this;
}

Path Path::segment(Point from, Point to) { return polyline({from, to}); }

Path Path::polyline(const std::vector<Point>& points) {
  Path path;
  for (const Point& p : points) {
    if (path.empty())
      path.move(p.x, p.y);
    else
      path.line(p.x, p.y);
  }
  return path;
}

Path Path::polygon(const std::vector<Point>& points) {
  Path path = polyline(points);
  if (!path.empty()) path.close();
  return path;
}

Path Path::rect(const Rect& r) {
  return polygon({{r.left, r.top}, {r.right, r.top}, {r.right, r.bottom}, {r.left, r.bottom}});
}

Path Path::rect(double x, double y, double width, double height) {
  return rect(Rect::of(x, y, width, height));
}

Path Path::rounded_rect(const Rect& r, double radius) {
  const double q = std::min({radius, r.width() / 2, r.height() / 2});
  if (q <= 0) return rect(r);
  const double k = q * (1 - 0.5522847498307936);
  Path p;
  p.move(r.left + q, r.top).line(r.right - q, r.top);
  p.cubic({r.right - k, r.top}, {r.right, r.top + k}, {r.right, r.top + q});
  p.line(r.right, r.bottom - q);
  p.cubic({r.right, r.bottom - k}, {r.right - k, r.bottom}, {r.right - q, r.bottom});
  p.line(r.left + q, r.bottom);
  p.cubic({r.left + k, r.bottom}, {r.left, r.bottom - k}, {r.left, r.bottom - q});
  p.line(r.left, r.top + q);
  p.cubic({r.left, r.top + k}, {r.left + k, r.top}, {r.left + q, r.top});
  return p.close();
}

Path Path::circle(Point center, double radius) { return ellipse(center, radius, radius); }

Path Path::ellipse(Point c, double rx, double ry) {
  const double kx = rx * 0.5522847498307936;
  const double ky = ry * 0.5522847498307936;
  Path p;
  p.move(c.x + rx, c.y);
  p.cubic({c.x + rx, c.y + ky}, {c.x + kx, c.y + ry}, {c.x, c.y + ry});
  p.cubic({c.x - kx, c.y + ry}, {c.x - rx, c.y + ky}, {c.x - rx, c.y});
  p.cubic({c.x - rx, c.y - ky}, {c.x - kx, c.y - ry}, {c.x, c.y - ry});
  p.cubic({c.x + kx, c.y - ry}, {c.x + rx, c.y - ky}, {c.x + rx, c.y});
  return p.close();
}

Path Path::arc(Point c, double radius, double from_degrees, double to_degrees) {
  Path p;
  const double sweep = to_degrees - from_degrees;
  if (!std::isfinite(sweep)) return p;
  const int pieces = std::max(1, static_cast<int>(std::ceil(std::abs(sweep) / 90 - 1e-9)));
  const double step = sweep / pieces;
  const double k = 4.0 / 3 * std::tan(step * pi / 720) * radius;
  for (int i = 0; i <= pieces; ++i) {
    const double angle = from_degrees + step * i;
    const Point end{c.x + radius * cosine(angle), c.y + radius * sine(angle)};
    if (i == 0) {
      p.move(end.x, end.y);
      continue;
    }
    const double before = angle - step;
    const Point start = p.points_.back();
    p.cubic({start.x - k * sine(before), start.y + k * cosine(before)},
            {end.x + k * sine(angle), end.y - k * cosine(angle)}, end);
  }
  return p;
}

Rect Path::bounds() const {
  Rect box;
  std::size_t at = 0;
  Point pen;
  for (const Op op : ops_) {
    if (op == Op::close) continue;
    if (op == Op::cubic) {
      const Point& p1 = points_[at];
      const Point& p2 = points_[at + 1];
      const Point& p3 = points_[at + 2];
      double left = std::min(pen.x, p3.x), right = std::max(pen.x, p3.x);
      double top = std::min(pen.y, p3.y), bottom = std::max(pen.y, p3.y);
      add_extremes(pen.x, p1.x, p2.x, p3.x, left, right);
      add_extremes(pen.y, p1.y, p2.y, p3.y, top, bottom);
      box.add(Rect{left, top, right, bottom});
      at += 2;
    }
    pen = points_[at++];
    box.add(pen);
  }
  return box;
}

Path Path::transformed(const Transform& t) const {
  Path out = *this;
  for (Point& p : out.points_) p = t.apply(p);
  return out;
}

bool Path::finite() const {
  return std::all_of(points_.begin(), points_.end(),
                     [](const Point& p) { return std::isfinite(p.x) && std::isfinite(p.y); });
}

}  // namespace dogear::canvas
