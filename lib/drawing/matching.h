#pragma once
// Matching marks: spots of a piece's seam line that meet a corner, or the middle of a curve, of
// what is sewn to it.

#include <vector>

#include "drawing/figure.h"
#include "drawing/sketch.h"

namespace dogear::drawing {

// In inches, in the piece's own coordinates, none at a corner of the piece. A spot is listed where
// any unit of this size sews the piece so.
std::vector<Spot> matching_spots(const Scene& scene, std::size_t size, PieceId piece);

}  // namespace dogear::drawing
