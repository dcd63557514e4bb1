// Tips against the neighbours they are sewn to.

#include "cutting/tips.h"

#include <cmath>

#include "support/plan.h"

using namespace dogear;
using namespace dogear::test;

namespace {

UnitId unit_named(const Planned& p, const std::string& name) {
  for (UnitId id = 0; id < p.piecing->units.size(); ++id) {
    if (p.piecing->units[id].name == name) return id;
  }
  FAIL("no unit " + name);
  return 0;
}

double longest_edge(const Polygon& p) {
  double longest = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Point d = p.at(i + 1) - p.at(i);
    longest = std::max(longest, std::sqrt(dot(d, d).approx()));
  }
  return longest;
}

}  // namespace

TEST_CASE("a flying goose: one tip of each small triangle stands out, 3/8 in") {
  const Planned p = plan_demo("tide-star");
  REQUIRE(p.quantities);
  const UnitId goose = unit_named(p, "goose");
  const auto tips = tips_in(p.checked->pattern, *p.piecing, p.quantities->sizes[0], goose);
  REQUIRE(tips.size() == 2);
  for (const PieceTip& tip : tips) {
    // Computed: a 45° tip reaches q cot 22.5° past its corner, the goose's square one q.
    const double exact = 0.25 * (1 + std::sqrt(2.0)) - 0.25;
    CHECK(tip.beyond == Approx(exact).margin(1e-6));
    CHECK(tip.printed == Fraction::of(3, 8));
    CHECK(tip.degrees == 45);
    CHECK(tip.one_end);
  }
  // Tips trimmed to the neighbour's cut edge: sewn ends match flush (common practice).
  const PieceCut* tooth = nullptr;
  const PieceCut* body = nullptr;
  for (const CutPiece& c : p.quantities->sizes[0].pieces) {
    if (c.piece == tips[0].trim.piece) tooth = &c.cut;
    const Input& other = p.piecing->units[goose].inputs[tips[0].trim.neighbour];
    if (c.piece == other.piece) body = &c.cut;
  }
  REQUIRE(tooth != nullptr);
  REQUIRE(body != nullptr);
  const Polygon goose_full =
      as_cut(p.piecing->pieces[p.piecing->units[goose].inputs[tips[0].trim.neighbour].piece].shape,
             *body, Exact::ratio(1, 4));
  double leg = 1e9;
  for (std::size_t i = 0; i < 3; ++i) {
    const Point d = goose_full.at(i + 1) - goose_full.at(i);
    leg = std::min(leg, std::sqrt(dot(d, d).approx()));
  }
  const Polygon tooth_full =
      as_cut(p.piecing->pieces[tips[0].trim.piece].shape, *tooth, Exact::ratio(1, 4));
  CHECK(longest_edge(tooth_full) - tips[0].beyond == Approx(leg).margin(1e-6));
  // Sewn to the left of one goose and to the right of another it loses another tip each time, so
  // none is cut off beforehand.
  CHECK(tooth->cut_shape == tidy(tooth_full));
}

TEST_CASE("equal corners have no tips to trim") {
  const Planned p = plan_block(
      "block: B\ngrid: square\nunit: 3 in\nroles: [red, blue]\nunits:\n"
      "  a: {shape: half-square triangle 1, fabric: red}\n"
      "  b: {shape: half-square triangle 1, fabric: blue}\n"
      "shape: square 1\nplace:\n  - {unit: a, at: [0, 0]}\n  - {unit: b turned, at: [0, 0]}\n",
      "red: red, blue: blue");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(
      tips_in(p.checked->pattern, *p.piecing, p.quantities->sizes[0], unit_named(p, "B")).empty());
}

TEST_CASE("a square on its point: both tips of each corner triangle stand out alike") {
  const Planned p = plan_block(
      "block: B\ngrid: square\nunit: 3 in\nroles: [red, blue]\nunits:\n"
      "  middle: {corners: [[1, 0], [2, 1], [1, 2], [0, 1]], fabric: red}\n"
      "  corner: {shape: half-square triangle 1, fabric: blue}\n"
      "shape: square 2\nplace:\n  - {unit: middle, at: [1, 0]}\n"
      "  - {unit: corner turned 90, at: [0, 0]}\n  - {unit: corner turned 180, at: [1, 0]}\n"
      "  - {unit: corner, at: [0, 1]}\n  - {unit: corner turned 270, at: [2, 1]}\n",
      "red: red, blue: blue");
  INFO(p.errors());
  REQUIRE(p.quantities);
  std::size_t n = 0;
  for (UnitId id = 0; id < p.piecing->units.size(); ++id) {
    for (const PieceTip& tip :
         tips_in(p.checked->pattern, *p.piecing, p.quantities->sizes[0], id)) {
      if (p.piecing->units[id].inputs[tip.trim.neighbour].is_piece) {
        CHECK(tip.printed == Fraction::of(3, 8));
        CHECK_FALSE(tip.one_end);
      }
      ++n;
    }
  }
  CHECK(n >= 4);
}
