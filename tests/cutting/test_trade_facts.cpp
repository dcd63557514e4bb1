// Cuts and cloth against facts of the trade; the source stands beside each check.

#include <catch2/catch.hpp>

#include "cutting/cut_shape.h"
#include "cutting/finish.h"
#include "cutting/strips.h"
#include "support/plan.h"
#include "support/shape.h"
#include "support/trade.h"

using namespace dogear;
using dogear::test::f;

namespace {

Pattern with_blunt_ruler() {
  Pattern p = test::plain_pattern();
  p.rulers.insert(p.rulers.begin(), {"blunt",
                                     "60° ruler, blunt tip",
                                     60,
                                     true,
                                     Exact(1),
                                     Exact::ratio(17, 2),
                                     Exact::ratio(1, 2),
                                     {}});
  return p;
}

// The cut of a shape by its trade name.
PieceCut cut(const std::string& shape, GridKind grid, Tip tip = Tip::blunt) {
  const auto c = plan_cut(test::shape(shape, grid), with_blunt_ruler(), {}, tip);
  REQUIRE(c);
  return *c;
}

}  // namespace

TEST_CASE("60° triangle: height + 1/2 with a blunt tip, + 3/4 with a pointed one") {
  // C. & B., Rotary Cutting 6, 2015 (3 -> 3 3/4); Modern Bias, 2014 (8 -> 8 1/2).
  for (const int h : {2, 3, 4, 8}) {
    const PieceCut c = cut("triangle " + std::to_string(h), GridKind::triangle);
    CHECK(c.strip == f(2 * h + 1, 2));
    CHECK(*c.reading == f(2 * h + 1, 2));
    const PieceCut pointed = cut("triangle " + std::to_string(h), GridKind::triangle, Tip::pointed);
    CHECK(pointed.strip == f(4 * h + 3, 4));
    CHECK(*pointed.reading == f(4 * h + 3, 4));
  }
}

TEST_CASE("a triangle and two trapezoids sew into exactly a 4 1/2 triangle") {
  // common practice: a 2 1/2 strip triangle, 1 1/2 strip trapezoids at 3 1/2 and 4 1/2.
  const PieceCut tip = cut("triangle 2", GridKind::triangle);
  CHECK(tip.strip == f(5, 2));
  const PieceCut middle = cut("trapezoid 2 to 3", GridKind::triangle);
  CHECK(middle.strip == f(3, 2));
  CHECK(*middle.reading == f(7, 2));
  const PieceCut base = cut("trapezoid 3 to 4", GridKind::triangle);
  CHECK(base.strip == f(3, 2));
  CHECK(*base.reading == f(9, 2));
  CHECK(cut("triangle 4", GridKind::triangle).strip == f(9, 2));
}

TEST_CASE("a half-hexagon from a 4 1/2 strip lies between the 4 and the 8 1/2 readings") {
  // common practice
  const PieceCut c = cut("half-hexagon 4", GridKind::triangle);
  CHECK(c.strip == f(9, 2));
  CHECK(*c.reading == f(17, 2));
  CHECK(*c.upper_reading == f(4));
}

TEST_CASE("60° diamond: strip of width + 1/2, cut at the same width along the angle") {
  // C. & B., Rotary Cutting 6 and 7, 2015.
  const PieceCut c = cut("diamond 3", GridKind::triangle);
  CHECK(c.strip == f(7, 2));
  CHECK(c.length == f(7, 2));
}

TEST_CASE("half-square triangles: finished + 7/8; quarter-square: finished + 1 1/4") {
  // common practice; exactly q(2 + √2) = 0.854 and q(2 + 2√2) = 1.207, rounded up to 1/8.
  for (const int s : {1, 2, 3, 4, 6}) {
    const PieceCut half = cut("half-square triangle " + std::to_string(s), GridKind::square);
    CHECK(half.method == CutMethod::half_square);
    CHECK(half.length == f(8 * s + 7, 8));
    CHECK(half.per_cut == 2);
    const PieceCut quarter = cut("quarter-square triangle " + std::to_string(s), GridKind::square);
    CHECK(quarter.method == CutMethod::quarter_square);
    CHECK(quarter.length == f(4 * s + 5, 4));
    CHECK(quarter.per_cut == 4);
  }
}

TEST_CASE("squares a yard at a usable width of 40 and of 42") {
  // Published table, recomputed: strips of 36 in, squares of each strip.
  struct Row {
    int num, den;
    long long at40, at42;
  };
  const Row row = GENERATE(Row{2, 1, 360, 378}, Row{5, 2, 224, 224}, Row{7, 2, 110, 120},
                           Row{9, 2, 64, 72}, Row{5, 1, 56, 56});
  StripDemand d;
  d.first = d.pitch = f(row.num, row.den).approx();
  const long long strips = Exact(36 * row.den).operator/=(Exact(row.num)).round_down(1).num;
  CHECK(strips * d.cuts_in(40) == row.at40);
  CHECK(strips * d.cuts_in(42) == row.at42);
}

TEST_CASE("strips of a usable width of 42: eight 5 in squares or four 10 in squares") {
  // Annie's, tutorial guide.
  StripDemand d;
  d.first = d.pitch = 5;
  CHECK(d.cuts_in(42) == 8);
  d.first = d.pitch = 10;
  CHECK(d.cuts_in(42) == 4);
}

TEST_CASE("80 squares of 2 1/2 at a usable width of 40 take 5 strips, 12 1/2 in") {
  // Feathered Star, FAQ (before its shrinkage allowance): 16 a strip.
  StripDemand d;
  d.height = Exact::ratio(5, 2);
  d.first = d.pitch = 2.5;
  d.pieces = 80;
  CHECK(d.cuts_in(40) == 16);
  const auto plan = stock::solve(stock_problem({d}, {{40 * steps_along, {}, {}}}));
  REQUIRE(plan);
  CHECK(plan->strips.size() == 5);
  CHECK(plan->use == steps_across * 25 / 2);
  CHECK(plan->least());
  // With 6 % for shrinkage the worked example buys 3/8 yd.
  CHECK(yards_up(Exact::ratio(25, 2) * Exact::ratio(106, 100)) == f(3, 8));
}

TEST_CASE("336 squares of 2 1/2 cut as 48 strips are 3 1/3 yd, bought as 3 3/8") {
  // McCall's Quilting, Jan/Feb 2020, p. 76: 48 strips of 2 1/2 = 120 in.
  CHECK(yards_up(Exact(48) * Exact::ratio(5, 2)) == f(27, 8));
}

TEST_CASE("cloth is rounded up, never to the nearest") {
  // common practice; a printed error of the past rounded 12.521 down.
  CHECK(yards_up(Exact::ratio(9, 2)) == f(1, 8));
  CHECK(yards_up(Exact::ratio(9, 2) + Exact::ratio(1, 1000)) == f(1, 4));
  CHECK(centimetres_up(Exact(36)) == 95);  // 91.44 cm
}

TEST_CASE("binding strips: ceil((2(W + L) + 24) / 40), each 2 1/2") {
  // Quick Tips, 2011.
  const Binding b = plan_binding({0, Exact::ratio(5, 2), {}}, Exact(60), Exact(72), Exact(42));
  CHECK(b.strips == 8);  // (264 + 24) / 40 = 7.2
  CHECK(b.strip == f(5, 2));
}

TEST_CASE("backing 60 x 72 and 72 x 90, 8 in over, from cloth 42 in wide") {
  // computed: vertical 4 1/2, horizontal 3 7/8; vertical 5 1/2, horizontal 6 3/4.
  const Backing small = plan_backing({"Backing", Exact(42), Exact(8), {}}, Exact(60), Exact(72));
  CHECK_FALSE(small.seams_vertical);
  CHECK(small.yards == f(31, 8));
  CHECK(small.panels == 2);
  const Backing large = plan_backing({"Backing", Exact(42), Exact(8), {}}, Exact(72), Exact(90));
  CHECK(large.seams_vertical);
  CHECK(large.yards == f(11, 2));
}

TEST_CASE("batting packages") {
  // Honey Be Good, 2012: 45 x 60, 72 x 90, 81 x 96, 90 x 108, 120 x 120.
  CHECK(plan_batting({Exact(8), {}}, Exact(40), Exact(36)).package == "45 × 60 in");
  CHECK(plan_batting({Exact(8), {}}, Exact(60), Exact(72)).package == "72 × 90 in");
  CHECK(plan_batting({Exact(8), {}}, Exact(112), Exact(100)).package == "120 × 120 in");
  CHECK(plan_batting({Exact(8), {}}, Exact(130), Exact(100)).package.empty());
}

TEST_CASE("strips a yard: 14 of 2 1/2 and 18 of 2, with nothing lost in squaring up") {
  // computed; printed as 13 and 17 in errors of the past.
  CHECK((Exact(36) / Exact::ratio(5, 2)).round_down(1) == f(14));
  CHECK((Exact(36) / Exact(2)).round_down(1) == f(18));
  CHECK(yards_up(Exact(14) * Exact::ratio(5, 2)) == f(1));
  CHECK(yards_up(Exact(18) * Exact(2)) == f(1));
}
