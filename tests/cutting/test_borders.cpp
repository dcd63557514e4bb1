// Borders along the length of the cloth, mitred and pieced, from the source to the cloth.

#include <catch2/catch.hpp>

#include "cutting/border_cut.h"
#include "cutting/cut_shape.h"
#include "cutting/fact_names.h"
#include "support/plan.h"
#include "support/trade.h"

using namespace dogear;
using dogear::test::f;

namespace {

// A top of 30 × 40 of plain squares of 10, with these borders.
test::Planned bordered(const std::string& borders, const std::string& more = "") {
  MemoryFiles files;
  files.content["p/blocks/b.yaml"] =
      "block: B\ngrid: square\nunit: 5 in\nroles: [l, d]\nshape: square 2\nunits:\n"
      "  a: {shape: rectangle 1 x 2, fabric: l}\n  e: {shape: rectangle 1 x 2, fabric: d}\n"
      "row: [a, e]\n";
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\nfabrics:\n"
      "  red: {colour: \"#aa2222\"}\n  blue: {colour: \"#2222aa\"}\n"
      "  birds: {colour: \"#888888\", directional: yes}\n"
      "rulers:\n  straight: {angle: 90, highest: 24 in}\n"
      "blocks:\n  b: {block: b, fabrics: {l: red, d: blue}}\n"
      "  c: {block: b, fabrics: {l: blue, d: red}}\n"
      "sizes:\n  one:\n    setting: rows\n"
      "    rows: [[b, b, b], [b, b, b], [b, b, b], [b, b, b]]\n    borders: " +
      borders + "\n" + more;
  return test::plan("p", files);
}

const SizeQuantities& size_of(const test::Planned& p) { return p.quantities->sizes[0]; }

const FabricNeed& need_of(const test::Planned& p, const std::string& fabric) {
  for (const FabricNeed& need : size_of(p).fabrics) {
    if (p.checked->pattern.fabrics[need.fabric].id == fabric) return need;
  }
  throw std::runtime_error("not used: " + fabric);
}

// The cuts of one fabric's border, longest first.
std::vector<const CutPiece*> border_cuts(const test::Planned& p, const std::string& fabric,
                                         const Fraction& strip) {
  std::vector<const CutPiece*> out;
  for (const CutPiece& c : size_of(p).pieces) {
    const Piece& piece = p.piecing->pieces[c.piece];
    if (p.checked->pattern.fabrics[piece.fabric].id == fabric && c.cut.strip == strip) {
      out.push_back(&c);
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const CutPiece* a, const CutPiece* b) {
    return Exact(a->cut.length) > Exact(b->cut.length);
  });
  return out;
}

const SewnUnit& top_of(const test::Planned& p) { return p.piecing->units[p.piecing->sizes[0].top]; }

}  // namespace

TEST_CASE("a border along the length: one piece a side, its long edges on the lengthwise thread") {
  const auto p = bordered("[{fabric: red, width: 4 in, cut: along the length}]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const auto cuts = border_cuts(p, "red", f(9, 2));
  REQUIRE(cuts.size() == 2);
  CHECK(cuts[0]->cut.length == f(81, 2));  // the sides, 40 + 1/2
  CHECK(cuts[1]->cut.length == f(77, 2));  // over the whole width, 30 + 8 + 1/2
  for (const CutPiece* c : cuts) {
    CHECK(c->cut.method == CutMethod::lengthwise);
    CHECK(c->count == 2);
    const Piece& piece = p.piecing->pieces[c->piece];
    CHECK(piece.along);
    for (const EdgeGrain& e : edges(*p.piecing, {c->piece, Transform{}})) {
      const bool level = e.where.a.y == e.where.b.y;
      CHECK(e.thread == (level ? Thread::lengthwise : Thread::crosswise));
    }
  }
}

TEST_CASE("borders of a directional print: the sides along the length, top and bottom across") {
  const auto p = bordered("[{fabric: birds, width: 4 in}]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK_FALSE(p.has("D356"));
  const auto cuts = border_cuts(p, "birds", f(9, 2));
  REQUIRE(cuts.size() == 2);
  CHECK(cuts[0]->cut.method == CutMethod::lengthwise);
  CHECK(cuts[1]->cut.method == CutMethod::rectangle);
  // Cut one way all round, two of the four do not stand upright.
  CHECK(bordered("[{fabric: birds, width: 4 in, cut: across the width}]").has("D356"));
  CHECK(bordered("[{fabric: birds, width: 4 in, cut: along the length}]").has("D356"));
}

TEST_CASE("the same border across and along: a longer one is joined, or needs no join") {
  const auto across = bordered("[{fabric: red, width: 4 in}, {fabric: blue, width: 3 in}]");
  REQUIRE(across.quantities);
  CHECK(border_cuts(across, "blue", f(7, 2))[0]->cut.method == CutMethod::joined_strip);
  const auto along =
      bordered("[{fabric: red, width: 4 in}, {fabric: blue, width: 3 in, cut: along the length}]");
  REQUIRE(along.quantities);
  CHECK(border_cuts(along, "blue", f(7, 2))[0]->cut.method == CutMethod::lengthwise);
}

TEST_CASE("a mitred border is cut as long as its outer side, with allowances and 2 in to spare") {
  // common practice: 2 to 5 in more than the outer side.
  const auto p = bordered("[{fabric: red, width: 4 in, corners: mitred}]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const auto cuts = border_cuts(p, "red", f(9, 2));
  REQUIRE(cuts.size() == 2);
  CHECK(cuts[0]->cut.length == f(101, 2));  // 40 + 8 + 1/2 + 2
  CHECK(cuts[0]->cut.method == CutMethod::joined_strip);
  CHECK(cuts[1]->cut.length == f(81, 2));  // 30 + 8 + 1/2 + 2
  CHECK(cuts[1]->cut.method == CutMethod::rectangle);
  for (const CutPiece* c : cuts) {
    const Piece& piece = p.piecing->pieces[c->piece];
    CHECK(piece.mitred);
    const Box cut = bounds(c->cut.cut_shape);
    // What is sewn lies within what is cut: even its sharp corners, which the strip's end cuts off.
    CHECK(cut.height() == Exact(c->cut.strip));
    CHECK(cut.width() <= Exact(c->cut.length));
    CHECK(cut_area(piece, c->cut) < c->cut.length.approx() * c->cut.strip.approx());
  }
}

TEST_CASE(
    "mitred borders are sewn in one step: four sides, then four corners from the inside out") {
  const auto p = bordered("[{fabric: red, width: 4 in, corners: mitred}]");
  REQUIRE(p.piecing);
  const SewnUnit& top = top_of(p);
  CHECK(top.name == "border");
  REQUIRE(top.inputs.size() == 5);
  REQUIRE(top.seams.size() == 8);
  std::size_t sides = 0;
  for (std::size_t s = 0; s < 8; ++s) {
    const Seam& seam = top.seams[s];
    CHECK(seam.kind == (s < 4 ? SeamKind::stopped : SeamKind::mitre));
    const Point d = seam.where.b - seam.where.a;
    if (s < 4) {
      CHECK((d.x.is_zero() || d.y.is_zero()));
      const Input& to = top.inputs[seam.press == Press::to_first ? seam.first : seam.second];
      CHECK(seam.press != Press::open);
      CHECK((to.is_piece && p.piecing->pieces[to.piece].mitred));
      ++sides;
    } else {
      CHECK(abs(d.x) == abs(d.y));
      CHECK(seam.press == Press::open);
      // The inner end comes first.
      CHECK(seam.path.front().x > Exact(0));
      CHECK(seam.path.front().x < Exact(38));
      CHECK((seam.path.back().x.is_zero() || seam.path.back().x == Exact(38)));
    }
  }
  CHECK(sides == 4);
}

TEST_CASE("mitred borders of a print stand upright on all four sides") {
  const auto p = bordered("[{fabric: birds, width: 4 in, corners: mitred}]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK_FALSE(p.has("D356"));
  CHECK(border_cuts(p, "birds", f(9, 2)).size() == 4);
}

TEST_CASE("mitred borders one round the other, and round butted ones") {
  const auto p = bordered(
      "[{fabric: red, width: 1 in, corners: mitred}, {fabric: blue, width: 2 in}, "
      "{fabric: red, width: 3 in, corners: mitred, cut: along the length}]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(p.checked->sizes[0].width == Exact(42));
  CHECK(top_of(p).seams.size() == 8);
}

TEST_CASE("a pieced border counts its blocks like others and turns their upper edges outward") {
  const auto p = bordered("[{block: c, corners: birds}]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(p.checked->sizes[0].width == Exact(50));
  CHECK(p.checked->sizes[0].height == Exact(60));
  const SizeSewing& sewing = p.piecing->sizes[0];
  REQUIRE(sewing.blocks.size() == 2);
  CHECK(sewing.blocks[1].blocks == 14);  // 3 + 3 + 4 + 4
  std::map<int, int> turns;
  for (const BlockPlace& place : p.checked->sizes[0].places) {
    if (place.use != 1) continue;
    ++turns[place.where.turn];
    // Where it is told to lie is within the border.
    const Box at = bounds(place.where.apply(p.checked->parts[p.checked->block_parts[1]].outline));
    const bool outside = at.least.x.is_zero() || at.least.y.is_zero() || at.most.x == Exact(50) ||
                         at.most.y == Exact(60);
    CHECK(outside);
  }
  CHECK(turns == std::map<int, int>{{0, 3}, {6, 4}, {12, 3}, {18, 4}});
  // The corners of a print stand upright.
  CHECK_FALSE(p.has("D356"));
  CHECK(need_of(p, "birds").uses == std::vector<std::string>{"border"});
}

TEST_CASE("corners of a pieced border may be blocks, turned with their sides") {
  const auto p = bordered("[{block: c, corners: block b}]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(p.piecing->sizes[0].blocks[0].blocks == 12 + 4);
  CHECK(p.piecing->sizes[0].blocks[1].blocks == 14);
}

TEST_CASE("blocks that do not fill a side: the lengths, the nearest, and a spacer that helps") {
  const auto p = bordered("[{fabric: red, width: 2 in}, {block: c, corners: red}]");
  REQUIRE(p.has("D214"));
  CHECK(p.errors().find("the sides (44 in) and the top and bottom (34 in)") != std::string::npos);
  CHECK(p.errors().find("a plain border before it, 3 in wide") != std::string::npos);
  // So it says, and so it is.
  CHECK(bordered("[{fabric: red, width: 2 in}, {fabric: blue, width: 3 in}, "
                 "{block: c, corners: red}]")
            .quantities);
}

TEST_CASE("every fact of borders and finishing has a name that is known") {
  const auto p = bordered(
      "[{fabric: red, width: 2 in, corners: mitred}, {fabric: red, width: 4 in, cut: along the "
      "length}]",
      "    binding: {fabric: red, cut: on the bias}\n    backing: {wide: 108 in}\n"
      "    hanging sleeve: {fabric: blue}\n");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const auto known = facts(*p.checked, *p.piecing, *p.quantities, 0);
  for (const auto& [name, value] : known) {
    INFO(name);
    CHECK(read_fact_name(name).kind != FactKind::other);
  }
  CHECK(known.at("backing.wide-panels") == "1");
  CHECK(known.at("binding.squares") == "1");
  CHECK(known.at("sleeve.strip") == "8 1/2 in");
  CHECK(known.count("binding.strips") == 0);
  // Cut along the length a border is another cut, of a name of its own.
  const std::string along = "cut.red.4-1/2.rectangle-44-1/2-lengthwise";
  REQUIRE(known.count(along) == 1);
  const FactName name = read_fact_name(along);
  CHECK(name.unit == "rectangle");
  CHECK(name.measures == std::vector<Fraction>{f(9, 2), f(89, 2)});
}
