#include <algorithm>
#include <limits>
#include <numeric>

#include "stock/improve.h"

namespace dogear::stock {

namespace {

// Steps of work in a unit of effort.
constexpr long long effort_unit = 50000;

// Kinds by a measure, the greatest first; those that do not fit the last source before all others.
template <class Measure>
std::vector<std::size_t> order_by(const Reduced& reduced, Measure measure) {
  std::vector<std::size_t> out(reduced.kinds.size());
  std::iota(out.begin(), out.end(), std::size_t{0});
  std::stable_sort(out.begin(), out.end(), [&](std::size_t a, std::size_t b) {
    const bool last_a = reduced.fits(a, reduced.last());
    const bool last_b = reduced.fits(b, reduced.last());
    return last_a != last_b ? last_b : measure(reduced.kinds[a]) > measure(reduced.kinds[b]);
  });
  return out;
}

// Plans that first fit makes in one manner or another. What is left of the first is told.
std::vector<long long> first_fits(const Reduced& reduced, Best& best) {
  std::vector<std::vector<std::size_t>> orders;
  orders.push_back(order_by(reduced, [](const ReducedKind&) { return 0; }));
  orders.push_back(order_by(reduced, [](const ReducedKind& k) { return k.run[0]; }));
  orders.push_back(
      order_by(reduced, [](const ReducedKind& k) { return k.height * k.run[0] * k.need; }));
  std::vector<long long> left;
  for (std::size_t o = 0; o < orders.size(); ++o) {
    for (const bool down : {false, true}) {
      for (const bool whole : {false, true}) {
        Manner manner{whole, down, {}, orders[o]};
        std::vector<long long> need = needs(reduced);
        std::vector<Strip> strips;
        if (fill(reduced, need, manner, strips)) best.offer(std::move(strips));
        if (left.empty()) left = need;
      }
    }
  }
  return left;
}

// Fewer heights: strips only as high as some of the kinds, lower kinds cut from higher strips.
void few_heights(const Reduced& reduced, Best& best) {
  const std::size_t heights = reduced.heights.size();
  if (heights < 2) return;
  std::vector<std::vector<Steps>> choices;
  if (heights <= 7) {
    for (std::size_t set = 0; set < (std::size_t{1} << (heights - 1)); ++set) {
      std::vector<Steps> some;
      for (std::size_t h = 0; h + 1 < heights; ++h) {
        if ((set >> h & 1) != 0) some.push_back(reduced.heights[h]);
      }
      some.push_back(reduced.highest());
      choices.push_back(std::move(some));
    }
  } else {
    for (std::size_t every = 2; every <= heights; every *= 2) {
      std::vector<Steps> some;
      for (std::size_t h = heights; h > 0; h = h > every ? h - every : 0) {
        some.push_back(reduced.heights[h - 1]);
      }
      std::reverse(some.begin(), some.end());
      choices.push_back(std::move(some));
    }
  }
  for (std::vector<Steps>& some : choices) {
    for (const bool whole : {false, true}) {
      Manner manner{whole, true, some, order_by(reduced, [](const ReducedKind&) { return 0; })};
      std::vector<long long> need = needs(reduced);
      std::vector<Strip> strips;
      if (fill(reduced, need, manner, strips)) best.offer(std::move(strips));
    }
  }
}

// The use from which on a plan costs as much as the best one: no bound need be greater.
Steps enough(const Reduced& reduced, const Best& best) {
  if (!best.any()) return std::numeric_limits<Steps>::max();
  Steps low = 0;
  Steps high = use_of(reduced, best.strips());
  while (low < high) {
    const Steps middle = low + (high - low) / 2;
    if (reduced.price(reduced.round_up(middle)) >= best.price()) {
      high = middle;
    } else {
      low = middle + 1;
    }
  }
  return low;
}

Solution nothing_to_cut(const Problem& problem) {
  Solution out;
  out.sheets.assign(problem.sources.size(), 0);
  out.price = problem.price ? problem.price(0) : 0;
  out.bound.price = out.price;
  out.bound.worth.assign(problem.kinds.size(), 0);
  out.bound.most.assign(problem.sources.size(), 0);
  out.bound.per.assign(problem.sources.size(), 1);
  return out;
}

void find(const Reduced& reduced, Bound& bound, Best& best, long long effort) {
  const auto better = [&](Bound other) {
    if (other.worth.empty() || other.use <= bound.use) return;
    bound = std::move(other);
    best.set_least(reduced.price(reduced.round_up(bound.use)));
  };
  if (best.least()) return;
  Budget budget{effort * effort_unit};
  std::vector<Column> columns;
  if (best.any()) {
    for (const Strip& s : best.strips()) {
      if (reduced.cloth(s.source)) columns.push_back(column_of(reduced, {s}));
    }
  }
  better(bound_by_duals(reduced, enough(reduced, best), {}, budget, columns));
  if (best.least()) return;
  if (reduced.cloth(reduced.last()) && reduced.heights.size() > 1) {
    Budget part{budget.left / 6};
    const std::vector<Tall> tall = tall_strips(reduced, part);
    budget.left -= budget.left / 6 - part.left;
    if (!tall.empty()) {
      better(bound_by_duals(reduced, enough(reduced, best), tall, budget, columns));
    }
  }
  if (best.least()) return;
  Budget half{budget.left / 2};
  dive(reduced, std::move(columns), half, best);
  budget.left -= budget.left / 2 - half.left;
  if (!best.least()) relay(reduced, budget, best);
}

}  // namespace

std::optional<Solution> solve(const Problem& problem, std::vector<std::size_t>* misfits) {
  std::vector<std::size_t> none;
  std::vector<std::size_t>& left = misfits != nullptr ? *misfits : none;
  left.clear();
  const std::optional<Reduced> reduced = reduce(problem, left);
  if (!reduced) return std::nullopt;
  if (reduced->kinds.empty()) return nothing_to_cut(problem);

  Bound bound = bound_by_size(*reduced);
  Best best(*reduced, reduced->price(reduced->round_up(bound.use)));
  const std::vector<long long> lacking = first_fits(*reduced, best);
  find(*reduced, bound, best, problem.effort);
  few_heights(*reduced, best);
  simplify(*reduced, best);
  if (!best.any()) {
    for (std::size_t k = 0; k < lacking.size(); ++k) {
      if (lacking[k] == 0) continue;
      left.insert(left.end(), reduced->kinds[k].from.begin(), reduced->kinds[k].from.end());
    }
    std::sort(left.begin(), left.end());
    return std::nullopt;
  }
  Solution out;
  out.bound = expand(*reduced, bound);
  out.use = use_of(*reduced, best.strips());
  if (reduced->cloth(reduced->last())) out.use *= reduced->height_unit;
  out.price = best.price();
  out.sheets = sheets_of(*reduced, best.strips());
  out.strips = expand(*reduced, best.strips());
  return out;
}

}  // namespace dogear::stock
