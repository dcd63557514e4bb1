// Problems with little or nothing in them, and what faults() and proves() must refuse.

#include <catch2/catch.hpp>

#include "stock/problems.h"

using namespace dogear::stock;

TEST_CASE("nothing to cut takes nothing") {
  Problem p{{}, {cloth(40)}, {}, 2000};
  auto s = solve(p);
  REQUIRE(s);
  CHECK(s->use == 0);
  CHECK(s->least());
  CHECK(s->strips.empty());
  p.kinds = {plain(5, 5, 0, 40)};
  s = solve(p);
  REQUIRE(s);
  CHECK(s->strips.empty());
  CHECK(proves(p, s->bound));
}

TEST_CASE("kinds without need beside others change nothing") {
  Problem p{{plain(9, 9, 0, 40), plain(5, 5, 8, 40), plain(7, 50, 0, 40)}, {cloth(40)}, {}, 2000};
  const auto s = solve(p);
  REQUIRE(s);
  CHECK(s->use == 5);
  CHECK(faults(p, s->strips).empty());
  CHECK(proves(p, s->bound));
}

TEST_CASE("kinds that fit no source are named") {
  Problem p{{plain(5, 5, 1, 40), plain(5, 41, 1, 40), plain(5, 5, 1, 40)}, {cloth(40)}, {}, 2000};
  std::vector<std::size_t> misfits;
  CHECK(!solve(p, &misfits));
  CHECK(misfits == std::vector<std::size_t>{1});
  p.sources = {{60, 5, 0}, {40, 4, std::nullopt}};
  CHECK(!solve(p, &misfits));
  CHECK(misfits == std::vector<std::size_t>{0, 1, 2});
}

TEST_CASE("a last source that runs out names what is left") {
  Problem p{{plain(5, 5, 16, 40), plain(4, 4, 1, 40)}, {sheets(40, 5, 2)}, {}, 2000};
  std::vector<std::size_t> misfits;
  CHECK(!solve(p, &misfits));
  CHECK(!misfits.empty());
  p.kinds[0].need = 15;
  const auto s = solve(p, &misfits);
  REQUIRE(s);
  CHECK(misfits.empty());
  CHECK(s->use == 2);
}

TEST_CASE("sheets of which there are none are passed over") {
  Problem p{{plain(5, 5, 9, 40)}, {sheets(40, 5, 0), cloth(40)}, {}, 2000};
  const auto s = solve(p);
  REQUIRE(s);
  CHECK(s->use == 10);
  CHECK(s->sheets[0] == 0);
  CHECK(proves(p, s->bound));
}

TEST_CASE("a kind that only a limited source can hold is cut from it") {
  Problem p{{plain(5, 30, 2, 60), plain(5, 5, 20, 60)}, {sheets(60, 5, 1), cloth(20)}, {}, 2000};
  const auto s = solve(p);
  REQUIRE(s);
  CHECK(s->use == 25);
  CHECK(faults(p, s->strips).empty());
  CHECK(proves(p, s->bound));
}

TEST_CASE("faults are told") {
  const Problem p{{plain(5, 5, 8, 40)}, {cloth(40)}, {}, 2000};
  const std::vector<Strip> good = solve(p)->strips;
  REQUIRE(faults(p, good).empty());
  const auto spoilt = [&](auto spoil) {
    std::vector<Strip> bad = good;
    spoil(bad);
    return faults(p, bad).size();
  };
  CHECK(spoilt([](auto& s) { s.clear(); }) == 1);
  CHECK(spoilt([](auto& s) { s[0].source = 1; }) > 0);
  CHECK(spoilt([](auto& s) { s[0].height = 4; }) > 0);
  CHECK(spoilt([](auto& s) { s[0].stretches[0].length = 41; }) > 0);
  CHECK(spoilt([](auto& s) { s[0].stretches[0].length = 39; }) > 0);
  CHECK(spoilt([](auto& s) { s[0].stretches[0].rows[0].height = 4; }) > 0);
  CHECK(spoilt([](auto& s) { s[0].stretches[0].rows[0].runs[0].cuts = 7; }) > 0);
  CHECK(spoilt([](auto& s) { s[0].stretches[0].rows[0].runs[0].cuts = 9; }) > 0);
  CHECK(spoilt([](auto& s) { s[0].stretches[0].rows[0].runs[0].length = 39; }) > 0);
  CHECK(spoilt([](auto& s) { s[0].stretches[0].rows.push_back(s[0].stretches[0].rows[0]); }) > 0);
  CHECK(spoilt([](auto& s) { s.push_back(s[0]); }) > 0);
}

TEST_CASE("a sheet holds no more than its height and number") {
  const Problem p{{plain(5, 5, 8, 20)}, {sheets(20, 10, 1)}, {}, 2000};
  const std::vector<Strip> good = solve(p)->strips;
  REQUIRE(faults(p, good).empty());
  REQUIRE(good.size() == 2);
  std::vector<Strip> bad = good;
  bad[1].sheet = 1;
  CHECK(!faults(p, bad).empty());
  bad = good;
  bad[1].height = 6;
  CHECK(!faults(p, bad).empty());
}

TEST_CASE("a bound that says too much is refused") {
  // Two heights, so that the least number of tall strips enters the proof.
  const Problem p{{plain(7, 9, 5, 20), plain(5, 11, 4, 20), plain(3, 4, 9, 20)},
                  {sheets(20, 5, 1), cloth(20)},
                  {},
                  2000};
  const Bound good = solve(p)->bound;
  REQUIRE(proves(p, good));
  const auto spoilt = [&](auto spoil) {
    Bound bad = good;
    spoil(bad);
    return !proves(p, bad);
  };
  CHECK(spoilt([](Bound& b) {
    b.use += 7;
    b.price += 7;
  }));
  CHECK(spoilt([](Bound& b) { b.price += 1; }));
  CHECK(spoilt([](Bound& b) { b.worth[0] += b.worth[0] / 2; }));
  CHECK(spoilt([](Bound& b) { b.worth.pop_back(); }));
  CHECK(spoilt([](Bound& b) { b.most[0] /= 2; }));
  CHECK(spoilt([](Bound& b) { b.most[1] /= 2; }));
  CHECK(spoilt([](Bound& b) { b.per[1] *= 2; }));
  CHECK(spoilt([](Bound& b) { b.worth[0] = -1; }));
}

TEST_CASE("whole strips are counted where half ones would do for less") {
  // Derived here: three high cuts, two to a strip, take two strips, and what these leave holds two
  // of the five low ones; the other three take a strip: 10 + 10 + 6. By area 22 1/2 would do, and
  // four strips of 6 have that area.
  const Problem p{{plain(10, 20, 3, 40), plain(6, 10, 5, 40)}, {cloth(40)}, {}, 2000};
  const auto s = solve(p);
  REQUIRE(s);
  CHECK(s->use == 26);
  CHECK(s->least());
  REQUIRE(proves(p, s->bound));
  REQUIRE(!s->bound.more.empty());
  Bound bad = s->bound;
  bad.more.clear();
  CHECK(!proves(p, bad));
  bad = s->bound;
  for (Worth& w : bad.more) w.worth.assign(w.worth.size(), 0);
  CHECK(!proves(p, bad));
  bad.more[0].worth[0] = -1;
  CHECK(!proves(p, bad));
}
