// To satisfy as many pulls as possible is the problem of the greatest cut, which has no quick exact
// solution; but the pulls of a quilt contradict each other seldom. So the heaviest pulls are taken
// first and each joins two groups whose ways are tied from then on (a forest of parities): where
// the pulls agree, this satisfies all of them. Those that close a ring the wrong way stay
// unsatisfied; afterwards single seams are turned over as long as that satisfies more weight.
// Within a group both ways satisfy the same pulls, and the likings of its seams choose.
#include "piecing/press_parity.h"

#include <algorithm>
#include <numeric>

namespace dogear {

namespace {

class Forest {
 public:
  explicit Forest(const std::vector<int>& fixed)
      : parent_(fixed.size()), sign_(fixed.size(), 1), size_(fixed.size(), 1), fixed_(fixed) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
  }

  struct Root {
    std::size_t id = 0;
    int sign = 1;  // way of the member = sign x way of the root
  };
  Root root(std::size_t i) const {
    Root r{i, 1};
    while (parent_[r.id] != r.id) {
      r.sign *= sign_[r.id];
      r.id = parent_[r.id];
    }
    return r;
  }

  void join(const Pull& pull) {
    Root a = root(pull.a);
    Root b = root(pull.b);
    if (a.id == b.id) return;
    const int sign = a.sign * b.sign * (pull.alike ? 1 : -1);
    if (fixed_[a.id] != 0 && fixed_[b.id] != 0 && fixed_[a.id] != sign * fixed_[b.id]) return;
    if (size_[a.id] < size_[b.id]) std::swap(a, b);
    parent_[b.id] = a.id;
    sign_[b.id] = sign;
    size_[a.id] += size_[b.id];
    if (fixed_[a.id] == 0) fixed_[a.id] = sign * fixed_[b.id];
  }

  int fixed(std::size_t root) const { return fixed_[root]; }

 private:
  std::vector<std::size_t> parent_;
  std::vector<int> sign_;
  std::vector<std::size_t> size_;
  std::vector<int> fixed_;
};

void improve(const ParityProblem& problem, std::vector<int>& way) {
  std::vector<std::vector<std::size_t>> pulls_of(way.size());
  for (std::size_t p = 0; p < problem.pulls.size(); ++p) {
    const Pull& pull = problem.pulls[p];
    if (pull.a == pull.b) continue;
    pulls_of[pull.a].push_back(p);
    pulls_of[pull.b].push_back(p);
  }
  constexpr int rounds = 4;
  for (int round = 0; round < rounds; ++round) {
    bool turned = false;
    for (std::size_t i = 0; i < way.size(); ++i) {
      if (problem.fixed[i] != 0) continue;
      double gain = 0;
      for (const std::size_t p : pulls_of[i]) {
        const Pull& pull = problem.pulls[p];
        const bool good = (way[pull.a] == way[pull.b]) == pull.alike;
        gain += good ? -pull.weight : pull.weight;
      }
      if (gain <= 1e-9) continue;
      way[i] = -way[i];
      turned = true;
    }
    if (!turned) return;
  }
}

}  // namespace

std::vector<int> settle(const ParityProblem& problem) {
  std::vector<std::size_t> order(problem.pulls.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return problem.pulls[a].weight > problem.pulls[b].weight;
  });
  Forest forest(problem.fixed);
  for (const std::size_t p : order) forest.join(problem.pulls[p]);
  std::vector<double> liking(problem.fixed.size(), 0);
  for (std::size_t i = 0; i < liking.size(); ++i) {
    const auto r = forest.root(i);
    liking[r.id] += r.sign * problem.liking[i];
  }
  std::vector<int> way(problem.fixed.size(), 1);
  for (std::size_t i = 0; i < way.size(); ++i) {
    const auto r = forest.root(i);
    const int fixed = forest.fixed(r.id);
    way[i] = r.sign * (fixed != 0 ? fixed : liking[r.id] < 0 ? -1 : 1);
  }
  improve(problem, way);
  return way;
}

}  // namespace dogear
