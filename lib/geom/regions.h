#pragma once
// Where parts fail to fit, for messages: decided exactly elsewhere (geom/tiling.h), located here
// in doubles, inches, good to a thousandth.

#include <cstddef>
#include <optional>
#include <vector>

#include "geom/polygon.h"

namespace dogear {

struct Measured {
  double x = 0, y = 0;
};

struct Region {
  double x = 0, y = 0, width = 0, height = 0;  // its box
  std::vector<std::size_t> parts;              // parts that lie there, or beside a gap
  std::vector<std::vector<Measured>> rings;    // its outline, then those of holes in it
};

struct Misfits {
  double left = 0, top = 0;  // of the box that places are counted from
  Region all;                // the box of all parts together
  std::vector<Region> gaps;
  std::vector<Region> overlaps;  // of two parts
  std::vector<Region> outside;   // parts beyond the outline
};

// Without an outline the parts' own outer edge is the frame, and only holes are gaps.
Misfits find_misfits(const std::vector<Polygon>& parts, const std::optional<Polygon>& outline);

}  // namespace dogear
