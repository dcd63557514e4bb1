// Units on paper foundations: how they are sewn, and the cloth that is cut for them.

#include <algorithm>

#include "support/plan.h"
#include "support/project.h"

using namespace dogear;
using namespace dogear::test;

namespace {

Planned lamps() {
  Planned p = plan(test::project_folder() + "/tests/patterns/base/lamp", DiskFiles());
  INFO(p.errors());
  REQUIRE(p.quantities);
  return p;
}

std::string goose(const std::string& goose_keys, const std::string& sky_keys,
                  const std::string& more) {
  return "block: B\ngrid: square\nunit: 2 in\nroles: [goose, sky]\nunits:\n"
         "  goose: {shape: quarter-square triangle 2, fabric: goose" +
         goose_keys +
         "}\n"
         "  sky: {shape: half-square triangle 1, fabric: sky" +
         sky_keys +
         "}\n"
         "  unit:\n    shape: rectangle 2 x 1\n    place:\n"
         "      - {unit: goose, at: [1, 0]}\n      - {unit: sky turned 90, at: [0, 0]}\n"
         "      - {unit: sky turned 180, at: [1, 0]}\n" +
         more + "stack: [unit, unit turned]\n";
}

const SewnUnit& on_paper(const Planned& p, const std::string& name) {
  for (const SewnUnit& u : p.piecing->units) {
    if (u.name == name && u.foundation) return u;
  }
  FAIL("no foundation " + name);
  return p.piecing->units.front();
}

// Covers the box of the patch with so much more on every side.
bool covers(const Planned& p, const Piece& patch, const Exact& allowance) {
  const PieceCut& cut = p.quantities->cuts[*patch.made_of];
  const Box box = bounds(patch.shape);
  const Exact a = box.width() + allowance * Exact(2), b = box.height() + allowance * Exact(2);
  const Exact wide = max(Exact(cut.strip), Exact(cut.length));
  const Exact narrow = min(Exact(cut.strip), Exact(cut.length));
  return max(a, b) <= wide && min(a, b) <= narrow && cut.method == CutMethod::rectangle;
}

}  // namespace

TEST_CASE("a foundation is one step of patches in order, pressed to the newer one") {
  const Planned p = lamps();
  const SewnUnit& glass = on_paper(p, "glass");
  CHECK(glass.inputs.size() == 6);
  REQUIRE(glass.seams.size() == 5);
  for (std::size_t k = 0; k < glass.seams.size(); ++k) {
    CHECK(glass.seams[k].second == k + 1);
    CHECK(glass.seams[k].first <= k);
    CHECK(glass.seams[k].press == Press::to_second);
    CHECK_FALSE(glass.seams[k].bias_meets);
  }
  // The designer's own order.
  const SewnUnit& point = on_paper(p, "point");
  CHECK(point.foundation->written == std::vector<std::size_t>{0, 1, 3, 2});
  Exact sum;
  for (const Input& in : glass.inputs) sum += area(p.piecing->pieces[in.piece].shape);
  CHECK(sum == area(glass.outline));
}

TEST_CASE("a mirror image has a foundation of its own") {
  const Planned p = lamps();
  const SewnUnit& one = on_paper(p, "point");
  const SewnUnit& other = on_paper(p, "reversed point");
  CHECK(one.inputs.size() == other.inputs.size());
  CHECK(p.piecing->sizes[0].make.size() >= 4);
}

TEST_CASE("what is cut for foundations covers every patch with the allowance, whatever its grain") {
  const Planned p = lamps();
  std::size_t looked = 0;
  for (const SewnUnit& u : p.piecing->units) {
    if (!u.foundation) continue;
    for (const Input& in : u.inputs) {
      const Piece& patch = p.piecing->pieces[in.piece];
      REQUIRE(patch.made_of);
      CHECK(p.piecing->pieces[*patch.made_of].generous);
      CHECK(covers(p, patch, Exact::ratio(3, 4)));
      ++looked;
    }
  }
  CHECK(looked == 14);
  for (int grain = 0; grain < 180; grain += 15) {
    const std::string keys = ", grain: " + std::to_string(grain);
    const Planned turned =
        plan_block(goose(keys, keys, "    foundation: yes\n    foundation allowance: 1/2 in\n"),
                   "goose: red, sky: blue");
    INFO(turned.errors());
    REQUIRE(turned.quantities);
    for (const Input& in : on_paper(turned, "unit").inputs)
      CHECK(covers(turned, turned.piecing->pieces[in.piece], Exact::ratio(1, 2)));
    CHECK(turned.quantities->sizes[0].pieces.size() == 2);
    long long pieces = 0;
    for (const CutPiece& c : turned.quantities->sizes[0].pieces) pieces += c.count;
    CHECK(pieces == 6);
  }
}

TEST_CASE("pieces for foundations are counted into cloth and facts") {
  const Planned p = lamps();
  const auto f = facts(*p.checked, *p.piecing, *p.quantities, 0);
  CHECK(f.at("foundation.lamp.glass") == "3");
  CHECK(f.at("foundation.lamp.point") == "3");
  CHECK(f.at("foundations.count") == "9");
  long long generous = 0;
  for (const auto& [name, value] : f) {
    if (name.find("-generous") != std::string::npos && !name.ends_with(".layers"))
      generous += std::stoll(value);
  }
  CHECK(generous == 3 * 14);
  for (const FabricNeed& need : p.quantities->sizes[0].fabrics)
    CHECK(need.cloth_area ==
          Approx(need.piece_area + need.leftover_area + need.waste_area).margin(1e-6));
}

TEST_CASE("bias within a foundation brings no warning, and at its outer edges it does") {
  const auto centered = [](const std::string& more) {
    return plan_block(
        "block: B\ngrid: square\nunit: 2 in\nroles: [a, b]\nunits:\n"
        "  middle: {corners: [[1, 0], [2, 1], [1, 2], [0, 1]], fabric: a, grain: 0}\n"
        "  corner: {shape: half-square triangle 1, fabric: b}\n"
        "shape: square 2\nplace:\n"
        "  - {unit: middle, at: [1, 0]}\n  - {unit: corner turned 90, at: [0, 0]}\n"
        "  - {unit: corner turned 180, at: [1, 0]}\n  - {unit: corner turned 270, at: [2, 1]}\n"
        "  - {unit: corner, at: [0, 1]}\n" +
            more,
        "a: red, b: blue");
  };
  const Planned sewn = centered("");
  const Planned paper = centered("foundation: yes\n");
  INFO(sewn.errors() << paper.errors());
  REQUIRE(paper.quantities);
  CHECK(sewn.has("D353"));
  CHECK_FALSE(paper.has("D353"));
  const Planned outside =
      plan_block(goose("", ", grain: 45", "    foundation: yes\n"), "goose: red, sky: blue");
  CHECK(outside.has("D351"));
}

TEST_CASE("covers of a directional print lie the way the patch does") {
  MemoryFiles files;
  const DiskFiles disk;
  std::string error;
  for (const char* name : {"/pattern.yaml", "/blocks/lamp.yaml"}) {
    const auto text = disk.read(test::project_folder() + "/tests/patterns/base/lamp" + name, error);
    REQUIRE(text);
    files.content[std::string("p") + name] = *text;
  }
  std::string& pattern = files.content["p/pattern.yaml"];
  const std::string ink = "colour: \"#1b2a49\"";
  pattern.replace(pattern.find(ink), ink.size(), ink + ", directional: yes");
  const Planned p = plan("p", files);
  INFO(p.errors());
  REQUIRE(p.quantities);
  std::size_t looked = 0;
  for (const Piece& piece : p.piecing->pieces) {
    if (!piece.directional || !piece.made_of) continue;
    const PieceCut& cut = p.quantities->cuts[*piece.made_of];
    const Exact spare = Exact::ratio(3, 2);
    CHECK(bounds(piece.shape).height() + spare <= Exact(cut.strip));
    CHECK(bounds(piece.shape).width() + spare <= Exact(cut.length));
    ++looked;
  }
  CHECK(looked >= 4);
}

TEST_CASE("a foundation may be made of bands, rows and ready-made units sewn one at a time") {
  const Planned p = plan_block(
      "block: B\ngrid: square\nunit: 2 in\nroles: [a, b]\nunits:\n"
      "  fan: {shape: square 2, bands: [a 1, b 1/2, a 1/2]}\n"
      "  pair: {shape: half-square triangle unit 2, fabrics: [a, b]}\n"
      "row: [fan, pair]\nfoundation: yes\n",
      "a: red, b: blue");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(on_paper(p, "B").inputs.size() == 5);
  const Planned q = plan_block(
      "block: B\ngrid: square\nunit: 2 in\nroles: [a, b]\nunits:\n"
      "  fan: {shape: square 2, bands: [a 1, b 1/2, a 1/2], foundation: [3, 2, 1]}\n"
      "  pair: {shape: half-square triangle unit 2, fabrics: [a, b], foundation: yes}\n"
      "row: [fan, pair]\n",
      "a: red, b: blue");
  INFO(q.errors());
  REQUIRE(q.quantities);
  CHECK(on_paper(q, "fan").inputs.size() == 3);
  const Planned geese = plan_block(
      "block: B\ngrid: square\nunit: 2 in\nroles: [a, b]\n"
      "shape: flying geese 2 x 1\nfabrics: [a, b]\nfoundation: yes\n",
      "a: red, b: blue");
  INFO(geese.errors());
  REQUIRE(geese.quantities);
  CHECK(geese.piecing->pieces[on_paper(geese, "B").inputs[0].piece].fabric == 0);
  CHECK(on_paper(q, "pair").inputs.size() == 2);
}
