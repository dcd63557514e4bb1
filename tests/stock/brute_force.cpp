#include "stock/brute_force.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>

namespace dogear::stock {

namespace {

using Yield = std::vector<long long>;  // cuts of each kind, no more than needed
using Yields = std::set<Yield>;

class Trying {
 public:
  explicit Trying(const Problem& problem) : problem_(problem) {
    for (const Kind& k : problem.kinds) {
      highest_ = std::max(highest_, k.height);
      need_.push_back(k.need);
    }
  }

  Steps least() {
    std::map<Yield, Steps> known;
    return least(need_, known);
  }

 private:
  Yield sum(const Yield& a, const Yield& b) const {
    Yield out = a;
    for (std::size_t i = 0; i < out.size(); ++i) out[i] = std::min(out[i] + b[i], need_[i]);
    return out;
  }

  // All rows of this height and length: runs of any kinds of that height.
  const Yields& rows(Steps height, Steps length) {
    const auto [at, fresh] = rows_.try_emplace({height, length});
    if (!fresh) return at->second;
    Yields out{Yield(need_.size(), 0)};
    for (std::size_t k = 0; k < problem_.kinds.size(); ++k) {
      const Kind& kind = problem_.kinds[k];
      if (kind.height != height) continue;
      for (std::size_t n = 1; n <= kind.run.size() && kind.run[n - 1] <= length; ++n) {
        Yield run(need_.size(), 0);
        run[k] = std::min(static_cast<long long>(n), need_[k]);
        for (const Yield& rest : rows(height, length - kind.run[n - 1])) out.insert(sum(run, rest));
      }
    }
    return rows_[{height, length}] = out;
  }

  const Yields& stretches(Steps height, Steps length) {
    const auto [at, fresh] = stretches_.try_emplace({height, length});
    if (!fresh) return at->second;
    Yields out{Yield(need_.size(), 0)};
    std::set<Steps> heights;
    for (const Kind& kind : problem_.kinds) heights.insert(kind.height);
    for (const Steps h : heights) {
      if (h > height) continue;
      for (const Yield& row : rows(h, length)) {
        for (const Yield& rest : stretches(height - h, length)) out.insert(sum(row, rest));
      }
    }
    return stretches_[{height, length}] = out;
  }

  const Yields& strips(Steps height, Steps length) {
    const auto [at, fresh] = strips_.try_emplace({height, length});
    if (!fresh) return at->second;
    Yields out{Yield(need_.size(), 0)};
    for (Steps a = 1; a <= length; ++a) {
      for (const Yield& first : stretches(height, a)) {
        for (const Yield& rest : strips(height, length - a)) out.insert(sum(first, rest));
      }
    }
    return strips_[{height, length}] = out;
  }

  Steps least(const Yield& left, std::map<Yield, Steps>& known) {
    if (std::all_of(left.begin(), left.end(), [](long long n) { return n == 0; })) return 0;
    const auto [at, fresh] = known.try_emplace(left, std::numeric_limits<Steps>::max());
    if (!fresh) return at->second;
    Steps best = std::numeric_limits<Steps>::max();
    for (Steps height = 1; height <= highest_; ++height) {
      for (const Yield& strip : strips(height, problem_.sources.back().length)) {
        Yield rest = left;
        bool some = false;
        for (std::size_t i = 0; i < rest.size(); ++i) {
          some |= rest[i] > 0 && strip[i] > 0;
          rest[i] = std::max(0LL, rest[i] - strip[i]);
        }
        if (some) best = std::min(best, height + least(rest, known));
      }
    }
    return known[left] = best;
  }

  const Problem& problem_;
  Steps highest_ = 0;
  Yield need_;
  std::map<std::pair<Steps, Steps>, Yields> rows_, stretches_, strips_;
};

}  // namespace

Steps least_by_trying(const Problem& problem) { return Trying(problem).least(); }

}  // namespace dogear::stock
