#include "piecing/press.h"

#include <algorithm>
#include <charconv>
#include <set>

namespace dogear {

namespace {

// Rough brightness of "#rrggbb" (common practice: press towards the darker cloth).
int brightness(const std::string& colour) {
  const auto channel = [&](std::size_t at) {
    int v = 0;
    std::from_chars(colour.data() + at, colour.data() + at + 2, v, 16);
    return v;
  };
  return colour.size() == 7 ? 3 * channel(1) + 6 * channel(3) + channel(5) : 0;
}

// 7 for "row 7".
int row_number(const std::string& name) {
  int n = 0;
  std::from_chars(name.data() + 4, name.data() + name.size(), n);
  return n;
}

// A row of blocks with rectangles of sashing between them.
bool sashed(const Piecing& piecing, const SewnUnit& unit) {
  return std::any_of(unit.inputs.begin(), unit.inputs.end(), [&](const Input& in) {
    return in.is_piece && piecing.pieces[in.piece].shape_words == "rectangle";
  });
}

}  // namespace

void plan_pressing(const CheckedPattern& checked, Piecing& piecing) {
  const auto shade = [&](PieceId piece) {
    return brightness(checked.pattern.fabrics[piecing.pieces[piece].fabric].colour);
  };
  // Hexagon halves meet turned half way round: with all seams to one side, those of the two nest.
  std::set<UnitId> halves;
  for (const SizeSewing& size : piecing.sizes) {
    const Setting setting = checked.pattern.sizes[size.size].setting;
    if (setting == Setting::rows || setting == Setting::on_point) continue;
    for (const BlockSewing& block : size.blocks) {
      halves.insert(block.finals.begin(), block.finals.end());
    }
  }
  for (UnitId id = 0; id < piecing.units.size(); ++id) {
    SewnUnit& unit = piecing.units[id];
    const int row = unit.name.starts_with("row ") ? row_number(unit.name) : 0;
    for (Seam& seam : unit.seams) {
      const Input& a = unit.inputs[seam.first];
      const Input& b = unit.inputs[seam.second];
      if (unit.batch && (unit.batch->kind == ReadyMade::flying_geese ||
                         unit.batch->kind == ReadyMade::cornered)) {
        seam.press = Press::to_second;  // away from the goose, out to the corners
      } else if (halves.contains(id) && !unit.strip_set) {
        seam.press = Press::to_second;
      } else if (row > 0 && !sashed(piecing, unit)) {
        seam.press = row % 2 == 0 ? Press::to_first : Press::to_second;
      } else if (a.is_piece && b.is_piece && unit.name == "sashing row") {
        // Towards the sashing, away from the cornerstones, as the rows do.
        const bool first =
            area(piecing.pieces[a.piece].shape) > area(piecing.pieces[b.piece].shape);
        seam.press = first ? Press::to_first : Press::to_second;
      } else if (a.is_piece && b.is_piece) {
        seam.press = shade(a.piece) <= shade(b.piece) ? Press::to_first : Press::to_second;
      } else if (a.is_piece != b.is_piece) {
        seam.press = a.is_piece ? Press::to_first : Press::to_second;
      } else {
        // Towards the middle one of three, so that no point is pressed over.
        const bool inward = unit.inputs.size() == 3 && seam.first == 1;
        seam.press = inward ? Press::to_first : Press::to_second;
      }
    }
  }
}

}  // namespace dogear
