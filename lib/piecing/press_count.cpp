#include "piecing/press_count.h"

#include <algorithm>

namespace dogear {

PressCounts count_presses(const Piecing& piecing, const SizeSewing& sewing) {
  PressCounts out;
  for (const auto& [id, n] : sewing.make) {
    const SewnUnit& unit = piecing.units[id];
    for (const Seam& seam : unit.seams) out.open += seam.press == Press::open ? n : 0;
    for (const MeetingPoint& point : unit.points) {
      out.crossings += point.crosses ? n : 0;
      out.nested += point.nests ? n : 0;
      out.most_layers = std::max(out.most_layers, point.layers);
    }
  }
  return out;
}

}  // namespace dogear
