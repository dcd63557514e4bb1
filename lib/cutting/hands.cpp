#include "cutting/hands.h"

#include <algorithm>

#include "model/shapes.h"

namespace dogear {

namespace {

Polygon mirror_image(const Polygon& shape, int turn) {
  Transform t = Transform::turned(turn);
  t.mirrored = true;
  return at_origin(t.apply(shape));
}

// A template is turned over instead, and drawn round on a single layer.
bool is_cut_from_a_strip(CutMethod method) {
  return method != CutMethod::joined_strip && method != CutMethod::from_strip_set &&
         method != CutMethod::templated;
}

// How deep alike strips can be stacked: never deeper than there are strips.
int stack(const SizeQuantities& size, const CutPiece& piece, int layers) {
  long long most = 0;
  for (const StripPlan& plan : size.strips) {
    const bool holds = std::any_of(plan.runs.begin(), plan.runs.end(), [&](const Run& run) {
      return run.kind == Run::Kind::piece && run.piece == piece.piece;
    });
    if (holds) most = std::max(most, plan.times);
  }
  while (layers > 1 && layers > most) layers /= 2;
  return layers;
}

// Of a folded strip each cut takes two pieces or four out of the same run.
int fold(const SizeQuantities& size, const CutPiece& piece, int layers) {
  long long most = 0;
  for (const StripPlan& plan : size.strips) {
    for (const Run& run : plan.runs) {
      if (run.kind != Run::Kind::piece || run.piece != piece.piece) continue;
      most = std::max(most, run.count / piece.cut.per_cut);
    }
  }
  while (layers > 1 && layers > most) layers /= 2;
  return layers;
}

}  // namespace

Hand hand_of(const Polygon& shape, bool directional) {
  const Polygon own = at_origin(shape);
  Hand hand = Hand::mirrored;
  for (int turn = 0; turn < 24; ++turn) {
    if (mirror_image(shape, turn) != own) continue;
    const bool along_thread = directional ? turn == 0 : turn % 6 == 0;
    if (along_thread) return Hand::alike;
    hand = Hand::other_grain;
  }
  return hand;
}

void plan_layers(const Pattern& pattern, const Piecing& piecing, SizeQuantities& size,
                 Diagnostics& diagnostics) {
  for (CutPiece& piece : size.pieces) {
    const Piece& own = piecing.pieces[piece.piece];
    piece.hand = hand_of(own.shape, own.directional);
    // The quilt may have a twin that this size does not.
    const bool both =
        own.mirror_of && std::any_of(size.pieces.begin(), size.pieces.end(),
                                     [&](const CutPiece& p) { return p.piece == *own.mirror_of; });
    if (both) piece.twin = own.mirror_of;
  }
  for (CutPiece& piece : size.pieces) {
    if (!is_cut_from_a_strip(piece.cut.method)) continue;
    const Piece& own = piecing.pieces[piece.piece];
    if (piece.twin && pattern.layers > 1) piece.layers = 2;  // right sides together
    if (!pattern.folded) {
      if (piece.twin) continue;
      piece.layers = stack(size, piece, pattern.layers);
      continue;
    }
    if (piece.hand == Hand::alike) {
      piece.layers = fold(size, piece, pattern.layers);
      continue;
    }
    long long other = 0;
    for (const CutPiece& p : size.pieces) {
      if (piece.twin == p.piece) other = p.count;
    }
    const long long alone = piece.count - std::min(piece.count, other);
    if (alone == 0) continue;
    const std::string name = own.shape_words + " of " + pattern.fabrics[own.fabric].name;
    const std::string need =
        other == 0 ? "all " + std::to_string(piece.count) + " are needed of one hand"
                   : std::to_string(alone) + " more are needed of one hand than of the other";
    Diagnostic& d =
        diagnostics.warning("D552", own.span,
                            piece.hand == Hand::mirrored
                                ? "folded cloth gives every second piece mirrored: the " + name +
                                      " is not symmetric, and " + need
                                : "folded cloth gives every second piece mirrored: the " + name +
                                      " would have its grain along another edge in half of them");
    d.notes.push_back({pattern.folded_span, "the cloth is folded here"});
    d.hints.push_back(
        "leave `folded` out and strips are stacked right side up; or accept that the booklet asks "
        "for a single layer here");
  }
}

}  // namespace dogear
