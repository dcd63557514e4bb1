#pragma once
// Pieces and units each kept once, whatever way they lie in the quilt.

#include <map>
#include <utility>
#include <vector>

#include "piecing/piecing.h"

namespace dogear {

class Catalogue {
 public:
  explicit Catalogue(Piecing& piecing) : piecing_(piecing) {}

  // `where` of the result leads from the piece's coordinates to those of the patch.
  Input piece(const Part& patch, bool in_strip_set);

  // Files a unit under its look: an equal one made before, turned or not, takes its place.
  // `where` of the result leads from the filed unit's coordinates to those of `unit`.
  Input unit(SewnUnit unit);

 private:
  struct Look {
    bool strip_set = false;
    Polygon outline;
    std::vector<std::tuple<std::size_t, int, Polygon>> patches;  // piece's look, turn, place
    auto operator<=>(const Look&) const = default;
  };
  std::pair<Look, Transform> look_of(const SewnUnit& unit) const;
  Look look_of_inputs(const SewnUnit& unit) const;

  Piecing& piecing_;
  std::map<std::tuple<FabricId, bool, Polygon>, PieceId> pieces_;
  std::map<Look, std::pair<UnitId, Transform>> units_;
};

}  // namespace dogear
