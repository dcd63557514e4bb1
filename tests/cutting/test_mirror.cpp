// Mirror images: units flipped, the pieces that come of it and their letters.

#include "piecing/mirror.h"
#include "support/plan.h"
#include "support/shape.h"

using namespace dogear;

namespace {

std::vector<std::string> labels(const test::Planned& p) {
  std::vector<std::string> out;
  for (const Piece& piece : p.piecing->pieces) out.push_back(piece.label(p.checked->pattern));
  return out;
}

// A slanted pair of one piece of each fabric, and whatever is made of it.
std::string slanted(const std::string& whole) {
  return "block: B\ngrid: square\nunit: 1 in\nroles: [red, blue]\nunits:\n"
         "  left: {corners: [[0, 0], [2, 0], [1, 2], [0, 2]], fabric: red}\n"
         "  right: {corners: [[2, 0], [3, 0], [3, 2], [1, 2]], fabric: blue}\n"
         "  pair: {row: [left, right]}\n" +
         whole;
}

}  // namespace

TEST_CASE("which shapes are their own mirror image as they are cut") {
  const auto handed = [](const std::string& shape, GridKind grid) {
    return is_handed(test::shape(shape, grid));
  };
  CHECK_FALSE(handed("square 2", GridKind::square));
  CHECK_FALSE(handed("rectangle 2 x 4", GridKind::square));
  CHECK_FALSE(handed("half-square triangle 2", GridKind::square));
  CHECK_FALSE(handed("quarter-square triangle 2", GridKind::square));
  CHECK_FALSE(handed("triangle 2", GridKind::triangle));
  CHECK_FALSE(handed("trapezoid 2 to 4", GridKind::triangle));
  CHECK_FALSE(handed("half-hexagon 2", GridKind::triangle));
  CHECK_FALSE(handed("octagon 4", GridKind::square));
  CHECK_FALSE(handed("quarter circle 3", GridKind::square));
  CHECK_FALSE(handed("quarter-circle background 3 to 4", GridKind::square));
  CHECK(handed("half-rectangle triangle 2 x 4", GridKind::square));
  CHECK(handed("45° kite 2", GridKind::square));
  // A diamond has its grain along one pair of sides; in the mirror along the other.
  CHECK(handed("diamond 2", GridKind::triangle));
  CHECK(handed("half-triangle 2", GridKind::triangle));
}

TEST_CASE("a flipped unit is made of reversed pieces that share their letter") {
  const test::Planned p =
      test::plan_block(slanted("row: [pair, pair flipped]\n"), "red: red, blue: blue");
  INFO(p.errors());
  REQUIRE(p.piecing);
  CHECK(labels(p) == std::vector<std::string>{"A1", "A2", "A1R", "A2R"});
  const std::vector<Piece>& pieces = p.piecing->pieces;
  for (PieceId i = 0; i < 4; ++i) {
    REQUIRE(pieces[i].mirror_of);
    CHECK(*pieces[i].mirror_of == (i + 2) % 4);
    CHECK(pieces[i].fabric == pieces[*pieces[i].mirror_of].fabric);
    CHECK(mirrored_pose(pieces[i].shape) == pieces[*pieces[i].mirror_of].shape);
    CHECK(p.piecing->sizes[0].pieces.at(i) == 1);
  }
  // Nothing lies mirrored any more: every way from piece to top is a turn and a shift.
  for (const PlacedPiece& placed : flatten(*p.piecing, p.piecing->sizes[0].top)) {
    CHECK_FALSE(placed.where.mirrored);
  }
}

TEST_CASE("flipping twice gives the unit itself") {
  const test::Planned p = test::plan_block(
      slanted("  other: {row: [pair flipped, pair]}\nrow: [pair, pair flipped, other flipped]\n"),
      "red: red, blue: blue");
  INFO(p.errors());
  REQUIRE(p.piecing);
  CHECK(p.piecing->pieces.size() == 4);
  // `other flipped` is a pair flipped, then a pair; sewn from the two units made before.
  long long pairs = 0;
  for (const auto& [unit, n] : p.piecing->sizes[0].make) {
    const std::string& name = p.piecing->units[unit].name;
    if (name == "pair" || name == "reversed pair") {
      CHECK(n == 2);
      ++pairs;
    }
  }
  CHECK(pairs == 2);
}

TEST_CASE("flipped is mirrored first and turned then, in units within units") {
  const test::Planned p =
      test::plan_block(slanted("  quarter: {row: [pair]}\n"
                               "row: [quarter turned 90, quarter turned 90 flipped]\n"),
                       "red: red, blue: blue");
  INFO(p.errors());
  REQUIRE(p.checked);
  // A pair turned a quarter clockwise has its left piece on top; flipped first, its right one.
  const PartId block = p.checked->block_parts[0];
  std::vector<FabricId> top(2);
  for (const FlatPatch& f : flatten(*p.checked, block)) {
    const Part& part = p.checked->parts[f.patch];
    const Box box = bounds(f.where.apply(part.outline));
    if (box.least.y.is_zero()) top[box.least.x.is_zero() ? 0 : 1] = part.fabric;
  }
  CHECK(top == std::vector<FabricId>{0, 1});
}

TEST_CASE("a symmetric unit is not made twice for being flipped") {
  const test::Planned p = test::plan_block(
      "block: B\ngrid: square\nunit: 1 in\nroles: [red, blue]\nunits:\n"
      "  sky: {shape: quarter-square triangle 2, fabric: red}\n"
      "  wing: {shape: half-square triangle 1, fabric: blue}\n"
      "  goose:\n    shape: rectangle 2 x 1\n    place:\n"
      "      - {unit: sky, at: [1, 0]}\n      - {unit: wing turned 90, at: [0, 0]}\n"
      "      - {unit: wing turned 180, at: [1, 0]}\n"
      "stack: [goose, goose flipped]\n",
      "red: red, blue: blue");
  INFO(p.errors());
  REQUIRE(p.piecing);
  CHECK(p.piecing->pieces.size() == 2);
  int geese = 0;
  for (const SewnUnit& u : p.piecing->units) geese += u.name == "goose" ? 1 : 0;
  CHECK(geese == 1);
}
