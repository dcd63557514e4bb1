#pragma once
// Straight cuts through a set of parts that hang together: the seams that can be sewn last.

#include <cstddef>
#include <optional>
#include <vector>

#include "geom/polygon.h"
#include "geom/tiling.h"

namespace dogear {

struct Cut {
  std::vector<std::size_t> meetings;  // indices of the meetings the cut runs along
  Segment where;
};

// Every straight run of meetings that parts `set` (indices of parts) into two connected halves.
std::vector<Cut> straight_cuts(const std::vector<std::size_t>& set,
                               const std::vector<Meeting>& meetings);

struct Split {
  std::vector<std::vector<std::size_t>> groups;  // at least two, each a connected set of parts
  struct Join {
    std::size_t a = 0, b = 0;  // groups
    Segment where;
  };
  std::vector<Join> joins;  // groups.size() - 1 of them: a tree
};

// Splits along as many cuts as do not cross each other: horizontal ones first, then vertical, then
// the rest. Nothing when the set has no straight cut at all, which means it cannot be sewn in
// straight seams in any order (see the essay in partition.cpp).
std::optional<Split> split(const std::vector<std::size_t>& set,
                           const std::vector<Meeting>& meetings);

// A corner where parts meet in a ring that no straight cut enters: what to show the designer.
std::optional<Point> set_in_point(const std::vector<std::size_t>& set,
                                  const std::vector<Meeting>& meetings);

}  // namespace dogear
