// Orders of foundations, held against a checker that knows nothing of meetings, and against trying
// every order.

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "geom/foundation.h"
#include "geom/offset.h"

using namespace dogear;

namespace {

Polygon polygon(const std::vector<std::pair<int, int>>& corners) {
  Polygon p;
  for (const auto& [x, y] : corners) p.corners.push_back({Exact(x), Exact(y)});
  return tidy(p);
}

double length(const Segment& s) {
  const double x = (s.b.x - s.a.x).approx(), y = (s.b.y - s.a.y).approx();
  return std::sqrt(x * x + y * y);
}

double perimeter(const Polygon& p) {
  double sum = 0;
  for (std::size_t i = 0; i < p.size(); ++i) sum += length(p.edge(i));
  return sum;
}

bool on_rim(const Polygon& p, const Point& at) {
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Segment e = p.edge(i);
    const Point d = e.b - e.a;
    if (!cross(d, at - e.a).is_zero()) continue;
    const Exact t = dot(d, at - e.a);
    if (t.sign() >= 0 && t <= dot(d, d)) return true;
  }
  return false;
}

// The stretch that a patch shares with the outline of all before it: as long as the outlines lose
// when they are joined. It is one straight line if some edge of the patch holds all of it.
bool sewable(const Polygon& before, const Polygon& patch) {
  const Joined both = join({before, patch});
  if (!both.outline) return false;
  const double shared = (perimeter(before) + perimeter(patch) - perimeter(*both.outline)) / 2;
  if (shared < 1e-9) return false;
  for (std::size_t i = 0; i < patch.size(); ++i) {
    const Segment e = patch.edge(i);
    // Along this edge: every stretch between corners of either outline that lies on both rims.
    std::vector<Exact> cuts;
    const Point d = e.b - e.a;
    const Exact all = dot(d, d);
    for (const Polygon* p : {&before, &patch}) {
      for (const Point& c : p->corners) {
        if (!cross(d, c - e.a).is_zero()) continue;
        const Exact t = dot(d, c - e.a) / all;
        if (t.sign() >= 0 && t <= Exact(1)) cuts.push_back(t);
      }
    }
    std::sort(cuts.begin(), cuts.end());
    double along = 0;
    int runs = 0;
    bool on = false;
    for (std::size_t k = 0; k + 1 < cuts.size(); ++k) {
      if (cuts[k] == cuts[k + 1]) continue;
      const Point middle = e.a + d * ((cuts[k] + cuts[k + 1]) / Exact(2));
      const bool here = on_rim(before, middle) && on_rim(patch, middle);
      if (here && !on) ++runs;
      on = here;
      if (here) along += (cuts[k + 1] - cuts[k]).approx() * length(e);
    }
    if (std::abs(along - shared) > 1e-7 || runs != 1) continue;
    // The patch lies behind the edge's line.
    return std::all_of(patch.corners.begin(), patch.corners.end(),
                       [&](const Point& c) { return cross(d, c - e.a).sign() >= 0; });
  }
  return false;
}

bool legal(const std::vector<Polygon>& patches, const std::vector<std::size_t>& order) {
  if (order.size() != patches.size()) return false;
  Polygon before = patches[order[0]];
  for (std::size_t i = 1; i < order.size(); ++i) {
    if (!sewable(before, patches[order[i]])) return false;
    before = *join({before, patches[order[i]]}).outline;
  }
  return true;
}

bool any_order(const std::vector<Polygon>& patches) {
  std::vector<std::size_t> order(patches.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  do {
    if (legal(patches, order)) return true;
  } while (std::next_permutation(order.begin(), order.end()));
  return false;
}

Foundation::Answer found(const std::vector<Polygon>& patches) {
  const std::vector<Meeting> meetings = join(patches).fit.meetings;
  return Foundation(patches, meetings).order();
}

// Cuts a convex polygon from a point of one edge to a point of another.
std::pair<Polygon, Polygon> cut(const Polygon& p, std::mt19937& random) {
  const auto pick = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  while (true) {
    const std::size_t i = pick(p.size()), k = pick(p.size());
    if (i == k) continue;
    const auto at = [&](std::size_t e) {
      const Segment s = p.edge(e);
      return s.a + (s.b - s.a) * Exact::ratio(static_cast<long long>(pick(3)) + 1, 4);
    };
    const Point a = at(i), b = at(k);
    const auto one = clip(p, a, b - a), other = clip(p, a, a - b);
    if (one && other) return {tidy(*one), tidy(*other)};
  }
}

}  // namespace

TEST_CASE("a row is pieced from one end to the other") {
  const std::vector<Polygon> row{
      polygon({{0, 0}, {1, 0}, {1, 3}, {0, 3}}), polygon({{1, 0}, {3, 0}, {3, 3}, {1, 3}}),
      polygon({{3, 0}, {4, 0}, {4, 3}, {3, 3}}), polygon({{4, 0}, {6, 0}, {6, 3}, {4, 3}})};
  CHECK(found(row).order == std::vector<std::size_t>{0, 1, 2, 3});
  const std::vector<Polygon> mixed{row[2], row[0], row[3], row[1]};
  const Foundation::Answer answer = found(mixed);
  CHECK(legal(mixed, answer.order));
  // One end comes first and the other last.
  CHECK((answer.order.front() == 1 || answer.order.front() == 2));
  CHECK((answer.order.back() == 1 || answer.order.back() == 2));
}

TEST_CASE("a square in a square is sewn center first, then opposite corners") {
  const std::vector<Polygon> patches{
      polygon({{2, 0}, {4, 2}, {2, 4}, {0, 2}}), polygon({{0, 0}, {2, 0}, {0, 2}}),
      polygon({{2, 0}, {4, 0}, {4, 2}}), polygon({{4, 2}, {4, 4}, {2, 4}}),
      polygon({{0, 2}, {2, 4}, {0, 4}})};
  const Foundation::Answer answer = found(patches);
  REQUIRE(legal(patches, answer.order));
  CHECK(answer.order.front() == 0);
  const auto opposite = [](std::size_t a, std::size_t b) { return a + 2 == b || b + 2 == a; };
  CHECK(opposite(answer.order[3], answer.order[4]));
  for (const FoundationSeam& s : answer.seams) CHECK(s.against == 0);
}

TEST_CASE("logs round a square have one order, and a pinwheel or four tiles have none") {
  const std::vector<Polygon> logs{
      polygon({{1, 0}, {3, 0}, {3, 1}, {1, 1}}), polygon({{2, 1}, {3, 1}, {3, 3}, {2, 3}}),
      polygon({{1, 1}, {2, 1}, {2, 2}, {1, 2}}), polygon({{1, 2}, {2, 2}, {2, 3}, {1, 3}})};
  CHECK(found(logs).order.size() == 4);
  CHECK(legal(logs, found(logs).order));
  const std::vector<Polygon> tiles{
      polygon({{0, 0}, {1, 0}, {1, 1}, {0, 1}}), polygon({{1, 0}, {2, 0}, {2, 1}, {1, 1}}),
      polygon({{0, 1}, {1, 1}, {1, 2}, {0, 2}}), polygon({{1, 1}, {2, 1}, {2, 2}, {1, 2}})};
  CHECK(found(tiles).order.empty());
  CHECK(found(tiles).stuck.size() == 4);
  CHECK_FALSE(any_order(tiles));
  const std::vector<Meeting> meetings = join(tiles).fit.meetings;
  const auto half = Foundation(tiles, meetings).halves();
  REQUIRE(half);
  CHECK(half->size() == 2);
  const std::vector<Polygon> crossed{
      polygon({{0, 0}, {2, 0}, {1, 1}}), polygon({{2, 0}, {2, 2}, {1, 1}}),
      polygon({{2, 2}, {0, 2}, {1, 1}}), polygon({{0, 2}, {0, 0}, {1, 1}})};
  CHECK(found(crossed).order.empty());
  const std::vector<Polygon> whirl{
      polygon({{0, 0}, {2, 0}, {2, 1}, {0, 1}}), polygon({{2, 0}, {3, 0}, {3, 2}, {2, 2}}),
      polygon({{1, 2}, {3, 2}, {3, 3}, {1, 3}}), polygon({{0, 1}, {1, 1}, {1, 3}, {0, 3}}),
      polygon({{1, 1}, {2, 1}, {2, 2}, {1, 2}})};
  CHECK(found(whirl).order.empty());
  CHECK_FALSE(any_order(whirl));
  const std::vector<Meeting> round = join(whirl).fit.meetings;
  CHECK_FALSE(Foundation(whirl, round).halves());
}

TEST_CASE("a patch that would wrap round the corner of its seam is not sewn on") {
  // An L whose inner side meets a small square along one edge alone; a notch keeps the other free.
  const std::vector<Polygon> patches{polygon({{0, 0}, {2, 0}, {2, 2}, {0, 2}}),
                                     polygon({{0, 2}, {2, 2}, {3, 0}, {4, 0}, {4, 4}, {0, 4}})};
  std::vector<Meeting> meetings = join(patches).fit.meetings;
  const Foundation section(patches, meetings);
  CHECK_FALSE(section.seam(1, {true, false}));
  CHECK(section.seam(0, {false, true}));
  CHECK(section.order().order == std::vector<std::size_t>{1, 0});
}

TEST_CASE("what is cut off by one straight line after the other always has an order") {
  std::mt19937 random(7);
  std::size_t looked = 0;
  for (int round = 0; round < 120; ++round) {
    Polygon rest = polygon({{0, 0}, {8, 0}, {8, 6}, {0, 6}});
    std::vector<Polygon> patches;
    const std::size_t n = 2 + random() % 7;
    while (patches.size() + 1 < n) {
      auto [one, other] = cut(rest, random);
      const bool swap = random() % 2 == 0;
      patches.push_back(swap ? other : one);
      rest = swap ? one : other;
    }
    patches.push_back(rest);
    std::shuffle(patches.begin(), patches.end(), random);
    const Foundation::Answer answer = found(patches);
    CAPTURE(round);
    REQUIRE(legal(patches, answer.order));
    CHECK(found(patches).order == answer.order);
    ++looked;
  }
  CHECK(looked == 120);
}

TEST_CASE("an order is found exactly where trying all of them finds one") {
  std::mt19937 random(11);
  int with = 0, without = 0;
  for (int round = 0; round < 80; ++round) {
    std::vector<Polygon> patches{polygon({{0, 0}, {8, 0}, {8, 6}, {0, 6}})};
    const std::size_t n = 3 + random() % 3;
    while (patches.size() < n) {
      const std::size_t which = random() % patches.size();
      auto [one, other] = cut(patches[which], random);
      patches[which] = one;
      patches.push_back(other);
    }
    const Foundation::Answer answer = found(patches);
    const bool any = any_order(patches);
    CAPTURE(round);
    CHECK(answer.order.empty() == !any);
    if (any) CHECK(legal(patches, answer.order));
    (any ? with : without) += 1;
  }
  CHECK(with > 10);
  CHECK(without > 3);
}
