#pragma once
// Do parts fill an outline with no gap and no overlap, and where do they meet?

#include <cstddef>
#include <optional>
#include <vector>

#include "geom/polygon.h"

namespace dogear {

// Two parts share this stretch of edge: the whole length on which exactly these two lie.
struct Meeting {
  std::size_t a = 0;  // a < b
  std::size_t b = 0;
  Segment where;               // runs along a's clockwise boundary
  std::optional<Arc> curve{};  // which it is a stretch of 15° of
};

// A stretch where the parts' edges do not cancel against each other and the outline.
struct Misfit {
  Segment where;
  int balance = 0;                 // net count of part edges along `where`
  std::vector<std::size_t> parts;  // parts with an edge here
};

struct Fit {
  std::vector<Meeting> meetings;
  std::vector<Misfit> misfits;  // empty exactly when the parts fill the outline
  bool fits() const { return misfits.empty(); }
};

// Every part and the outline must be simple and clockwise.
Fit fit(const std::vector<Polygon>& parts, const Polygon& outline);

// The common outline of parts that tile it, with their meetings; no outline when they leave a
// hole, overlap, or do not hang together (then `misfits` holds the loops' unmatched edges).
struct Joined {
  std::optional<Polygon> outline;
  Fit fit;
};
Joined join(const std::vector<Polygon>& parts);

}  // namespace dogear
