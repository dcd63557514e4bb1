#include "cutting/batches.h"

#include <algorithm>

#include "geom/offset.h"

namespace dogear {

namespace {

// What of a convex outline lies within a rectangle.
Exact area_within(Polygon p, const Polygon& frame) {
  for (std::size_t i = 0; i < frame.size(); ++i) {
    const Segment e = frame.edge(i);
    const auto kept = clip(p, e.a, e.b - e.a);
    if (!kept) return 0;
    p = *kept;
  }
  return area(p);
}

// The patches of a batch, with their seam allowances, are no more than the cloth that it takes. A
// stitched corner's own allowance is what its square has.
bool comes_out(const Piecing& piecing, const SewnUnit& unit, const Exact& q) {
  const Polygon frame = offset(unit.outline, q);
  const Exact both = q * Exact(2);
  std::map<PieceId, Exact> given;
  std::map<PieceId, Exact> taken;
  for (const SewnBatch::Take& take : unit.batch->takes) {
    const Box box = bounds(piecing.pieces[take.piece].shape);
    given[take.piece] += (box.width() + both) * (box.height() + both) * Exact(take.count);
  }
  for (const Input& in : unit.inputs) {
    const Piece& patch = piecing.pieces[in.piece];
    if (unit.batch->method == Method::stitched_corners &&
        *patch.made_of != unit.batch->takes[0].piece) {
      continue;
    }
    taken[*patch.made_of] +=
        area_within(offset(in.where.apply(patch.shape), q), frame) * Exact(unit.batch->yield);
  }
  for (const auto& [piece, cloth] : taken) {
    if (cloth > given[piece]) return false;
  }
  return true;
}

}  // namespace

std::vector<BatchCount> plan_batches(const CheckedPattern& checked, const Piecing& piecing,
                                     const SizeSewing& sewing, Diagnostics& diagnostics) {
  std::vector<BatchCount> out;
  std::map<PieceId, long long> patches;
  const auto disagree = [&](const Span& span) {
    diagnostics.error("D504", span,
                      "the units sewn and the pieces they are made of do not add up; please report "
                      "this");
  };
  for (const auto& [id, need] : sewing.make) {
    const SewnUnit& unit = piecing.units[id];
    if (!unit.batch || need == 0) continue;
    const long long each = unit.batch->yield;
    const long long batches = (need + each - 1) / each;
    out.push_back({id, need, batches, batches * each - need});
    for (const Input& in : unit.inputs) {
      patches[in.piece] += batches * each - out.back().extra;
    }
    if (!comes_out(piecing, unit, checked.pattern.seam_allowance)) disagree(unit.span);
  }
  for (const auto& [id, count] : sewing.pieces) {
    const Piece& piece = piecing.pieces[id];
    if (piece.made_of && !piecing.pieces[*piece.made_of].generous && patches[id] != count)
      disagree(piece.span);
  }
  return out;
}

const BatchCount* batches_of(const SizeQuantities& quantities, UnitId unit) {
  for (const BatchCount& b : quantities.batches) {
    if (b.unit == unit) return &b;
  }
  return nullptr;
}

const CutPiece* cut_of(const SizeQuantities& quantities, PieceId piece) {
  for (const CutPiece& cut : quantities.pieces) {
    if (cut.piece == piece) return &cut;
  }
  return nullptr;
}

const StripSet* strip_set_of(const SizeQuantities& quantities, UnitId unit) {
  for (const StripSet& set : quantities.strip_sets) {
    if (set.unit == unit ||
        std::find(set.units.begin(), set.units.end(), unit) != set.units.end()) {
      return &set;
    }
  }
  return nullptr;
}

std::map<PieceId, long long> pieces_to_cut(const Piecing& piecing, const SizeSewing& sewing,
                                           const std::vector<BatchCount>& batches) {
  std::map<PieceId, long long> out;
  for (const auto& [id, count] : sewing.pieces) {
    const Piece& piece = piecing.pieces[id];
    if (!piece.in_strip_set && !piece.made_of) out[id] += count;
    if (piece.made_of && piecing.pieces[*piece.made_of].generous) out[*piece.made_of] += count;
  }
  for (const BatchCount& b : batches) {
    for (const SewnBatch::Take& take : piecing.units[b.unit].batch->takes) {
      out[take.piece] += b.batches * take.count;
    }
  }
  return out;
}

}  // namespace dogear
