// Random tilings: turning, mirroring, scaling and splitting keep area, fit and counts.

#include <catch2/catch.hpp>
#include <random>

#include "geom/tiling.h"
#include "model/shapes.h"
#include "support/shape.h"

using namespace dogear;

namespace {

using Random = std::mt19937;

int roll(Random& random, int most) {
  return static_cast<int>(random() % static_cast<unsigned>(most));
}

// A number of the field that is no round one.
Exact odd(Random& random) {
  return Exact::ratio(1 + roll(random, 9), 1 + roll(random, 4)) +
         Exact::sqrt2() * Exact::ratio(roll(random, 3), 2) +
         Exact::sqrt3() * Exact::ratio(roll(random, 3), 3);
}

Transform any_way(Random& random) {
  Transform t = Transform::turned(roll(random, 24));
  t.mirrored = roll(random, 2) == 1;
  t.shift = {odd(random), -odd(random)};
  return t;
}

Polygon scaled(const Polygon& p, const Exact& k) {
  Polygon out;
  for (const Point& c : p.corners) out.corners.push_back(c * k);
  for (const Arc& a : p.arcs) out.arcs.push_back({a.center * k, a.squared * k * k});
  return out;
}

// A convex part cut in two by a line through inner points of two of its edges.
std::optional<std::pair<Polygon, Polygon>> split(const Polygon& p, Random& random) {
  const std::size_t n = p.size();
  const std::size_t i = static_cast<std::size_t>(roll(random, static_cast<int>(n)));
  const std::size_t j =
      (i + 1 + static_cast<std::size_t>(roll(random, static_cast<int>(n) - 1))) % n;
  const auto inner = [&](std::size_t k) {
    const Segment e = p.edge(k);
    return e.a + (e.b - e.a) * Exact::ratio(1 + roll(random, 4), 5);
  };
  const Point a = inner(i);
  const Point b = inner(j);
  Polygon one{{a}}, two{{b}};
  for (std::size_t k = i + 1; k % n != (j + 1) % n; ++k) one.corners.push_back(p.at(k));
  one.corners.push_back(b);
  for (std::size_t k = j + 1; k % n != (i + 1) % n; ++k) two.corners.push_back(p.at(k));
  two.corners.push_back(a);
  return std::pair(tidy(one), tidy(two));
}

struct Tiling {
  Polygon outline;
  std::vector<Polygon> parts;
};

Tiling random_tiling(Random& random) {
  const std::vector<std::pair<std::string, GridKind>> frames{
      {"square 8", GridKind::square},        {"hexagon 4", GridKind::triangle},
      {"octagon 8", GridKind::square},       {"triangle 6", GridKind::triangle},
      {"rectangle 5 x 3", GridKind::square}, {"kite 4", GridKind::square}};
  const auto& [name, grid] = frames[static_cast<std::size_t>(roll(random, 6))];
  Tiling t{test::shape(name, grid), {}};
  t.parts.push_back(t.outline);
  for (int k = roll(random, 12); k >= 0; --k) {
    const auto i = static_cast<std::size_t>(roll(random, static_cast<int>(t.parts.size())));
    auto halves = split(t.parts[i], random);
    t.parts[i] = halves->first;
    t.parts.push_back(halves->second);
  }
  return t;
}

Exact sum(const std::vector<Polygon>& parts) {
  Exact out = 0;
  for (const Polygon& p : parts) out += area(p);
  return out;
}

}  // namespace

TEST_CASE("splitting keeps area and fit; the parts join to their outline") {
  Random random(20);
  for (int round = 0; round < 60; ++round) {
    const Tiling t = random_tiling(random);
    CHECK(sum(t.parts) == area(t.outline));
    CHECK(fit(t.parts, t.outline).fits());
    const Joined joined = join(t.parts);
    REQUIRE(joined.outline);
    CHECK(*joined.outline == tidy(t.outline));
  }
}

TEST_CASE("turning, mirroring and scaling keep area, fit and the count of meetings") {
  Random random(21);
  for (int round = 0; round < 60; ++round) {
    const Tiling t = random_tiling(random);
    const Fit before = fit(t.parts, t.outline);
    const Transform way = any_way(random);
    const Exact k = odd(random);
    Tiling there{scaled(way.apply(t.outline), k), {}};
    for (const Polygon& p : t.parts) there.parts.push_back(scaled(way.apply(p), k));
    CHECK(sum(there.parts) == sum(t.parts) * k * k);
    const Fit after = fit(there.parts, there.outline);
    CHECK(after.fits());
    CHECK(after.meetings.size() == before.meetings.size());
    // Each meeting is as long as before, in the same pair of parts.
    const auto pairs = [](const Fit& f, const Exact& scale) {
      std::vector<std::tuple<std::size_t, std::size_t, Exact>> out;
      for (const Meeting& m : f.meetings) {
        out.emplace_back(m.a, m.b, dot(m.where.b - m.where.a, m.where.b - m.where.a) * scale);
      }
      std::sort(out.begin(), out.end());
      return out;
    };
    CHECK(pairs(before, k * k) == pairs(after, 1));
  }
}

TEST_CASE("a part moved by the least amount, or left out, no longer fits") {
  Random random(22);
  for (int round = 0; round < 40; ++round) {
    Tiling t = random_tiling(random);
    const auto i = static_cast<std::size_t>(roll(random, static_cast<int>(t.parts.size())));
    const Polygon kept = t.parts[i];
    const Exact least = Exact::ratio(1, 1000000000);
    t.parts[i] = Transform::moved({least, Exact(0)}).apply(kept);
    CHECK_FALSE(fit(t.parts, t.outline).fits());
    t.parts[i] = kept;
    t.parts.push_back(kept);
    CHECK_FALSE(fit(t.parts, t.outline).fits());
    t.parts.pop_back();
    t.parts.erase(t.parts.begin() + static_cast<std::ptrdiff_t>(i));
    CHECK_FALSE(fit(t.parts, t.outline).fits());
  }
}

TEST_CASE("curved parts keep area, fit and counts as well") {
  Random random(23);
  for (int round = 0; round < 24; ++round) {
    const Polygon ground = test::shape("quarter-circle background 3 to 4", GridKind::square);
    const Polygon circle = Transform::moved({Exact(0), Exact(1)})
                               .apply(test::shape("quarter circle 3", GridKind::square));
    const Transform way = any_way(random);
    const Exact k = odd(random);
    const std::vector<Polygon> parts{scaled(way.apply(ground), k), scaled(way.apply(circle), k)};
    const Polygon outline = scaled(way.apply(test::shape("square 4", GridKind::square)), k);
    const Fit found = fit(parts, outline);
    CHECK(found.fits());
    CHECK(found.meetings.size() == 6);
    for (const Meeting& m : found.meetings) CHECK(m.curve.has_value());
    CHECK(sum(parts) == area(outline));
  }
}
