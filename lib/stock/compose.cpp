// Column generation may use half a strip, cloth is cut in whole ones. With the pieces valued, so
// many strips of each height are enough only if their values are together no less than the pieces'.
// So: find whole strips that cost less than the best plan and pass every valuing there is so far.
// None: the best plan is the least, and the valuings are the proof. Otherwise let column generation
// try to cut all pieces from just those strips. If it cannot, its duals are a valuing that they do
// not pass, and the next search begins; if it can, diving tries the same in whole cuts.
//
// The search goes from the highest strips to the lowest and turns back where what may still be
// added could not pass one of the valuings, by a knapsack of it alone.

#include "stock/compose.h"

#include <algorithm>
#include <limits>

#include "stock/attempts.h"

namespace dogear::stock {

namespace {

__extension__ using Wide = __int128;

constexpr std::size_t most_lengths = 8;
constexpr int most_rounds = 60;
constexpr int most_tries = 8;  // strips for which no plan was found
constexpr long long most_nodes = 200000;
constexpr std::size_t most_table = 600000;

class Counting {
 public:
  explicit Counting(const Reduced& reduced) : reduced_(reduced), values_(reduced) {}

  void add(const std::vector<long long>& worth) {
    Valuing v;
    values_.set(worth);
    v.worth.worth = worth;
    for (std::size_t k = 0; k < worth.size(); ++k) {
      v.whole += static_cast<Wide>(worth[k]) * reduced_.kinds[k].need;
    }
    const std::vector<long long> sheets = limited_sheets(reduced_);
    for (std::size_t s = 0; s < sheets.size(); ++s) {
      v.worth.most.push_back(values_.sheet(s));
      v.whole -= static_cast<Wide>(v.worth.most[s]) * sheets[s];
    }
    for (const Steps height : reduced_.strip_heights) {
      v.strip.push_back(values_.strip(height, reduced_.sources.back().length));
    }
    valuings_.push_back(std::move(v));
  }

  // Strips, counted by height, that use no more than `use` and pass all valuings.
  std::optional<std::vector<long long>> find(Steps use) {
    gave_up_ = false;
    nodes_ = 0;
    const auto width = static_cast<std::size_t>(use) + 1;
    const std::size_t heights = reduced_.strip_heights.size();
    if (width * heights * valuings_.size() > most_table * 4 || width * heights > most_table) {
      gave_up_ = true;
      return std::nullopt;
    }
    for (Valuing& v : valuings_) {
      v.reach.assign(heights + 1, std::vector<long long>(width, 0));
      for (std::size_t h = 0; h < heights; ++h) {
        v.reach[h + 1] = v.reach[h];
        const auto height = static_cast<std::size_t>(reduced_.strip_heights[h]);
        for (std::size_t u = height; u < width; ++u) {
          v.reach[h + 1][u] = std::max(v.reach[h + 1][u], v.reach[h + 1][u - height] + v.strip[h]);
        }
      }
    }
    std::vector<long long> counts(heights, 0);
    std::vector<Wide> missing;
    for (const Valuing& v : valuings_) missing.push_back(v.whole);
    if (!search(heights, use, missing, counts)) return std::nullopt;
    return counts;
  }

  void pass_over(const std::vector<long long>& counts) { tried_.push_back(counts); }
  bool passed_over() const { return !tried_.empty(); }
  bool gave_up() const { return gave_up_; }
  long long nodes() const { return nodes_; }
  std::vector<Worth> worths() const {
    std::vector<Worth> out;
    for (const Valuing& v : valuings_) out.push_back(v.worth);
    return out;
  }

 private:
  struct Valuing {
    Worth worth;
    Wide whole = 0;                             // what strips of cloth must be worth
    std::vector<long long> strip;               // by strip height
    std::vector<std::vector<long long>> reach;  // [heights from the lowest][use]
  };

  bool search(std::size_t heights, Steps use, const std::vector<Wide>& missing,
              std::vector<long long>& counts) {
    if (++nodes_ > most_nodes) gave_up_ = true;
    if (gave_up_) return false;
    bool enough = true;
    for (std::size_t i = 0; i < missing.size(); ++i) {
      if (valuings_[i].reach[heights][static_cast<std::size_t>(use)] < missing[i]) return false;
      enough = enough && missing[i] <= 0;
    }
    if (enough || heights == 0) {
      return enough && std::find(tried_.begin(), tried_.end(), counts) == tried_.end();
    }
    const Steps height = reduced_.strip_heights[heights - 1];
    for (long long n = use / height; n >= 0; --n) {
      std::vector<Wide> rest = missing;
      for (std::size_t i = 0; i < rest.size(); ++i) {
        rest[i] -= static_cast<Wide>(n) * valuings_[i].strip[heights - 1];
      }
      counts[heights - 1] = n;
      if (search(heights - 1, use - n * height, rest, counts)) return true;
    }
    counts[heights - 1] = 0;
    return false;
  }

  const Reduced& reduced_;
  Values values_;
  std::vector<Valuing> valuings_;
  std::vector<std::vector<long long>> tried_;
  bool gave_up_ = false;
  long long nodes_ = 0;
};

// The same problem with just these strips, as sheets, before the cloth.
Reduced with_strips(const Reduced& reduced, const std::vector<long long>& counts,
                    const Problem& unpriced) {
  Reduced out = reduced;
  out.problem = &unpriced;
  const Source cloth = out.sources.back();
  out.sources.pop_back();
  for (std::size_t h = counts.size(); h-- > 0;) {
    if (counts[h] == 0) continue;
    out.single.resize(out.sources.size(), false);
    out.single.push_back(true);
    out.sources.push_back({cloth.length, reduced.strip_heights[h], counts[h]});
  }
  out.sources.push_back(cloth);
  return out;
}

std::vector<Strip> back_on_cloth(const Reduced& reduced, std::vector<Strip> strips) {
  for (Strip& s : strips) {
    if (s.source < reduced.last()) continue;
    s.source = reduced.last();
    s.sheet = 0;
  }
  return strips;
}

}  // namespace

void count_strips(const Reduced& reduced, Bound& bound, Budget& budget, Best& best) {
  if (!reduced.cloth(reduced.last()) || !best.any()) return;
  Problem unpriced = *reduced.problem;
  unpriced.price = nullptr;
  Counting counting(reduced);
  counting.add(bound.worth);
  // Strips at least so high, by the lengths that the kinds at least so high take.
  const std::size_t heights = reduced.heights.size();
  for (std::size_t h = heights; h-- > 0 && heights - h <= most_lengths;) {
    std::vector<long long> worth;
    for (const ReducedKind& k : reduced.kinds) {
      long long least = k.height < reduced.heights[h] ? 0 : k.run[0] * 720;
      for (std::size_t n = 2; n <= k.run.size(); ++n) {
        least = std::min(least, k.run[n - 1] * 720 / static_cast<long long>(n));
      }
      worth.push_back(least);
    }
    counting.add(worth);
  }
  int tries = 0;
  for (int round = 0; round < most_rounds && !budget.spent() && !best.least(); ++round) {
    const Steps least = enough(reduced, best);
    const auto counts = counting.find(least - 1);
    budget.left -= counting.nodes() * 20;
    if (counting.gave_up()) return;
    if (!counts) {
      if (counting.passed_over()) return;
      bound.use = least;
      bound.more = counting.worths();
      bound.more.erase(bound.more.begin());
      best.set_least(reduced.price(reduced.round_up(least)));
      return;
    }
    const Reduced just = with_strips(reduced, *counts, unpriced);
    std::vector<Column> columns;
    const Bound refuted = bound_by_duals(just, 1, budget, columns);
    if (refuted.use > 0) {
      counting.add(refuted.worth);
      continue;
    }
    Best plan(just, 0);
    first_fits(just, plan);
    Budget part{budget.left / 4};
    if (!plan.least()) dive(just, std::move(columns), part, plan);
    budget.left -= budget.left / 4 - part.left;
    if (plan.any()) best.offer(back_on_cloth(reduced, plan.strips()));
    if (plan.least()) continue;
    counting.pass_over(*counts);
    if (++tries >= most_tries) return;
  }
}

}  // namespace dogear::stock
