// Worked examples whose answer is known, with their sources.

#include <catch2/catch.hpp>

#include "stock/problems.h"

using namespace dogear::stock;

namespace {

constexpr Steps inch = 16;
constexpr Steps yard = 36 * inch;

Problem squares(Steps side, long long need, Steps width) {
  return {{plain(side, side, need, width)}, {cloth(width)}, {}, 2000};
}

Solution solved(const Problem& p) {
  const auto s = solve(p);
  REQUIRE(s);
  CHECK(faults(p, s->strips).empty());
  CHECK(proves(p, s->bound));
  CHECK(s->least());
  return *s;
}

// How many squares of a side the strips of one yard give.
long long squares_a_yard(Steps side, Steps width) {
  long long most = 0;
  for (long long n = 1;; ++n) {
    if (solve(squares(side, n, width))->use > yard) return most;
    most = n;
  }
}

}  // namespace

TEST_CASE("80 squares of 2 1/2 in from 40 in: 5 strips, 12 1/2 in") {
  // Feathered Star, FAQ.
  const Solution s = solved(squares(inch * 5 / 2, 80, 40 * inch));
  CHECK(s.strips.size() == 5);
  CHECK(s.use == inch * 25 / 2);
}

TEST_CASE("a strip of 42 in gives eight 5 in or four 10 in squares") {
  // Annie's, tutorial guide.
  CHECK(solved(squares(5 * inch, 8, 42 * inch)).use == 5 * inch);
  CHECK(solved(squares(5 * inch, 9, 42 * inch)).use == 10 * inch);
  CHECK(solved(squares(10 * inch, 4, 42 * inch)).use == 10 * inch);
  CHECK(solved(squares(10 * inch, 5, 42 * inch)).use == 20 * inch);
}

TEST_CASE("48 strips of 2 1/2 in are 3 1/3 yards") {
  // McCall's Quilting, Jan/Feb 2020, p. 76.
  const Solution s =
      solved({{plain(inch * 5 / 2, 42 * inch, 48, 42 * inch)}, {cloth(42 * inch)}, {}, 2000});
  CHECK(s.use * 3 == yard * 10);
}

TEST_CASE("strips a yard: 14 of 2 1/2 in, 18 of 2 in") {
  // Computed, without a loss for squaring up.
  const auto strips = [](Steps height, long long need) {
    return solved({{plain(height, 40 * inch, need, 40 * inch)}, {cloth(40 * inch)}, {}, 2000}).use;
  };
  CHECK(strips(inch * 5 / 2, 14) <= yard);
  CHECK(strips(inch * 5 / 2, 15) > yard);
  CHECK(strips(2 * inch, 18) == yard);
}

TEST_CASE("squares a yard at 40 and 42 in") {
  // A published table, recomputed.
  const auto at = [](Steps side) {
    return std::pair{squares_a_yard(side, 40 * inch), squares_a_yard(side, 42 * inch)};
  };
  CHECK(at(2 * inch) == std::pair{360LL, 378LL});
  CHECK(at(inch * 5 / 2) == std::pair{224LL, 224LL});
  CHECK(at(inch * 7 / 2) == std::pair{110LL, 120LL});
  CHECK(at(inch * 9 / 2) == std::pair{64LL, 72LL});
  CHECK(at(5 * inch) == std::pair{56LL, 56LL});
}

TEST_CASE("a bolt of 15 yd gives 13 kits of 1 1/8 yd") {
  // Computed: 13 x 9/8 = 14 5/8. Bolts are sheets, kits are cuts along them.
  const auto kits = [](long long n) {
    Problem p{{plain(1, yard * 9 / 8, n, 15 * yard)}, {{15 * yard, 1, std::nullopt}}, {}, 2000};
    return solved(p).use;
  };
  CHECK(kits(13) == 1);
  CHECK(kits(14) == 2);
}

TEST_CASE("remainders of higher strips serve lower pieces") {
  // Derived here: five squares of 5 in leave 17 of 42 in, and two rows of six of 2 1/2 in fill 15
  // of them; the area of all, 5 x 25 + 12 x 6 1/4 = 200, needs more than 4 1/2 of 42 in.
  Problem p{
      {plain(5 * inch, 5 * inch, 5, 42 * inch), plain(inch * 5 / 2, inch * 5 / 2, 12, 42 * inch)},
      {cloth(42 * inch)},
      {},
      2000};
  CHECK(solved(p).use == 5 * inch);
}

TEST_CASE("what a stretch leaves above its rows is used") {
  // Derived here: a strip of 7 in can be full only with 4 and 3 in one above the other, all along.
  Problem p{{plain(7, 10, 1, 20), plain(4, 10, 1, 20), plain(3, 5, 2, 20)}, {cloth(20)}, {}, 2000};
  CHECK(solved(p).use == 7);
}

TEST_CASE("runs whose first cut is longer are kept together") {
  // Derived here: cuts of 9 and then 6 more each; six in one run take 39 of 42, but the seventh
  // takes 45. In two runs of three each (21 + 21) they take all 42.
  Problem p{{nested(5, 9, 6, 6, 42)}, {cloth(42)}, {}, 2000};
  const Solution s = solved(p);
  CHECK(s.use == 5);
  REQUIRE(s.strips[0].stretches.size() == 1);
  CHECK(s.strips[0].stretches[0].rows[0].runs.size() == 1);
  p.kinds[0].need = 7;
  CHECK(solved(p).use == 10);
}

TEST_CASE("sheets that are had are used up first, then the next source") {
  // Derived here: a bundle's strip of 40 x 2 1/2 gives 16 squares; 20 squares take one strip of the
  // bundle and one of the cloth, 32 both strips of the bundle and no cloth.
  Problem p{{plain(5, 5, 20, 80)}, {sheets(80, 5, 1), cloth(80)}, {}, 2000};
  Solution s = solved(p);
  CHECK(s.use == 5);
  CHECK(s.sheets[0] == 1);
  p.sources[0].had = 2;
  p.kinds[0].need = 32;
  s = solved(p);
  CHECK(s.use == 0);
  CHECK(s.sheets[0] == 2);
  CHECK(s.strips.size() == 2);
}

TEST_CASE("a fat quarter of 18 x 21 gives twelve 5 in squares") {
  // Computed: three strips of 5 in, four in each.
  const auto quarters = [](long long need) {
    return solved({{plain(5, 5, need, 21)}, {{21, 18, std::nullopt}}, {}, 2000}).use;
  };
  CHECK(quarters(12) == 1);
  CHECK(quarters(13) == 2);
}

TEST_CASE("where the price is the same, the plan is the simpler one") {
  // Two heights or one: an eighth of a yard holds both, so one height is taken.
  Problem p{{plain(40, 40, 4, 672), plain(36, 40, 4, 672)}, {cloth(672)}, in_steps_of(72), 2000};
  const Solution s = solved(p);
  CHECK(s.price == 1);
  REQUIRE(s.strips.size() == 1);
  CHECK(s.strips[0].height == 40);
}
