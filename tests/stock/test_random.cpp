// Properties of plans and bounds over random problems.

#include <catch2/catch.hpp>

#include "stock/brute_force.h"
#include "stock/problems.h"

using namespace dogear::stock;

namespace {

Problem tiny(std::uint64_t seed) {
  Chance chance(seed);
  Problem p;
  const Steps width = chance.between(4, 9);
  p.sources = {cloth(width)};
  p.effort = 500;
  const long long kinds = chance.between(1, 3);
  for (long long k = 0; k < kinds; ++k) {
    const Steps first = chance.between(1, std::min<Steps>(width, 5));
    const Steps pitch = chance.up_to(2) == 0 ? (first + 1) / 2 : first;
    p.kinds.push_back(nested(chance.between(1, 4), first, pitch, chance.between(1, 4), width));
  }
  return p;
}

// As quilts are: a few kinds of 1 1/2 to 5 in, some of them nested, cloth sold by eighths.
Problem quilt(std::uint64_t seed, long long most_kinds) {
  Chance chance(seed);
  Problem p;
  const Steps width = chance.up_to(1) == 0 ? 320 : 336;
  const long long kinds = chance.between(1, most_kinds);
  for (long long k = 0; k < kinds; ++k) {
    const Steps length = chance.between(12, 100);
    const Steps pitch = chance.up_to(3) == 0 ? length * 2 / 3 : length;
    p.kinds.push_back(nested(chance.between(12, 40), length, pitch, chance.between(1, 60), width));
  }
  switch (chance.up_to(3)) {
    case 0:
      p.sources = {sheets(width, 20, chance.between(0, 9)), cloth(width)};
      break;
    case 1:
      p.sources = {sheets(168, 144, chance.between(0, 3)), cloth(width)};
      break;
    case 2:
      p.sources = {{168, 144, std::nullopt}};
      break;
    default:
      p.sources = {cloth(width)};
  }
  if (p.sources.back().height == std::nullopt) p.price = in_steps_of(36);
  p.effort = 60;
  return p;
}

}  // namespace

TEST_CASE("tiny problems come out as by trying everything") {
  int missed = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const Problem p = tiny(seed);
    const Steps least = least_by_trying(p);
    const auto s = solve(p);
    INFO("seed " << seed);
    REQUIRE(s);
    CHECK(s->bound.use <= least);
    CHECK(s->use >= least);
    CHECK(faults(p, s->strips).empty());
    CHECK(proves(p, s->bound));
    missed += s->use > least ? 1 : 0;
  }
  CHECK(missed == 0);
}

TEST_CASE("every plan can be cut, every bound proved, and neither is worse than first fit") {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    INFO("seed " << seed);
    const Problem p = quilt(seed, 6);
    const auto s = solve(p);
    REQUIRE(s);
    CHECK(faults(p, s->strips) == std::vector<std::string>{});
    CHECK(proves(p, s->bound));
    CHECK(s->bound.use <= s->use);
    CHECK(s->bound.price <= s->price);
    if (p.sources.size() == 1 && !p.sources[0].height) {
      CHECK(s->price <= p.price(first_fit_cloth(p)));
    }
  }
}

TEST_CASE("twice the pieces never take less cloth") {
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    INFO("seed " << seed);
    Problem p = quilt(seed, 5);
    const auto once = solve(p);
    for (Kind& k : p.kinds) k.need *= 2;
    const auto twice = solve(p);
    REQUIRE(once);
    REQUIRE(twice);
    CHECK(twice->price >= once->price);
    CHECK(twice->bound.price >= once->bound.price);
  }
}

TEST_CASE("the same problem gives the same plan") {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const Problem p = quilt(seed, 6);
    const auto a = solve(p);
    const auto b = solve(p);
    REQUIRE(a);
    REQUIRE(b);
    REQUIRE(a->strips.size() == b->strips.size());
    for (std::size_t i = 0; i < a->strips.size(); ++i) {
      CHECK(a->strips[i].height == b->strips[i].height);
      CHECK(a->strips[i].stretches.size() == b->strips[i].stretches.size());
    }
    CHECK(a->bound.worth == b->bound.worth);
  }
}
