// A bound is checked here by recursion with a memory, in the problem's own measures: rows kind by
// kind, stretches height by height, strips parted in two. None of the solver's tables are used.

#include <algorithm>
#include <map>
#include <set>

#include "stock/stock.h"

namespace dogear::stock {

namespace {

__extension__ using Wide = __int128;

class Valuer {
 public:
  Valuer(const Problem& problem, const std::vector<long long>& worth) {
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
      const Kind& kind = problem.kinds[k];
      if (kind.need <= 0 || kind.run.empty()) continue;
      highest_ = std::max(highest_, kind.height);
      if (worth[k] > 0) by_height_[kind.height].push_back({&kind.run, worth[k]});
    }
    for (const auto& [height, pieces] : by_height_) heights_.push_back(height);
    rows_.resize(heights_.size());
  }

  Steps highest() const { return highest_; }
  const std::vector<Steps>& heights() const { return heights_; }

  long long strip(Steps height, Steps length) {
    if (height <= 0 || length <= 0) return 0;
    auto& known = strips_[height];
    for (auto l = static_cast<Steps>(known.size()); l <= length; ++l) {
      long long best = l == 0 ? 0 : stretch(0, height, l);
      for (Steps a = 1; a <= l / 2; ++a) best = std::max(best, known[at(a)] + known[at(l - a)]);
      known.push_back(best);
    }
    return known[at(length)];
  }

  long long sheet(Steps height, Steps length) {
    if (height <= 0) return 0;
    const auto known = sheets_.find({height, length});
    if (known != sheets_.end()) return known->second;
    long long best = strip(std::min(height, highest_), length);
    for (Steps a = 1; a <= std::min(height - 1, highest_); ++a) {
      if (sum(a)) best = std::max(best, strip(a, length) + sheet(height - a, length));
    }
    return sheets_[{height, length}] = best;
  }

  // Whether rows can add up to this height.
  bool sum(Steps height) {
    if (height <= 0) return height == 0;
    const auto known = sums_.find(height);
    if (known != sums_.end()) return known->second;
    const bool is =
        std::any_of(heights_.begin(), heights_.end(), [&](Steps h) { return sum(height - h); });
    return sums_[height] = is;
  }

 private:
  struct Piece {
    const std::vector<Steps>* run;
    long long worth;
  };

  static std::size_t at(Steps s) { return static_cast<std::size_t>(s); }

  // Rows of the heights from the i-th on.
  long long stretch(std::size_t i, Steps height, Steps length) {
    if (i == heights_.size() || height < heights_[i]) return 0;
    auto& known = stretches_[{i, height}];
    for (auto l = static_cast<Steps>(known.size()); l <= length; ++l) {
      long long best = 0;
      for (long long n = 0; n * heights_[i] <= height; ++n) {
        best = std::max(best, n * row(i, 0, l) + stretch(i + 1, height - n * heights_[i], l));
      }
      known.push_back(best);
    }
    return known[at(length)];
  }

  // Runs of the kinds of that height from the k-th on.
  long long row(std::size_t i, std::size_t k, Steps length) {
    const auto& pieces = by_height_.at(heights_[i]);
    if (k == pieces.size() || length <= 0) return 0;
    auto& memory = rows_[i];
    if (memory.empty()) memory.resize(pieces.size());
    auto& known = memory[k];
    for (auto l = static_cast<Steps>(known.size()); l <= length; ++l) {
      long long best = row(i, k + 1, l);
      for (std::size_t n = 1; n <= pieces[k].run->size(); ++n) {
        const Steps rest = l - (*pieces[k].run)[n - 1];
        if (rest < 0) break;
        best = std::max(best, known[at(rest)] + static_cast<long long>(n) * pieces[k].worth);
      }
      known.push_back(best);
    }
    return known[at(length)];
  }

  Steps highest_ = 0;
  std::map<Steps, std::vector<Piece>> by_height_;
  std::vector<Steps> heights_;
  std::vector<std::vector<std::vector<long long>>> rows_;
  std::map<std::pair<std::size_t, Steps>, std::vector<long long>> stretches_;
  std::map<Steps, std::vector<long long>> strips_;
  std::map<std::pair<Steps, Steps>, long long> sheets_;
  std::map<Steps, bool> sums_;
};

Wide whole_worth(const Problem& problem, const std::vector<long long>& worth) {
  Wide sum = 0;
  for (std::size_t k = 0; k < worth.size(); ++k) {
    sum += static_cast<Wide>(worth[k]) * std::max(problem.kinds[k].need, 0LL);
  }
  return sum;
}

// The value of all sheets that are had, when each `most` covers what such a sheet can yield.
std::optional<Wide> limited(const Problem& problem, Valuer& valuer,
                            const std::vector<long long>& most) {
  Wide sum = 0;
  for (std::size_t s = 0; s + 1 < problem.sources.size(); ++s) {
    const Source& source = problem.sources[s];
    if (!source.height || !source.had) return std::nullopt;
    if (most[s] < valuer.sheet(*source.height, source.length)) return std::nullopt;
    sum += static_cast<Wide>(most[s]) * std::max(*source.had, 0LL);
  }
  return sum;
}

bool plausible(const Problem& problem, const std::vector<long long>& worth,
               const std::vector<long long>& most) {
  return worth.size() == problem.kinds.size() && most.size() == problem.sources.size() &&
         std::all_of(worth.begin(), worth.end(), [](long long w) { return w >= 0; });
}

bool proves(const Problem& problem, const Tall& tall) {
  if (!plausible(problem, tall.worth, tall.most) || tall.weight < 0) return false;
  for (std::size_t k = 0; k < tall.worth.size(); ++k) {
    if (tall.worth[k] > 0 && problem.kinds[k].height < tall.height) return false;
  }
  Valuer valuer(problem, tall.worth);
  const std::optional<Wide> sheets = limited(problem, valuer, tall.most);
  if (!sheets || tall.most.back() <= 0 ||
      tall.most.back() < valuer.strip(valuer.highest(), problem.sources.back().length)) {
    return false;
  }
  // One strip fewer holds not all.
  const Wide rest = whole_worth(problem, tall.worth) - *sheets;
  return static_cast<Wide>(tall.strips - 1) * tall.most.back() < rest;
}

bool priced(const Problem& problem, const Bound& bound) {
  return bound.price == (problem.price ? problem.price(bound.use) : bound.use);
}

// The most that cloth so high is worth, cut in strips of these heights and values.
Wide worth_of(const std::vector<std::pair<Steps, Wide>>& strips, Steps use) {
  std::vector<Wide> most(static_cast<std::size_t>(use) + 1, 0);
  for (const auto& [height, value] : strips) {
    for (Steps u = height; u <= use; ++u) {
      Wide& here = most[static_cast<std::size_t>(u)];
      here = std::max(here, most[static_cast<std::size_t>(u - height)] + value);
    }
  }
  return *std::max_element(most.begin(), most.end());
}

// The next sum of heights of needed kinds.
Steps next(const Problem& problem, Steps use) {
  std::set<Steps> sums{0};
  while (!sums.empty()) {
    const Steps least = *sums.begin();
    if (least >= use) return least;
    sums.erase(sums.begin());
    for (const Kind& k : problem.kinds) {
      if (k.need > 0) sums.insert(least + k.height);
    }
  }
  return use;
}

}  // namespace

bool proves(const Problem& problem, const Bound& bound) {
  if (problem.sources.empty() || !plausible(problem, bound.worth, bound.most) ||
      bound.per.size() != problem.sources.size()) {
    return false;
  }
  Valuer valuer(problem, bound.worth);
  const std::optional<Wide> sheets = limited(problem, valuer, bound.most);
  if (!sheets) return false;
  Wide whole = whole_worth(problem, bound.worth) - *sheets;
  const Source& last = problem.sources.back();
  const long long most = bound.most.back();
  const Steps per = bound.per.back();
  if (per <= 0 || most < 0) return false;
  if (last.height) {
    if (per != 1 || !bound.tall.empty() || most < valuer.sheet(*last.height, last.length)) {
      return false;
    }
  } else {
    for (const Tall& t : bound.tall) {
      if (!proves(problem, t)) return false;
      whole += static_cast<Wide>(t.weight) * t.strips;
    }
    std::vector<std::pair<Steps, Wide>> strips;
    for (Steps height = 1; height <= valuer.highest(); ++height) {
      Wide value = 0;
      // Between two sums a strip holds no more than at the lower one.
      const bool counted = std::any_of(bound.tall.begin(), bound.tall.end(),
                                       [&](const Tall& t) { return t.height == height; });
      if (!valuer.sum(height) && !counted) continue;
      Steps holds = height;
      while (!valuer.sum(holds)) --holds;
      value = valuer.strip(holds, last.length);
      for (const Tall& t : bound.tall) {
        if (height >= t.height) value += t.weight;
      }
      if (static_cast<Wide>(most) * height < value * per) return false;
      strips.emplace_back(height, value);
    }
    if (bound.use <= 0) return priced(problem, bound);
    // One step less: is it worth less, in strips of any heights?
    if (worth_of(strips, bound.use - 1) < whole) return priced(problem, bound);
  }
  Wide use = 0;
  if (whole > 0) {
    if (most == 0) return false;
    use = (whole * per + most - 1) / most;
  }
  const Steps proved =
      last.height ? static_cast<Steps>(use) : next(problem, static_cast<Steps>(use));
  return bound.use <= proved && priced(problem, bound);
}

}  // namespace dogear::stock
