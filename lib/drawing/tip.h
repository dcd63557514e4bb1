#pragma once
// A tip that is trimmed, larger: the piece right sides together with what it is sewn to.

#include <optional>

#include "cutting/tips.h"
#include "drawing/figure.h"
#include "drawing/labels.h"

namespace dogear::drawing {

inline constexpr double tip_side = 72;  // pt, of the square that shows it

// The longest of those a step tells to trim, else of all its tips, where no earlier step of its
// block has one alike.
std::optional<PieceTip> tip_to_show(const Scene& scene, std::size_t size, UnitId unit);

// In the square whose upper left corner is `at`.
void draw_tip(canvas::DisplayList& list, const Scene& scene, std::size_t size, UnitId unit,
              const PieceTip& tip, Spot at);

}  // namespace dogear::drawing
