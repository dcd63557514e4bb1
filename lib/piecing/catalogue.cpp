#include "piecing/catalogue.h"

#include <algorithm>

#include "piecing/mirror.h"

namespace dogear {

namespace {

constexpr std::size_t many_patches = 1000;

// Where a patch comes from: cut by itself, out of a strip set, or out of a larger piece.
// Borders that are cut along the length or mitred once they are sewn on are cuts of their own.
constexpr std::size_t own_cut = 0, of_strip_set = 1, along_the_length = 2, mitred_across = 3,
                      mitred_along = 4, generous_cut = 5;
std::size_t of_piece(PieceId made_of) { return 6 + made_of; }
std::size_t of_border(bool along, bool mitred) {
  if (mitred) return along ? mitred_along : mitred_across;
  return along ? along_the_length : own_cut;
}
std::size_t source_of(const Piece& piece) {
  if (piece.made_of) return of_piece(*piece.made_of);
  if (piece.generous) return generous_cut;
  return piece.in_strip_set ? of_strip_set : of_border(piece.along, piece.mitred);
}

// A strip of a border keeps its length along the strip.
Pose border_pose(const Polygon& shape) {
  Pose best = posed(shape, 0);
  Pose other = posed(shape, 12);
  return other.shape < best.shape ? other : best;
}

}  // namespace

Input Catalogue::piece(const Part& patch, bool in_strip_set) {
  return filed(patch, in_strip_set ? of_strip_set : of_border(patch.along, patch.mitred),
               std::nullopt);
}

Input Catalogue::batch_patch(const Part& patch, PieceId made_of) {
  return filed(patch, of_piece(made_of), made_of);
}

PieceId Catalogue::cover(const Part& rectangle) {
  return filed(rectangle, generous_cut, std::nullopt).piece;
}

Input Catalogue::filed(const Part& patch, std::size_t source, std::optional<PieceId> made_of) {
  // A directional print shows every turn.
  const Pose best = patch.directional ? posed(patch.outline, 0)
                    : patch.along || patch.mitred
                        ? border_pose(patch.outline)
                        : cutting_pose(patch.outline, source == of_strip_set);
  const auto [slot, fresh] =
      pieces_.try_emplace({patch.fabric, source, best.shape}, piecing_.pieces.size());
  if (fresh) {
    Piece piece;
    piece.shape = best.shape;
    piece.fabric = patch.fabric;
    piece.shape_words = patch.shape_words;
    piece.in_strip_set = source == of_strip_set;
    piece.generous = source == generous_cut;
    piece.made_of = made_of;
    piece.directional = patch.directional;
    piece.along = patch.along;
    piece.mitred = patch.mitred;
    piece.span = patch.span;
    piecing_.pieces.push_back(std::move(piece));
  }
  Input input;
  input.is_piece = true;
  input.piece = slot->second;
  input.where = best.from_own.inverse();
  return input;
}

std::vector<long long> Catalogue::way_of(const SewnUnit& unit) {
  if (unit.strip_set) return {1};
  if (!unit.batch) return {};
  // Two squares may be listed either way round.
  std::vector<std::pair<PieceId, long long>> takes;
  for (const SewnBatch::Take& take : unit.batch->takes) takes.emplace_back(take.piece, take.count);
  std::sort(takes.begin(), takes.end());
  std::vector<long long> out{2, static_cast<long long>(unit.batch->method), unit.batch->yield};
  for (const auto& [piece, count] : takes) {
    out.push_back(static_cast<long long>(piece));
    out.push_back(count);
  }
  return out;
}

// Units that look alike but are to be pressed otherwise, or sewn in another order that is written,
// are two units.
std::set<std::string> Catalogue::wishes_in(const SewnUnit& unit) const {
  std::set<std::string> out;
  for (const Input& in : unit.inputs) {
    if (!in.is_piece) out.insert(wishes_[in.unit].begin(), wishes_[in.unit].end());
  }
  if (unit.wish) {
    out.insert(unit.name + " " + std::to_string(static_cast<int>(unit.wish->how)) + " " +
               std::to_string(unit.wish->fabric));
  }
  if (unit.foundation && !unit.foundation->written.empty()) {
    std::string order = unit.name + " on a foundation";
    for (const std::size_t part : unit.foundation->written) order += " " + std::to_string(part + 1);
    out.insert(std::move(order));
  }
  return out;
}

// A whole top or a very long row is compared as it lies, by the units it is made of.
Catalogue::Look Catalogue::look_of_inputs(const SewnUnit& unit) const {
  Look look{way_of(unit), {}, unit.outline, {}};
  for (const Input& in : unit.inputs) {
    const Polygon& shape =
        in.is_piece ? piecing_.pieces[in.piece].shape : piecing_.units[in.unit].outline;
    const std::size_t id = in.is_piece ? 2 * in.piece : 2 * in.unit + 1;
    look.patches.emplace_back(0, id, in.where.turn, tidy(in.where.apply(shape)));
  }
  return look;
}

std::pair<Catalogue::Look, Transform> Catalogue::look_of(const SewnUnit& unit) const {
  std::vector<PlacedPiece> placed;
  for (const Input& in : unit.inputs) {
    if (in.is_piece) {
      placed.push_back({in.piece, in.where});
      continue;
    }
    for (const PlacedPiece& p : flatten(piecing_, in.unit)) {
      placed.push_back({p.piece, p.where.then(in.where)});
    }
    if (placed.size() > many_patches) return {look_of_inputs(unit), Transform{}};
  }
  // Of all turns the one with the least outline stands for the unit; only where the outline is
  // symmetric do the patches decide.
  std::vector<std::pair<Polygon, Transform>> poses;
  const int step = placed.size() > 60 ? 6 : 1;
  const Polygon own = tidy(unit.outline);
  for (int turn = 0; turn < 24; turn += step) {
    Pose p = tidy_posed(own, turn);
    if (!poses.empty() && poses.front().first < p.shape) continue;
    if (!poses.empty() && p.shape < poses.front().first) poses.clear();
    poses.emplace_back(std::move(p.shape), p.from_own);
  }
  std::optional<std::pair<Look, Transform>> best;
  for (const auto& [outline, transform] : poses) {
    Look look{way_of(unit), {}, outline, {}};
    for (const PlacedPiece& p : placed) {
      const Piece& piece = piecing_.pieces[p.piece];
      const Transform t = p.where.then(transform);
      const Box box = bounds(piece.shape);
      const bool square = is_rectangle(piece.shape) && box.width() == box.height();
      look.patches.emplace_back(piece.fabric, source_of(piece),
                                t.turn % (piece.directional ? 24
                                          : square          ? 6
                                                            : 12),
                                tidy_moved(t, piece.shape));
    }
    std::sort(look.patches.begin(), look.patches.end());
    if (!best || look < best->first) best.emplace(std::move(look), transform);
  }
  return std::move(*best);
}

Input Catalogue::unit(SewnUnit unit) {
  auto [look, to_pose] = look_of(unit);
  const std::set<std::string> wishes = wishes_in(unit);
  look.wishes = wishes;
  const auto [slot, fresh] =
      units_.try_emplace(std::move(look), std::pair(piecing_.units.size(), to_pose));
  if (fresh) {
    wishes_.push_back(wishes);
    piecing_.units.push_back(std::move(unit));
  }
  Input input;
  input.unit = slot->second.first;
  input.where = slot->second.second.then(to_pose.inverse());
  return input;
}

}  // namespace dogear
