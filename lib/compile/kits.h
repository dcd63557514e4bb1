#pragma once
// Kits: what a shop cuts for many quilts at once, and what goes into each box.
//
// A kit may come in parts. Where a pattern has bundles, the bundle kit holds them and the booklet,
// and an add-on holds all other cloth (background, borders, binding). Without bundles one kit holds
// both. Backing is a part of its own. Cut lengths are the yardage that the booklet prints, which
// has the allowances for squaring up and shrinkage in it: they are not added again.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compile/lists.h"

namespace dogear {

struct KitOrder {
  std::size_t size = 0;  // Pattern::sizes
  long long kits = 0;    // 1 to 10000
};

// "12": so many of each of `sizes`; "lap=12,wall=6". Otherwise nothing, and what is wrong.
std::optional<std::vector<KitOrder>> read_kit_orders(const Pattern& pattern,
                                                     const std::vector<std::size_t>& sizes,
                                                     std::string_view text, std::string& wrong);

// First what to have and how to cut it for all kits together: kits, bundles, bolts, bolt cuts; then
// the sheet for the box of each size. Error D679: a cut that is longer than a bolt.
std::optional<std::vector<ListGroup>> kit_lists(const Plan& plan,
                                                const std::vector<KitOrder>& orders,
                                                Diagnostics& diagnostics);

}  // namespace dogear
