#include <algorithm>
#include <cmath>

#include "support/plan.h"

using namespace dogear;
using test::plan_block;
using test::plan_demo;

namespace {

const std::string star =
    "block: B\ngrid: square\nunit: 3 in\nroles: [a, b]\nunits:\n"
    "  tooth: {shape: half-square triangle 1, fabric: a}\n"
    "  sky: {shape: half-square triangle 1, fabric: b}\n"
    "shape: square 1\nplace:\n  - {unit: tooth, at: [0, 0]}\n  - {unit: sky turned, at: [0, 0]}\n";

long long strips_of(const test::Planned& p, std::size_t size, const std::string& fabric) {
  long long n = 0;
  for (const StripPlan& s : p.quantities->sizes[size].strips) {
    if (p.checked->pattern.fabrics[s.fabric].id == fabric) n += s.times;
  }
  return n;
}

}  // namespace

TEST_CASE("the demo bundle suffices in both sizes, two strips a colour") {
  const auto p = plan_demo("harbor-lights");
  INFO(p.errors());
  REQUIRE(p.quantities);
  for (const SizeQuantities& q : p.quantities->sizes) {
    for (const FabricNeed& need : q.fabrics) {
      if (need.bundle_strips_had == 0) continue;
      CHECK(need.bundle_strips <= 2);
      // A color that a size does not use comes with the bundle all the same, and is listed.
      CHECK((need.bundle_strips >= 1) != need.uses.empty());
    }
  }
}

TEST_CASE("no strip is cut longer than it is, and every piece is cut exactly once") {
  for (const std::string name : {"harbor-lights", "tide-star"}) {
    const auto p = plan_demo(name);
    INFO(p.errors());
    REQUIRE(p.quantities);
    for (const SizeQuantities& q : p.quantities->sizes) {
      std::map<PieceId, long long> cut;
      for (const StripPlan& s : q.strips) {
        for (const Run& r : s.runs) {
          CHECK(Exact(r.x) + Exact(r.length) <= Exact(s.usable));
          CHECK(Exact(r.y) + Exact(r.height) <= Exact(s.height));
          if (r.kind == Run::Kind::piece) cut[r.piece] += r.count * s.times;
          for (const Run& other : s.runs) {
            const bool apart = Exact(r.x) + Exact(r.length) <= Exact(other.x) ||
                               Exact(other.x) + Exact(other.length) <= Exact(r.x) ||
                               Exact(r.y) + Exact(r.height) <= Exact(other.y) ||
                               Exact(other.y) + Exact(other.height) <= Exact(r.y);
            CHECK((apart || &r == &other));
          }
        }
      }
      for (const CutPiece& c : q.pieces) {
        if (c.cut.method != CutMethod::joined_strip) CHECK(cut[c.piece] == c.count);
      }
    }
  }
}

TEST_CASE("cloth equals pieces, leftovers and waste for every fabric") {
  const auto p = plan_demo("harbor-lights");
  REQUIRE(p.quantities);
  for (const SizeQuantities& q : p.quantities->sizes) {
    for (const FabricNeed& n : q.fabrics) {
      CHECK(n.cloth_area == Approx(n.piece_area + n.leftover_area + n.waste_area));
      CHECK(n.waste_area >= 0);
      CHECK(n.cloth_area >= n.piece_area);
    }
  }
}

TEST_CASE("a cut piece is its finished shape with a seam allowance all round, or more") {
  const auto p = plan_demo("harbor-lights");
  REQUIRE(p.quantities);
  for (const CutPiece& c : p.quantities->sizes[0].pieces) {
    const Polygon& finished = p.piecing->pieces[c.piece].shape;
    // Every edge of the cut lies a quarter inch or more outside every corner of the finished piece.
    for (std::size_t i = 0; i < c.cut.cut_shape.size(); ++i) {
      const Point a = c.cut.cut_shape.at(i);
      const Point d = c.cut.cut_shape.at(i + 1) - a;
      const double length = std::sqrt(dot(d, d).approx());
      for (const Point& corner : finished.corners) {
        CHECK(cross(d, corner - a).approx() / length >= 0.25 - 1e-9);
      }
    }
  }
}

TEST_CASE("tips are trimmed where the neighbour is wider") {
  const auto p = plan_demo("harbor-lights");
  REQUIRE(p.quantities);
  // The light tip of a ray: a 60° triangle whose base meets a trapezoid at corners of 120°.
  const CutPiece* tip = test::find_piece(p, 0, "60° triangle");
  REQUIRE(tip != nullptr);
  bool trimmed = false;
  for (const CutPiece& c : p.quantities->sizes[0].pieces) {
    if (p.piecing->pieces[c.piece].shape_words != "60° triangle" || c.cut.strip.approx() != 2.5)
      continue;
    if (c.cut.cut_shape.size() == 6) {
      trimmed = true;
      // Each of the three 60° tips is blunted a quarter inch beyond its corner.
      CHECK(area(c.cut.cut_shape) <
            Exact(Fraction::of(11, 4)) * Exact(Fraction::of(11, 4)) / Exact::sqrt3());
    }
  }
  CHECK(trimmed);
}

TEST_CASE("a bundle that runs out names the colour, the strips short and what finds no cloth") {
  const auto p = plan_block(
      "block: B\ngrid: square\nunit: 2 in\nroles: [a]\nunits:\n  s: {shape: square 1, fabric: a}\n"
      "  r: {row: [s, s, s, s, s, s, s, s, s, s]}\nstack: [r, r, r, r, r, r]\n",
      "a: red", "bundles: {box: {each: 2, fabrics: [red]}}\n");
  // 60 squares of 2 1/2 in, 16 a strip.
  CHECK_FALSE(p.quantities);
  REQUIRE(p.diagnostics.error_count() == 1);
  const Diagnostic& d = p.diagnostics.all().front();
  INFO(p.errors());
  CHECK(d.code == "D501");
  CHECK(d.message.find("4 strips are needed, 2 are in it (2 short)") != std::string::npos);
  REQUIRE(d.notes.size() == 2);
  // 16 + 16 fit the two strips; the other 28 do not.
  CHECK(d.notes[1].message.find("28 of A1") != std::string::npos);
}

TEST_CASE("a cut beyond the described rulers is refused with the line that is missing") {
  const auto p = plan_block(
      "block: B\ngrid: square\nunit: 25 in\nroles: [a]\nunits:\n"
      "  s: {shape: square 1, fabric: a}\nrow: [s, s]\n",
      "a: red");
  CHECK_FALSE(p.quantities);
  INFO(p.errors());
  CHECK(p.errors().find("it needs the 25 1/2 in line") != std::string::npos);
  CHECK(p.has("D502"));
}

TEST_CASE("half-square triangles come two from a square, cloth by the strip") {
  const auto p = plan_block(star, "a: red, b: blue");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const CutPiece* tooth = test::find_piece(p, 0, "half-square triangle");
  REQUIRE(tooth != nullptr);
  CHECK(tooth->cut.length == Fraction::of(31, 8));
  CHECK(strips_of(p, 0, "red") == 1);
  CHECK(strips_of(p, 0, "blue") == 1);
}

TEST_CASE("one line of YAML changes cuts and cloth together, and nothing that does not follow") {
  std::string larger = star;
  larger.replace(larger.find("unit: 3 in"), 10, "unit: 6 in");
  const auto small = plan_block(star, "a: red, b: blue");
  const auto large = plan_block(larger, "a: red, b: blue");
  REQUIRE(small.quantities);
  REQUIRE(large.quantities);
  const auto before = facts(*small.checked, *small.piecing, *small.quantities, 0);
  const auto after = facts(*large.checked, *large.piecing, *large.quantities, 0);
  CHECK(before.at("size.width") == "3 in");
  CHECK(after.at("size.width") == "6 in");
  CHECK(before.contains("cut.red.3-7/8.half-square-triangle"));
  CHECK(after.contains("cut.red.6-7/8.half-square-triangle"));
  // 3 7/8 in and 6 7/8 in of cloth, an inch more for squaring up, bought by the eighth of a yard.
  CHECK(before.at("fabric.red.cut-length") == "3 7/8 in");
  CHECK(after.at("fabric.red.cut-length") == "6 7/8 in");
  CHECK(before.at("fabric.red.cloth") == "1/4 yd");
  CHECK(after.at("fabric.red.cloth") == "1/4 yd");
  CHECK(before.at("make.b.b") == after.at("make.b.b"));
  CHECK(before.at("pieces.count") == after.at("pieces.count"));
}

TEST_CASE("a border longer than the cloth is joined from strips") {
  const auto p =
      plan_block(star, "a: red, b: blue", "", ", borders: [{fabric: grey, width: 30 in}]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  bool joined = false;
  for (const CutPiece& c : p.quantities->sizes[0].pieces) {
    joined = joined || c.cut.method == CutMethod::joined_strip;
  }
  CHECK(joined);
  // Top and bottom 63 1/2 in each: 127 in from strips of 42 joined with 1/2 in seams: four.
  // Both sides finish 3 x 30 in and are cut whole.
  CHECK(strips_of(p, 0, "grey") >= 4);
}

TEST_CASE("the fewest rulers that make every cut") {
  const auto square = plan_demo("tide-star");
  REQUIRE(square.quantities);
  CHECK(square.quantities->sizes[0].rulers.size() == 1);
  const auto sixty = plan_demo("harbor-lights");
  REQUIRE(sixty.quantities);
  CHECK(sixty.quantities->sizes[0].rulers.size() == 2);
}

TEST_CASE("a strip set gives shapes read up and down in turn") {
  const auto p = plan_demo("harbor-lights");
  REQUIRE(p.quantities);
  const auto& sets = p.quantities->sizes[0].strip_sets;
  // Three pairs of fabrics fill two hexagons each, four fill one.
  REQUIRE(sets.size() == 7);
  long long hexagons = 0;
  for (const StripSet& s : sets) {
    CHECK(s.units.size() == 2);
    CHECK((s.need == 2 || s.need == 4));
    hexagons += s.need / 2;
    CHECK(s.sets == 1);
    CHECK(s.extra == 0);
    CHECK(s.cut.strip == Fraction::of(9, 2));
    CHECK(*s.cut.reading == Fraction::of(17, 2));
    CHECK(*s.cut.upper_reading == Fraction::of(4, 1));
    // Half-hexagons, each next to the last turned: 10.104 + 3 x 7.506 in, or one x 7.506, and an
    // inch for the ends.
    CHECK(s.set_lengths.front() == (s.need == 4 ? Fraction::of(269, 8) : Fraction::of(149, 8)));
  }
  CHECK(hexagons == 10);
  CHECK(p.quantities->sizes[1].strip_sets.empty());
}

TEST_CASE("only a blunt tip leaves the strip a quarter inch lower; a pointed ruler serves too") {
  const std::string half =
      "block: B\ngrid: triangle\nunit: 1 in\nroles: [a]\nshape: hexagon 4\nunits:\n"
      "  t: {shape: triangle 4, fabric: a}\n  half: {row: [t, t turned, t]}\n"
      "stack: [half, half turned]\n";
  MemoryFiles files;
  files.content["p/blocks/b.yaml"] = half;
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\nfabrics: {red: {colour: \"#aa2222\"}, grey: {colour: \"#888888\"}}\n"
      "rulers:\n  sixty: {angle: 60, tip: pointed, lowest: 1 in, highest: 12 in, step: 1/4 in}\n"
      "  straight: {angle: 90, highest: 24 in}\nblocks: {b: {block: b, fabrics: {a: red}}}\n"
      "sizes: {one: {setting: hexagon rows, rows: [[b, b]], ground: grey}}\n";
  const auto p = test::plan("p", files);
  INFO(p.errors());
  REQUIRE(p.quantities);
  bool seen = false;
  for (const CutPiece& c : p.quantities->sizes[0].pieces) {
    if (p.piecing->pieces[c.piece].shape_words != "60° triangle") continue;
    seen = true;
    // C. & B., Rotary Cutting 6, 2015: height + 3/4 with a pointed tip.
    CHECK(c.cut.strip == Fraction::of(19, 4));
    CHECK(*c.cut.reading == Fraction::of(19, 4));
  }
  CHECK(seen);
}

TEST_CASE("strip sets whose cuts are all alike waste none of them") {
  // Three strips, the same read from either side: every cut serves both halves.
  MemoryFiles files;
  files.content["p/blocks/b.yaml"] =
      "block: B\ngrid: square\nunit: 2 in\nroles: [a, b]\nunits:\n"
      "  x: {shape: square 2, strip set: [a 1, b 1]}\n  r: {row: [x, x, x, x, x, x, x, x]}\n"
      "stack: [r, r, r, r, r, r, r, r, r, r]\n";
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\nfabrics: {red: {colour: \"#aa2222\"}, grey: {colour: \"#888888\"}}\n"
      "rulers: {straight: {angle: 90, highest: 24 in}}\n"
      "blocks: {b: {block: b, fabrics: {a: red, b: grey}}}\nsizes: {one: {setting: rows, rows: "
      "[[b]]}}\n";
  const auto p = test::plan("p", files);
  INFO(p.errors());
  REQUIRE(p.quantities);
  REQUIRE(p.quantities->sizes[0].strip_sets.size() == 1);
  const StripSet& set = p.quantities->sizes[0].strip_sets[0];
  // Squares of 4 1/2 in, nine from a set 42 in long: 80 take nine sets, with one to spare.
  CHECK(set.need == 80);
  CHECK(set.sets == 9);
  CHECK(set.extra == 0);
}

TEST_CASE("a shape cut from a strip set is not the same unit as one of bands cut by hand") {
  const std::string head = "block: B\ngrid: square\nunit: 2 in\nroles: [a, b]\nunits:\n";
  MemoryFiles files;
  files.content["p/blocks/hand.yaml"] = head +
                                        "  x: {shape: square 2, bands: [a 1, b 1]}\n"
                                        "  y: {shape: square 2, fabric: a}\nrow: [x, y]\n";
  files.content["p/blocks/set.yaml"] = head +
                                       "  x: {shape: square 2, strip set: [a 1, b 1]}\n"
                                       "  y: {shape: square 2, fabric: a}\nrow: [x, y]\n";
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\nfabrics: {red: {colour: \"#aa2222\"}, grey: {colour: \"#888888\"}}\n"
      "rulers: {straight: {angle: 90, highest: 24 in}}\nblocks:\n"
      "  hand: {block: hand, fabrics: {a: red, b: grey}}\n"
      "  set: {block: set, fabrics: {a: red, b: grey}}\n"
      "sizes: {one: {setting: rows, rows: [[hand], [set]]}}\n";
  const auto p = test::plan("p", files);
  INFO(p.errors());
  REQUIRE(p.quantities);
  REQUIRE(p.quantities->sizes[0].strip_sets.size() == 1);
  CHECK(p.quantities->sizes[0].strip_sets[0].need == 1);
  CHECK(test::find_piece(p, 0, "rectangle")->count == 1);
}

TEST_CASE("a square on point is cut along its own edges") {
  const auto p = plan_block(
      "block: B\ngrid: square\nunit: 2 in\nroles: [a, b]\nunits:\n"
      "  middle: {corners: [[1, 0], [2, 1], [1, 2], [0, 1]], fabric: a}\n"
      "  corner: {shape: half-square triangle 1, fabric: b}\n"
      "shape: square 2\nplace:\n  - {unit: middle, at: [1, 0]}\n"
      "  - {unit: corner turned 90, at: [0, 0]}\n  - {unit: corner turned, at: [1, 0]}\n"
      "  - {unit: corner turned 270, at: [2, 1]}\n  - {unit: corner, at: [0, 1]}\n",
      "a: red, b: blue");
  INFO(p.errors());
  REQUIRE(p.quantities);
  // A side of 2√2 in and 1/2 in for seams is 3.328 in, printed 3 3/8 in, and that is said.
  const CutPiece* middle = test::find_piece(p, 0, "square");
  REQUIRE(middle != nullptr);
  CHECK(middle->cut.length == Fraction::of(27, 8));
  CHECK(p.has("D551"));
}

TEST_CASE("nothing is left of bundles and fat quarters that are not bought") {
  MemoryFiles files;
  files.content["p/blocks/b.yaml"] =
      "block: B\ngrid: square\nunit: 3 in\nroles: [l, m]\nshape: rectangle 4 x 2\nunits:\n"
      "  a: {shape: square 2, fabric: l}\n  b: {shape: square 2, fabric: m}\nrow: [a, b]\n";
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\nfabrics:\n"
      "  red: {colour: \"#aa2222\", from: [small, yardage]}\n"
      "  blue: {colour: \"#2222aa\", from: [5 fat quarters]}\n"
      "bundles:\n  small: {square: 5 in, each: 4, fabrics: [red]}\n"
      "rulers:\n  straight: {angle: 90, highest: 24 in}\n"
      "blocks:\n  b: {block: b, fabrics: {l: red, m: blue}}\n"
      "sizes:\n  one: {setting: rows, rows: [[b]]}\n";
  const auto p = test::plan("p", files);
  INFO(p.errors());
  REQUIRE(p.quantities);
  // Squares of 6 1/2 in are higher than the bundle's 5 in; a fat quarter gives the other one.
  const SizeQuantities& q = p.quantities->sizes[0];
  CHECK(q.bundles.empty());
  for (const FabricNeed& need : q.fabrics) {
    CHECK_FALSE(need.leftovers.empty());
    for (const Leftover& l : need.leftovers) CHECK(l.from != Leftover::From::whole_sheet);
  }
}
