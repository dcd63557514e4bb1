// Templates in their true size, and smaller with measures where they are larger than the room.

#include <map>
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
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts(), english_words()};
  const std::vector<TemplateUse> templates = templates_of(scene, 0);
  REQUIRE(templates.size() == 1);
  CHECK(templates[0].pieces.size() == 4);
  CHECK(whole_template(scene, 0, templates[0], {468, 600}));
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
  CHECK(square->width == Approx(5 / 2.54 * 72 + line).margin(0.01));
  CHECK(square->height == Approx(5 / 2.54 * 72 + line).margin(0.01));
  CHECK_FALSE(draw_figure(scene, 0, "template/Z9", 468, 600));
}

TEST_CASE("a template larger than its room is drawn smaller, with its edges measured") {
  const test::Planned p = block("4 in");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts(), english_words()};
  CHECK_FALSE(whole_template(scene, 0, templates_of(scene, 0)[0], {468, 600}));
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
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts(), english_words()};
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

TEST_CASE("a template that fits only standing is turned a quarter") {
  const test::Planned p = block("1 in");
  REQUIRE(p.quantities);
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts(), english_words()};
  const TemplateUse use = templates_of(scene, 0)[0];
  const auto lying = whole_template(scene, 0, use, {468, 600});
  REQUIRE(lying);
  CHECK(lying->width != Approx(lying->height).margin(20));
  const auto standing = whole_template(scene, 0, use, {lying->height + 1, lying->width + 1});
  REQUIRE(standing);
  CHECK(standing->width == Approx(lying->height).margin(0.01));
  CHECK(standing->height == Approx(lying->width).margin(0.01));
}

TEST_CASE("the middle of a curve is marked on both pieces that meet there, across the allowance") {
  const test::Planned p = test::plan_block(
      "block: B\ngrid: square\nunit: 1 in\nroles: [red, blue]\nunits:\n"
      "  round: {shape: quarter circle 3, fabric: red}\n"
      "  ground: {shape: quarter-circle background 3 to 4, fabric: blue}\n"
      "shape: square 4\nplace:\n  - {unit: ground, at: [0, 0]}\n  - {unit: round, at: [0, 1]}\n",
      "red: red, blue: blue");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts(), english_words()};
  for (const std::string label : {"A1", "B2"}) {
    CAPTURE(label);
    const auto figure = draw_figure(scene, 0, "template/" + label, 468, 600);
    REQUIRE(figure);
    std::size_t marks = 0;
    for (const canvas::Shape& shape : look::at(*figure->list).shapes) {
      const std::vector<canvas::Point>& ends = shape.path.points();
      if (ends.size() != 2 || shape.style.width != Approx(1.2)) continue;
      ++marks;
      // A quarter inch long, at 45°: the curve is a quarter circle.
      CHECK(std::abs(ends[0].x - ends[1].x) == Approx(18 * std::sqrt(0.5)).margin(0.05));
      CHECK(std::abs(ends[0].y - ends[1].y) == Approx(18 * std::sqrt(0.5)).margin(0.05));
    }
    CHECK(marks == 1);
  }
}

TEST_CASE("an edge is marked where a corner of what is sewn to it comes") {
  // The long slope meets two triangles; their corners meet in its middle.
  const test::Planned p = test::plan_block(
      "block: B\ngrid: square\nunit: 1 in\nroles: [red, blue]\nunits:\n"
      "  slope: {corners: [[0, 0], [6, 3], [0, 3]], fabric: red}\n"
      "  top: {corners: [[0, 0], [6, 0], [3, 1 1/2]], fabric: blue}\n"
      "  side: {corners: [[3, 1 1/2], [6, 0], [6, 3]], fabric: red}\n"
      "shape: rectangle 6 x 3\nplace:\n  - {unit: slope, at: [0, 0]}\n"
      "  - {unit: top, at: [0, 0]}\n  - {unit: side, at: [6, 0]}\n",
      "red: red, blue: blue");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts(), english_words()};
  std::map<std::string, std::size_t> marks;
  for (const TemplateUse& use : templates_of(scene, 0)) {
    const auto figure = whole_template(scene, 0, use, {600, 600});
    REQUIRE(figure);
    std::size_t& n = marks[scene.piecing.pieces[use.pieces.front()].label(scene.checked.pattern)];
    for (const canvas::Shape& shape : look::at(*figure->list).shapes)
      n += shape.path.points().size() == 2 && shape.style.width == Approx(1.2) ? 1 : 0;
  }
  std::size_t all = 0;
  for (const auto& [label, n] : marks) all += n;
  CHECK(all == 1);
}
