// Slanted shapes from strips, and what is cut round a template; outside facts name their source.

#include <cmath>

#include "cutting/cut_shape.h"
#include "geom/offset.h"
#include "support/plan.h"
#include "support/shape.h"
#include "support/trade.h"

using namespace dogear;
using test::f;

namespace {

Pattern with_rulers(std::initializer_list<int> angles) {
  Pattern p;
  p.seam_allowance = Exact::ratio(1, 4);
  p.usable_width = 42;
  for (const int angle : angles) {
    Ruler r;
    r.angle = angle;
    r.blunt = angle == 60;
    r.lowest = Exact::ratio(1, 2);
    r.highest = 24;
    r.step = Exact::ratio(1, 8);
    p.rulers.push_back(r);
  }
  return p;
}

PieceCut cut(const std::string& shape, GridKind grid, const Pattern& pattern) {
  std::string why;
  const auto c = plan_cut_with_rulers(test::shape(shape, grid), pattern, {}, why);
  REQUIRE(c);
  return *c;
}

double height(const Polygon& p) { return bounds(p).height().approx(); }
double width(const Polygon& p) { return bounds(p).width().approx(); }

}  // namespace

TEST_CASE("60° and 45° diamonds: strip = width + 1/2, cut at the same width along the angle") {
  // C. & B., Rotary Cutting 6 and 7, 2015.
  const Pattern pattern = with_rulers({90, 60, 45});
  for (const int n : {2, 3, 5}) {
    const std::string shape = "diamond " + std::to_string(n);
    for (const GridKind grid : {GridKind::square, GridKind::triangle}) {
      const PieceCut c = cut(shape, grid, pattern);
      CHECK(c.method == CutMethod::angled);
      CHECK(c.angle == (grid == GridKind::square ? 45 : 60));
      CHECK(c.parallel);
      CHECK(c.strip == f(2 * n + 1, 2));
      CHECK(c.length == f(2 * n + 1, 2));
      REQUIRE(c.rulers.size() == 1);
      CHECK(pattern.rulers[c.rulers[0]].angle == c.angle);
    }
  }
}

TEST_CASE("a parallelogram is as wide across its slanted cuts as its level edge asks") {
  // Computed: 4 x sin 60° + 1/2 = 3.964, and 4√2 x sin 45° + 1/2 = 4 1/2.
  const Pattern pattern = with_rulers({90, 60, 45});
  const PieceCut sixty = cut("parallelogram 2√3 x 2", GridKind::triangle, pattern);
  CHECK(sixty.strip == f(5, 2));
  CHECK(sixty.length == f(4));
  CHECK(sixty.rounded == Approx(0.036).margin(0.0005));
  const PieceCut half = cut("parallelogram 4√2 x 2", GridKind::square, pattern);
  CHECK(half.strip == f(5, 2));
  CHECK(half.length == f(9, 2));
  CHECK(half.rounded == Approx(0));
}

TEST_CASE("a 45° trapezoid is cut by its wider edge: 1 1/4 in more than finished") {
  // As the long edge of a quarter-square triangle, whose ends it has (common practice).
  const Pattern pattern = with_rulers({90, 45});
  const PieceCut c = cut("trapezoid 2 to 4", GridKind::square, pattern);
  CHECK(c.method == CutMethod::angled);
  CHECK_FALSE(c.parallel);
  CHECK(c.angle == 45);
  CHECK(c.strip == f(3, 2));
  CHECK(c.length == f(21, 4));
  CHECK_FALSE(c.reading);
}

TEST_CASE("without a ruler of 45 degrees its shapes are cut round a template") {
  const Pattern pattern = with_rulers({90});
  for (const std::string shape : {"diamond 3", "trapezoid 2 to 4", "octagon 4", "kite 3",
                                  "kaleidoscope wedge 8", "half-rectangle triangle 2 x 4"}) {
    INFO(shape);
    const PieceCut c = cut(shape, GridKind::square, pattern);
    CHECK(c.method == CutMethod::templated);
    CHECK(c.rulers.empty());
    // It takes its box of the cloth, and no less.
    CHECK(Exact(c.strip) >= bounds(c.cut_shape).height());
    CHECK(Exact(c.length) >= bounds(c.cut_shape).width());
    CHECK(c.rounded == 0);
  }
}

TEST_CASE("an eight-pointed star in an 8 block: side 2.343, strip 2.157, corner squares 2.843") {
  // Computed; off the 1/8 grid.
  const Polygon diamond = test::shape("diamond side 8-4√2", GridKind::square);
  CHECK(std::sqrt(dot(diamond.at(1) - diamond.at(0), diamond.at(1) - diamond.at(0)).approx()) ==
        Approx(2.343).margin(0.0005));
  const Exact q = Exact::ratio(1, 4);
  CHECK(height(offset(diamond, q)) == Approx(2.157).margin(0.0005));
  const Pattern pattern = with_rulers({90, 45});
  const PieceCut c = cut("diamond side 8-4√2", GridKind::square, pattern);
  // The next line of a ruler with eighths; what that adds up to is told apart (D521, D522).
  CHECK(c.strip == f(9, 4));
  CHECK(c.strip == c.length);
  CHECK(c.rounded == Approx(0.0931).margin(0.0005));
  const Polygon corner = test::shape("square 8-4√2", GridKind::square);
  CHECK(width(offset(corner, q)) == Approx(2.843).margin(0.0005));
  CHECK(cut("square 8-4√2", GridKind::square, pattern).strip == f(23, 8));
}

TEST_CASE("an octagon in 12: flip squares 4.015") {
  // Computed: the leg of a corner and two allowances.
  const Polygon octagon = test::shape("octagon 12", GridKind::square);
  Exact leg = 12;
  for (const Point& c : octagon.corners) {
    if (c.y.is_zero()) leg = min(leg, c.x);
  }
  CHECK((leg + Exact::ratio(1, 2)).approx() == Approx(4.015).margin(0.0005));
}

TEST_CASE("a kaleidoscope wedge of an 8 block: cut height 4.903, base 4.062, corners 3.197") {
  // Computed, with pointed tips; corner squares are cut once on the diagonal.
  const PieceCut c = cut("kaleidoscope wedge 8", GridKind::square, with_rulers({90}));
  CHECK(height(c.cut_shape) == Approx(4.903).margin(0.0005));
  CHECK(width(c.cut_shape) == Approx(4.062).margin(0.0005));
  const Polygon corner = test::shape("half-square triangle 8-4√2", GridKind::square);
  const Exact leg = bounds(corner).width();
  const Exact square = leg + Exact::ratio(1, 4) * (Exact(2) + Exact::sqrt2());
  CHECK(square.approx() == Approx(3.197).margin(0.0005));
  CHECK(cut("half-square triangle 8-4√2", GridKind::square, with_rulers({90})).length == f(13, 4));
}

TEST_CASE("a kaleidoscope block goes from its source to cloth that balances") {
  const test::Planned p = test::plan_block(
      "block: B\ngrid: square\nunit: 1 in\nroles: [red, blue, grey]\nunits:\n"
      "  wedge: {shape: kaleidoscope wedge 8, fabric: red}\n"
      "  other: {shape: kaleidoscope wedge 8, fabric: blue}\n"
      "  corner: {shape: half-square triangle 8-4√2, fabric: grey}\n"
      "shape: square 8\nplace:\n"
      "  - {unit: wedge turned, at: [8-4√2, 0]}\n  - {unit: wedge, at: [4, 4]}\n"
      "  - {unit: wedge turned 90, at: [0, 8-4√2]}\n  - {unit: wedge turned 270, at: [8, 8-4√2]}\n"
      "  - {unit: other turned 45, at: [4, 4]}\n  - {unit: other turned 315, at: [4, 4]}\n"
      "  - {unit: other turned 135, at: [8-4√2, 0]}\n  - {unit: other turned 225, at: [4√2, 0]}\n"
      "  - {unit: corner, at: [0, 4√2]}\n  - {unit: corner turned 90, at: [0, 0]}\n"
      "  - {unit: corner turned, at: [4√2, 0]}\n  - {unit: corner turned 270, at: [8, 4√2]}\n",
      "red: red, blue: blue, grey: grey");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const CutPiece* wedge = test::find_piece(p, 0, "kaleidoscope wedge");
  REQUIRE(wedge != nullptr);
  CHECK(wedge->cut.method == CutMethod::templated);
  CHECK(wedge->count == 4);
  // Between wedges alike no neighbour's corner is wider than the tip: it keeps its point.
  CHECK(height(wedge->cut.cut_shape) == Approx(4.903).margin(0.0005));
  CHECK(test::find_piece(p, 0, "half-square triangle")->count == 4);
}
