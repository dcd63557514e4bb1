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

bool priced(const Problem& problem, const Bound& bound) {
  return bound.price == (problem.price ? problem.price(bound.use) : bound.use);
}

// What strips of cloth must be worth by one valuing, and what one of each height is worth at most.
struct Demand {
  Wide whole = 0;
  std::vector<std::pair<Steps, Wide>> strips;  // from the highest
};

std::optional<Demand> demand(const Problem& problem, const Worth& worth) {
  if (worth.worth.size() != problem.kinds.size() ||
      worth.most.size() + 1 != problem.sources.size() ||
      std::any_of(worth.worth.begin(), worth.worth.end(), [](long long w) { return w < 0; })) {
    return std::nullopt;
  }
  Valuer valuer(problem, worth.worth);
  const std::optional<Wide> sheets = limited(problem, valuer, worth.most);
  if (!sheets) return std::nullopt;
  Demand out;
  out.whole = whole_worth(problem, worth.worth) - *sheets;
  for (Steps height = valuer.highest(); height > 0; --height) {
    out.strips.emplace_back(height, valuer.strip(height, problem.sources.back().length));
  }
  return out;
}

// Looks for strips that use no more than is left and are worth enough by every demand.
class Enough {
 public:
  explicit Enough(std::vector<Demand> demands, Steps use) : demands_(std::move(demands)) {
    // A height at which nothing is worth more than a step lower is never needed.
    std::vector<std::size_t> needed;
    const std::size_t all = demands_[0].strips.size();
    for (std::size_t h = 0; h < all; ++h) {
      const bool more = std::any_of(demands_.begin(), demands_.end(), [&](const Demand& d) {
        return d.strips[h].second > (h + 1 < all ? d.strips[h + 1].second : 0);
      });
      if (more) needed.push_back(h);
    }
    for (Demand& d : demands_) {
      std::vector<std::pair<Steps, Wide>> strips;
      for (const std::size_t h : needed) strips.push_back(d.strips[h]);
      d.strips = std::move(strips);
      // What so much cloth is worth with strips from the i-th on.
      auto& table = most_.emplace_back(d.strips.size() + 1,
                                       std::vector<Wide>(static_cast<std::size_t>(use) + 1, 0));
      for (std::size_t i = d.strips.size(); i-- > 0;) {
        const auto [height, value] = d.strips[i];
        table[i] = table[i + 1];
        for (Steps u = height; u <= use; ++u) {
          Wide& here = table[i][static_cast<std::size_t>(u)];
          here = std::max(here, table[i][static_cast<std::size_t>(u - height)] + value);
        }
      }
    }
  }

  // True also where there are too many to look at.
  bool possible(Steps use) {
    std::vector<Wide> missing;
    for (const Demand& d : demands_) missing.push_back(d.whole);
    return possible(0, use, missing);
  }

 private:
  bool possible(std::size_t i, Steps use, const std::vector<Wide>& missing) {
    if (++looked_ > 1000000) return true;
    bool done = true;
    for (std::size_t d = 0; d < missing.size(); ++d) {
      if (most_[d][i][static_cast<std::size_t>(use)] < missing[d]) return false;
      done = done && missing[d] <= 0;
    }
    if (done) return true;
    const Steps height = demands_[0].strips[i].first;
    std::vector<Wide> rest = missing;
    for (Steps left = use; left >= 0; left -= height) {
      if (possible(i + 1, left, rest)) return true;
      for (std::size_t d = 0; d < rest.size(); ++d) rest[d] -= demands_[d].strips[i].second;
    }
    return false;
  }

  std::vector<Demand> demands_;
  std::vector<std::vector<std::vector<Wide>>> most_;
  long long looked_ = 0;
};

// The greatest sum of heights of needed kinds below this use.
Steps previous(const Problem& problem, Steps use) {
  std::vector<bool> sum(static_cast<std::size_t>(use), false);
  sum[0] = true;
  Steps greatest = 0;
  for (Steps u = 1; u < use; ++u) {
    for (const Kind& k : problem.kinds) {
      if (k.need > 0 && k.height <= u && sum[static_cast<std::size_t>(u - k.height)]) {
        sum[static_cast<std::size_t>(u)] = true;
        greatest = u;
      }
    }
  }
  return greatest;
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
  const Wide whole = whole_worth(problem, bound.worth) - *sheets;
  const Source& last = problem.sources.back();
  const long long most = bound.most.back();
  const Steps per = bound.per.back();
  if (per <= 0 || most < 0) return false;
  if (last.height) {
    if (per != 1 || !bound.more.empty() || most < valuer.sheet(*last.height, last.length)) {
      return false;
    }
  } else {
    for (Steps height = 1; height <= valuer.highest(); ++height) {
      const Wide value = valuer.strip(height, last.length);
      if (static_cast<Wide>(most) * height < value * per) return false;
    }
  }
  Wide use = 0;
  if (whole > 0) {
    if (most == 0) return false;
    use = (whole * per + most - 1) / most;
  }
  const Steps proved =
      last.height ? static_cast<Steps>(use) : next(problem, static_cast<Steps>(use));
  if (!priced(problem, bound)) return false;
  if (bound.use <= proved) return true;
  if (last.height) return false;
  std::vector<Demand> demands;
  std::vector<Worth> worths = bound.more;
  worths.push_back({bound.worth, {bound.most.begin(), bound.most.end() - 1}});
  for (const Worth& w : worths) {
    std::optional<Demand> d = demand(problem, w);
    if (!d) return false;
    demands.push_back(std::move(*d));
  }
  // One step less: not enough, whatever the strips?
  const Steps less = previous(problem, bound.use);
  return !Enough(std::move(demands), less).possible(less);
}

}  // namespace dogear::stock
