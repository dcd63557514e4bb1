// Blocks on point: the size of the top, its setting triangles, and what they are cut from.

#include <catch2/catch.hpp>

#include "support/plan.h"

using namespace dogear;
using namespace dogear::test;

namespace {

// `wide` blocks in the full rows, `tall` rows of both kinds, of squares that finish `side`.
Planned on_point(int wide, int tall, const std::string& side, const std::string& extra = "") {
  std::string rows;
  for (int r = 0; r < tall; ++r) {
    rows += rows.empty() ? "[" : ", ";
    for (int c = 0; c < wide - r % 2; ++c) rows += c == 0 ? "[b" : ", b";
    rows += "]";
  }
  MemoryFiles files;
  files.content["p/blocks/b.yaml"] =
      "block: B\ngrid: square\nunit: " + side + "\nroles: [a]\nshape: square 1\nfabric: a\n";
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\n" + extra +
      "fabrics:\n  red: {colour: \"#aa2222\"}\n  blue: {colour: "
      "\"#2222aa\"}\nrulers:\n  straight: {angle: 90, highest: 30 in}\n"
      "blocks:\n  b: {block: b, fabrics: {a: red}}\n"
      "sizes:\n  one: {setting: on point, ground: blue, rows: [" +
      rows.substr(1) + "]}\n";
  return plan("p", files);
}

Fraction cut_of(const Planned& p, const std::string& words) {
  const CutPiece* piece = find_piece(p, 0, words);
  REQUIRE(piece != nullptr);
  return piece->cut.length;
}

}  // namespace

TEST_CASE("a top on point is as many diagonals wide and high as it has blocks across and down") {
  for (const auto& [wide, tall] : {std::pair(1, 1), {2, 1}, {2, 3}, {3, 5}, {5, 3}, {4, 9}}) {
    const Planned p = on_point(wide, tall, "6 in");
    INFO(p.errors());
    REQUIRE(p.quantities);
    const CheckedSize& size = p.checked->sizes[0];
    const Exact diagonal = Exact(6) * Exact::sqrt2();
    CHECK(size.width == diagonal * Exact(wide));
    CHECK(size.height == diagonal * Exact((tall + 1) / 2));
    const int down = (tall + 1) / 2;
    CHECK(size.places.size() == static_cast<std::size_t>(wide * down + (wide - 1) * (down - 1)));
    const CutPiece* sides = find_piece(p, 0, "quarter-square triangle");
    const long long around = 2 * (wide - 1) + 2 * (down - 1);
    CHECK((sides == nullptr ? 0 : sides->count) == around);
    const CutPiece* corners = find_piece(p, 0, "half-square triangle");
    REQUIRE(corners != nullptr);
    CHECK(corners->count == 4);
  }
}

TEST_CASE("setting triangles: sides 1.414F + 1 1/4 cut twice, corners F/1.414 + 7/8 cut once") {
  // Dalmeny Quilters; Moonlight Quilters; Pine Meadow Designs: 6 gives 9 3/4 and 5 1/8, 12 gives
  // corners of 9 3/8; rounded up to 1/8.
  const Planned six = on_point(2, 3, "6 in");
  REQUIRE(six.quantities);
  CHECK(cut_of(six, "quarter-square triangle") == Fraction::of(39, 4));
  CHECK(cut_of(six, "half-square triangle") == Fraction::of(41, 8));
  const Planned twelve = on_point(2, 3, "12 in");
  REQUIRE(twelve.quantities);
  CHECK(cut_of(twelve, "half-square triangle") == Fraction::of(75, 8));
  // An 8 in block: 11.314 + 1.207 = 12.521, which must not be rounded down to 12 1/2.
  const Planned eight = on_point(2, 3, "8 in");
  REQUIRE(eight.quantities);
  CHECK(cut_of(eight, "quarter-square triangle") == Fraction::of(101, 8));
}

TEST_CASE("no setting square is cut 19 1/2 in for 20 in on point: 21 1/4 in is needed") {
  // Printed in a book of 2013. The block's diagonal is the setting triangle's long edge.
  const Planned p = on_point(2, 3, "14.142 in", "tolerance: 1 in\ntop tolerance: 2 in\n");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(cut_of(p, "quarter-square triangle") == Fraction::of(85, 4));
}
