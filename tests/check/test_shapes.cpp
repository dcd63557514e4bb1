// Shapes by their trade names on both grids, and blocks that mix the grids.

#include <catch2/catch.hpp>

#include "base/files.h"
#include "check/checked.h"
#include "check/words.h"
#include "checked_block.h"
#include "diag/print.h"
#include "geom/tiling.h"
#include "model/measures.h"
#include "model/shapes.h"
#include "support/shape.h"

using namespace dogear;
using test::check;
using test::Checked;

TEST_CASE("measures are numbers and sums with roots") {
  CHECK(parse_measure("2 1/2") == Exact::ratio(5, 2));
  CHECK(parse_measure("8 - 4√2") == Exact(8) - Exact(4) * Exact::sqrt2());
  CHECK(parse_measure("√3") == Exact::sqrt3());
  CHECK(parse_measure("1/2 sqrt6 + 1") == Exact(1) + Exact::sqrt6() / Exact(2));
  CHECK(parse_measure("-2") == Exact(-2));
  for (const std::string bad : {"", "two", "√5", "2 +", "√", "3 √2 √3", "2 in"}) {
    INFO(bad);
    CHECK_FALSE(parse_measure(bad));
  }
}

TEST_CASE("every named shape has its trade name as a patch, whatever way it lies") {
  const std::vector<std::pair<std::string, std::string>> on_square{
      {"square 2", "square"},
      {"rectangle 2 x 4", "rectangle"},
      {"half-square triangle 2", "half-square triangle"},
      {"quarter-square triangle 2", "quarter-square triangle"},
      {"half-rectangle triangle 2 x 4", "half-rectangle triangle"},
      {"trapezoid 2 to 4", "45° trapezoid"},
      {"parallelogram 3 x 2", "45° parallelogram"},
      {"diamond 2", "45° diamond"},
      {"45° diamond side 2", "45° diamond"},
      {"kite 2", "45° kite"},
      {"octagon 4", "octagon"},
      {"kaleidoscope wedge 8", "kaleidoscope wedge"}};
  const std::vector<std::pair<std::string, std::string>> on_triangle{
      {"triangle 4", "60° triangle"},
      {"trapezoid 2 to 5", "60° trapezoid"},
      {"half-hexagon 4", "half-hexagon"},
      {"hexagon 4", "hexagon"},
      {"60° diamond 4", "60° diamond"},
      {"diamond side 4", "60° diamond"},
      {"parallelogram 3 x 2", "60° parallelogram"},
      {"kite 4", "60° kite"},
      {"half-triangle 4", "half-triangle"},
      {"rectangle 3 x 2", "rectangle"}};
  for (const GridKind grid : {GridKind::square, GridKind::triangle}) {
    for (const auto& [text, words] : grid == GridKind::square ? on_square : on_triangle) {
      INFO(text);
      const Polygon shape = test::shape(text, grid);
      CHECK(area(shape).sign() > 0);
      CHECK(name_shape(shape) == words);
      // A quarter turn swaps the two triangles of a square only where the long side leaves level.
      Transform half = Transform::turned(12);
      half.mirrored = true;
      CHECK(name_shape(tidy(half.apply(shape))) == words);
      if (words.find("square triangle") == std::string::npos) {
        for (int turn = 0; turn < 24; ++turn) {
          CHECK(name_shape(tidy(Transform::turned(turn).apply(shape))) == words);
        }
      }
    }
  }
}

TEST_CASE("measures of the new shapes") {
  const Exact r2 = Exact::sqrt2();
  // Side and width of a 45° diamond: an eight-pointed star in an 8 block (computed).
  const Exact side = Exact(8) - Exact(4) * r2;
  CHECK(test::shape("diamond side 8 - 4√2", GridKind::square) ==
        test::shape("diamond 4√2 - 4", GridKind::square));
  CHECK(side.approx() == Approx(2.343).margin(0.0005));
  // A parallelogram of equal measures on the triangle grid is the diamond.
  CHECK(test::shape("parallelogram 3 x 3", GridKind::triangle) ==
        test::shape("diamond 3", GridKind::triangle));
  const Polygon octagon = test::shape("octagon 12", GridKind::square);
  CHECK(bounds(octagon).width() == Exact(12));
  CHECK(area(octagon) == Exact(288) * (r2 - Exact(1)));
  const Polygon wedge = test::shape("kaleidoscope wedge 8", GridKind::square);
  CHECK(bounds(wedge).height() == Exact(4));
  CHECK(bounds(wedge).width() == Exact(8) * (r2 - Exact(1)));
  // Eight wedges or eight kites make the octagon, six kites the hexagon: by area.
  CHECK(area(wedge) * Exact(8) == area(test::shape("octagon 8", GridKind::square)));
  CHECK(area(test::shape("kite 4", GridKind::square)) * Exact(8) ==
        area(test::shape("octagon 8", GridKind::square)));
  CHECK(area(test::shape("kite 4", GridKind::triangle)) * Exact(6) ==
        area(test::shape("hexagon 4", GridKind::triangle)));
}

TEST_CASE("an eight-pointed star of diamonds, squares and triangles fits exactly") {
  std::string block =
      "block: B\ngrid: square\nunit: 1 in\nroles: [red, blue]\nunits:\n"
      "  point: {shape: diamond side 8-4√2, fabric: red}\n"
      "  corner: {shape: square 8-4√2, fabric: blue}\n"
      "  side: {shape: half-square triangle 8-4√2, fabric: blue}\n"
      "shape: square 8\nplace:\n";
  const auto put = [&block](const std::string& unit, const std::string& x, const std::string& y) {
    block += "  - {unit: " + unit + ", at: [" + x + ", " + y + "]}\n";
  };
  const std::string a = "8-4√2";  // the star's points end here and
  const std::string b = "4√2";    // here along each side
  put("corner", "0", "0");
  put("corner", b, "0");
  put("corner", "0", b);
  put("corner", b, b);
  put("side turned 315", a, "0");
  put("side turned 45", "8", a);
  put("side turned 135", "4", "12-4√2");
  put("side turned 225", "0", a);
  put("point", b, a);
  put("point turned 45", "4", "4");
  put("point turned 90", "4", "4");
  put("point turned 135", "4", "4");
  put("point turned", "4√2-4", "4");
  put("point turned 225", "0", a);
  put("point turned 270", a, "0");
  put("point turned 315", b, "0");
  Checked c = check(block);
  INFO(c.errors());
  REQUIRE(c.pattern);
  CHECK(flatten(*c.pattern, c.pattern->block_parts[0]).size() == 16);
}

TEST_CASE("eight wedges and four corners fill a kaleidoscope block; six kites fill a hexagon") {
  Checked c = check(
      "block: B\ngrid: square\nunit: 1 in\nroles: [red, blue]\nunits:\n"
      "  wedge: {shape: kaleidoscope wedge 8, fabric: red}\n"
      "  corner: {shape: half-square triangle 8-4√2, fabric: blue}\n"
      "shape: square 8\nplace:\n"
      "  - {unit: wedge turned, at: [8-4√2, 0]}\n  - {unit: wedge, at: [4, 4]}\n"
      "  - {unit: wedge turned 90, at: [0, 8-4√2]}\n  - {unit: wedge turned 270, at: [8, 8-4√2]}\n"
      "  - {unit: wedge turned 45, at: [4, 4]}\n  - {unit: wedge turned 315, at: [4, 4]}\n"
      "  - {unit: wedge turned 135, at: [8-4√2, 0]}\n  - {unit: wedge turned 225, at: [4√2, 0]}\n"
      "  - {unit: corner, at: [0, 4√2]}\n  - {unit: corner turned 90, at: [0, 0]}\n"
      "  - {unit: corner turned, at: [4√2, 0]}\n  - {unit: corner turned 270, at: [8, 4√2]}\n");
  INFO(c.errors());
  CHECK(c.pattern);
  const Polygon kite = test::shape("kite 4", GridKind::triangle);
  const Box box = bounds(kite);
  std::vector<Polygon> kites;
  for (int k = 0; k < 6; ++k) {
    const Transform tip = Transform::moved({-box.width() / Exact(2), Exact(0)});
    kites.push_back(tip.then(Transform::turned(2 + 4 * k)).apply(kite));
  }
  const Joined hexagon = join(kites);
  REQUIRE(hexagon.outline);
  CHECK(at_origin(*hexagon.outline) == test::shape("hexagon 4", GridKind::triangle));
}

TEST_CASE("a unit has its own grid: a field of triangles in a border of squares") {
  const std::string block =
      "block: B\ngrid: square\nunit: 1 in\nroles: [red, blue]\nunits:\n"
      "  tip: {grid: triangle, shape: triangle 4, fabric: red}\n"
      "  end: {grid: triangle, shape: half-triangle 4, fabric: blue}\n"
      "  field: {row: [end, tip turned, tip, tip turned, end flipped]}\n"
      "  side: {shape: rectangle 1 x 4, fabric: blue}\n"
      "  middle: {row: [side, field, side]}\n"
      "  corner: {shape: square 1, fabric: red}\n"
      "  edge: {EDGE, fabric: blue}\n"
      "  top: {row: [corner, edge, corner]}\n"
      "stack: [top, middle, top]\n";
  const auto with = [&block](const std::string& edge) {
    std::string b = block;
    return check(b.replace(b.find("EDGE"), 4, edge));
  };
  // The field is two sides of its triangles wide, each 8/√3: 8 sides of the 1 in grid.
  for (const std::string edge :
       {"grid: triangle, shape: rectangle 8 x 1", "shape: rectangle 5 1/3√3 x 1"}) {
    Checked c = with(edge);
    INFO(c.errors());
    REQUIRE(c.pattern);
    CHECK(c.pattern->sizes[0].width == Exact(2) + Exact(16) / Exact::sqrt3());
    CHECK(c.pattern->sizes[0].height == Exact(6));
  }
  CHECK_FALSE(with("grid: triangle, shape: rectangle 9 x 1").pattern);
  // A rounded decimal is no exact fit.
  CHECK_FALSE(with("shape: rectangle 9.2376 x 1").pattern);
}
