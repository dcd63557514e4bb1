#include <catch2/catch.hpp>

#include "stock/stock.h"

using namespace dogear::stock;
TEST_CASE("x") {
  Problem p;
  Kind k;
  k.height = 40;
  k.need = 80;
  for (int n = 1; n <= 16; ++n) k.run.push_back(40 * n);
  p.kinds = {k};
  p.sources = {{640, {}, {}}};
  auto s = solve(p);
  REQUIRE(s);
  CHECK(s->use == 200);
  CHECK(s->least());
  CHECK(faults(p, s->strips).empty());
  CHECK(proves(p, s->bound));
}
