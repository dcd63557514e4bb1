#pragma once
// Plans as they are made: counting, comparing, trimming, and laying pieces first fit.

#include "stock/reduced.h"

namespace dogear::stock {

std::vector<long long> cuts_of(const Reduced& reduced, const std::vector<Strip>& strips);
Steps use_of(const Reduced& reduced, const std::vector<Strip>& strips);
std::vector<long long> sheets_of(const Reduced& reduced, const std::vector<Strip>& strips);

// What plans are compared by, the weightiest first: price, sheets of later sources, different
// heights, cuts, different strips, use, and stretches. Less is better.
std::vector<long long> merit(const Reduced& reduced, const std::vector<Strip>& strips);

// Takes away cuts beyond `need`, and what is then empty; numbers the sheets anew.
void trim(const Reduced& reduced, std::vector<long long> need, std::vector<Strip>& strips);

// Puts stretches of the same rows side by side into one where that takes no more length, and equal
// kinds in a row into one run.
void join(const Reduced& reduced, std::vector<Strip>& strips);

// Strips of cloth no higher than what is in them.
void lower(const Reduced& reduced, std::vector<Strip>& strips);

struct Manner {
  bool whole = false;  // a run is broken only where it is longer than a strip
  bool down = false;   // strips may be cut down for lower kinds
  // Heights that new strips of cloth may have, ascending; none: each kind's own.
  std::vector<Steps> heights;
  std::vector<std::size_t> order;  // kinds; empty: highest first, then longest first
};

// Lays what is needed into what is free in the strips, then into new ones. False where sheets run
// out; `need` is what is left.
bool fill(const Reduced& reduced, std::vector<long long>& need, const Manner& manner,
          std::vector<Strip>& strips);

}  // namespace dogear::stock
