#include "stock/bound.h"

#include <algorithm>
#include <limits>

namespace dogear::stock {

namespace {

// Counting the strips of more heights than this costs much and says little.
constexpr std::size_t most_tall = 10;
constexpr Steps no_end = std::numeric_limits<Steps>::max();

}  // namespace

std::vector<long long> needs(const Reduced& reduced) {
  std::vector<long long> out;
  for (const ReducedKind& k : reduced.kinds) out.push_back(k.need);
  return out;
}

std::vector<long long> limited_sheets(const Reduced& reduced) {
  std::vector<long long> out;
  for (std::size_t s = 0; s < reduced.last(); ++s) {
    out.push_back(std::max(reduced.sources[s].had.value_or(0), 0LL));
  }
  return out;
}

Bound bound_by_size(const Reduced& reduced) {
  std::vector<long long> worth;
  for (const ReducedKind& k : reduced.kinds) {
    long long least = std::numeric_limits<long long>::max();
    for (std::size_t n = 1; n <= k.run.size(); ++n) {
      least = std::min(least, k.height * k.run[n - 1] * 720 / static_cast<long long>(n));
    }
    worth.push_back(least);
  }
  Master master(reduced, needs(reduced), limited_sheets(reduced));
  Bound bound = master.bound_of(worth);
  master.raise(bound);
  return bound;
}

Bound bound_by_duals(const Reduced& reduced, Steps enough, std::vector<Tall> tall, Budget& budget,
                     std::vector<Column>& columns) {
  Master master(reduced, needs(reduced), limited_sheets(reduced), std::move(tall));
  for (Column& c : columns) master.add(std::move(c));
  master.add_plain();
  master.solve(budget, enough, false);
  columns = master.columns();
  Bound bound = master.bound();
  if (bound.use < enough) master.raise(bound);
  return bound;
}

std::vector<Tall> tall_strips(const Reduced& reduced, Budget& budget) {
  std::vector<Tall> out;
  if (!reduced.cloth(reduced.last())) return out;
  const std::size_t all = reduced.heights.size();
  for (std::size_t h = all; h-- > 0 && all - h <= most_tall && !budget.spent();) {
    std::vector<long long> need = needs(reduced);
    for (std::size_t k = 0; k < need.size(); ++k) {
      if (reduced.kinds[k].height < reduced.heights[h]) need[k] = 0;
    }
    Master master(reduced, std::move(need), limited_sheets(reduced), {}, Master::Least::strips);
    master.add_plain();
    master.solve(budget, no_end, false);
    const Bound& b = master.bound();
    if (b.use <= 0) continue;
    // The same number at a greater height says more.
    if (!out.empty() && out.back().strips >= b.use) continue;
    out.push_back({reduced.heights[h], b.use, b.worth, b.most, 0});
  }
  return out;
}

Bound expand(const Reduced& reduced, const Bound& bound) {
  const auto by_kind = [&](const std::vector<long long>& worth) {
    std::vector<long long> out(reduced.problem->kinds.size(), 0);
    for (std::size_t k = 0; k < worth.size(); ++k) {
      for (const std::size_t from : reduced.kinds[k].from) out[from] = worth[k];
    }
    return out;
  };
  Bound out = bound;
  const Steps use = reduced.round_up(bound.use);
  const bool cloth = reduced.cloth(reduced.last());
  out.use = cloth ? use * reduced.height_unit : use;
  out.price = reduced.price(use);
  out.worth = by_kind(bound.worth);
  if (cloth && !out.per.empty()) out.per.back() *= reduced.height_unit;
  std::erase_if(out.tall, [](const Tall& t) { return t.weight == 0; });
  for (Tall& t : out.tall) {
    t.height *= reduced.height_unit;
    t.worth = by_kind(t.worth);
  }
  return out;
}

}  // namespace dogear::stock
