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
  const long long kinds = chance.between(1, 3);
  for (long long k = 0; k < kinds; ++k) {
    const Steps first = chance.between(1, std::min<Steps>(width, 5));
    p.kinds.push_back(nested(chance.between(1, 4), first,
                             chance.up_to(2) == 0 ? (first + 1) / 2 : first, chance.between(1, 4),
                             width));
  }
  return p;
}

}  // namespace

TEST_CASE("tiny problems come out as by trying everything") {
  int proved = 0;
  const int all = 300;
  for (std::uint64_t seed = 1; seed <= all; ++seed) {
    const Problem p = tiny(seed);
    const Steps least = least_by_trying(p);
    const auto s = solve(p);
    INFO("seed " << seed);
    REQUIRE(s);
    CHECK(s->bound.use <= least);
    CHECK(s->use >= least);
    CHECK(faults(p, s->strips).empty());
    CHECK(proves(p, s->bound));
    proved += s->least() ? 1 : 0;
  }
  WARN(proved << " of " << all << " proved");
}
