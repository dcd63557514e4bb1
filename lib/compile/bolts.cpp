#include "compile/bolts.h"

#include <algorithm>
#include <map>
#include <numeric>

#include "stock/stock.h"

namespace dogear {

namespace {

constexpr stock::Steps an_inch = 16;

// A bolt as a sheet one step high, whose one strip runs along it.
stock::Problem as_stock(const std::vector<BoltDemand>& demands, const Exact& bolt) {
  stock::Problem problem;
  stock::Source source;
  source.length = (bolt * Exact(an_inch)).round_down(1).num;
  source.height = 1;
  for (const BoltDemand& demand : demands) {
    const stock::Steps each = (demand.inches * Exact(an_inch)).round_up(1).num;
    stock::Kind kind;
    kind.height = 1;
    kind.need = demand.cuts;
    for (stock::Steps length = each; length <= source.length; length += each) {
      kind.run.push_back(length);
    }
    problem.kinds.push_back(std::move(kind));
  }
  problem.sources.push_back(source);
  return problem;
}

}  // namespace

BoltCutting cut_bolts(const std::vector<BoltDemand>& demands, const Exact& bolt) {
  BoltCutting out;
  const auto solution = stock::solve(as_stock(demands, bolt));
  if (!solution) return out;
  out.least = solution->bound.use;
  // What each bolt gives, longest cuts first; bolts alike are counted once.
  std::vector<std::size_t> order(demands.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return demands[a].inches > demands[b].inches;
  });
  std::map<long long, std::map<std::size_t, long long>> bolts;
  std::vector<long long> left;
  left.reserve(demands.size());
  for (const BoltDemand& demand : demands) left.push_back(demand.cuts);
  for (const stock::Strip& strip : solution->strips) {
    for (const stock::Stretch& stretch : strip.stretches) {
      for (const stock::Row& row : stretch.rows) {
        for (const stock::Run& run : row.runs) {
          // No more than are wanted, even where more fit.
          const long long cuts = std::min(run.cuts, left[run.kind]);
          if (cuts > 0) bolts[strip.sheet][run.kind] += cuts;
          left[run.kind] -= cuts;
        }
      }
    }
  }
  for (const auto& [sheet, kinds] : bolts) {
    BoltPlan plan;
    plan.remnant = bolt;
    for (const std::size_t i : order) {
      const auto found = kinds.find(i);
      if (found == kinds.end()) continue;
      plan.cuts.emplace_back(i, found->second);
      plan.remnant -= demands[i].inches * Exact(found->second);
    }
    ++out.bolts;
    const auto same = std::find_if(out.plans.begin(), out.plans.end(),
                                   [&](const BoltPlan& p) { return p.cuts == plan.cuts; });
    if (same != out.plans.end()) {
      ++same->times;
    } else {
      out.plans.push_back(std::move(plan));
    }
  }
  // Bolts with most of the longest cuts first, so that the last one keeps the largest remnant.
  std::stable_sort(out.plans.begin(), out.plans.end(), [&](const BoltPlan& a, const BoltPlan& b) {
    const Exact& first = demands[a.cuts.front().first].inches;
    const Exact& other = demands[b.cuts.front().first].inches;
    if (first != other) return first > other;
    return a.cuts.front().second > b.cuts.front().second;
  });
  return out;
}

}  // namespace dogear
