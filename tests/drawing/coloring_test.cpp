// The quilt in lines alone, boxes for the reader's fabrics, and the designer's other colorings.

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "drawing/figure.h"
#include "drawing/sketch.h"
#include "look.h"
#include "sample.h"

using namespace dogear;

namespace {

// How many patches are painted in each colour.
std::map<std::string, std::size_t> painted(const Figure& figure) {
  std::map<std::string, std::size_t> out;
  for (const canvas::Shape& shape : look::at(*figure.list).shapes) {
    if (shape.style.fill) ++out[shape.style.fill->hex()];
  }
  return out;
}

}  // namespace

TEST_CASE("a coloring page has every patch in lines alone") {
  for (const char* folder : {"harbor-lights", "tide-star"}) {
    const Scene scene = sample::real(folder).scene();
    const auto lines = draw_figure(scene, 0, "quilt/line", 459, 640);
    const auto plain = draw_figure(scene, 0, "quilt/plain", 459, 640);
    REQUIRE(lines);
    REQUIRE(plain);
    const auto drawn = look::at(*lines->list), coloured = look::at(*plain->list);
    CHECK(drawn.runs.empty());
    REQUIRE(drawn.shapes.size() == coloured.shapes.size());
    const CheckedSize& top = scene.checked.sizes[0];
    CHECK(drawn.shapes.size() == flatten(scene.checked, top.top).size() + 1);  // and the binding
    for (std::size_t i = 0; i < drawn.shapes.size(); ++i) {
      const canvas::Style& style = drawn.shapes[i].style;
      CHECK(style.fill == canvas::white);
      CHECK_FALSE(style.hatch);
      CHECK(style.stroke == drawing::ink);
      CHECK(drawn.shapes[i].path == coloured.shapes[i].path);
    }
    CHECK(lines->alt.find("in lines alone") != std::string::npos);
  }
}

TEST_CASE("there is an empty box for each fabric of the size, with its number") {
  const Scene scene = sample::real("harbor-lights").scene();
  const auto boxes = draw_figure(scene, 0, "fabrics/line", 459, 640);
  REQUIRE(boxes);
  std::set<int> used;
  for (const FabricNeed& need : scene.quantities.sizes[0].fabrics)
    used.insert(scene.checked.pattern.fabrics[need.fabric].number);
  std::set<int> said;
  const auto drawn = look::at(*boxes->list);
  for (const canvas::GlyphRun& run : drawn.runs) said.insert(std::stoi(run.text()));
  CHECK(said == used);
  const auto closed = std::count_if(drawn.shapes.begin(), drawn.shapes.end(),
                                    [](const canvas::Shape& s) { return s.path.ops().size() > 2; });
  CHECK(closed == static_cast<std::ptrdiff_t>(used.size()));
}

TEST_CASE("another coloring changes the colours of its fabrics and nothing else") {
  sample::Real real = sample::real("tide-star");
  Pattern& pattern = real.checked.pattern;
  REQUIRE(pattern.colorings.empty());
  const auto first = draw_figure(real.scene(), 0, "quilt", 459, 640);
  REQUIRE(first);
  Coloring dawn;
  dawn.name = "Dawn";
  dawn.fabrics[0] = {"Rose", "#c08090"};
  pattern.colorings.push_back(dawn);
  const auto other = draw_figure(real.scene(), 0, "quilt/coloring/1", 459, 640);
  REQUIRE(other);
  auto before = painted(*first), after = painted(*other);
  const std::string was = drawing::colour(pattern.fabrics[0]).hex();
  REQUIRE(before.count(was) == 1);
  CHECK(after.count(was) == 0);
  CHECK(after["#c08090"] == before[was]);
  before.erase(was), after.erase("#c08090");
  CHECK(before == after);
  CHECK(other->alt.find("in the coloring Dawn") != std::string::npos);
  CHECK(pattern.fabrics[0].name != "Rose");

  const auto names = draw_figure(real.scene(), 0, "fabrics/coloring/1", 459, 640);
  REQUIRE(names);
  std::set<std::string> said;
  for (const canvas::GlyphRun& run : look::at(*names->list).runs) said.insert(run.text());
  CHECK(said.count("1  Rose") == 1);
  CHECK(said.count("2  " + pattern.fabrics[1].name) == 1);
  CHECK_FALSE(draw_figure(real.scene(), 0, "quilt/coloring/2", 459, 640));
  CHECK_FALSE(draw_figure(real.scene(), 0, "fabrics/coloring/2", 459, 640));
}
