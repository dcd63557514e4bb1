#pragma once
// What of lines and outlines lies in a box, cut there rather than hidden.

#include <optional>
#include <utility>

#include "drawing/sketch.h"

namespace dogear::drawing {

std::optional<std::pair<Spot, Spot>> within(Spot a, Spot b, const Rect& r);
// Of an outline, as lines that run on where it does.
canvas::Path lines_within(const Ring& ring, const Rect& r);
// The ring cut side by side; parts of a hollow outline stay joined along the box.
Ring ring_within(Ring ring, const Rect& r);

}  // namespace dogear::drawing
