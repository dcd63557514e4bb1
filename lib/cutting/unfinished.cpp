#include "cutting/unfinished.h"

#include "geom/offset.h"

namespace dogear {

std::pair<Exact, Exact> unfinished_size(const Polygon& outline, const Exact& allowance) {
  const Box box = bounds(offset(outline, allowance));
  return {box.width(), box.height()};
}

}  // namespace dogear
