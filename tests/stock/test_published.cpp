#include <catch2/catch.hpp>

#include "stock/problems.h"
#include "support/project.h"

using namespace dogear::stock;

TEST_CASE("published instances are solved to their optimum, and it is proved") {
  const std::vector<Published> all =
      published(dogear::test::project_folder() + "/tests/stock/published");
  REQUIRE(all.size() == 21);
  for (const Published& p : all) {
    INFO(p.name);
    Problem problem = p.problem();
    problem.effort = 200000;
    const auto s = solve(problem);
    REQUIRE(s);
    CHECK(s->use == p.optimum);
    CHECK(s->bound.use == p.optimum);
    CHECK(s->least());
    CHECK(faults(problem, s->strips).empty());
    CHECK(proves(problem, s->bound));
    CHECK(s->use <= first_fit_cloth(problem));
  }
}
