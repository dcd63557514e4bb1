#pragma once
// Where seams made before end on the seam being sewn. Places are measured, inches.

#include <vector>

#include "piecing/piecing.h"

namespace dogear {

struct Spot {
  double x = 0, y = 0;
};

// A seam made before that reaches the edge of a part.
struct SeamEnd {
  UnitId unit = 0;  // whose seam it is
  std::size_t seam = 0;
  Spot at;
  Spot across;     // from the seam's first part towards its second
  Spot into;       // from the edge into the cloth, along the seam
  int depth = 0;   // 1: a seam of the part itself, more: of a part in it
  double way = 0;  // in a crossing: the cosine of `into` along the crossing's seam
};

// A point of a seam, not at its ends, at which seams of its two parts end.
struct SeamCrossing {
  std::size_t seam = 0;
  Spot at, along;                      // `along` is a unit vector
  std::vector<SeamEnd> first, second;  // of the seam's two parts, in the order along the seam
  std::size_t patches() const { return first.size() + second.size() + 2; }
};

// Of every unit, in the order of its seams, then along them.
std::vector<std::vector<SeamCrossing>> find_crossings(const Piecing& piecing);

// The pairs, one seam of each part, that nest when they are pressed apart: in their order where
// both parts have as many, otherwise those that go on as one line.
std::vector<std::pair<std::size_t, std::size_t>> matched(const SeamCrossing& crossing);

}  // namespace dogear
