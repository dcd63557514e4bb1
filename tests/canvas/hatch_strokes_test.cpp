#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "canvas/hatch_strokes.h"

using namespace dogear::canvas;

namespace {

struct Bar {
  Point from, to;  // along the stroke
  double half = 0;
  bool round = false, ground = false;
};

// The dashes of strokes one by one, in the order they are painted.
std::vector<Bar> bars(const std::vector<HatchStroke>& strokes) {
  std::vector<Bar> out;
  for (const HatchStroke& s : strokes) {
    const auto& p = s.path.points();
    for (std::size_t i = 0; i + 1 < p.size(); ++i) {
      if (s.path.ops()[i + 1] != Path::Op::line) continue;
      const double length = std::hypot(p[i + 1].x - p[i].x, p[i + 1].y - p[i].y);
      const Point way{(p[i + 1].x - p[i].x) / length, (p[i + 1].y - p[i].y) / length};
      const auto at = [&](double t) { return Point{p[i].x + way.x * t, p[i].y + way.y * t}; };
      if (s.dash.empty()) {
        out.push_back({p[i], p[i + 1], s.width / 2, s.round, s.ground});
        continue;
      }
      std::size_t n = 0;
      for (double t = 0; t < length; t += s.dash[n++ % s.dash.size()]) {
        if (n % 2 == 0)
          out.push_back({at(t), at(std::min(length, t + s.dash[n % s.dash.size()])), s.width / 2,
                         s.round, s.ground});
      }
    }
  }
  return out;
}

bool covers(const Bar& b, Point p) {
  const double length = std::hypot(b.to.x - b.from.x, b.to.y - b.from.y);
  const double x =
      ((p.x - b.from.x) * (b.to.x - b.from.x) + (p.y - b.from.y) * (b.to.y - b.from.y)) / length;
  const double y =
      std::abs((p.y - b.from.y) * (b.to.x - b.from.x) - (p.x - b.from.x) * (b.to.y - b.from.y)) /
      length;
  if (x >= 0 && x <= length) return y <= b.half;
  return b.round && std::hypot(x < 0 ? x : x - length, y) <= b.half;
}

bool inked(const std::vector<Bar>& all, Point p) {
  bool ink = false;
  for (const Bar& b : all)
    if (covers(b, p)) ink = !b.ground;
  return ink;
}

double distance(Point a, Point b, Point p) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  const double t =
      length > 0
          ? std::clamp(((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / (length * length),
                       0.0, 1.0)
          : 0;
  return std::hypot(p.x - a.x - t * (b.x - a.x), p.y - a.y - t * (b.y - a.y));
}

// How far a point lies within the ink of the marks; negative outside.
double depth(const HatchMarks& marks, double line, Point p) {
  double best = -1e9;
  const auto segments = [&](const Path& path, double width) {
    Point last{};
    std::size_t at = 0;
    for (const Path::Op op : path.ops()) {
      if (op == Path::Op::close) continue;
      const Point next = path.points()[at + (op == Path::Op::cubic ? 2 : 0)];
      if (op == Path::Op::line) best = std::max(best, width / 2 - distance(last, next, p));
      if (op == Path::Op::cubic) {
        Point a = last;
        for (int k = 1; k <= 16; ++k) {
          const double t = k / 16.0, u = 1 - t;
          const Point c1 = path.points()[at], c2 = path.points()[at + 1];
          const Point b{
              u * u * u * last.x + 3 * u * u * t * c1.x + 3 * u * t * t * c2.x + t * t * t * next.x,
              u * u * u * last.y + 3 * u * u * t * c1.y + 3 * u * t * t * c2.y +
                  t * t * t * next.y};
          best = std::max(best, width / 2 - distance(a, b, p));
          a = b;
        }
      }
      at += op == Path::Op::cubic ? 3 : 1;
      last = next;
    }
  };
  segments(marks.lines, line);
  segments(marks.dots, marks.dot);
  return best;
}

}  // namespace

TEST_CASE("strokes of a hatch ink what its marks ink") {
  const Rect area{-17.3, 8.2, 12.9, 31.7};
  for (int kind = 0; kind < hatch_kinds; ++kind) {
    const Hatch hatch{kind, black, 3.7, 0.9};
    const auto all = bars(hatch_strokes(hatch, area));
    const HatchMarks marks = hatch_marks(hatch, area);
    int inside = 0, outside = 0;
    // A lattice of points that meets no hatch's own.
    for (double x = area.left + 1; x < area.right - 1; x += 0.2371) {
      for (double y = area.top + 1; y < area.bottom - 1; y += 0.3119) {
        const double deep = depth(marks, hatch.line, {x, y});
        if (std::abs(deep) < 0.07) continue;  // at an edge, or at the square end of a line
        const bool ink = inked(all, {x, y});
        // Dashes end square: a point beyond the end of one may be near it and yet not inked.
        if (deep > 0 && !ink) {
          INFO(kind << " at " << x << ", " << y);
          CHECK(deep < hatch.line / 2);
        }
        if (deep < 0 && ink) {
          INFO(kind << " at " << x << ", " << y);
          CHECK_FALSE(ink);
        }
        inside += deep > 0 && ink ? 1 : 0;
        outside += deep < 0 && !ink ? 1 : 0;
      }
    }
    INFO(hatch_name(kind));
    CHECK(inside > 300);
    CHECK(outside > 1000);
  }
}

TEST_CASE("rows of marks are few strokes") {
  const Rect area{0, 0, 200, 200};
  for (int kind = 0; kind < hatch_kinds; ++kind) {
    if (kind == 6) continue;  // zigzags are lines that turn
    std::size_t points = 0;
    for (const HatchStroke& s : hatch_strokes({kind, black, 3, 0.4}, area))
      points += s.path.points().size();
    INFO(hatch_name(kind));
    CHECK(points < 700);
  }
}
