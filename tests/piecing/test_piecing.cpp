#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "base/files.h"
#include "diag/print.h"
#include "piecing/piecing.h"
#include "support/project.h"

using namespace dogear;

namespace {

struct Sewn {
  std::optional<CheckedPattern> checked;
  std::optional<Piecing> piecing;
  Diagnostics diagnostics;
  Sources sources;

  const SewnUnit* unit(const std::string& name) const {
    for (const SewnUnit& u : piecing->units) {
      if (u.name == name) return &u;
    }
    return nullptr;
  }
  long long make(const std::string& name, std::size_t size = 0) const {
    long long n = 0;
    for (const auto& [id, count] : piecing->sizes[size].make) {
      if (piecing->units[id].name == name) n += count;
    }
    return n;
  }
};

Sewn sew(const std::string& folder, const Files& files) {
  Sewn out;
  auto pattern = load_pattern(folder, files, out.sources, out.diagnostics);
  if (pattern) out.checked = check_pattern(std::move(*pattern), out.diagnostics);
  if (out.checked) out.piecing = plan_piecing(*out.checked, out.diagnostics);
  INFO(print_for_people(out.diagnostics, out.sources, false));
  REQUIRE((out.piecing || out.diagnostics.has_errors()));
  return out;
}

Sewn sew_two(const std::string& block) {
  MemoryFiles files;
  files.content["p/blocks/b.yaml"] = block;
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\nfabrics:\n  red: {colour: \"#aa2222\"}\n  blue: {colour: "
      "\"#222266\"}\n"
      "rulers: {straight: {angle: 90, highest: 24 in}}\n"
      "blocks: {b: {block: b}}\nsizes: {one: {setting: rows, rows: [[b, b]]}}\n";
  return sew("p", files);
}

}  // namespace

TEST_CASE("a unit turned is the same unit: counted once as Make N") {
  const Sewn s = sew(test::project_folder() + "/patterns/tide-star", DiskFiles());
  REQUIRE(s.piecing);
  // Nine stars of four geese, two colourings; the top row and the bottom row are one unit turned.
  CHECK(s.make("goose") == 36);
  CHECK(s.make("top") == 18);
  CHECK(s.make("across") == 9);
  CHECK(s.make("row 1") == 2);
  CHECK(s.make("sashing row") == 4);
}

TEST_CASE("halves of hexagons are sewn into rows, never set in") {
  const Sewn s = sew(test::project_folder() + "/patterns/harbor-lights", DiskFiles());
  REQUIRE(s.piecing);
  // Each hexagon block is made twice from two equal halves.
  CHECK(s.make("ray") == 16);
  const SewnUnit* center = s.unit("center");
  REQUIRE(center != nullptr);
  CHECK(center->inputs.size() == 10);
  CHECK(center->seams.size() == 9);
  for (const SewnUnit& u : s.piecing->units) {
    CHECK(u.seams.size() + 1 == u.inputs.size());
    for (const Seam& seam : u.seams) CHECK(seam.first < seam.second);
  }
}

TEST_CASE("a mirrored piece is another piece, a turned one is not") {
  const Sewn s = sew_two(
      "block: B\ngrid: square\nunit: 2 in\nroles: [red, blue]\nunits:\n"
      "  left: {corners: [[0, 0], [2, 1], [0, 1]], fabric: red}\n"
      "  right: {corners: [[0, 0], [2, 0], [2, 1]], fabric: blue}\n"
      "shape: rectangle 2 x 1\nplace:\n  - {unit: left, at: [0, 0]}\n  - {unit: right, at: [0, "
      "0]}\n");
  REQUIRE(s.piecing);
  // The two halves of a rectangle are each other's half turn: one shape, two fabrics.
  REQUIRE(s.piecing->pieces.size() == 2);
  CHECK(s.piecing->pieces[0].shape == s.piecing->pieces[1].shape);
  CHECK(s.piecing->pieces[0].letter == s.piecing->pieces[1].letter);
  CHECK(s.piecing->pieces[0].label(s.checked->pattern) == "A1");
  CHECK(s.piecing->pieces[1].label(s.checked->pattern) == "A2");
}

TEST_CASE("grain: legs of a half-square triangle are straight, its long edge is bias") {
  const Sewn s = sew_two(
      "block: B\ngrid: square\nunit: 1 in\nroles: [red, blue]\nunits:\n"
      "  a: {shape: half-square triangle 4, fabric: red}\n"
      "  b: {shape: half-square triangle 4, fabric: blue}\n"
      "shape: square 4\nplace:\n  - {unit: a, at: [0, 0]}\n  - {unit: b turned, at: [0, 0]}\n");
  REQUIRE(s.piecing);
  int straight = 0;
  int bias = 0;
  for (const EdgeGrain& e : edges(*s.piecing, {0, Transform{}})) {
    (e.thread == Thread::bias ? bias : straight) += 1;
  }
  CHECK(straight == 2);
  CHECK(bias == 1);
  const SewnUnit* block = s.unit("B");
  REQUIRE(block != nullptr);
  REQUIRE(block->seams.size() == 1);
  CHECK(block->seams[0].first_has_bias);
  CHECK(block->seams[0].second_has_bias);
  // common practice: press towards the darker cloth, here blue.
  const std::size_t darker =
      block->seams[0].press == Press::to_first ? block->seams[0].first : block->seams[0].second;
  CHECK(s.piecing->pieces[block->inputs[darker].piece].fabric == 1);
}

TEST_CASE("a block that needs a set-in seam is refused at its name with the corner") {
  const Sewn s = sew_two(
      "block: B\ngrid: square\nunit: 1 in\nroles: [red, blue]\nunits:\n"
      "  side: {shape: rectangle 2 x 1, fabric: red}\n"
      "  middle: {shape: square 1, fabric: blue}\n"
      "shape: square 3\nplace:\n"
      "  - {unit: side, at: [0, 0]}\n  - {unit: side turned 90, at: [2, 0]}\n"
      "  - {unit: side, at: [1, 2]}\n  - {unit: side turned 90, at: [0, 1]}\n"
      "  - {unit: middle, at: [1, 1]}\n");
  CHECK_FALSE(s.piecing);
  REQUIRE(s.diagnostics.error_count() == 1);
  const Diagnostic& d = s.diagnostics.all().front();
  CHECK(d.code == "D301");
  CHECK(d.message.find("1 in from the left") != std::string::npos);
}

TEST_CASE("pieces counted through the steps equal pieces drawn in the top") {
  for (const std::string name : {"harbor-lights", "tide-star"}) {
    const Sewn s = sew(test::project_folder() + "/patterns/" + name, DiskFiles());
    REQUIRE(s.piecing);
    for (const SizeSewing& size : s.piecing->sizes) {
      std::map<PieceId, long long> drawn;
      for (const PlacedPiece& p : flatten(*s.piecing, size.top)) ++drawn[p.piece];
      CHECK(drawn == size.pieces);
      // And every placed piece lies where a patch of its fabric is drawn.
      std::vector<std::pair<FabricId, Polygon>> sewn;
      for (const PlacedPiece& p : flatten(*s.piecing, size.top)) {
        const Piece& piece = s.piecing->pieces[p.piece];
        sewn.emplace_back(piece.fabric, tidy(p.where.apply(piece.shape)));
      }
      std::vector<std::pair<FabricId, Polygon>> patches;
      for (const FlatPatch& p : flatten(*s.checked, s.checked->sizes[size.size].top)) {
        const Part& part = s.checked->parts[p.patch];
        patches.emplace_back(part.fabric, tidy(p.where.apply(part.outline)));
      }
      std::sort(sewn.begin(), sewn.end());
      std::sort(patches.begin(), patches.end());
      CHECK(sewn == patches);
    }
  }
}

TEST_CASE("units that lie round each other are opened where their patches can be sewn straight") {
  const Sewn s = sew_two(
      "block: Whirl\ngrid: square\nroles: [red, blue]\nunits:\n"
      "  one: {shape: square 1, fabric: red}\n  middle: {shape: square 1, fabric: blue}\n"
      "  lying: {row: [one, one]}\n  standing: {stack: [one, one]}\nshape: square 3\nplace:\n"
      "  - {unit: lying, at: [0, 0]}\n  - {unit: standing, at: [2, 0]}\n"
      "  - {unit: lying, at: [1, 2]}\n  - {unit: standing, at: [0, 1]}\n"
      "  - {unit: middle, at: [1, 1]}\n");
  REQUIRE(s.piecing);
  const SewnUnit* whirl = s.unit("Whirl");
  REQUIRE(whirl != nullptr);
  // Three rows of three: the outer ones alike, so two steps and the block.
  CHECK(whirl->inputs.size() == 3);
  for (const Seam& seam : whirl->seams) CHECK(seam.kind == SeamKind::straight);
  CHECK(s.make("Whirl section 1") == 4);
}

TEST_CASE("a unit lies in its own step as it lies in the unit that takes it") {
  const Sewn s = sew(test::project_folder() + "/patterns/reed-bed", DiskFiles());
  REQUIRE(s.piecing);
  // The pattern turns the window by three quarters; the goose is taken in more ways than one.
  const SewnUnit* across = s.unit("across");
  REQUIRE(across != nullptr);
  std::set<int> turns;
  for (const Input& in : across->inputs) {
    if (s.piecing->units[in.unit].name == "window") CHECK(in.where.turn == 0);
    if (s.piecing->units[in.unit].name == "goose") turns.insert(in.where.turn);
  }
  CHECK(turns.size() == 2);
}

TEST_CASE("however units are turned, the patches of a top lie where the pattern has them") {
  const std::string base = "tests/patterns/base/";
  for (const std::string& demo :
       {std::string("patterns/harbor-lights"), std::string("patterns/reed-bed"),
        std::string("patterns/tide-star"), std::string("patterns/uferwiese"), base + "grain",
        base + "hexes", base + "lamp", base + "methods", base + "pair", base + "path",
        base + "star", base + "whirl"}) {
    const Sewn s = sew(test::project_folder() + "/" + demo, DiskFiles());
    REQUIRE(s.piecing);
    for (std::size_t size = 0; size < s.checked->sizes.size(); ++size) {
      INFO(demo << " " << size);
      std::multiset<std::pair<FabricId, std::vector<Point>>> drawn, sewn;
      for (const FlatPatch& patch : flatten(*s.checked, s.checked->sizes[size].top)) {
        const Part& part = s.checked->parts[patch.patch];
        drawn.emplace(part.fabric, tidy(patch.where.apply(part.outline)).corners);
      }
      for (const PlacedPiece& placed : flatten(*s.piecing, s.piecing->sizes[size].top)) {
        const Piece& piece = s.piecing->pieces[placed.piece];
        sewn.emplace(piece.fabric, tidy(placed.where.apply(piece.shape)).corners);
      }
      CHECK(drawn == sewn);
      for (const SewnUnit& unit : s.piecing->units) {
        Exact of_parts;
        for (const Input& in : unit.inputs)
          of_parts = of_parts + area(in.is_piece ? s.piecing->pieces[in.piece].shape
                                                 : s.piecing->units[in.unit].outline);
        INFO(unit.name);
        CHECK(of_parts == area(unit.outline));
        const Box box = bounds(unit.outline);
        for (const Seam& seam : unit.seams) {
          for (const Point& end : {seam.where.a, seam.where.b}) {
            CHECK(box.least.x <= end.x);
            CHECK(end.x <= box.most.x);
            CHECK(box.least.y <= end.y);
            CHECK(end.y <= box.most.y);
          }
        }
      }
    }
  }
}

TEST_CASE("a unit that is turned is read from left to right, or from top to bottom, again") {
  for (const std::string turn : {"turned", "turned 90", "turned 270"}) {
    INFO(turn);
    const bool upright = turn != "turned";
    const Sewn s = sew_two(
        "block: B\ngrid: square\nunit: 1 in\nroles: [red, blue]\nunits:\n"
        "  a: {shape: rectangle 1 x 2, fabric: red}\n"
        "  b: {shape: rectangle 2 x 2, fabric: blue}\n"
        "  c: {shape: rectangle 3 x 2, fabric: red}\n"
        "  trio: {row: [a, b, c]}\n"
        "  d: {shape: " +
        std::string(upright ? "rectangle 1 x 6" : "rectangle 6 x 1") + ", fabric: blue}\n" +
        (upright ? "row" : "stack") + ": [d, trio " + turn + "]\n");
    REQUIRE(s.piecing);
    const SewnUnit* trio = s.unit("trio");
    REQUIRE(trio != nullptr);
    REQUIRE(trio->inputs.size() == 3);
    for (std::size_t i = 0; i < 2; ++i) {
      const auto box = [&](std::size_t n) {
        const Input& in = trio->inputs[n];
        return bounds(in.where.apply(s.piecing->pieces[in.piece].shape));
      };
      CHECK((upright ? box(i).most.y == box(i + 1).least.y : box(i).most.x == box(i + 1).least.x));
      CHECK(trio->seams[i].first == i);
      CHECK(trio->seams[i].second == i + 1);
      // common practice: towards the darker cloth, here blue in the middle.
      CHECK(trio->seams[i].press == (i == 0 ? Press::to_second : Press::to_first));
    }
    for (const SewnUnit& unit : s.piecing->units)
      for (const Input& in : unit.inputs)
        if (!in.is_piece && &s.piecing->units[in.unit] == trio) CHECK(in.where.turn == 0);
  }
}
