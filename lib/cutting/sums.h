#pragma once
// What rounded cuts add up to. A piece cut to a line instead of its exact measure finishes larger
// or smaller by the difference, everywhere alike: it is stretched. Along a straight line through
// patches that lie side by side, and along a seam, the stretches add up (essay in sums.cpp).
// Measured values: doubles, inches.

#include <map>
#include <set>
#include <vector>

#include "cutting/quantities.h"

namespace dogear {

// Inches that an inch of a piece grows by, as a matrix in the piece's own coordinates.
struct Stretch {
  double xx = 0, xy = 0, yx = 0, yy = 0;
  bool none() const { return xx == 0 && xy == 0 && yx == 0 && yy == 0; }
  double along(double x, double y) const;  // for a direction (x, y) of length 1
  Stretch& operator+=(const Stretch& o);
  friend Stretch operator*(const Stretch& s, double k) {
    return {s.xx * k, s.xy * k, s.yx * k, s.yy * k};
  }
};

// The stretch that one inch more in this measure gives the piece: none for measures that are eased
// or trimmed after sewing.
Stretch stretch_of(const Polygon& shape, const PieceCut& cut, const CutMeasure& measure);

// A sum with the number of patches that lie side by side on the line where it is greatest.
struct LineSum {
  double inches = 0;  // the sum farthest from nothing, with its sign
  long long patches = 0;
};

// Over all straight lines from left to right (`rows`) or from top to bottom through the patches,
// each of which grows as its piece does.
LineSum greatest_sum(const Piecing& piecing, const std::vector<PlacedPiece>& patches,
                     const std::map<PieceId, Stretch>& stretches, bool rows);

// How far the two edges of a seam come to differ on the way along it.
class SeamSums {
 public:
  SeamSums(const Piecing& piecing, const std::map<PieceId, Stretch>& stretches)
      : piecing_(piecing), stretches_(stretches) {}

  struct Miss {
    double inches = 0;         // between two points of the seam, not negative
    std::set<PieceId> pieces;  // whose rounding takes part
  };
  Miss miss(UnitId unit, const Seam& seam);

 private:
  struct Run {  // a stretch of an outer edge that grows
    double ax = 0, ay = 0, bx = 0, by = 0;
    double per_inch = 0;
    PieceId piece = 0;
  };
  Miss miss_along(UnitId unit, const Seam& seam, const Segment& where);
  const std::vector<Run>& edges_of(UnitId unit);
  std::vector<Run> placed(const Input& input);

  const Piecing& piecing_;
  const std::map<PieceId, Stretch>& stretches_;
  std::map<UnitId, std::vector<Run>> memo_;
};

}  // namespace dogear
