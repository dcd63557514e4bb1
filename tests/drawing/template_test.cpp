// Templates in their true size, and smaller with measures where they are larger than the room.

#include <set>

#include "drawing/figure.h"
#include "look.h"
#include "support/fonts.h"
#include "support/plan.h"

using namespace dogear;

namespace {

test::Planned block(const std::string& unit) {
  return test::plan_block("block: B\ngrid: square\nunit: " + unit +
                              "\nroles: [red, blue]\nunits:\n"
                              "  slope: {shape: half-rectangle triangle 2 x 4, fabric: red}\n"
                              "  side: {shape: half-rectangle triangle 2 x 4, fabric: blue}\n"
                              "  one:\n    shape: rectangle 2 x 4\n    place:\n"
                              "      - {unit: slope, at: [0, 0]}\n"
                              "      - {unit: side turned, at: [0, 0]}\n"
                              "row: [one, one flipped]\n",
                          "red: red, blue: blue");
}

}  // namespace

TEST_CASE("a template is drawn 72 points to the inch, one for a shape and its mirror image") {
  const test::Planned p = block("1 in");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts()};
  const std::vector<TemplateUse> templates = templates_of(scene, 0);
  REQUIRE(templates.size() == 1);
  CHECK(templates[0].pieces.size() == 4);
  CHECK(template_fits(scene, 0, templates[0], 468, 600));
  const auto figure = draw_figure(scene, 0, "template/A1", 468, 600);
  REQUIRE(figure);
  const CutPiece* cut = test::find_piece(p, 0, "half-rectangle triangle");
  REQUIRE(cut != nullptr);
  const Box box = bounds(cut->cut.cut_shape);
  constexpr double line = 0.9;
  CHECK(figure->width == Approx(box.width().approx() * 72 + line).margin(1.0));
  CHECK(figure->height == Approx(box.height().approx() * 72 + line).margin(1.0));
  CHECK(figure->alt.find("in its true size") != std::string::npos);
  const auto square = draw_figure(scene, 0, "template/test-square", 468, 600);
  REQUIRE(square);
  CHECK(square->width == Approx(72 + line).margin(0.2));
  CHECK(square->height == Approx(72 + line).margin(0.2));
  CHECK_FALSE(draw_figure(scene, 0, "template/Z9", 468, 600));
}

TEST_CASE("a template larger than its room is drawn smaller, with its edges measured") {
  const test::Planned p = block("4 in");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts()};
  CHECK_FALSE(template_fits(scene, 0, templates_of(scene, 0)[0], 468, 600));
  const auto figure = draw_figure(scene, 0, "template/A1", 468, 600);
  REQUIRE(figure);
  CHECK(figure->width <= 468);
  CHECK(figure->height <= 600);
  CHECK(figure->alt.find("smaller than its size") != std::string::npos);
}

TEST_CASE("a curved template larger than its room says its radius, not the length of its chords") {
  const test::Planned p = test::plan_block(
      "block: B\ngrid: square\nunit: 4 in\nroles: [red, blue]\nunits:\n"
      "  round: {shape: quarter circle 3, fabric: red}\n"
      "  ground: {shape: quarter-circle background 3 to 4, fabric: blue}\n"
      "shape: square 4\nplace:\n  - {unit: ground, at: [0, 0]}\n  - {unit: round, at: [0, 1]}\n",
      "red: red, blue: blue");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts()};
  REQUIRE(templates_of(scene, 0).size() == 2);
  const auto figure = draw_figure(scene, 0, "template/A1", 468, 600);
  const auto other = draw_figure(scene, 0, "template/B2", 468, 600);
  REQUIRE(figure);
  REQUIRE(other);
  std::multiset<std::string> words;
  for (const auto* f : {&*figure, &*other}) {
    for (const canvas::GlyphRun& run : look::at(*f->list).runs) words.insert(run.text());
  }
  // Convex 12 + 1/4, concave 12 - 1/4; the square's sides are 16 + 1/2.
  CHECK(words.count("radius 12.25 in") == 1);
  CHECK(words.count("radius 11.75 in") == 1);
  CHECK(words.count("16.5 in") == 2);
}
