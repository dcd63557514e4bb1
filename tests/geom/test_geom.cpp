#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <catch2/catch.hpp>
#include <random>

#include "geom/offset.h"
#include "geom/partition.h"
#include "geom/regions.h"
#include "geom/tiling.h"

using namespace dogear;

namespace {

using BoostPolygon = boost::geometry::model::polygon<boost::geometry::model::d2::point_xy<double>>;

BoostPolygon boosted(const Polygon& p) {
  BoostPolygon out;
  for (const Point& c : p.corners) {
    boost::geometry::append(
        out.outer(), boost::geometry::model::d2::point_xy<double>(c.x.approx(), c.y.approx()));
  }
  boost::geometry::correct(out);
  return out;
}

Polygon box(int x, int y, int w, int h) {
  return {{{Exact(x), Exact(y)},
           {Exact(x + w), Exact(y)},
           {Exact(x + w), Exact(y + h)},
           {Exact(x), Exact(y + h)}}};
}

// A 60° triangle of height h with its tip at the top.
Polygon triangle(int h) {
  const Exact side = Exact(2 * h) / Exact::sqrt3();
  return {{{side / Exact(2), Exact(0)}, {side, Exact(h)}, {Exact(0), Exact(h)}}};
}

}  // namespace

TEST_CASE("turning by multiples of 15 degrees keeps lengths and returns exactly") {
  for (int k = 0; k < 24; ++k) {
    const Transform t = Transform::turned(k);
    const Polygon turned = t.apply(triangle(4));
    CHECK(area(turned) == area(triangle(4)));
    CHECK(t.inverse().apply(turned) == triangle(4));
    Transform whole;
    for (int i = 0; i < 24; ++i) whole = whole.then(Transform::turned(k));
    CHECK(whole.apply(triangle(4)) == triangle(4));
  }
}

TEST_CASE("mirrored transforms compose and invert") {
  Transform m;
  m.mirrored = true;
  m.turn = 5;
  m.shift = {Exact(3), Exact::sqrt3()};
  const Transform n = Transform::turned(4).then(Transform::moved({Exact(1), Exact(2)}));
  const Point p{Exact(7), Exact::sqrt2()};
  CHECK(m.then(n).apply(p) == n.apply(m.apply(p)));
  CHECK(n.then(m).apply(p) == m.apply(n.apply(p)));
  CHECK(m.inverse().apply(m.apply(p)) == p);
  CHECK(area(m.apply(triangle(4))) == area(triangle(4)));
}

TEST_CASE("areas agree with Boost.Geometry") {
  std::mt19937 random(7);
  std::uniform_int_distribution<int> coordinate(-40, 40);
  int compared = 0;
  for (int i = 0; i < 300; ++i) {
    Polygon p;
    for (int k = 0; k < 5; ++k) {
      p.corners.push_back({Exact(coordinate(random)) + Exact::sqrt3() * Exact(coordinate(random)),
                           Exact(coordinate(random)) + Exact::sqrt2() * Exact(coordinate(random))});
    }
    if (!is_simple(p)) continue;
    ++compared;
    CHECK(std::abs(area(p).approx()) == Approx(boost::geometry::area(boosted(p))));
    CHECK(boost::geometry::is_valid(boosted(p)));
  }
  CHECK(compared > 20);
}

TEST_CASE("fit: six triangles fill a hexagon and every seam is found once") {
  std::vector<Polygon> parts;
  const Exact side = Exact(8) / Exact::sqrt3();
  const Point center{side, Exact(4)};
  Polygon hexagon;
  for (int k = 0; k < 6; ++k) {
    const Point a = Transform::turned(4 * k).apply_direction({side, Exact(0)}) + center;
    const Point b = Transform::turned(4 * k + 4).apply_direction({side, Exact(0)}) + center;
    parts.push_back({{center, a, b}});
    hexagon.corners.push_back(a);
  }
  const Fit whole = fit(parts, hexagon);
  CHECK(whole.fits());
  CHECK(whole.meetings.size() == 6);
  const Joined joined = join(parts);
  REQUIRE(joined.outline);
  CHECK(*joined.outline == tidy(hexagon));

  parts.pop_back();
  const Fit gap = fit(parts, hexagon);
  CHECK_FALSE(gap.fits());
  const Misfits where = find_misfits(parts, hexagon);
  REQUIRE(where.gaps.size() == 1);
  CHECK(where.overlaps.empty());
  // The sixth triangle points to the middle and touches its two neighbours and, there, all others.
  CHECK(where.gaps[0].height == Approx(4));
  CHECK(where.gaps[0].width == Approx(side.approx()));
  CHECK(where.gaps[0].parts.size() == 5);
}

TEST_CASE("fit: overlaps, overhangs and hairline gaps are all refused") {
  CHECK(fit({box(0, 0, 2, 2), box(2, 0, 2, 2)}, box(0, 0, 4, 2)).fits());
  CHECK_FALSE(fit({box(0, 0, 3, 2), box(2, 0, 2, 2)}, box(0, 0, 4, 2)).fits());
  CHECK_FALSE(fit({box(0, 0, 2, 2), box(2, 0, 3, 2)}, box(0, 0, 4, 2)).fits());
  CHECK_FALSE(fit({box(0, 0, 4, 2), box(0, 0, 4, 2)}, box(0, 0, 4, 2)).fits());
  Polygon hair = box(2, 0, 2, 2);
  hair.corners[0].x = hair.corners[3].x = Exact(2) + Exact::ratio(1, 1000000000);
  CHECK_FALSE(fit({box(0, 0, 2, 2), hair}, box(0, 0, 4, 2)).fits());
}

TEST_CASE("join refuses holes, corner touches and overlaps") {
  CHECK(join({box(0, 0, 2, 2), box(2, 0, 2, 2)}).outline);
  CHECK_FALSE(join({box(0, 0, 2, 2), box(2, 2, 2, 2)}).outline);
  CHECK_FALSE(join({box(0, 0, 3, 2), box(2, 0, 2, 2)}).outline);
  const std::vector<Polygon> ring{box(0, 0, 3, 1), box(2, 1, 1, 2), box(0, 2, 2, 1),
                                  box(0, 1, 1, 1)};
  CHECK_FALSE(join(ring).outline);
}

TEST_CASE("a seam past a corner of its neighbour is split where the parts change") {
  const Fit f = fit({box(0, 0, 4, 1), box(0, 1, 1, 1), box(1, 1, 3, 1)}, box(0, 0, 4, 2));
  REQUIRE(f.fits());
  CHECK(f.meetings.size() == 3);
}

namespace {

std::vector<std::size_t> all_of(const std::vector<Polygon>& parts) {
  std::vector<std::size_t> out(parts.size());
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = i;
  return out;
}

// Splits down to single parts; false when some set has no straight cut.
bool sews(const Subset& set, const Partition& partition) {
  if (set.parts.size() == 1) return true;
  const auto cut = partition.split(set);
  if (!cut) return false;
  CHECK(cut->joins.size() + 1 == cut->groups.size());
  for (const auto& group : cut->groups) {
    if (!sews(group, partition)) return false;
  }
  return true;
}

}  // namespace

TEST_CASE("split takes all rows at once, then the patches of a row") {
  std::vector<Polygon> parts;
  for (int r = 0; r < 3; ++r) {
    for (int c = 0; c < 4; ++c) parts.push_back(box(c, r, 1, 1));
  }
  const Fit f = fit(parts, box(0, 0, 4, 3));
  const Partition partition(f.meetings);
  const auto rows = partition.split(partition.subset(all_of(parts)));
  REQUIRE(rows);
  CHECK(rows->groups.size() == 3);
  const auto row = partition.split(rows->groups[0]);
  REQUIRE(row);
  CHECK(row->groups.size() == 4);
}

TEST_CASE("a pinwheel of rectangles round a square has no straight order and is located") {
  const std::vector<Polygon> parts{box(0, 0, 2, 1), box(2, 0, 1, 2), box(1, 2, 2, 1),
                                   box(0, 1, 1, 2), box(1, 1, 1, 1)};
  const Fit f = fit(parts, box(0, 0, 3, 3));
  REQUIRE(f.fits());
  const Partition partition(f.meetings);
  CHECK_FALSE(partition.split(partition.subset(all_of(parts))));
  CHECK(partition.set_in_point(partition.subset(all_of(parts))));
}

TEST_CASE("a hexagon of three diamonds needs a set-in seam at its middle") {
  const Exact s = 2;
  const Point center{Exact(0), Exact(0)};
  std::vector<Polygon> parts;
  for (int k = 0; k < 3; ++k) {
    const auto at = [&](int turn) {
      return Transform::turned(turn).apply_direction({s, Exact(0)});
    };
    parts.push_back({{center, at(8 * k), at(8 * k) + at(8 * k + 8), at(8 * k + 8)}});
  }
  const Joined joined = join(parts);
  REQUIRE(joined.outline);
  const Partition partition(joined.fit.meetings);
  CHECK_FALSE(partition.split(partition.subset(all_of(parts))));
  CHECK(partition.set_in_point(partition.subset(all_of(parts))) == center);
}

TEST_CASE("random guillotine layouts are always sewn; cuts found without backtracking") {
  std::mt19937 random(11);
  for (int round = 0; round < 40; ++round) {
    std::vector<Polygon> parts{box(0, 0, 64, 64)};
    for (int k = 0; k < 14; ++k) {
      const std::size_t i = random() % parts.size();
      const Box b = bounds(parts[i]);
      const int x = static_cast<int>(b.least.x.as_fraction()->num);
      const int y = static_cast<int>(b.least.y.as_fraction()->num);
      const int w = static_cast<int>(b.width().as_fraction()->num);
      const int h = static_cast<int>(b.height().as_fraction()->num);
      if (random() % 2 == 0 && w > 1) {
        const int c = 1 + static_cast<int>(random() % static_cast<unsigned>(w - 1));
        parts[i] = box(x, y, c, h);
        parts.push_back(box(x + c, y, w - c, h));
      } else if (h > 1) {
        const int c = 1 + static_cast<int>(random() % static_cast<unsigned>(h - 1));
        parts[i] = box(x, y, w, c);
        parts.push_back(box(x, y + c, w, h - c));
      }
    }
    const Fit f = fit(parts, box(0, 0, 64, 64));
    REQUIRE(f.fits());
    const Partition partition(f.meetings);
    CHECK(sews(partition.subset(all_of(parts)), partition));
  }
}

TEST_CASE("offset of a 60° triangle moves each tip out by twice the allowance") {
  const Polygon cut = offset(triangle(2), Exact::ratio(1, 4));
  const Box b = bounds(cut);
  CHECK(b.least.y == Exact::ratio(-1, 2));
  CHECK(b.most.y == Exact::ratio(9, 4));
  // A finished 2 in triangle is cut 2 3/4 in high with a pointed tip.
  CHECK(b.height() == Exact::ratio(11, 4));
}
