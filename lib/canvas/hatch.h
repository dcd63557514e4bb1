#pragma once
// How a hatch repeats, for writers that store its marks once.

#include "canvas/display.h"

namespace dogear::canvas {

// Moved by this much to the right, or down, the marks of hatch_marks() lie on themselves; pt. For
// areas small enough that the hatch keeps its own spacing: see keeps_spacing.
Point hatch_period(const Hatch& hatch);
bool keeps_spacing(const Hatch& hatch, const Rect& area);

}  // namespace dogear::canvas
