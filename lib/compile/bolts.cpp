#include "compile/bolts.h"

#include <algorithm>
#include <numeric>

namespace dogear {

namespace {

// No fewer bolts can do, whichever way they are cut. For a length t up to half a bolt: cuts longer
// than bolt - t lie alone, those longer than half a bolt each on a bolt of their own, and the cuts
// from t up to a half must find room beside these or on further bolts (the bound of bin packing).
long long least_bolts(const std::vector<BoltDemand>& demands, const Exact& bolt) {
  const Exact half = bolt / Exact(2);
  std::vector<Exact> thresholds{Exact(0)};
  for (const BoltDemand& d : demands) {
    if (d.inches <= half) thresholds.push_back(d.inches);
  }
  long long least = 0;
  for (const Exact& t : thresholds) {
    long long alone = 0, large = 0;
    Exact large_length = 0, small_length = 0;
    for (const BoltDemand& d : demands) {
      if (d.inches > bolt - t) {
        alone += d.cuts;
      } else if (d.inches > half) {
        large += d.cuts;
        large_length += d.inches * Exact(d.cuts);
      } else if (d.inches >= t) {
        small_length += d.inches * Exact(d.cuts);
      }
    }
    const Exact beside = bolt * Exact(large) - large_length;
    const long long more =
        small_length > beside ? ((small_length - beside) / bolt).round_up(1).num : 0;
    least = std::max(least, alone + large + more);
  }
  // Where all cuts are as long, a bolt gives so many.
  if (demands.size() == 1 && demands[0].cuts > 0) {
    const long long each = (bolt / demands[0].inches).round_down(1).num;
    least = std::max(least, (demands[0].cuts + each - 1) / each);
  }
  return least;
}

}  // namespace

BoltCutting cut_bolts(const std::vector<BoltDemand>& demands, const Exact& bolt) {
  std::vector<std::size_t> order(demands.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return demands[a].inches > demands[b].inches;
  });
  std::vector<long long> left;
  left.reserve(demands.size());
  for (const BoltDemand& d : demands) left.push_back(d.cuts);
  const auto any = [&] {
    return std::any_of(left.begin(), left.end(), [](long long n) { return n > 0; });
  };
  // Each bolt takes the longest cuts that still fit; as many bolts as can be are cut alike.
  BoltCutting out;
  while (any()) {
    BoltPlan plan;
    plan.remnant = bolt;
    for (const std::size_t i : order) {
      const long long fit = (plan.remnant / demands[i].inches).round_down(1).num;
      const long long n = std::min(fit, left[i]);
      if (n == 0) continue;
      plan.cuts.emplace_back(i, n);
      plan.remnant -= demands[i].inches * Exact(n);
    }
    plan.times = 0;
    for (const auto& [i, n] : plan.cuts) {
      plan.times = plan.times == 0 ? left[i] / n : std::min(plan.times, left[i] / n);
    }
    for (const auto& [i, n] : plan.cuts) left[i] -= n * plan.times;
    out.bolts += plan.times;
    out.plans.push_back(std::move(plan));
  }
  out.least = least_bolts(demands, bolt);
  return out;
}

}  // namespace dogear
