#include <fmt/format.h>

#include <chrono>

#include "stock/problems.h"

using namespace dogear::stock;

int main(int argc, char** argv) {
  const std::string want = argc > 1 ? argv[1] : "";
  const long long effort = argc > 2 ? std::stoll(argv[2]) : 2000;
  for (const Published& p : published(DOGEAR_ROOT "/tests/stock/published")) {
    if (p.name.find(want) != 0) continue;
    Problem problem = p.problem();
    problem.effort = effort;
    const auto start = std::chrono::steady_clock::now();
    const auto s = solve(problem);
    const double ms =
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
    fmt::print("{} {} kinds: {} rolls, bound {}, optimum {}, {:.1f} ms, faults {}, proves {}\n",
               p.name, p.lengths.size(), s->use, s->bound.use, p.optimum, ms,
               faults(problem, s->strips).size(), proves(problem, s->bound));
    std::fflush(stdout);
  }
}
