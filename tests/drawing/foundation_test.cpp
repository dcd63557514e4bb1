// Foundations as drawn: mirrored, numbered, and whole.

#include "drawing/foundation.h"

#include "look.h"
#include "support/fonts.h"
#include "support/plan.h"
#include "support/project.h"

using namespace dogear;
using drawing::Ring;
using drawing::Spot;

namespace {

test::Planned lamps() {
  test::Planned p = test::plan(test::project_folder() + "/tests/patterns/base/lamp", DiskFiles());
  INFO(p.errors());
  REQUIRE(p.quantities);
  return p;
}

bool has_spot(const Ring& r, Spot at) {
  for (const Spot s : r) {
    if (std::abs(s.x - at.x) < 1e-6 && std::abs(s.y - at.y) < 1e-6) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("a foundation is the mirror image of its unit, with every patch in sewing order") {
  const test::Planned p = lamps();
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts(), english_words()};
  const auto foundations = foundations_of(scene, 0);
  REQUIRE(foundations.size() == 3);
  for (const TemplateUse& use : foundations) {
    const SewnUnit& unit = p.piecing->units[*use.foundation];
    CAPTURE(unit.name);
    const auto parts = drawing::foundation_parts(scene, *use.foundation, 72, false);
    CHECK(parts.seam.size() == unit.outline.size());
    for (const Point& c : unit.outline.corners)
      CHECK(has_spot(parts.seam, {-c.x.approx() * 72, c.y.approx() * 72}));
    REQUIRE(parts.patches.size() == unit.inputs.size());
    double sum = 0;
    for (std::size_t i = 0; i < unit.inputs.size(); ++i) {
      const Input& in = unit.inputs[i];
      const Piece& piece = p.piecing->pieces[in.piece];
      CHECK(parts.patches[i].number == std::to_string(i + 1));
      CHECK(parts.patches[i].label == piece.label(p.checked->pattern));
      for (const Point& c : in.where.apply(piece.shape).corners)
        CHECK(has_spot(parts.patches[i].ring, {-c.x.approx() * 72, c.y.approx() * 72}));
      sum += drawing::area(parts.patches[i].ring);
    }
    CHECK(sum == Approx(drawing::area(parts.seam)));
    CHECK(parts.lines.size() == unit.seams.size());
    // The cut line lies a quarter inch outside: 18 pt on each side of a rectangle.
    CHECK(drawing::box(parts.cut).width() == Approx(drawing::box(parts.seam).width() + 36));
    CHECK(drawing::box(parts.cut).height() == Approx(drawing::box(parts.seam).height() + 36));
  }
}

TEST_CASE("a foundation is drawn in its true size, and smaller where there is no room") {
  const test::Planned p = lamps();
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts(), english_words()};
  const auto whole = draw_figure(scene, 0, "foundation/1", 468, 600);
  REQUIRE(whole);
  CHECK(whole->width == Approx(4.5 * 72 + 0.6).margin(1));
  CHECK(whole->height == Approx(6.5 * 72 + 0.6).margin(1));
  CHECK(whole->alt.find("mirrored, in sewing order: 1 ") != std::string::npos);
  CHECK(whole->alt.find("in its true size") != std::string::npos);
  const auto small = draw_figure(scene, 0, "foundation/1", 200, 200);
  REQUIRE(small);
  CHECK(small->width <= 200);
  CHECK(small->alt.find("smaller than its size") != std::string::npos);
  CHECK_FALSE(draw_figure(scene, 0, "foundation/4", 468, 600));
  const auto step = draw_figure(scene, 0, "step/lamp/1", 400, 400);
  REQUIRE(step);
  CHECK(step->alt.find("Foundation of ") != std::string::npos);
  CHECK(draw_figure(scene, 0, "template/test-square", 468, 600));
}

TEST_CASE("no seam crosses the name of a sheet of a foundation") {
  const test::Planned p = lamps();
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts(), english_words()};
  int named = 0;
  for (const TemplateUse& use : foundations_of(scene, 0)) {
    for (const FigureRoom room :
         {FigureRoom{200, 300}, FigureRoom{310, 430}, FigureRoom{470, 240}}) {
      for (const TemplateSheet& sheet : template_sheets(scene, 0, use, room).sheets) {
        const look::Drawn drawn = look::at(*sheet.figure.list);
        for (const canvas::GlyphRun& run : drawn.runs) {
          if (run.text().find("sheet") == std::string::npos) continue;
          ++named;
          for (const canvas::Shape& s : drawn.shapes) {
            const auto points = s.path.points();
            if (points.size() != 2) continue;  // seams and edges are strokes of two points
            const Spot a{points[0].x, points[0].y}, b{points[1].x, points[1].y};
            CHECK_FALSE(drawing::meets(a, b, look::words_box(run)));
          }
        }
      }
    }
  }
  CHECK(named > 10);
}
