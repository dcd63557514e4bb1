// What the booklet tells of ready-made units: the way of each method, how many, and to what size.

#include <algorithm>
#include <catch2/catch.hpp>

#include "booklet/writer.h"
#include "canvas/font.h"
#include "drawing/figure.h"
#include "help.h"
#include "support/project.h"

using namespace dogear;

namespace {

const help::Compiled& pattern() {
  static const auto compiled = [] {
    DiskFiles files;
    return help::compile(test::project_folder() + "/tests/patterns/base/methods", files);
  }();
  return *compiled;
}

struct Steps {
  Diagnostics d;
  booklet::Writer writer{pattern().scene(), 0, help::letter(), d};

  UnitId unit(const std::string& name) const {
    for (const UnitId id : writer.sewing().blocks.at(0).steps) {
      if (writer.scene.piecing.units[id].name == name) return id;
    }
    throw std::runtime_error(name);
  }
  booklet::StepWords words(const std::string& name) const {
    return booklet::step_words(writer, unit(name), {});
  }
  std::string sew(const std::string& name) const {
    return canvas::normal_fractions(words(name).sew);
  }
};

bool has(const std::string& text, const std::string& part) {
  INFO(text);
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("each method is told in its own words, with the labels of its pieces") {
  const Steps steps;
  CHECK(has(steps.sew("pair"), "cut on the line: two pair units."));
  CHECK(has(steps.sew("eight"), "sew 1/4 in from each line on both sides"));
  CHECK(has(steps.sew("eight"), "eight eight units."));
  CHECK(has(steps.sew("hour"), "unlike fabrics facing"));
  CHECK(has(steps.sew("goose"), "four goose units."));
  CHECK(has(steps.sew("duck"), "trim 1/4 in beyond it"));
  CHECK(
      has(steps.sew("snow"), "Sew on the line, trim 1/4 in beyond it, and press the corner out."));
  // The line is drawn on the lighter square, or on the small ones.
  const auto& scene = steps.writer.scene;
  for (const std::string name : {"pair", "goose"}) {
    const SewnUnit& unit = scene.piecing.units[steps.unit(name)];
    const std::size_t marked = name == "goose" ? 1 : 0;
    const std::string label =
        scene.piecing.pieces[unit.batch->takes[marked].piece].label(steps.writer.pattern());
    CHECK(has(steps.sew(name), "wrong side of " + std::string(marked == 1 ? "four " : "") + label));
  }
}

TEST_CASE("steps say how many units the batches make, and how many are extra") {
  const Steps steps;
  // Four blocks, each with one goose, two pairs and two eights; eights come eight at a time.
  CHECK(steps.words("goose").make == "Make 4.");
  CHECK(steps.words("pair").make == "Make 8.");
  CHECK(steps.words("eight").make == "Make 8.");
  CHECK(steps.words("hour").make == "Make 8.");
}

TEST_CASE("units are measured, or trimmed where they were cut larger") {
  const Steps steps;
  CHECK(canvas::normal_fractions(steps.words("pair").measure) ==
        "Measures 2 1/2 in × 2 1/2 in with seam allowances.");
  CHECK(canvas::normal_fractions(steps.words("eight").measure) ==
        "Trim to 2 1/2 in × 2 1/2 in, which is with seam allowances.");
}

TEST_CASE("no bias is warned of where it is sewn before it is cut") {
  const Steps steps;
  CHECK_FALSE(steps.words("pair").two_bias);
  CHECK(steps.words("tile").two_bias);
}

TEST_CASE("the steps of methods are drawn within their room, and told to who listens") {
  const Steps steps;
  const auto& all = steps.writer.sewing().blocks.at(0).steps;
  const auto& scene = steps.writer.scene;
  for (std::size_t n = 0; n < all.size(); ++n) {
    const SewnUnit& unit = scene.piecing.units[all[n]];
    if (!unit.batch) continue;
    INFO(unit.name);
    const auto figure = draw_figure(scene, 0, "step/mix/" + std::to_string(n + 1), 400, 200);
    REQUIRE(figure);
    CHECK(figure->width <= 400.01);
    CHECK(figure->height <= 200.01);
    std::string method(method_words(unit.batch->method));
    CHECK(has(figure->alt, method.substr(1)));
    CHECK(has(figure->alt, "make "));
    for (const bool down : {false, true}) {
      const StepLook look{14, down};
      const FigureRoom room = step_room(scene, 0, all[n], look);
      const Figure drawn = draw_step(scene, 0, all[n], look);
      // Marks in the smallest corners may stand out a little.
      CHECK(drawn.width <= room.width + 6);
      CHECK(drawn.height <= room.height + 6);
    }
  }
}
