#pragma once
// Patches, units and blocks at one scale. A unit drawn twice the same way up is one shared list.

#include <map>
#include <memory>
#include <string>
#include <tuple>
#include <vector>

#include "drawing/figure.h"
#include "drawing/sketch.h"

namespace dogear::drawing {

// A patch where it lies in a figure, for labels and marks.
struct Patch {
  PieceId piece = 0;
  Ring ring;
  Motion where;  // piece -> page, points to points
};

class Patchwork {
 public:
  // A spacing of 0 leaves the hatch out.
  Patchwork(const Scene& scene, double scale, double hatch_spacing = 4, double line = edge);

  double scale() const { return scale_; }
  // Turned and mirrored as `where` says; its shift is in inches and moved by `by` points.
  void unit(canvas::DisplayList& list, UnitId id, const dogear::Transform& where, Spot by = {});
  void part(canvas::DisplayList& list, PartId id, const dogear::Transform& where, Spot by = {});
  void piece(canvas::DisplayList& list, PieceId id, const dogear::Transform& where, Spot by = {});

  Ring unit_ring(UnitId id, const dogear::Transform& where, Spot by = {}) const;
  Ring piece_ring(PieceId id, const dogear::Transform& where, Spot by = {}) const;
  std::vector<Patch> patches(UnitId id, const dogear::Transform& where, Spot by = {}) const;

 private:
  using Key = std::tuple<std::size_t, int, bool>;
  canvas::ListRef unit_form(UnitId id, const dogear::Transform& turn);
  canvas::ListRef part_form(PartId id, const dogear::Transform& turn);
  void patch(canvas::DisplayList& list, const Polygon& shape, FabricId fabric,
             const dogear::Transform& where, Spot by) const;

  const Scene& scene_;
  double scale_;
  double spacing_;
  double line_;
  std::map<Key, canvas::ListRef> units_;
  std::map<Key, canvas::ListRef> parts_;
};

// The label of every patch of a part, by the shapes the piecing knows: "" where it knows none.
class PatchLabels {
 public:
  explicit PatchLabels(const Scene& scene);
  // `on_paper`: as it lies on a foundation.
  const std::string& of(PartId patch, bool on_paper = false);

 private:
  const Scene& scene_;
  std::map<PartId, std::string> known_, on_paper_;
};

// For each patch in the order of flatten() whether it is sewn on a foundation.
std::vector<bool> patches_on_paper(const Scene& scene, PartId part);

}  // namespace dogear::drawing
