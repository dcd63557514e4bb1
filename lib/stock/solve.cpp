#include <algorithm>

#include "stock/attempts.h"
#include "stock/compose.h"
#include "stock/improve.h"

namespace dogear::stock {

namespace {

// Steps of work in a unit of effort.
constexpr long long effort_unit = 50000;

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
    if (other.worth.empty() || other.use < bound.use) return;
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
  better(bound_by_duals(reduced, enough(reduced, best), budget, columns));
  if (best.least()) return;
  // Each may spend a part of what is left.
  const auto spend = [&](long long parts, auto work) {
    if (best.least()) return;
    Budget part{budget.left / parts};
    budget.left -= part.left;
    work(part);
    budget.left += part.left;
  };
  spend(4, [&](Budget& part) { dive(reduced, columns, part, best); });
  spend(3, [&](Budget& part) { count_strips(reduced, bound, part, best); });
  const long long before = best.any() ? best.price() : 0;
  spend(2, [&](Budget& part) { relay(reduced, part, best); });
  if (best.any() && best.price() < before) {
    spend(1, [&](Budget& part) { count_strips(reduced, bound, part, best); });
  }
  spend(1, [&](Budget& part) { dive(reduced, columns, part, best); });
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
