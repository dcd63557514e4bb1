// What rounded cuts add up to: in a piece, a seam, a block and a top.

#include <cmath>

#include "cutting/lines.h"
#include "cutting/sums.h"
#include "support/plan.h"
#include "support/shape.h"
#include "support/trade.h"

using namespace dogear;
using test::f;
using test::plan_block;

namespace {

// Nine patches of a finished measure, their squares a third of it.
std::string nine(const std::string& unit) {
  return "block: Nine\ngrid: square\nunit: " + unit +
         "\nroles: [a, b]\nunits:\n"
         "  a: {shape: square 1, fabric: a}\n  b: {shape: square 1, fabric: b}\n"
         "  one: {row: [a, b, a]}\n  two: {row: [b, a, b]}\nstack: [one, two, one]\n";
}

// Rows of nine patches and of plain squares, with whatever else the pattern and the size say.
test::Planned rows(const std::string& unit, const std::string& cells, const std::string& extra = "",
                   const std::string& step = "1/8 in") {
  MemoryFiles files;
  files.content["p/blocks/nine.yaml"] = nine(unit);
  files.content["p/blocks/plain.yaml"] =
      "block: Plain\ngrid: square\nunit: 4 in\nroles: [a]\nshape: square 1\nfabric: a\n";
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\n" + extra +
      "fabrics:\n  red: {name: Red, colour: \"#aa2222\"}\n"
      "  blue: {name: Blue, colour: \"#2222aa\"}\n"
      "rulers:\n  straight: {angle: 90, highest: 24 in, step: " +
      step +
      "}\nblocks:\n  nine: {block: nine, fabrics: {a: red, b: blue}}\n"
      "  plain: {block: plain, fabrics: {a: red}}\nsizes:\n"
      "  one: {setting: rows, rows: " +
      cells + "}\n";
  return test::plan("p", files);
}

bool says(const test::Planned& p, const std::string& words) {
  return p.errors().find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("lines next to a measure: those of the ruler, then eighths") {
  const Exact third = Exact::ratio(11, 6);  // 1 1/3 in and 1/2 in for seams
  CHECK(lines_beside(third, Exact::ratio(1, 8), 0) == std::vector{f(7, 4), f(15, 8)});
  CHECK(lines_beside(third, Exact::ratio(1, 4), 0) == std::vector{f(7, 4), f(2), f(15, 8)});
  CHECK(lines_beside(Exact::ratio(1, 2), Exact::ratio(1, 8), 0) == std::vector{f(1, 2)});
  CHECK(lines_beside(third, Exact::ratio(1, 8), Exact::ratio(9, 5)) == std::vector{f(15, 8)});
}

TEST_CASE("a printed measure lies on a line that the ruler has") {
  const Exact third = Exact::ratio(11, 6);
  CHECK(printed_line(third, Exact::ratio(1, 8)) == f(15, 8));
  CHECK(printed_line(third, Exact::ratio(1, 4)) == f(2));
  // More than 1/32 beyond an eighth, and the ruler has sixteenths.
  const Exact beyond = Exact::ratio(13, 8) + Exact::ratio(3, 64);
  CHECK(printed_line(beyond, Exact::ratio(1, 16)) == f(27, 16));
  CHECK(printed_line(beyond, Exact::ratio(1, 8)) == f(7, 4));
  // A ruler of twelfths has neither.
  CHECK(printed_line(third, Exact::ratio(1, 12)) == f(11, 6));
}

TEST_CASE("small measures are told in fractions of an inch") {
  CHECK(small_inches(-1.0 / 32) == "1/32 in");
  CHECK(small_inches(1.0 / 24) == "about 3/64 in");
  CHECK(small_inches(0.004) == "less than 1/64 in");
}

TEST_CASE("a stretched parallelogram keeps its angles and gains what its cuts gained") {
  const Polygon diamond = test::shape("diamond 3", GridKind::triangle);
  PieceCut cut;
  cut.method = CutMethod::angled;
  cut.parallel = true;
  CutMeasure strip, length;
  length.what = CutMeasure::What::length;
  const Stretch by_strip = stretch_of(diamond, cut, strip);
  const Stretch by_length = stretch_of(diamond, cut, length);
  const double side = 3 * 2 / std::sqrt(3.0);
  // An inch more across the level edges makes the slanted ones 2/√3 longer, and the other way
  // round.
  CHECK(by_strip.along(1, 0) == Approx(0).margin(1e-12));
  CHECK(side * by_strip.along(-0.5, std::sqrt(0.75)) == Approx(2 / std::sqrt(3.0)));
  CHECK(side * by_length.along(1, 0) == Approx(2 / std::sqrt(3.0)));
  CHECK(side * by_length.along(-0.5, std::sqrt(0.75)) == Approx(0).margin(1e-12));
}

TEST_CASE("a square on point adds its diagonal's growth to a row") {
  Piecing piecing;
  Piece square;
  square.shape = test::shape("square 2", GridKind::square);
  piecing.pieces.push_back(square);
  PieceCut cut;
  CutMeasure strip, length;
  length.what = CutMeasure::What::length;
  Stretch both = stretch_of(square.shape, cut, strip);
  both += stretch_of(square.shape, cut, length);
  const std::vector<PlacedPiece> turned{{0, Transform::turned(3)}};
  for (const bool rows : {true, false}) {
    const LineSum sum = greatest_sum(piecing, turned, {{0, both * 0.1}}, rows);
    CHECK(sum.inches == Approx(0.1 * std::sqrt(2.0)));
    CHECK(sum.patches == 1);
  }
}

TEST_CASE("a nine patch of 4 in: 1/24 in a square, 1/8 in across the block, within the tolerance") {
  const auto p = rows("1 1/3 in", "[[nine]]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(p.diagnostics.error_count() == 0);
  CHECK(says(p,
             "the square of Red cannot be cut to a line: 1.833 in would be exact, 1 7/8 in is "
             "printed"));
  // Two red squares lie in the outer rows and two blue ones in the inner row.
  CHECK(says(p, "2 lie side by side across the block Nine: about 5/64 in"));
  CHECK(
      says(p, "1 7/8 in is about 3/64 in more in each piece, about 1/64 in in each of its seams"));
  CHECK(says(p, "1 3/4 in is about 5/64 in less in each piece"));
  CHECK(says(p, "a finished measure on the lines is 1 1/4 in or 1 3/8 in"));
}

TEST_CASE("counts across the top come from the layout") {
  // Four nine patches side by side: two red squares in each, so eight in a row.
  const auto p = rows("1 1/3 in", "[[nine, nine, nine, nine]]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(says(p, "8 lie side by side across the top of the size `one`: about 21/64 in"));
}

TEST_CASE("rows that outgrow their neighbours are an error, told at the seam") {
  const auto p = rows("1 1/3 in", "[[nine, nine, nine], [plain, plain, plain]]");
  INFO(p.errors());
  CHECK_FALSE(p.quantities);
  CHECK(p.diagnostics.error_count() == 1);
  CHECK(p.has("D521"));
  CHECK(says(p, "differ by 3/8 in, more than the tolerance of 1/8 in"));
  CHECK_FALSE(p.has("D551"));
  // Rows of the same blocks grow alike: nothing is sewn to anything shorter.
  const auto alike = rows("1 1/3 in", "[[nine, nine, nine], [nine, nine, nine]]");
  INFO(alike.errors());
  CHECK(alike.diagnostics.error_count() == 0);
}

TEST_CASE("a wider tolerance turns the error into warnings") {
  const auto p =
      rows("1 1/3 in", "[[nine, nine, nine], [plain, plain, plain]]", "tolerance: 3/8 in\n");
  INFO(p.errors());
  CHECK(p.quantities);
  CHECK(p.has("D551"));
}

TEST_CASE("a block beyond the tolerance, and a top beyond its own") {
  const auto block = rows("1 1/3 in", "[[nine]]", "tolerance: 1/16 in\n");
  INFO(block.errors());
  CHECK(block.has("D522"));
  CHECK(
      says(block, "the block Nine comes out 1/8 in too wide, more than the tolerance of 1/16 in"));
  CHECK(says(block, "the tolerance is stated here"));
  const auto top = rows("1 1/3 in", "[[nine, nine, nine, nine, nine]]");
  INFO(top.errors());
  CHECK(top.has("D523"));
  CHECK(says(top, "comes out 5/8 in too wide, more than the top tolerance of 1/2 in"));
}

TEST_CASE("a ruler with the lines ends the warning") {
  const auto p = rows("1 1/3 in", "[[nine, nine], [nine, nine]]", "", "1/12 in");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK_FALSE(p.has("D551"));
  CHECK(test::find_piece(p, 0, "square")->cut.length == f(11, 6));
}

TEST_CASE("long strips are eased to what they are sewn to") {
  const auto p = plan_block(nine("1 1/3 in"), "a: red, b: blue", "",
                            ", borders: [{fabric: grey, width: 2 in}]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(p.diagnostics.error_count() == 0);
}

TEST_CASE("a strip of a strip set between lines is told of") {
  const auto p = plan_block(
      "block: B\ngrid: square\nunit: 1 in\nroles: [a, b]\nunits:\n"
      "  x: {shape: square 4, strip set: [a 1 1/3, b 1 1/3, a 1 1/3]}\nrow: [x, x]\n",
      "a: red, b: blue");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(says(p, "the strip of red cannot be cut to a line"));
  CHECK(says(p, "2 lie one above the other in the height of the block B: about 5/64 in"));
  CHECK(p.quantities->sizes[0].strip_sets[0].strips[0].second == f(15, 8));
}
