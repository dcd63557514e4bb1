// How the cutting-stock solver does on instances with known answers, and how long it takes.
//
//   bench_stock instances [NAME...]   published instances whose names begin so (all unless said):
//                                     a line each of name, kinds, pieces, optimum, rolls, bound,
//                                     rolls by first fit and milliseconds, parted by tabs
//   bench_stock quilts [KINDS]        problems of a quilt's size up to so many kinds (40 unless
//                                     said), a Markdown table
//
// Fails where a plan cannot be cut or a bound is not proved.

#include <fmt/format.h>

#include <chrono>
#include <stdexcept>

#include "stock/problems.h"
#include "support/project.h"

using namespace dogear::stock;

namespace {

struct Measured {
  Solution solution;
  double ms = 0;
};

Measured measure(const Problem& problem) {
  Measured out;
  for (int again = 0; again < 3; ++again) {
    const auto start = std::chrono::steady_clock::now();
    auto s = solve(problem);
    const double ms =
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
    if (!s) throw std::runtime_error("a piece fits no source");
    out.ms = again == 0 ? ms : std::min(ms, out.ms);
    out.solution = std::move(*s);
    if (ms > 300) break;
  }
  const auto wrong = faults(problem, out.solution.strips);
  if (!wrong.empty()) throw std::runtime_error(wrong[0]);
  if (!proves(problem, out.solution.bound)) throw std::runtime_error("a bound is not proved");
  return out;
}

void instances(const std::vector<std::string>& names) {
  for (const Published& p : published(dogear::test::project_folder() + "/tests/stock/published")) {
    bool wanted = names.empty();
    for (const std::string& n : names) wanted |= p.name.find(n) == 0;
    if (!wanted) continue;
    Problem problem = p.problem();
    problem.effort = 200000;
    const Measured m = measure(problem);
    fmt::print("{}\t{}\t{}\t{}\t{}\t{}\t{}\t{:.1f}\n", p.name, p.lengths.size(), p.pieces(),
               p.optimum, m.solution.use, m.solution.bound.use, first_fit_cloth(problem), m.ms);
    std::fflush(stdout);
  }
}

// Pieces of 1 1/2 to 5 in by 1 1/2 to 12 1/2 in from cloth of 42 in, sold by the eighth of a yard;
// measures to 1/8 in, or to 1/16 in where `fine`.
Problem quilt(long long kinds, long long cuts, bool one_height, bool fine) {
  Chance chance(static_cast<std::uint64_t>(kinds * 1000 + cuts + (one_height ? 7 : 0)));
  const Steps grid = fine ? 1 : 2;
  Problem p;
  p.sources = {cloth(672)};
  p.price = in_steps_of(72);
  for (long long k = 0; k < kinds; ++k) {
    const Steps height = one_height ? 40 : grid * chance.between(24 / grid, 80 / grid);
    const Steps length = grid * chance.between(24 / grid, 200 / grid);
    const Steps pitch = k % 4 == 3 ? length * 2 / 3 / grid * grid : length;
    const long long rest = cuts / kinds;
    p.kinds.push_back(nested(height, length, pitch, chance.between(rest / 2, rest * 3 / 2), 672));
  }
  return p;
}

std::string eighths(long long n) {
  const long long whole = n / 8;
  const char* const parts[] = {"", " 1/8", " 1/4", " 3/8", " 1/2", " 5/8", " 3/4", " 7/8"};
  return fmt::format("{}{} yd", whole, parts[n % 8]);
}

void quilts(long long most_kinds) {
  fmt::print(
      "| kinds | cuts | heights | steps | cloth | at least | proved | first fit | ms |\n"
      "|---|---|---|---|---|---|---|---|---|\n");
  for (const long long kinds : {5LL, 10LL, 20LL, 40LL}) {
    if (kinds > most_kinds) break;
    for (const long long cuts : {500LL, 5000LL}) {
      for (int form = 0; form < 3; ++form) {
        const Problem p = quilt(kinds, cuts, form == 0, form == 2);
        const Measured m = measure(p);
        long long all = 0;
        for (const Kind& k : p.kinds) all += k.need;
        fmt::print("| {} | {} | {} | {} | {} | {} | {} | {} | {:.0f} |\n", kinds, all,
                   form == 0 ? "one" : "many", form == 2 ? "1/16 in" : "1/8 in",
                   eighths(m.solution.price), eighths(m.solution.bound.price),
                   m.solution.least() ? "yes" : "no", eighths(p.price(first_fit_cloth(p))), m.ms);
        std::fflush(stdout);
      }
    }
  }
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> words(argv + 1, argv + argc);
  try {
    if (!words.empty() && words[0] == "instances") {
      instances({words.begin() + 1, words.end()});
    } else if (!words.empty() && words[0] == "quilts") {
      quilts(words.size() > 1 ? std::stoll(words[1]) : 40);
    } else {
      fmt::print(stderr, "bench_stock instances [NAME...] | quilts [KINDS]\n");
      return 2;
    }
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 1;
  }
  return 0;
}
