#pragma once
// Straight cuts through a set of parts that hang together: the seams that can be sewn last.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "geom/polygon.h"
#include "geom/tiling.h"

namespace dogear {

// Parts that hang together and leave no hole, with the meetings among them.
struct Subset {
  std::vector<std::size_t> parts;
  std::vector<std::uint32_t> edges;  // ranks within the Partition, ascending
};

struct Split {
  std::vector<Subset> groups;  // at least two, each a connected set of parts
  struct Join {
    std::size_t a = 0, b = 0;  // groups
    Segment where;
    std::optional<Arc> curve{};  // which the seam follows between the ends of `where`
  };
  std::vector<Join> joins;  // groups.size() - 1 of them: a tree
};

// A direction of seams: level 0, upright 1, slanted ones from 2.
using Direction = std::uint32_t;

// The meetings of a whole, sorted once, so that every subset is cut apart by counting alone.
class Partition {
 public:
  explicit Partition(const std::vector<Meeting>& meetings);

  // These parts and every meeting among them.
  Subset subset(std::vector<std::size_t> parts) const;

  // The set with one of its meetings left open, or without one of its parts.
  Subset with_open(Subset set, std::size_t meeting) const;
  Subset without(Subset set, std::size_t part) const;

  // The directions of its cuts, straight runs of meetings that part the set into two connected
  // halves; the preferred one first: level, upright, then the most frequent.
  std::vector<Direction> directions(const Subset& set) const;

  // Splits along as many cuts as do not cross each other, those of the direction `lead` first, then
  // in the order of directions(). Nothing when the set has no straight cut at all, which means it
  // cannot be sewn in straight seams in any order (see the essay in partition.cpp).
  std::optional<Split> split(const Subset& set, std::optional<Direction> lead = {}) const;

  // A corner where parts meet in a ring that no straight cut enters: what to show the designer.
  std::optional<Point> set_in_point(const Subset& set) const;

  // Where meetings of a set end on its rim, in no particular order.
  std::vector<Point> rim_points(const Subset& set) const;

  // The meetings of a set, as indices into those the partition was made of.
  std::vector<std::size_t> meetings(const Subset& set) const;

 private:
  struct Edge {
    std::uint32_t a, b;      // parts
    std::uint32_t from, to;  // vertices
    std::uint32_t line;
    Direction direction;
    std::size_t meeting;
  };
  struct Range {
    std::size_t first, last;  // positions in Subset::edges
    Direction direction;
  };
  std::vector<std::uint32_t> rim(const Subset& set) const;
  std::vector<Range> ranges(const Subset& set) const;
  void rank(const Subset& set, std::vector<Range>& cuts, std::optional<Direction> lead) const;
  Segment where(const Subset& set, const Range& r) const;

  std::vector<Edge> edges_;  // by line, then along it
  std::vector<Point> vertices_;
  std::vector<std::optional<Arc>> curves_;  // by line
};

}  // namespace dogear
