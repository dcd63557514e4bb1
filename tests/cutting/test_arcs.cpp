// Curved pieces: arcs kept exact by corners every 15°, from fit to cut shapes and seams.

#include <cmath>

#include "cutting/cut_shape.h"
#include "geom/arcs.h"
#include "geom/offset.h"
#include "geom/partition.h"
#include "piecing/mirror.h"
#include "support/plan.h"
#include "support/shape.h"

using namespace dogear;

namespace {

Pattern plain_pattern() {
  Pattern p;
  p.seam_allowance = Exact::ratio(1, 4);
  p.usable_width = 42;
  return p;
}

std::string path(const std::string& place) {
  return "block: B\ngrid: square\nunit: 1 in\nroles: [red, blue, grey]\nunits:\n"
         "  round: {shape: quarter circle 3, fabric: red}\n"
         "  ground: {shape: quarter-circle background 3 to 4, fabric: blue}\n"
         "  low: {corners: [[0, 0], {around: [0, 3]}, [1 1/2, 3 - 1 1/2√3], [0, 3]], fabric: red}\n"
         "  high: {corners: [[1 1/2, 0], {around: [0, 1 1/2√3]}, [3, 1 1/2√3], [0, 1 1/2√3]], "
         "fabric: grey}\n"
         "shape: square 4\nplace:\n" +
         place;
}

}  // namespace

TEST_CASE("arcs have exact points every 15 degrees, on the shorter way round") {
  const auto points = arc_points({Exact(0), Exact(0)}, {Exact(2), Exact(0)}, {Exact(0), Exact(2)});
  REQUIRE(points);
  CHECK(points->size() == 5);
  for (const Point& p : *points) CHECK(dot(p, p) == Exact(4));
  CHECK(points->at(2) == Point{Exact::sqrt2(), Exact::sqrt2()});
  const Point center{Exact(1), Exact(1)};
  CHECK_FALSE(arc_points(center, {Exact(3), Exact(1)}, {Exact(1), Exact(4)}));   // unlike far
  CHECK_FALSE(arc_points(center, {Exact(3), Exact(1)}, {Exact(-1), Exact(1)}));  // half a circle
  CHECK_FALSE(arc_points(center, {Exact(3), Exact(1)}, {Exact(3), Exact(1)}));
}

TEST_CASE("radius 3 in a 4 block: convex 3 1/4, concave 2 3/4, background 4 1/2") {
  // Computed: quarter-circle unit.
  const auto round =
      plan_cut(test::shape("quarter circle 3", GridKind::square), plain_pattern(), {}, Tip::blunt);
  REQUIRE(round);
  CHECK(round->method == CutMethod::templated);
  REQUIRE(round->cut_shape.arcs.size() == 1);
  CHECK(radius(round->cut_shape.arcs[0]) == Exact::ratio(13, 4));
  const auto ground = plan_cut(test::shape("quarter-circle background 3 to 4", GridKind::square),
                               plain_pattern(), {}, Tip::blunt);
  REQUIRE(ground);
  REQUIRE(ground->cut_shape.arcs.size() == 1);
  CHECK(radius(ground->cut_shape.arcs[0]) == Exact::ratio(11, 4));
  CHECK(bounds(ground->cut_shape).width() == Exact::ratio(9, 2));
  CHECK(bounds(ground->cut_shape).height() == Exact::ratio(9, 2));
  // Every corner of the cut arc lies on its circle.
  for (const PieceCut* cut : {&*round, &*ground}) {
    const Arc& arc = cut->cut_shape.arcs[0];
    int on = 0;
    for (const Point& c : cut->cut_shape.corners) {
      const Point spoke = c - arc.center;
      const double far = std::sqrt(dot(spoke, spoke).approx());
      on += std::abs(far - radius(arc).approx()) < 1e-5 ? 1 : 0;
    }
    CHECK(on == 7);
  }
}

TEST_CASE("a quarter circle and its background are one curved seam") {
  const test::Planned p =
      test::plan_block(path("  - {unit: ground, at: [0, 0]}\n  - {unit: round, at: [0, 1]}\n"),
                       "red: red, blue: blue, grey: grey");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const SewnUnit& unit = p.piecing->units[p.piecing->sizes[0].top];
  REQUIRE(unit.seams.size() == 1);
  REQUIRE(unit.seams[0].curve);
  CHECK(radius(*unit.seams[0].curve) == Exact(3));
  CHECK(unit.seams[0].first_has_bias);
  CHECK(unit.outline == test::shape("square 4", GridKind::square));
  CHECK(p.piecing->pieces[0].shape_words == "quarter-circle background");
  CHECK(p.piecing->pieces[1].shape_words == "quarter circle");
}

TEST_CASE("a curve past two pieces of the quarter circle is still one seam") {
  const test::Planned p =
      test::plan_block(path("  - {unit: ground, at: [0, 0]}\n  - {unit: low, at: [0, 1]}\n"
                            "  - {unit: high, at: [1 1/2, 4 - 1 1/2√3]}\n"),
                       "red: red, blue: blue, grey: grey");
  INFO(p.errors());
  REQUIRE(p.piecing);
  int curved = 0;
  int straight = 0;
  for (const SewnUnit& unit : p.piecing->units) {
    for (const Seam& seam : unit.seams) (seam.curve ? curved : straight) += 1;
  }
  CHECK(curved == 1);
  CHECK(straight == 1);
}

TEST_CASE("curves turn, mirror and clip with their polygon") {
  const Polygon round = test::shape("quarter circle 3", GridKind::square);
  const Polygon ground = test::shape("quarter-circle background 3 to 4", GridKind::square);
  for (const Polygon& shape : {round, ground}) {
    for (int turn = 0; turn < 24; ++turn) {
      Transform t = Transform::turned(turn);
      t.mirrored = turn % 2 == 0;
      t.shift = {Exact::sqrt3(), Exact(turn)};
      const Polygon there = tidy(t.apply(shape));
      CHECK(area(there) == area(shape));
      CHECK(there.arcs.size() == 1);
      CHECK(tidy(t.inverse().apply(there)) == shape);
    }
  }
  // And they sum up to their square, along one curve.
  CHECK(area(round) + area(ground) == Exact(16));
  const Joined joined = join({ground, Transform::moved({Exact(0), Exact(1)}).apply(round)});
  REQUIRE(joined.outline);
  CHECK(joined.outline->arcs.empty());
  CHECK(joined.fit.meetings.size() == 6);
}
