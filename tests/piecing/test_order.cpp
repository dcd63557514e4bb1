// Which order of sewing is chosen, and how a written one is checked.

#include <catch2/catch.hpp>
#include <random>

#include "piecing/order.h"

using namespace dogear;

namespace {

Polygon box(int x, int y, int w, int h) {
  return {{{Exact(x), Exact(y)},
           {Exact(x + w), Exact(y)},
           {Exact(x + w), Exact(y + h)},
           {Exact(x), Exact(y + h)}}};
}

struct Layout {
  std::vector<PartView> parts;
  Fit found;

  void add(std::size_t look, const Polygon& p) { parts.push_back({look, p}); }
  OrderAnswer order(bool set_in = false) {
    std::vector<Polygon> outlines;
    for (const PartView& p : parts) outlines.push_back(p.outline);
    const Joined joined = join(outlines);
    REQUIRE(joined.outline);
    found = joined.fit;
    return find_order(
        {found.meetings, parts, [](std::size_t, const Meeting&) { return false; }, {}, set_in});
  }
};

std::size_t count(const SewingStep& step, SeamKind kind) {
  std::size_t n = 0;
  for (const SewingStep::Join& j : step.joins) n += j.kind == kind ? 1 : 0;
  for (const SewingStep& g : step.groups) n += count(g, kind);
  return n;
}

// Every part is reached once, every group by one seam, and finishing seams come on top.
void is_sound(const SewingStep& step, std::size_t parts) {
  CHECK(step.parts.size() == parts);
  if (parts == 1) return;
  std::size_t sum = 0;
  for (const SewingStep& g : step.groups) {
    sum += g.parts.size();
    is_sound(g, g.parts.size());
  }
  CHECK(sum == parts);
  std::size_t joins = 0;
  for (const SewingStep::Join& j : step.joins) joins += j.kind == SeamKind::finish ? 0 : 1;
  CHECK(joins + 1 == step.groups.size());
}

}  // namespace

TEST_CASE("columns lead where they are alike and rows are not") {
  Layout layout;
  for (int r = 0; r < 3; ++r) {
    for (int c = 0; c < 4; ++c) layout.add(static_cast<std::size_t>(r), box(c, r, 1, 1));
  }
  const OrderAnswer columns = layout.order();
  REQUIRE(columns.order);
  // Four equal columns are one step, three different rows would be three.
  CHECK(columns.order->groups.size() == 4);

  Layout other;
  for (int r = 0; r < 3; ++r) {
    for (int c = 0; c < 4; ++c) other.add(static_cast<std::size_t>(c), box(c, r, 1, 1));
  }
  const OrderAnswer rows = other.order();
  REQUIRE(rows.order);
  CHECK(rows.order->groups.size() == 3);
}

TEST_CASE("the order with less open bias wins where the steps are as many") {
  Layout layout;
  layout.add(0, box(0, 0, 1, 1));
  layout.add(1, box(1, 0, 1, 1));
  layout.add(2, box(0, 1, 1, 1));
  layout.add(3, box(1, 1, 1, 1));
  std::vector<Polygon> outlines;
  for (const PartView& p : layout.parts) outlines.push_back(p.outline);
  const Fit found = fit(outlines, box(0, 0, 2, 2));
  // Bias lies along the upright seams: sewn first in rows, it is never left open.
  const auto upright = [](std::size_t, const Meeting& m) { return m.where.a.x == m.where.b.x; };
  const auto level = [](std::size_t, const Meeting& m) { return m.where.a.y == m.where.b.y; };
  const auto rows = find_order({found.meetings, layout.parts, upright, {}, false});
  const auto columns = find_order({found.meetings, layout.parts, level, {}, false});
  REQUIRE(rows.order);
  REQUIRE(columns.order);
  CHECK(rows.order->groups.at(0).parts == std::vector<std::size_t>{0, 1});
  CHECK(columns.order->groups.at(0).parts == std::vector<std::size_t>{0, 2});
}

TEST_CASE("a whirl of rectangles takes a partial seam where one is allowed, in both hands") {
  for (const bool mirrored : {false, true}) {
    Layout layout;
    for (const Polygon& p :
         {box(0, 0, 2, 1), box(2, 0, 1, 2), box(1, 2, 2, 1), box(0, 1, 1, 2), box(1, 1, 1, 1)}) {
      Transform t;
      t.mirrored = mirrored;
      layout.add(layout.parts.size(), t.apply(p));
    }
    const OrderAnswer straight = layout.order();
    CHECK_FALSE(straight.order);
    CHECK(straight.stuck.size() == 5);
    CHECK(straight.at);
    const OrderAnswer partial = layout.order(true);
    REQUIRE(partial.order);
    is_sound(*partial.order, 5);
    CHECK(count(*partial.order, SeamKind::partial) == 1);
    CHECK(count(*partial.order, SeamKind::finish) == 1);
    CHECK(count(*partial.order, SeamKind::set_in) == 0);
  }
}

TEST_CASE("three diamonds of a hexagon take one set-in seam that turns at their middle") {
  Layout layout;
  const Point center{Exact(0), Exact(0)};
  for (int k = 0; k < 3; ++k) {
    const auto at = [&](int turn) {
      return Transform::turned(turn).apply_direction({Exact(2), Exact(0)});
    };
    layout.add(0, {{center, at(8 * k), at(8 * k) + at(8 * k + 8), at(8 * k + 8)}});
  }
  CHECK_FALSE(layout.order().order);
  const OrderAnswer set_in = layout.order(true);
  REQUIRE(set_in.order);
  is_sound(*set_in.order, 3);
  REQUIRE(count(*set_in.order, SeamKind::set_in) == 1);
  CHECK(set_in.order->joins.front().path.at(1) == center);
}

TEST_CASE("every straight order that exists is found: layouts cut at random, turned as well") {
  std::mt19937 random(5);
  for (int round = 0; round < 30; ++round) {
    std::vector<Polygon> parts{box(0, 0, 48, 48)};
    while (parts.size() < 12) {
      const std::size_t i = random() % parts.size();
      const Box b = bounds(parts[i]);
      const bool upright = random() % 2 == 0;
      const auto span = (upright ? b.width() : b.height()).as_fraction()->num;
      if (span < 2) continue;
      const Exact at(static_cast<long long>(1 + random() % static_cast<unsigned>(span - 1)));
      Polygon first = parts[i];
      Polygon second = parts[i];
      for (Point& c : first.corners) {
        if (upright && c.x == b.most.x) c.x = b.least.x + at;
        if (!upright && c.y == b.most.y) c.y = b.least.y + at;
      }
      for (Point& c : second.corners) {
        if (upright && c.x == b.least.x) c.x = b.least.x + at;
        if (!upright && c.y == b.least.y) c.y = b.least.y + at;
      }
      parts[i] = first;
      parts.push_back(second);
    }
    const Transform turn = Transform::turned(static_cast<int>(random() % 24));
    Layout layout;
    for (const Polygon& p : parts) layout.add(layout.parts.size(), turn.apply(p));
    const OrderAnswer answer = layout.order();
    REQUIRE(answer.order);
    is_sound(*answer.order, parts.size());
    CHECK(count(*answer.order, SeamKind::straight) == parts.size() - 1);
    CHECK(count(*answer.order, SeamKind::set_in) == 0);
  }
}

TEST_CASE("segments make one path, with straight corners left out, or none") {
  const auto p = [](int x, int y) { return Point{Exact(x), Exact(y)}; };
  const auto bent = one_path({{p(1, 0), p(2, 0)}, {p(1, 0), p(0, 0)}, {p(2, 0), p(2, 3)}});
  REQUIRE(bent);
  CHECK(*bent == std::vector<Point>{p(0, 0), p(2, 0), p(2, 3)});
  CHECK_FALSE(one_path({{p(0, 0), p(1, 0)}, {p(2, 0), p(3, 0)}}));
  CHECK_FALSE(one_path({{p(0, 0), p(1, 0)}, {p(1, 0), p(1, 1)}, {p(1, 1), p(0, 0)}}));
  CHECK_FALSE(one_path({}));
}
