#include "drawing/within.h"

#include <algorithm>

namespace dogear::drawing {

std::optional<std::pair<Spot, Spot>> within(Spot a, Spot b, const Rect& r) {
  double from = 0, to = 1;
  const Spot d = b - a;
  const auto side = [&](double start, double by, double least, double most) {
    if (by == 0) return start >= least && start <= most;
    const double t0 = (least - start) / by, t1 = (most - start) / by;
    from = std::max(from, std::min(t0, t1));
    to = std::min(to, std::max(t0, t1));
    return from < to;
  };
  if (!side(a.x, d.x, r.left, r.right) || !side(a.y, d.y, r.top, r.bottom)) return {};
  return std::pair{a + d * from, a + d * to};
}

canvas::Path lines_within(const Ring& ring, const Rect& r) {
  canvas::Path path;
  std::optional<Spot> last;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const auto part = within(ring[i], ring[(i + 1) % ring.size()], r);
    if (!part) continue;
    if (!last || length(part->first - *last) > 1e-6) path.move(part->first.x, part->first.y);
    path.line(part->second.x, part->second.y);
    last = part->second;
  }
  return path;
}

Ring ring_within(Ring ring, const Rect& r) {
  const auto cut = [&](Spot at, Spot inwards) {
    Ring out;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Spot a = ring[i], b = ring[(i + 1) % ring.size()];
      const double from = dot(a - at, inwards), to = dot(b - at, inwards);
      if (from >= 0) out.push_back(a);
      if ((from < 0) != (to < 0)) out.push_back(a + (b - a) * (from / (from - to)));
    }
    ring = std::move(out);
  };
  cut({r.left, r.top}, {1, 0});
  cut({r.right, r.top}, {-1, 0});
  cut({r.left, r.top}, {0, 1});
  cut({r.left, r.bottom}, {0, -1});
  return ring;
}

}  // namespace dogear::drawing
