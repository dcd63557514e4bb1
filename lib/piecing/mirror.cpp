#include "piecing/mirror.h"

#include <algorithm>
#include <map>

namespace dogear {

namespace {

bool is_level(const Segment& e) { return e.a.x == e.b.x || e.a.y == e.b.y; }

// Half or quarter of a square cut from corner to corner: does it lie as the named shapes do, or a
// quarter turned from that? Nothing for other shapes.
std::optional<bool> lies_as_named(const Polygon& p) {
  if (p.size() != 3) return std::nullopt;
  for (std::size_t i = 0; i < 3; ++i) {
    const Point a = p.at(i + 1) - p.at(i);
    const Point b = p.at(i + 2) - p.at(i + 1);
    if (!dot(a, b).is_zero() || dot(a, a) != dot(b, b)) continue;
    const Point across = p.at(i) - p.at(i + 2);
    if (is_level(p.edge(i))) return (across.x * across.y).sign() > 0;
    if (is_level(p.edge(i + 2))) return across.y.is_zero();
  }
  return std::nullopt;
}

}  // namespace

Polygon tidy_moved(const Transform& t, const Polygon& shape) {
  Polygon out = t.apply(shape);
  if (out.corners.empty()) return out;
  std::rotate(out.corners.begin(), std::min_element(out.corners.begin(), out.corners.end()),
              out.corners.end());
  return out;
}

Pose tidy_posed(const Polygon& shape, int turn) {
  const Transform t = Transform::turned(turn);
  Pose out{tidy_moved(t, shape), t};
  const Point shift = Point{} - bounds(out.shape).least;
  out.from_own = t.then(Transform::moved(shift));
  // A shift keeps the order of corners.
  for (Point& corner : out.shape.corners) corner = corner + shift;
  for (Arc& arc : out.shape.arcs) arc.center = arc.center + shift;
  return out;
}

Pose posed(const Polygon& shape, int turn) { return tidy_posed(tidy(shape), turn); }

Pose cutting_pose(const Polygon& shape, bool in_strip_set) {
  if (is_rectangle(shape) && !in_strip_set) {
    // The longer side lies along the strip.
    const Box box = bounds(shape);
    return posed(shape, box.width() < box.height() ? 6 : 0);
  }
  const auto named = lies_as_named(shape);
  const int quarter = in_strip_set || named.value_or(true) ? 0 : 6;
  Pose best = posed(shape, quarter);
  const auto consider = [&](int turn) {
    if (Pose other = posed(shape, turn); other.shape < best.shape) best = std::move(other);
  };
  consider(quarter + 12);
  if (named || in_strip_set) return best;
  // Where a quarter turn gives the mirror image, as of a quarter circle, all four ways are one cut.
  Transform over;
  over.mirrored = true;
  const Polygon mirrored = tidy(over.apply(shape));
  const Point back = bounds(mirrored).least;
  const Polygon image = tidy(Transform::moved(Point{} - back).apply(mirrored));
  if (image == posed(shape, 6).shape || image == posed(shape, 18).shape) {
    consider(6);
    consider(18);
  }
  return best;
}

Polygon mirrored_pose(const Polygon& shape) {
  Transform over;
  over.mirrored = true;
  return cutting_pose(over.apply(shape)).shape;
}

bool is_handed(const Polygon& shape) { return mirrored_pose(shape) != cutting_pose(shape).shape; }

void find_mirror_twins(Piecing& piecing) {
  std::map<std::pair<FabricId, Polygon>, PieceId> known;
  for (PieceId id = 0; id < piecing.pieces.size(); ++id) {
    Piece& piece = piecing.pieces[id];
    if (piece.in_strip_set || piece.made_of || piece.directional || !is_handed(piece.shape)) {
      continue;
    }
    const auto twin = known.find({piece.fabric, mirrored_pose(piece.shape)});
    known.emplace(std::pair(piece.fabric, piece.shape), id);
    if (twin == known.end()) continue;
    piece.mirror_of = twin->second;
    piecing.pieces[twin->second].mirror_of = id;
  }
}

namespace {

// The pieces cut for a step, in order of use.
std::vector<PieceId> cut_for(const Piecing& piecing, const SewnUnit& unit) {
  std::vector<PieceId> out;
  if (unit.batch) {
    for (const SewnBatch::Take& take : unit.batch->takes) out.push_back(take.piece);
    return out;
  }
  for (const Input& in : unit.inputs) {
    if (!in.is_piece || piecing.pieces[in.piece].in_strip_set) continue;
    out.push_back(piecing.pieces[in.piece].made_of.value_or(in.piece));
  }
  return out;
}

}  // namespace

void letter_pieces(Piecing& piecing) {
  std::map<std::pair<bool, Polygon>, std::string> letters;  // cut generously, or to measure
  const auto visit = [&](UnitId unit) {
    for (const PieceId id : cut_for(piecing, piecing.units[unit])) {
      Piece& piece = piecing.pieces[id];
      if (!piece.letter.empty()) continue;
      if (const auto twin = letters.find({false, mirrored_pose(piece.shape)});
          twin != letters.end() && !piece.directional && is_handed(piece.shape)) {
        piece.letter = twin->second;
        piece.reversed = true;
        continue;
      }
      const auto [slot, fresh] = letters.try_emplace({piece.generous, piece.shape}, std::string());
      if (fresh) {
        // Without I and O, which before a number read as 1 and 0.
        constexpr std::string_view alphabet = "ABCDEFGHJKLMNPQRSTUVWXYZ";
        std::size_t n = letters.size();
        while (n > 0) {
          slot->second.insert(slot->second.begin(), alphabet[(n - 1) % alphabet.size()]);
          n = (n - 1) / alphabet.size();
        }
      }
      piece.letter = slot->second;
    }
  };
  for (const SizeSewing& size : piecing.sizes) {
    for (const BlockSewing& block : size.blocks) {
      for (const UnitId unit : block.steps) visit(unit);
    }
    for (const UnitId unit : size.assembly) visit(unit);
  }
  // A patch goes by the piece it comes out of.
  for (Piece& piece : piecing.pieces) {
    if (piece.made_of) piece.letter = piecing.pieces[*piece.made_of].letter;
  }
}

}  // namespace dogear
