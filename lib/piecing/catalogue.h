#pragma once
// Pieces and units each kept once, whatever way they lie in the quilt.

#include <map>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "piecing/piecing.h"

namespace dogear {

class Catalogue {
 public:
  explicit Catalogue(Piecing& piecing) : piecing_(piecing) {}

  // `where` of the result leads from the piece's coordinates to those of the patch.
  Input piece(const Part& patch, bool in_strip_set);
  // A patch that comes out of a larger piece.
  Input batch_patch(const Part& patch, PieceId made_of);

  // The rectangle that covers a patch of a foundation, and the patch that it becomes.
  PieceId cover(const Part& rectangle);
  Input covered_patch(const Part& patch, PieceId cover) { return batch_patch(patch, cover); }

  // Files a unit under its look: an equal one made before, turned or not, takes its place.
  // `where` of the result leads from the filed unit's coordinates to those of `unit`.
  Input unit(SewnUnit unit);

 private:
  struct Look {
    std::vector<long long> way;    // how it is sewn, where that is not patch by patch
    std::set<std::string> wishes;  // how it and the units in it are to be pressed
    Polygon outline;
    std::vector<std::tuple<FabricId, std::size_t, int, Polygon>> patches;  // source, turn, place
    auto operator<=>(const Look&) const = default;
  };
  Input filed(const Part& patch, std::size_t source, std::optional<PieceId> made_of);
  static std::vector<long long> way_of(const SewnUnit& unit);
  std::pair<Look, Transform> look_of(const SewnUnit& unit) const;
  Look look_of_inputs(const SewnUnit& unit) const;
  std::set<std::string> wishes_in(const SewnUnit& unit) const;

  Piecing& piecing_;
  std::map<std::tuple<FabricId, std::size_t, Polygon>, PieceId> pieces_;
  std::map<Look, std::pair<UnitId, Transform>> units_;
  std::vector<std::set<std::string>> wishes_;  // of Piecing::units
};

}  // namespace dogear
