#include "stock/bound.h"

#include <algorithm>
#include <limits>

namespace dogear::stock {

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
  return master.bound_of(worth);
}

Bound bound_by_duals(const Reduced& reduced, Steps enough, Budget& budget,
                     std::vector<Column>& columns) {
  Master master(reduced, needs(reduced), limited_sheets(reduced));
  for (Column& c : columns) master.add(std::move(c));
  master.add_plain();
  master.solve(budget, enough, false);
  columns = master.columns();
  return master.bound();
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
  for (Worth& w : out.more) w.worth = by_kind(w.worth);
  return out;
}

}  // namespace dogear::stock
