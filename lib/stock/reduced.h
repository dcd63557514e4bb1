#pragma once
// A problem as the solver sees it: only kinds that are needed, alike ones merged, heights and
// lengths in the largest units that measure all of them.

#include "stock/stock.h"

namespace dogear::stock {

struct ReducedKind {
  Steps height = 0;
  std::vector<Steps> run;
  long long need = 0;
  std::vector<std::size_t> from;  // kinds of the problem
  // Cuts in one run no longer than `length`.
  long long cuts_in(Steps length) const;
  Steps length(long long cuts) const { return run[static_cast<std::size_t>(cuts - 1)]; }
};

struct Reduced {
  std::vector<ReducedKind> kinds;  // highest first, then longest first
  std::vector<Source> sources;
  Steps length_unit = 1, height_unit = 1;
  std::vector<Steps> heights;        // of kinds, ascending
  std::vector<Steps> strip_heights;  // sums of kinds' heights up to the highest, ascending
  Steps longest = 0;                 // source
  std::vector<bool> single;          // sources whose sheets give one strip each; empty: none
  const Problem* problem = nullptr;

  bool fits(std::size_t kind, std::size_t source) const;
  bool gives_one(std::size_t source) const { return source < single.size() && single[source]; }
  bool cloth(std::size_t source) const { return !sources[source].height; }
  std::size_t last() const { return sources.size() - 1; }
  Steps highest() const { return heights.empty() ? 0 : heights.back(); }
  long long price(Steps use) const;  // use in reduced units
  // The least use from `use` up that strips or sheets can add up to.
  Steps round_up(Steps use) const;
};

// Nothing when a kind fits no source; `misfits` then names the kinds.
std::optional<Reduced> reduce(const Problem& problem, std::vector<std::size_t>& misfits);

// Plans back in the problem's measures, cuts of merged kinds given to each in its turn, no more
// than are needed.
std::vector<Strip> expand(const Reduced& reduced, std::vector<Strip> strips);

// `use` raised to the next sum of `heights`, any of them any number of times.
Steps next_sum(const std::vector<Steps>& heights, Steps use);

}  // namespace dogear::stock
