#include "pdf/hatches.h"

#include <cmath>

#include "canvas/hatch.h"

namespace dogear::pdf {

Swatch::Key Swatch::key() const {
  return {hatch.kind,    hatch.color.r, hatch.color.g, hatch.color.b,
          hatch.spacing, hatch.line,    width,         height};
}

std::optional<Swatch> swatch_for(const canvas::Hatch& hatch, const canvas::Rect& bounds) {
  if (bounds.empty() || !std::isfinite(bounds.left + bounds.right + bounds.top + bounds.bottom) ||
      !std::isfinite(hatch.spacing))
    return {};
  const canvas::Point period = canvas::hatch_period(hatch);
  const auto before = [](double v, double step) { return std::floor(v / step) * step; };
  Swatch out{hatch, 8, 8, {before(bounds.left, period.x), before(bounds.top, period.y)}};
  constexpr double largest = 2048;
  while (out.width < bounds.right - out.at.x && out.width <= largest) out.width *= 2;
  while (out.height < bounds.bottom - out.at.y && out.height <= largest) out.height *= 2;
  if (out.width > largest || out.height > largest || !canvas::keeps_spacing(hatch, out.area()))
    return {};
  return out;
}

}  // namespace dogear::pdf
