#pragma once
// Tips of pieces that stand out past what they are sewn to.

#include <vector>

#include "cutting/cut_shape.h"

namespace dogear {

// A corner of a piece at which its tip is cut along the neighbour's cut edge.
struct TipTrim {
  PieceId piece = 0;
  Point corner;               // finished, in the piece's coordinates
  Point along_seam;           // from the corner along the seam, in the piece's coordinates
  TrimLine line;              // in the piece's coordinates
  std::size_t seam = 0;       // SewnUnit::seams
  std::size_t neighbour = 0;  // SewnUnit::inputs
};
std::vector<TipTrim> trims_in(const Piecing& piecing, const SewnUnit& unit, const Exact& q);

// A piece as its strip or square gives it, mitred, blunt where the strip ends before the tip; tips
// that neighbours would trim are still there.
Polygon as_cut(const Polygon& shape, const PieceCut& cut, const Exact& q);

// To the nearest 1/8 in, or 1/16 where that is more than 1/32 off.
Fraction tip_measure(double inches);

// A tip that does stand out, by more than 1/32 in.
struct PieceTip {
  TipTrim trim;
  double beyond = 0;     // inches along the edge to be sewn; measured
  Fraction printed;      // to the nearest 1/8 in, or 1/16 where that is more than 1/32 off
  int degrees = 0;       // of the finished corner, rounded
  bool one_end = false;  // the other end of the seam has no such tip: the two edges cannot be
                         // matched by their middles
};
std::vector<PieceTip> tips_in(const Pattern& pattern, const Piecing& piecing,
                              const SizeQuantities& quantities, UnitId unit);

}  // namespace dogear
