#include "piecing/press.h"

#include <charconv>

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

}  // namespace

void plan_pressing(const CheckedPattern& checked, Piecing& piecing) {
  const auto shade = [&](PieceId piece) {
    return brightness(checked.pattern.fabrics[piecing.pieces[piece].fabric].colour);
  };
  std::size_t row = 0;
  for (SewnUnit& unit : piecing.units) {
    const bool is_row = unit.name.starts_with("row ");
    if (is_row) ++row;
    for (Seam& seam : unit.seams) {
      const Input& a = unit.inputs[seam.first];
      const Input& b = unit.inputs[seam.second];
      if (is_row) {
        seam.press = row % 2 == 0 ? Press::to_first : Press::to_second;
      } else if (a.is_piece && b.is_piece) {
        seam.press = shade(a.piece) <= shade(b.piece) ? Press::to_first : Press::to_second;
      } else if (a.is_piece != b.is_piece) {
        seam.press = a.is_piece ? Press::to_first : Press::to_second;
      } else {
        // Away from the middle one of three, so that like blocks nest.
        const bool outward = unit.inputs.size() == 3 && seam.first == 0;
        seam.press = outward ? Press::to_first : Press::to_second;
      }
    }
  }
}

}  // namespace dogear
