#include "drawing/patchwork.h"

#include <algorithm>

namespace dogear::drawing {

Patchwork::Patchwork(const Scene& scene, double scale, double hatch_spacing, double line)
    : scene_(scene), scale_(scale), spacing_(hatch_spacing), line_(line) {}

namespace {

dogear::Transform turn_only(const dogear::Transform& t) {
  dogear::Transform out = t;
  out.shift = {};
  return out;
}

}  // namespace

void Patchwork::patch(canvas::DisplayList& list, const Polygon& shape, FabricId fabric,
                      const dogear::Transform& where, Spot by) const {
  canvas::Style style = cloth(scene_.checked.pattern.fabrics.at(fabric), spacing_, line_);
  if (spacing_ <= 0) style.hatch.reset();
  const Motion m = motion(where, scale_).then(Motion::move(by.x, by.y));
  list.shape(outline(moved(ring(shape, scale_), m)), style);
}

canvas::ListRef Patchwork::unit_form(UnitId id, const dogear::Transform& turn) {
  const Key key{id, turn.turn, turn.mirrored};
  if (const auto found = units_.find(key); found != units_.end()) return found->second;
  canvas::DisplayList list;
  for (const Input& input : scene_.piecing.units.at(id).inputs) {
    const dogear::Transform where = input.where.then(turn);
    if (input.is_piece) {
      piece(list, input.piece, where);
    } else {
      unit(list, input.unit, where);
    }
  }
  return units_[key] = canvas::share(std::move(list));
}

canvas::ListRef Patchwork::part_form(PartId id, const dogear::Transform& turn) {
  const Key key{id, turn.turn, turn.mirrored};
  if (const auto found = parts_.find(key); found != parts_.end()) return found->second;
  canvas::DisplayList list;
  for (const Placed& placed : scene_.checked.parts.at(id).parts) {
    part(list, placed.part, placed.where.then(turn));
  }
  return parts_[key] = canvas::share(std::move(list));
}

void Patchwork::unit(canvas::DisplayList& list, UnitId id, const dogear::Transform& where,
                     Spot by) {
  const Spot at = spot(where.shift, scale_) + by;
  list.draw(unit_form(id, turn_only(where)), Motion::move(at.x, at.y));
}

void Patchwork::part(canvas::DisplayList& list, PartId id, const dogear::Transform& where,
                     Spot by) {
  const Part& p = scene_.checked.parts.at(id);
  if (p.is_patch) return patch(list, p.outline, p.fabric, where, by);
  const Spot at = spot(where.shift, scale_) + by;
  list.draw(part_form(id, turn_only(where)), Motion::move(at.x, at.y));
}

void Patchwork::piece(canvas::DisplayList& list, PieceId id, const dogear::Transform& where,
                      Spot by) {
  const Piece& p = scene_.piecing.pieces.at(id);
  patch(list, p.shape, p.fabric, where, by);
}

Ring Patchwork::unit_ring(UnitId id, const dogear::Transform& where, Spot by) const {
  const Motion m = motion(where, scale_).then(Motion::move(by.x, by.y));
  return moved(ring(scene_.piecing.units.at(id).outline, scale_), m);
}

Ring Patchwork::piece_ring(PieceId id, const dogear::Transform& where, Spot by) const {
  const Motion m = motion(where, scale_).then(Motion::move(by.x, by.y));
  return moved(ring(scene_.piecing.pieces.at(id).shape, scale_), m);
}

std::vector<Patch> Patchwork::patches(UnitId id, const dogear::Transform& where, Spot by) const {
  std::vector<Patch> out;
  for (const PlacedPiece& placed : flatten(scene_.piecing, id)) {
    const dogear::Transform there = placed.where.then(where);
    Patch p;
    p.piece = placed.piece;
    p.where = motion(there, scale_).then(Motion::move(by.x, by.y));
    p.ring = piece_ring(placed.piece, there, by);
    out.push_back(std::move(p));
  }
  return out;
}

namespace {

Polygon to_corner(const Polygon& p) {
  const Box b = bounds(p);
  return tidy(dogear::Transform::moved(dogear::Point{} - b.least).apply(p));
}

}  // namespace

// Patches of a batch go by the piece they come out of.
PatchLabels::PatchLabels(const Scene& scene) : scene_(scene) {
  const Exact both = scene.checked.pattern.seam_allowance * Exact(2);
  for (const Part& whole : scene.checked.parts) {
    if (!whole.batch) continue;
    for (std::size_t i = 0; i < whole.parts.size(); ++i) {
      const Batch::Cut& cut = whole.batch->cuts.at(whole.batch->from.at(i));
      const Exact width = cut.width - both;
      const Exact height = cut.height - both;
      const auto larger = std::find_if(
          scene.piecing.pieces.begin(), scene.piecing.pieces.end(), [&](const Piece& piece) {
            const Box b = bounds(piece.shape);
            const bool lies = b.width() == width && b.height() == height;
            const bool stands = b.width() == height && b.height() == width;
            return piece.fabric == cut.fabric && !piece.made_of && !piece.generous &&
                   (lies || stands) && is_rectangle(piece.shape);
          });
      if (larger == scene.piecing.pieces.end()) continue;
      known_[whole.parts[i].part] = larger->label(scene.checked.pattern);
    }
  }
}

const std::string& PatchLabels::of(PartId patch, bool on_paper) {
  auto& known = on_paper ? on_paper_ : known_;
  if (const auto found = known.find(patch); found != known.end()) return found->second;
  std::string& label = known[patch];
  const auto suits = [&](const Piece& piece) {
    const bool covered = piece.made_of && scene_.piecing.pieces.at(*piece.made_of).generous;
    return on_paper ? covered : !piece.made_of && !piece.generous;
  };
  const Part& part = scene_.checked.parts.at(patch);
  // Half turns first, which keep the grain, then every other way of lying.
  for (const bool mirrored : {false, true}) {
    for (const int turn : {0, 12, 6, 18, 2, 4, 8, 10, 14, 16, 20, 22, 3, 9, 15, 21}) {
      dogear::Transform t = dogear::Transform::turned(turn);
      t.mirrored = mirrored;
      const Polygon shape = to_corner(t.apply(part.outline));
      for (const Piece& piece : scene_.piecing.pieces) {
        if (piece.fabric != part.fabric || !suits(piece)) continue;
        if (piece.shape.size() != shape.size()) continue;
        if (to_corner(piece.shape) == shape) {
          return label = piece.label(scene_.checked.pattern);
        }
      }
    }
  }
  return label;
}

std::vector<bool> patches_on_paper(const Scene& scene, PartId part) {
  std::vector<bool> out;
  const auto walk = [&](const auto& self, PartId id, bool paper) -> void {
    const Part& p = scene.checked.parts.at(id);
    paper = paper || p.foundation.has_value();
    if (p.is_patch) out.push_back(paper);
    for (const Placed& child : p.parts) self(self, child.part, paper);
  };
  walk(walk, part, false);
  return out;
}

}  // namespace dogear::drawing
