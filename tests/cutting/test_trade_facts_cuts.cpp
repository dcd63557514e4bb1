// More cuts and cloth against facts of the trade; the source stands beside each check.

#include "base/length.h"
#include "cutting/cut_shape.h"
#include "cutting/finish.h"
#include "cutting/lines.h"
#include "support/plan.h"
#include "support/shape.h"
#include "support/trade.h"

using namespace dogear;
using dogear::test::f;
using dogear::test::plain_pattern;

namespace {

PieceCut cut(const Polygon& shape) {
  const auto c = plan_cut(tidy(shape), plain_pattern(), {}, Tip::blunt);
  REQUIRE(c);
  return *c;
}

}  // namespace

TEST_CASE("setting triangles on point: sides 1.414F + 1 1/4 cut twice, corners F/1.414 + 7/8") {
  // Dalmeny Quilters; Moonlight Quilters; Pine Meadow Designs: 6 -> 9 3/4 and 5 1/8, rounded up to
  // 1/8; 12 -> corner 9 3/8.
  struct Row {
    int block;
    Fraction side, corner;
  };
  const Row row = GENERATE(Row{6, f(39, 4), f(41, 8)}, Row{12, f(73, 4), f(75, 8)});
  const Exact across = Exact(row.block) * Exact::sqrt2();
  const Exact half = across / Exact(2);
  const PieceCut side = cut({{{half, 0}, {across, half}, {0, half}}});
  CHECK(side.method == CutMethod::quarter_square);
  CHECK(side.per_cut == 4);
  CHECK(side.length == row.side);
  const PieceCut corner = cut({{{0, 0}, {half, half}, {0, half}}});
  CHECK(corner.method == CutMethod::half_square);
  CHECK(corner.per_cut == 2);
  CHECK(corner.length == row.corner);
}

TEST_CASE("eight-pointed star of 8: corner squares 2.843, off the 1/8 grid") {
  // computed: the side is 8 / (2 + √2) = 2.343.
  const Exact side = Exact(8) / (Exact(2) + Exact::sqrt2());
  CHECK(side.approx() == Approx(2.343).margin(0.0005));
  const PieceCut c = cut({{{0, 0}, {side, 0}, {side, side}, {0, side}}});
  CHECK(c.measures.front().exact.approx() == Approx(2.843).margin(0.0005));
  CHECK(c.length == f(23, 8));
  CHECK(c.rounded > 0.001);
  CHECK(lines_beside(c.measures.front().exact, Exact::ratio(1, 8), 0) ==
        std::vector{f(11, 4), f(23, 8)});
}

TEST_CASE("45° diamond: strip of width + 1/2, cut at the same width along the angle") {
  // C. & B., Rotary Cutting 7, 2015.
  const Exact side = Exact(2) * Exact::sqrt2();
  const PieceCut c = cut({{{0, 0}, {side, 0}, {side + Exact(2), 2}, {2, 2}}});
  CHECK(c.method == CutMethod::angled);
  CHECK(c.angle == 45);
  CHECK(c.strip == f(5, 2));
  CHECK(c.length == f(5, 2));
}

TEST_CASE("eight-pointed star of 8: diamonds from a strip of 2.157") {
  // computed: side 2.343, and 2.343 / √2 + 1/2 across.
  const Exact side = Exact(8) / (Exact(2) + Exact::sqrt2());
  const Exact high = side / Exact::sqrt2();
  const PieceCut c = cut({{{0, 0}, {side, 0}, {side + high, high}, {high, high}}});
  REQUIRE(c.measures.size() == 2);
  for (const CutMeasure& m : c.measures) {
    CHECK(m.exact.approx() == Approx(2.157).margin(0.0005));
    CHECK(m.printed == f(9, 4));
  }
}

TEST_CASE("octagon in 12: flip squares 4.015, just above a line") {
  // computed: the corner's leg is 12 / (2 + √2) = 3.515, and 1/2 in for seams.
  const Exact measure = Exact(12) / (Exact(2) + Exact::sqrt2()) + Exact::ratio(1, 2);
  CHECK(measure.approx() == Approx(4.015).margin(0.0005));
  // Rounding to the nearest would make every corner too small; the line above is printed.
  CHECK(measure.round_nearest(8) == f(4));
  CHECK(printed_line(measure, Exact::ratio(1, 8)) == f(33, 8));
  CHECK(printed_line(measure, Exact::ratio(1, 16)) == f(65, 16));
}

TEST_CASE("a pattern that says nothing reckons with 42 in of usable width and seams of 1/4") {
  // Better Homes & Gardens quilts stylebook, 2015; American Patchwork & Quilting, June 2020: 42.
  const auto p = test::plan_block(
      "block: B\ngrid: square\nroles: [a]\nunits:\n  s: {shape: square 2, fabric: a}\n"
      "row: [s, s]\n",
      "a: red");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(p.checked->pattern.usable_width == Exact(42));
  CHECK(p.checked->pattern.seam_allowance == Exact::ratio(1, 4));
}

TEST_CASE("an inch is 25.4 mm and a yard 0.9144 m") {
  // NIST SP 811 (values from memory), exact.
  LengthError error;
  CHECK(parse_length("25.4 mm", error)->inches == Exact(1));
  CHECK(parse_length("91.44 cm", error)->inches == Exact(36));
  CHECK(parse_length("1 yd", error)->inches == Exact(36));
}

TEST_CASE("cloth goes up to the next 1/8 yd and the next 5 cm") {
  // common practice
  for (int eighths = 1; eighths <= 40; ++eighths) {
    const Exact whole = Exact::ratio(9 * eighths, 2);
    CHECK(yards_up(whole) == f(eighths, 8));
    CHECK(yards_up(whole + Exact::ratio(1, 100)) == f(eighths + 1, 8));
  }
  LengthError error;
  CHECK(centimetres_up(parse_length("95 cm", error)->inches) == 95);
  CHECK(centimetres_up(parse_length("95.1 cm", error)->inches) == 100);
}

TEST_CASE("the backing's seams take 1/2 in from each panel") {
  // Catamount longarm checklist: 8 in over; two panels of 42 in, joined, are 83 in wide.
  const auto backing = [](int side) {
    return plan_backing({"Backing", Exact(42), Exact(8), {}}, Exact(side), Exact(side));
  };
  CHECK(backing(34).panels == 1);
  CHECK(backing(75).panels == 2);  // 83 in
  CHECK(backing(75).yards == f(37, 8));
  CHECK(backing(76).panels == 3);  // 84 in
  CHECK(backing(76).yards == f(7));
}

TEST_CASE("binding by the published formula over many sizes") {
  // Quick Tips, 2011: strips = ceil((2(W + L) + 24) / 40).
  for (int w = 20; w <= 120; w += 7) {
    for (int l = w; l <= 120; l += 9) {
      const int around = 2 * (w + l) + 24;
      const Binding b = plan_binding({0, Exact::ratio(5, 2), {}}, Exact(w), Exact(l), Exact(42));
      CHECK(b.strips == (around + 39) / 40);
      CHECK(Exact(b.length) >= Exact(2 * (w + l) + 12));
    }
  }
}

TEST_CASE("a quilt of one mattress takes the package that covers it and its overhang") {
  // Mattresses: About.com Quilting (crib 28 x 52, twin 39 x 75, full 54 x 75, queen 60 x 80);
  // packages: Honey Be Good, 2012.
  const auto package = [](int w, int l) {
    return plan_batting({Exact(8), {}}, Exact(w), Exact(l)).package;
  };
  CHECK(package(28, 52) == "45 × 60 in");
  CHECK(package(39, 75) == "72 × 90 in");
  CHECK(package(54, 75) == "72 × 90 in");
  CHECK(package(60, 80) == "72 × 90 in");
  CHECK(package(76, 80) == "90 × 108 in");
}
