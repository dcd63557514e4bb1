// Mirrored pieces, layers of cloth, and how far rulers reach.

#include "cutting/hands.h"
#include "cutting/reach.h"
#include "support/plan.h"
#include "support/shape.h"

using namespace dogear;

namespace {

Polygon parallelogram() { return tidy({{{0, 0}, {4, 0}, {6, 2}, {2, 2}}}); }

// Bars that lean to the right, and with `both` as many that lean to the left.
test::Planned leaning(const std::string& row, const std::string& layers, int rows = 4) {
  MemoryFiles files;
  files.content["p/blocks/b.yaml"] =
      "block: B\ngrid: triangle\nroles: [a, b]\nunits:\n"
      "  edge: {shape: half-triangle 4, fabric: b}\n"
      "  foot: {corners: [[0, 0], [-2, 4], [-4, 4]], fabric: b}\n"
      "  lean: {corners: [[0, 0], [2, 0], [2, 4], [0, 4]], fabric: a}\n"
      "  back: {corners: [[0, 0], [2, 0], [-2, 4], [-4, 4]], fabric: a}\n"
      "row: [" +
      row + "]\n";
  std::string cells = "[b]";
  for (int i = 1; i < rows; ++i) cells += ", [b]";
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\n" + layers +
      "fabrics:\n  red: {name: Red, colour: \"#aa2222\"}\n"
      "  blue: {name: Blue, colour: \"#2222aa\"}\n"
      "rulers:\n  sixty: {angle: 60, tip: blunt, lowest: 1 in, highest: 8 1/2 in, step: 1/2 in}\n"
      "  straight: {angle: 90, highest: 24 in}\n"
      "blocks:\n  b: {block: b, fabrics: {a: red, b: blue}}\n"
      "sizes:\n  one: {setting: rows, rows: [" +
      cells + "]}\n";
  return test::plan("p", files);
}

const CutPiece& the(const test::Planned& p, const std::string& words) {
  const CutPiece* found = test::find_piece(p, 0, words);
  REQUIRE(found != nullptr);
  return *found;
}

}  // namespace

TEST_CASE("which pieces their mirror image can take the place of") {
  // C. & B., Rotary Cutting 7, 2015: folded or stacked cloth yields mirror images of pieces that
  // are not symmetric.
  for (const char* words :
       {"square 2", "rectangle 2 x 5", "half-square triangle 3", "quarter-square triangle 3"}) {
    CHECK(hand_of(test::shape(words, GridKind::square)) == Hand::alike);
  }
  for (const char* words : {"triangle 3", "trapezoid 2 to 4", "half-hexagon 4", "hexagon 2"}) {
    CHECK(hand_of(test::shape(words, GridKind::triangle)) == Hand::alike);
  }
  CHECK(hand_of(test::shape("half-triangle 4", GridKind::triangle)) == Hand::mirrored);
  CHECK(hand_of(parallelogram()) == Hand::mirrored);
  // A print that must stay upright tells a half-square triangle from its mirror image.
  CHECK(hand_of(test::shape("half-square triangle 3", GridKind::square), true) ==
        Hand::other_grain);
}

TEST_CASE("a diamond's mirror image fits with its grain along the other edge") {
  // C. & B., Rotary Cutting 7, 2015: a 45° star needs half its diamonds mirrored only if the cloth
  // is folded.
  const Exact s = Exact(2) / Exact::sqrt2();
  const Polygon diamond = tidy({{{0, 0}, {2, 0}, {Exact(2) + s, s}, {s, s}}});
  CHECK(hand_of(diamond) == Hand::other_grain);
  CHECK(hand_of(test::shape("diamond 3", GridKind::triangle)) == Hand::other_grain);
}

TEST_CASE("twins in equal numbers come in pairs from folded cloth, without a warning") {
  const auto p = leaning("edge, lean, edge turned", "folded: yes\n");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(p.has("D552"));
  const CutPiece& alone = the(p, "60° parallelogram");
  CHECK(alone.hand == Hand::mirrored);
  CHECK_FALSE(alone.twin);
  CHECK(alone.layers == 1);

  const auto both = leaning("edge, lean, edge turned, foot turned, back, foot", "folded: yes\n");
  INFO(both.errors());
  REQUIRE(both.quantities);
  CHECK_FALSE(both.has("D552"));
  const CutPiece& paired = the(both, "60° parallelogram");
  REQUIRE(paired.twin);
  CHECK(*paired.twin != paired.piece);
  CHECK(paired.layers == 2);
  const auto all = facts(*both.checked, *both.piecing, *both.quantities, 0);
  CHECK(all.at("cut.red.4-1/2.60-parallelogram-2-1/2") == "8");
  CHECK(all.at("cut.red.4-1/2.60-parallelogram-2-1/2.reversed") == "4");
}

TEST_CASE("strips are stacked no deeper than there are strips") {
  const std::string block =
      "block: B\ngrid: square\nunit: 2 in\nroles: [a, b]\nunits:\n"
      "  a: {shape: half-square triangle 1, fabric: a}\n"
      "  b: {shape: half-square triangle 1, fabric: b}\n"
      "  s: {shape: square 1, place: [{unit: a, at: [0, 0]}, {unit: b turned, at: [0, 0]}]}\n"
      "  c: {shape: square 1, fabric: b}\n"
      "  r: {row: [s, s, s, s, s, s, s, s, s, s, s, s, s, s, s, s, s, s, s, s, s, s, s, s, s, s, "
      "s, s, c]}\n"
      "stack: [r, r, r, r]\n";
  // 112 triangles are 56 squares of 2 7/8 in, fourteen a strip: four strips.
  const auto layers_of = [&](const std::string& layers, const std::string& words) {
    const auto p = test::plan_block(block, "a: red, b: blue", layers);
    INFO(p.errors());
    REQUIRE(p.quantities);
    return the(p, words).layers;
  };
  CHECK(layers_of("", "half-square triangle") == 1);
  CHECK(layers_of("layers: 2\n", "half-square triangle") == 2);
  CHECK(layers_of("layers: 4\n", "half-square triangle") == 4);
  // Four plain squares come from a single strip: nothing to stack, but a fold doubles it.
  CHECK(layers_of("layers: 4\n", "square") == 1);
  CHECK(layers_of("folded: yes\n", "square") == 2);
}

TEST_CASE("a piece longer than the ruler is folded, one wider than the ruler is warned of") {
  const auto plan = [](const std::string& shape, const std::string& width) {
    MemoryFiles files;
    files.content["p/blocks/b.yaml"] =
        "block: B\ngrid: square\nunit: 1 in\nroles: [a]\nunits:\n  s: {shape: " + shape +
        ", fabric: a}\nstack: [s, s]\n";
    files.content["p/pattern.yaml"] =
        "title: T\ndesigner: D\nfabrics:\n  red: {name: Red, colour: \"#aa2222\"}\n"
        "rulers:\n  straight: {angle: 90, highest: 24 in" +
        width +
        "}\nblocks:\n  b: {block: b, fabrics: {a: red}}\n"
        "sizes:\n  one: {setting: rows, rows: [[b]]}\n";
    return test::plan("p", files);
  };
  const auto narrow = plan("rectangle 30 x 4", ", width: 6 in");
  INFO(narrow.errors());
  REQUIRE(narrow.quantities);
  CHECK_FALSE(narrow.has("D553"));
  CHECK(beyond_rulers(narrow.checked->pattern, narrow.quantities->sizes[0].pieces[0].cut));
  // A setting square of 18 with a ruler 6 in wide.
  const auto wide = plan("square 18", ", width: 6 in");
  INFO(wide.errors());
  REQUIRE(wide.quantities);
  CHECK(wide.has("D553"));
  CHECK_FALSE(plan("square 18", ", width: 20 in").has("D553"));
  // Nothing is known of a ruler without a width.
  CHECK_FALSE(plan("square 18", "").has("D553"));
}
