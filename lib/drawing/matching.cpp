#include "drawing/matching.h"

#include <algorithm>
#include <cmath>

#include "geom/arcs.h"

namespace dogear::drawing {
namespace {

constexpr double close = 0.02;       // in; nearer spots are one
constexpr double quarters_from = 6;  // in of curve: longer ones are marked at the quarters, too

// The corners of the patches of an input, in the unit's coordinates, without those that only stand
// in for a curve.
std::vector<Spot> corners(const Scene& scene, const Input& input) {
  std::vector<Spot> out;
  const auto add = [&](PieceId id, const dogear::Transform& where) {
    const Polygon& shape = scene.piecing.pieces.at(id).shape;
    for (std::size_t i = 0; i < shape.size(); ++i) {
      if (!is_on_curve(shape, i)) out.push_back(spot(where.apply(shape.at(i)), 1));
    }
  };
  if (input.is_piece) {
    add(input.piece, input.where);
  } else {
    for (const PlacedPiece& placed : flatten(scene.piecing, input.unit))
      add(placed.piece, placed.where.then(input.where));
  }
  return out;
}

std::vector<Spot> curve_spots(const Seam& seam) {
  const Spot c = spot(seam.curve->center, 1);
  const double far = std::sqrt(seam.curve->squared.approx());
  const Spot a = spot(seam.where.a, 1), b = spot(seam.where.b, 1);
  const auto between = [&](Spot from, Spot to) { return c + unit((from - c) + (to - c)) * far; };
  const Spot middle = between(a, b);
  // Two chords stand in for the arc: a few hundredths shorter, which decides nothing.
  if (length(middle - a) + length(b - middle) < quarters_from) return {middle};
  return {between(a, middle), middle, between(middle, b)};
}

double off_outline(const Ring& r, Spot p) { return std::abs(depth(r, p)); }

}  // namespace

std::vector<Spot> matching_spots(const Scene& scene, std::size_t size, PieceId id) {
  const Polygon& shape = scene.piecing.pieces.at(id).shape;
  const Ring outline = ring(shape, 1);
  std::vector<Spot> out;
  const auto add = [&](Spot p) {
    if (off_outline(outline, p) > close / 2) return;
    for (std::size_t i = 0; i < shape.size(); ++i) {
      if (!is_on_curve(shape, i) && length(spot(shape.at(i), 1) - p) < close) return;
    }
    const auto near = [&](Spot q) { return length(q - p) < close; };
    if (std::none_of(out.begin(), out.end(), near)) out.push_back(p);
  };
  for (const auto& [unit, count] : scene.piecing.sizes.at(size).make) {
    const SewnUnit& sewn = scene.piecing.units.at(unit);
    if (sewn.batch || sewn.strip_set || sewn.foundation) continue;
    for (const Seam& seam : sewn.seams) {
      for (const bool first : {true, false}) {
        const Input& mine = sewn.inputs.at(first ? seam.first : seam.second);
        if (!mine.is_piece || mine.piece != id) continue;
        const Motion back = motion(mine.where.inverse(), 1);
        if (seam.curve) {
          for (const Spot p : curve_spots(seam)) add(back.apply(p));
        }
        for (const Spot p : corners(scene, sewn.inputs.at(first ? seam.second : seam.first)))
          add(back.apply(p));
      }
    }
  }
  return out;
}

}  // namespace dogear::drawing
