#include <catch2/catch.hpp>

#include "piecing/press_count.h"
#include "piecing/press_layers.h"
#include "piecing/press_parity.h"
#include "sewn.h"

using namespace dogear;
using namespace dogear::test;

TEST_CASE("two plain seams that nest have 1, 3, 5 and 7 layers beside them") {
  // Layers beside a two-seam crossing, 3, 5 or 7 by pressing direction: Nacho Grandma's.
  const LayersBeside nested = layers_beside({1}, {-1}, Press::to_first);
  CHECK(nested.first == std::vector<int>{5, 7});
  CHECK(nested.second == std::vector<int>{3, 1});
  const LayersBeside other = layers_beside({1}, {-1}, Press::to_second);
  CHECK(other.first == std::vector<int>{1, 3});
  CHECK(other.second == std::vector<int>{7, 5});
  // Computed: seams that lie the same way pile up on one side; all open lie flattest.
  CHECK(layers_beside({1}, {1}, Press::to_first).most() == 9);
  CHECK(layers_beside({0}, {0}, Press::open).most() == 4);
  // A seam that ends on a plain edge: thinner when pressed towards that edge.
  CHECK(layers_beside({1}, {}, Press::to_first).most() == 7);
  CHECK(layers_beside({1}, {}, Press::to_second).most() == 5);
}

TEST_CASE("a press plan satisfies all pulls that do not contradict each other") {
  ParityProblem p;
  constexpr std::size_t n = 200;
  p.fixed.assign(n, 0);
  p.liking.assign(n, 0);
  std::vector<int> hidden(n);
  unsigned seed = 7;
  for (std::size_t i = 0; i < n; ++i) {
    seed = seed * 1103515245u + 12345u;
    hidden[i] = (seed >> 16 & 1) != 0 ? 1 : -1;
  }
  for (std::size_t i = 0; i < 5 * n; ++i) {
    seed = seed * 1103515245u + 12345u;
    const std::size_t a = seed >> 8 & 0xffff;
    seed = seed * 1103515245u + 12345u;
    const std::size_t b = seed >> 8 & 0xffff;
    p.pulls.push_back(
        {a % n, b % n, hidden[a % n] == hidden[b % n], 1.0 + static_cast<double>(i % 3)});
  }
  p.fixed[3] = -1;
  const std::vector<int> way = settle(p);
  CHECK(way[3] == -1);
  for (const Pull& pull : p.pulls) CHECK((way[pull.a] == way[pull.b]) == pull.alike);
}

TEST_CASE("where pulls contradict each other the lighter one gives way") {
  ParityProblem p;
  p.fixed = {1, 0, 0};
  p.liking = {0, 0, 0};
  p.pulls = {{0, 1, false, 5}, {1, 2, false, 4}, {0, 2, false, 1}};
  CHECK(settle(p) == std::vector<int>{1, -1, 1});
  // A seam that two light pulls hold against one heavy goes with the two.
  p.fixed = {1, 1, 1, 0};
  p.liking = {0, 0, 0, 0};
  p.pulls = {{0, 3, true, 3}, {1, 3, false, 2}, {2, 3, false, 2}};
  CHECK(settle(p)[3] == -1);
}

TEST_CASE("the seams of a four-patch nest, and every pair is pressed alike") {
  const SewnBlock s = sew_block(four_patch + "stack: [pair, pair turned]\n");
  REQUIRE(s.piecing);
  const SewnUnit& block = s.unit("B");
  REQUIRE(block.points.size() == 1);
  CHECK(block.points[0].patches == 4);
  CHECK(block.points[0].nests);
  CHECK(block.points[0].layers == 7);
  CHECK(block.points[0].x == Approx(2));
  // common practice: towards the darker cloth, here blue, the second.
  CHECK(s.unit("pair").seams[0].press == Press::to_second);
}

TEST_CASE("the two strip sets of a nine patch are pressed to one fabric and nest") {
  const SewnBlock s = sew_block(
      "block: B\ngrid: square\nunit: 2 in\nroles: [red, blue]\nunits:\n"
      "  outer: {shape: rectangle 1 x 3, strip set: [red 1, blue 1, red 1]}\n"
      "  inner: {shape: rectangle 1 x 3, strip set: [blue 1, red 1, blue 1]}\n"
      "row: [outer, inner, outer]\n");
  REQUIRE(s.piecing);
  const SewnUnit& block = s.unit("B");
  REQUIRE(block.points.size() == 4);
  for (const MeetingPoint& p : block.points) CHECK(p.nests);
  using enum Press;
  std::vector<Press> outer, inner;  // common practice: towards the darker cloth, here blue
  for (const Seam& seam : s.unit("outer").seams) outer.push_back(seam.press);
  for (const Seam& seam : s.unit("inner").seams) inner.push_back(seam.press);
  CHECK(outer == std::vector{to_second, to_first});
  CHECK(inner == std::vector{to_first, to_second});
}

TEST_CASE("equal rows one above the other alternate, so that their seams nest") {
  const SewnBlock s =
      sew_block("block: B\ngrid: square\nroles: [red, blue]\nshape: square 4\nfabric: red\n", 4, 3);
  REQUIRE(s.piecing);
  const SewnUnit& row = s.unit("row 1");
  CHECK(row.alternate);
  const SewnUnit& center = s.unit("center");
  REQUIRE(center.points.size() == 6);
  for (const MeetingPoint& p : center.points) CHECK(p.nests);
  const PressCounts counts = count_presses(*s.piecing, s.piecing->sizes[0]);
  CHECK(counts.crossings == 6);
  CHECK(counts.nested == 6);
  CHECK(counts.most_layers == 7);
}

TEST_CASE("equal blocks side by side have crossings that cannot nest, and that is told") {
  // The lower seam of each block meets the upper seam of the block below, pressed the same way.
  const SewnBlock s = sew_block(four_patch +
                                    "  other: {row: [dark, light]}\n"
                                    "  third: {row: [light, dark]}\n"
                                    "stack: [pair, other, third]\n",
                                2, 1);
  REQUIRE(s.piecing);
  long long crossings = 0, nested = 0;
  for (const MeetingPoint& p : s.unit("center").points) {
    crossings += p.crosses ? 1 : 0;
    nested += p.nests ? 1 : 0;
  }
  CHECK(crossings == 1);
  CHECK(nested == 0);
}

TEST_CASE("where eight points meet the last seam is pressed open") {
  // common practice: press open where six or eight points meet.
  const SewnBlock s = sew_block(
      "block: B\ngrid: square\nunit: 3 in\nroles: [red, blue]\nunits:\n"
      "  light: {shape: half-square triangle 1, fabric: red}\n"
      "  dark: {shape: half-square triangle 1, fabric: blue}\n"
      "  pair:\n    shape: square 1\n    place:\n      - {unit: light, at: [0, 0]}\n"
      "      - {unit: dark turned, at: [0, 0]}\n"
      "  top: {row: [pair, pair turned 90]}\n"
      "stack: [top, top turned]\n");
  REQUIRE(s.piecing);
  const SewnUnit& block = s.unit("B");
  REQUIRE(block.seams.size() == 1);
  REQUIRE(block.points.size() == 1);
  CHECK(block.points[0].patches == 8);
  CHECK(block.points[0].nests);
  CHECK(block.seams[0].press == Press::open);
}

TEST_CASE("what the designer wrote is honoured") {
  const auto press = [](const std::string& wish) {
    const SewnBlock s = sew_block(
        "block: B\ngrid: square\nunit: 2 in\nroles: [red, blue]\nunits:\n"
        "  light: {shape: square 1, fabric: red}\n  dark: {shape: square 1, fabric: blue}\n"
        "row: [light, dark, light]\npress: " +
        wish + "\n");
    REQUIRE(s.piecing);
    std::vector<Press> out;
    for (const Seam& seam : s.unit("B").seams) out.push_back(seam.press);
    return out;
  };
  using enum Press;
  CHECK(press("open") == std::vector{open, open});
  CHECK(press("to the first") == std::vector{to_first, to_first});
  CHECK(press("to the last") == std::vector{to_second, to_second});
  CHECK(press("towards red") == std::vector{to_first, to_second});
  CHECK(press("away from red") == std::vector{to_second, to_first});
}

TEST_CASE("units that look alike but are pressed otherwise are made apart") {
  const SewnBlock s = sew_block(four_patch +
                                "  same: {row: [light, dark], press: open}\n"
                                "stack: [pair, same]\n");
  REQUIRE(s.piecing);
  CHECK(s.unit("pair").seams[0].press == Press::to_second);
  CHECK(s.unit("same").seams[0].press == Press::open);
  const SewnUnit& block = s.unit("B");
  REQUIRE(block.points.size() == 1);
  CHECK_FALSE(block.points[0].nests);
}

TEST_CASE("a role that is at no seam, or on both sides of it, cannot be pressed to") {
  const SewnBlock both = sew_block(
      "block: B\ngrid: square\nunit: 2 in\nroles: [red, blue]\nunits:\n"
      "  light: {shape: square 1, fabric: red}\n  dark: {shape: square 1, fabric: blue}\n"
      "  pair: {row: [light, light], press: towards red}\n"
      "  low: {row: [dark, dark], press: away from red}\n"
      "stack: [pair, low]\n");
  CHECK_FALSE(both.piecing);
  CHECK(both.codes() == std::vector<std::string>{"D361", "D361"});
}
