#pragma once
// In which order patches can be sewn on one paper, each by one straight seam to all before it.

#include <cstddef>
#include <optional>
#include <vector>

#include "geom/tiling.h"

namespace dogear {

// The seam that sews a patch to those that are there.
struct FoundationSeam {
  std::size_t patch = 0;
  std::size_t against = 0;  // of the patches there the one that it meets longest
  Segment where;            // from end to end
};

class Foundation {
 public:
  // The patches tile their whole; `meetings` are all among them.
  Foundation(const std::vector<Polygon>& patches, const std::vector<Meeting>& meetings)
      : patches_(patches), meetings_(meetings) {}

  // The seam by which `patch` is sewn to those that are marked, where it is one straight line and
  // the patch lies on one side of it.
  std::optional<FoundationSeam> seam(std::size_t patch, const std::vector<bool>& there) const;

  struct Answer {
    std::vector<std::size_t> order;     // all patches, the first first; or empty
    std::vector<FoundationSeam> seams;  // of the second and all after it
    std::vector<std::size_t> stuck;     // where there is no order: none of them can be sewn on last
  };
  // The patches of `later` are sewn on after those of `first`, which are there.
  Answer order(const std::vector<std::size_t>& first, const std::vector<std::size_t>& later) const;
  Answer order() const;

  // A line straight through the whole with patches on both sides, each of which has an order: the
  // patches of one side. Nothing where no such line is found.
  std::optional<std::vector<std::size_t>> halves() const;

  // Corners in which seams of the patch to the others turn.
  std::vector<Point> turns(std::size_t patch, const std::vector<std::size_t>& others) const;

 private:
  bool touch(std::size_t a, std::size_t b) const;
  bool hangs_together(const std::vector<bool>& there) const;

  const std::vector<Polygon>& patches_;
  const std::vector<Meeting>& meetings_;
};

}  // namespace dogear
