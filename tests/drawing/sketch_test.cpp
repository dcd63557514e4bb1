#include "drawing/sketch.h"

#include <catch2/catch.hpp>

#include "base/length.h"
#include "drawing/apart.h"
#include "drawing/strips.h"
#include "sample.h"

using namespace dogear;
using namespace dogear::drawing;

namespace {
const Ring square{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
const Ring arrowhead{{0, 0}, {20, 10}, {0, 20}, {6, 10}};
}  // namespace

TEST_CASE("measuring rings") {
  CHECK(drawing::area(square) == Approx(100));
  CHECK(centroid(square) == Spot{5, 5});
  CHECK(depth(square, {5, 5}) == Approx(5));
  CHECK(depth(square, {5, 9}) == Approx(1));
  CHECK(depth(square, {5, 12}) == Approx(-2));
  CHECK(holds(square, Rect::of(1, 1, 8, 8), 0.5));
  CHECK_FALSE(holds(square, Rect::of(1, 1, 8, 8), 1.5));
  CHECK_FALSE(holds(arrowhead, Rect::of(2, 8, 6, 4), 0));  // across the notch
  const auto room = reach(square, {2, 5}, {1, 0});
  CHECK(room[0] == Approx(8));
  CHECK(room[1] == Approx(2));
}

TEST_CASE("the deepest spots come first and lie inside") {
  for (const Ring& ring : {square, arrowhead}) {
    for (const Spot p : depths(ring)) CHECK(depth(ring, p) > 0);
  }
  const Ring tiny{{0, 0}, {1e-6, 0}, {0, 1e-6}};
  CHECK_FALSE(depths(tiny).empty());
}

TEST_CASE("an allowance is the same all round, its sharp tips trimmed") {
  const Ring big = grown(square, 2);
  CHECK(big.size() == 4);
  CHECK(drawing::area(big) == Approx(14 * 14));
  const Ring triangle{{0, 0}, {20, 0}, {10, 17.320508}};
  const Ring around = grown(triangle, 2);
  CHECK(around.size() == 6);
  for (const Spot corner : triangle) {
    CHECK(depth(around, corner) > 1.9);
    CHECK(depth(around, corner) <= 2 * 1.41422);
  }
  for (std::size_t i = 0; i < 3; ++i) {
    const Spot middle = (triangle[i] + triangle[(i + 1) % 3]) * 0.5;
    CHECK(depth(around, middle) == Approx(2));
  }
  const Ring backwards{{0, 10}, {10, 10}, {10, 0}, {0, 0}};
  CHECK(drawing::area(grown(backwards, 2)) == Approx(14 * 14));
}

TEST_CASE("fabrics differ by hatch, and a hatch stands out from its cloth") {
  Fabric fabric;
  for (const char* hex : {"#000000", "#ffffff", "#1b2a49", "#f3ead7", "#808080", "#d8343f"}) {
    fabric.colour = hex;
    const canvas::Style style = cloth(fabric);
    CHECK(canvas::contrast(*style.fill, style.hatch->color) > 1.7);
  }
  fabric.number = 12;
  CHECK(cloth(fabric).hatch->kind == 11);
  fabric.number = 13;
  CHECK(cloth(fabric).hatch->kind == 0);
}

TEST_CASE("shapes lie side by side on a strip, every other one turned") {
  const Scene scene = sample::lantern().scene();
  for (const CutPiece& cut : scene.quantities.sizes[0].pieces) {
    const std::vector<Ring> rings = laid(cut.cut, 6, 1);
    REQUIRE(rings.size() == 6);
    const double height = cut.cut.strip.approx();
    double sum = 0;
    for (const Ring& r : rings) {
      const Rect b = box(r);
      CHECK(b.top == Approx(0).margin(1e-9));
      CHECK(b.bottom == Approx(height));
      sum += drawing::area(r);
    }
    // Nothing is wasted but the two slanting ends.
    const double whole = box(rings.back()).right * height;
    const double ends = height * height * 0.57735026919;
    CHECK(sum == Approx(whole - ends).epsilon(1e-6));
  }
}

TEST_CASE("a square cut on the diagonal gives two, cut twice four") {
  PieceCut cut;
  cut.method = CutMethod::half_square;
  cut.length = {4, 1};
  const auto halves = laid(cut, 4, 1);
  REQUIRE(halves.size() == 4);
  CHECK(drawing::area(halves[0]) == Approx(8));
  CHECK(box(halves[3]).right == Approx(8));
  cut.method = CutMethod::quarter_square;
  const auto quarters = laid(cut, 4, 1);
  REQUIRE(quarters.size() == 4);
  for (const Ring& r : quarters) CHECK(drawing::area(r) == Approx(4));
  CHECK(box(quarters[3]).right <= 4);
}

TEST_CASE("pieces laid on a strip take no more of it than the cutting plan says") {
  for (const char* folder : {"harbor-lights", "tide-star"}) {
    const Scene scene = sample::real(folder).scene();
    for (std::size_t size = 0; size < scene.quantities.sizes.size(); ++size) {
      for (const StripPlan& plan : scene.quantities.sizes[size].strips) {
        double used = 0;  // square inches
        for (const Run& run : plan.runs) {
          used += run.length.approx() * run.height.approx();
          CHECK(run.x.approx() + run.length.approx() <= plan.usable.approx() + 1e-6);
          CHECK(run.y.approx() + run.height.approx() <= plan.height.approx() + 1e-6);
          if (run.kind != Run::Kind::piece) continue;
          const CutPiece* cut = cut_of(scene, size, run.piece);
          REQUIRE(cut != nullptr);
          if (cut->cut.method == CutMethod::joined_strip) continue;
          const std::vector<Ring> rings = laid(cut->cut, run.count, 1);
          INFO(folder << " " << scene.piecing.pieces[run.piece].label(scene.checked.pattern));
          CHECK(box(rings.back()).right <= run.length.approx() + 1e-6);
          CHECK(box(rings.back()).bottom <= run.height.approx() + 1e-6);
        }
        CHECK(used <= plan.usable.approx() * plan.height.approx() + 1e-6);
      }
    }
  }
}

TEST_CASE("strips that run from end to end are cut by themselves, not two from a wider one") {
  for (const char* folder : {"harbor-lights", "tide-star", "reed-bed"}) {
    const Scene scene = sample::real(folder).scene();
    for (const SizeQuantities& size : scene.quantities.sizes) {
      for (const StripPlan& plan : size.strips) {
        if (plan.from_bundle || plan.sheet > 0) continue;
        INFO(folder << " " << pretty_inches(plan.height));
        const auto whole = std::count_if(plan.runs.begin(), plan.runs.end(), [&](const Run& r) {
          return r.kind != Run::Kind::leftover && r.length == plan.usable;
        });
        CHECK(whole <= 1);
      }
    }
  }
}

TEST_CASE("a cut shape is laid round its finished shape, one allowance outside each edge") {
  for (const char* folder : {"harbor-lights", "tide-star"}) {
    const Scene scene = sample::real(folder).scene();
    const double q = scene.checked.pattern.seam_allowance.approx();
    for (const CutPiece& cut : scene.quantities.sizes[0].pieces) {
      INFO(folder << " " << scene.piecing.pieces[cut.piece].label(scene.checked.pattern));
      const Ring finished = ring(scene.piecing.pieces[cut.piece].shape, 1);
      const Ring outer = cut_ring(scene, 0, cut.piece, 1);
      for (std::size_t i = 0; i < finished.size(); ++i) {
        const Spot middle = (finished[i] + finished[(i + 1) % finished.size()]) * 0.5;
        CHECK(depth(outer, middle) == Approx(q).margin(0.07));  // measures are rounded to 1/8 in
      }
    }
  }
}
