// How the cut edges of two neighbours lie along their seam.

#include <algorithm>
#include <cmath>

#include "booklet/writer.h"
#include "cutting/tips.h"
#include "geom/offset.h"

namespace dogear::booklet {
namespace {

struct Place {
  double x = 0, y = 0;
};

Place place(const dogear::Point& p) { return {p.x.approx(), p.y.approx()}; }

// A cut edge along a seam, from the seam's start; inches.
struct CutEdge {
  double from = 0, to = 0;
};

Polygon cut_piece(const Writer& w, PieceId id) {
  const Polygon& shape = w.scene.piecing.pieces[id].shape;
  const CutPiece* cut = cut_of(w.quantities(), id);
  const Exact& q = w.pattern().seam_allowance;
  return cut == nullptr ? offset(shape, q) : as_cut(shape, cut->cut, q);
}

std::optional<CutEdge> cut_edge(const Writer& w, const Input& in, const Seam& seam) {
  const Polygon& finished =
      in.is_piece ? w.scene.piecing.pieces[in.piece].shape : w.scene.piecing.units[in.unit].outline;
  if (!is_convex(finished)) return {};
  const Polygon own = in.where.apply(finished);
  for (const dogear::Point& end : {seam.where.a, seam.where.b})
    if (std::find(own.corners.begin(), own.corners.end(), end) == own.corners.end()) return {};
  const Exact& q = w.pattern().seam_allowance;
  const Polygon cut = in.where.apply(in.is_piece ? cut_piece(w, in.piece) : offset(finished, q));
  const Place a = place(seam.where.a), b = place(seam.where.b);
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  const Place along{(b.x - a.x) / length, (b.y - a.y) / length};
  const auto away = [&](const dogear::Point& p) {
    return (place(p).x - a.x) * -along.y + (place(p).y - a.y) * along.x;
  };
  double side = 0;
  for (const dogear::Point& p : own.corners) side += away(p);
  side = side > 0 ? -1 : 1;  // towards the neighbour
  double farthest = -1e9;
  for (const dogear::Point& p : cut.corners) farthest = std::max(farthest, side * away(p));
  CutEdge edge{1e9, -1e9};
  for (const dogear::Point& p : cut.corners) {
    if (side * away(p) < farthest - 1e-6) continue;
    const double at = (place(p).x - a.x) * along.x + (place(p).y - a.y) * along.y;
    edge.from = std::min(edge.from, at);
    edge.to = std::max(edge.to, at);
  }
  // Whether a sewn unit's sharp tips are blunt depends on how it was sewn.
  const double most = q.approx() + 1e-6;
  if (!in.is_piece && (edge.from < -most || edge.to > length + most)) return {};
  return edge;
}

}  // namespace

std::optional<double> overhang(const Writer& w, const SewnUnit& unit, const Seam& seam) {
  const auto first = cut_edge(w, unit.inputs[seam.first], seam);
  const auto second = cut_edge(w, unit.inputs[seam.second], seam);
  if (!first || !second) return {};
  constexpr double least = 1.0 / 32, alike = 1.0 / 16;
  const double start = second->from - first->from, end = first->to - second->to;
  const double out = (start + end) / 2;
  if (std::abs(out) <= least || std::abs(start - end) > alike) return {};
  return std::abs(out);
}

}  // namespace dogear::booklet
