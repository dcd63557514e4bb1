#include "cutting/notions.h"

#include <algorithm>

namespace dogear {

Notions notions_of(const SizeQuantities& q) {
  const bool marked = std::any_of(q.pieces.begin(), q.pieces.end(), [](const CutPiece& c) {
    return c.cut.method == CutMethod::half_angled && !c.cut.reading;
  });
  return {marked || !q.batches.empty(), q.binding || q.sleeve, q.batting || q.backing};
}

}  // namespace dogear
