#include <catch2/catch.hpp>
#include <cmath>
#include <set>
#include <string>

#include "canvas/hatch.h"

using namespace dogear::canvas;

namespace {
// The strokes of a hatch seen on a coarse grid, to tell two hatches apart as an eye does.
std::set<std::pair<int, int>> ink(int kind) {
  const HatchMarks marks = hatch_marks({kind, black, 4, 0.4}, Rect::of(0, 0, 40, 40));
  std::set<std::pair<int, int>> cells;
  for (const Path* path : {&marks.lines, &marks.dots}) {
    Point pen;
    std::size_t at = 0;
    for (const Path::Op op : path->ops()) {
      if (op == Path::Op::close) continue;
      if (op == Path::Op::cubic) at += 2;
      const Point to = path->points()[at++];
      const int steps = op == Path::Op::move ? 0 : 200;
      for (int i = 0; i <= steps; ++i) {
        const double t = steps == 0 ? 1.0 : static_cast<double>(i) / steps;
        const double x = pen.x + (to.x - pen.x) * t;
        const double y = pen.y + (to.y - pen.y) * t;
        if (x >= 0 && x < 40 && y >= 0 && y < 40)
          cells.emplace(static_cast<int>(x * 2), static_cast<int>(y * 2));
      }
      pen = to;
    }
  }
  return cells;
}
}  // namespace

TEST_CASE("each hatch differs from every other and covers its patch evenly") {
  std::set<std::string> names;
  for (int a = 0; a < hatch_kinds; ++a) {
    INFO(hatch_name(a));
    names.emplace(hatch_name(a));
    const auto of_a = ink(a);
    CHECK(of_a.size() > 60);
    for (int quarter = 0; quarter < 4; ++quarter) {
      std::size_t here = 0;
      for (const auto& [x, y] : of_a) here += (x / 40 + 2 * (y / 40) == quarter) ? 1u : 0u;
      CHECK(here > of_a.size() / 8);
    }
    for (int b = 0; b < a; ++b) {
      const auto of_b = ink(b);
      std::size_t shared = 0;
      for (const auto& cell : of_a) shared += of_b.count(cell);
      INFO(hatch_name(b));
      CHECK(shared * 10 < 8 * std::max(of_a.size(), of_b.size()));
    }
  }
  CHECK(names.size() == hatch_kinds);
}

TEST_CASE("a hatch runs on across neighbouring patches") {
  const Hatch hatch{0, black, 4, 0.4};
  const auto crossings = [&](const Rect& area, double x) {
    std::set<long> ys;
    const HatchMarks marks = hatch_marks(hatch, area);
    for (const Point& p : marks.lines.points())
      if (std::abs(p.x - x) < 1e-9) ys.insert(std::lround(p.y * 1000));
    return ys;
  };
  const auto left = crossings(Rect::of(0, 0, 20, 30), 20);
  const auto right = crossings(Rect::of(20, 0, 20, 30), 20);
  CHECK(left.size() >= 5);
  CHECK(left == right);
}

TEST_CASE("odd hatch parameters neither hang nor crash") {
  for (int kind = 0; kind < hatch_kinds; ++kind) {
    CHECK(hatch_marks({kind, black, 1e-9, 0.4}, Rect::of(0, 0, 14400, 14400)).lines.ops().size() <
          3'000'000);
    CHECK(hatch_marks({kind, black, 4, 0.4}, Rect{}).lines.empty());
    CHECK(hatch_marks({kind, black, std::nan(""), 0.4}, Rect::of(0, 0, 9, 9)).lines.empty());
  }
  CHECK(hatch_name(-1) == hatch_name(hatch_kinds - 1));
}

namespace {

// Whether the point lies on one of the marks, each a straight piece or the chord of a curve.
bool marked(const HatchMarks& marks, Point p) {
  for (const Path* path : {&marks.lines, &marks.dots}) {
    std::size_t at = 0;
    Point pen;
    for (const Path::Op op : path->ops()) {
      if (op == Path::Op::close) continue;
      const std::size_t used = op == Path::Op::cubic ? 3 : 1;
      const Point to = path->points()[at + used - 1];
      at += used;
      if (op != Path::Op::move) {
        const double length = std::hypot(to.x - pen.x, to.y - pen.y);
        const double along = ((p.x - pen.x) * (to.x - pen.x) + (p.y - pen.y) * (to.y - pen.y));
        const double off = (p.x - pen.x) * (to.y - pen.y) - (p.y - pen.y) * (to.x - pen.x);
        if (std::abs(off) < 1e-6 * length && along >= -1e-6 && along <= length * length + 1e-6)
          return true;
      }
      pen = to;
    }
  }
  return false;
}

}  // namespace

TEST_CASE("a hatch lies on itself when moved by its period") {
  for (int kind = 0; kind < hatch_kinds; ++kind) {
    CAPTURE(kind);
    const Hatch hatch{kind, black, 3.7, 0.4};
    const Point period = hatch_period(hatch);
    const HatchMarks here = hatch_marks(hatch, Rect::of(0, 0, 40, 40));
    const HatchMarks wide = hatch_marks(hatch, Rect::of(-60, -60, 200, 200));
    std::size_t looked_at = 0;
    for (const Path* path : {&here.lines, &here.dots}) {
      for (const Point& p : path->points()) {
        if (!marked(wide, p)) continue;  // a curve's handle
        ++looked_at;
        CHECK(marked(wide, {p.x + period.x, p.y}));
        CHECK(marked(wide, {p.x, p.y - period.y}));
      }
    }
    CHECK(looked_at >= here.lines.ops().size() / 2);
    CHECK(keeps_spacing(hatch, Rect::of(0, 0, 40, 40)));
    CHECK_FALSE(keeps_spacing(hatch, Rect::of(0, 0, 4000, 4000)));
  }
}
