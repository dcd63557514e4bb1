#pragma once
// The best plan so far, and the search for a cheaper one by rounding what column generation found.

#include "stock/bound.h"

namespace dogear::stock {

class Best {
 public:
  Best(const Reduced& reduced, long long least) : reduced_(reduced), least_(least) {}

  // Trims, joins and compares; keeps the better one.
  void offer(std::vector<Strip> strips);
  void set_least(long long price) { least_ = price; }

  bool any() const { return !merit_.empty(); }
  bool least() const { return any() && merit_[0] <= least_; }
  long long price() const { return merit_[0]; }
  const std::vector<Strip>& strips() const { return strips_; }
  const std::vector<long long>& merit_of_best() const { return merit_; }

 private:
  const Reduced& reduced_;
  long long least_;  // nothing costs less
  std::vector<Strip> strips_;
  std::vector<long long> merit_;
};

// Dives from the fractions to whole strips until the least price is met or the budget is spent.
void dive(const Reduced& reduced, std::vector<Column> columns, Budget& budget, Best& best);

}  // namespace dogear::stock
