#pragma once
// Lengths cut off bolts of cloth, so that few bolts are begun.

#include <utility>
#include <vector>

#include "base/exact.h"

namespace dogear {

struct BoltDemand {
  Exact inches;  // of one cut; no longer than a bolt
  long long cuts = 0;
};

// Bolts that are cut alike.
struct BoltPlan {
  std::vector<std::pair<std::size_t, long long>> cuts;  // of which demand how many, longest first
  Exact remnant;                                        // inches
  long long times = 1;
};

struct BoltCutting {
  std::vector<BoltPlan> plans;  // the fullest of the longest cuts first
  long long bolts = 0;
  long long least = 0;  // no way of cutting begins fewer
};

BoltCutting cut_bolts(const std::vector<BoltDemand>& demands, const Exact& bolt);

}  // namespace dogear
