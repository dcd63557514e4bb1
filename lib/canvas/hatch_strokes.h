#pragma once
// A hatch as few strokes: rows of marks are dashed lines, and parallel lines the dashes of one wide
// stroke across them. For pages that many read and that are also printed: tiled fillings would be
// printed as pictures.

#include <vector>

#include "canvas/display.h"

namespace dogear::canvas {

struct HatchStroke {
  Path path;
  double width = 0;          // pt
  std::vector<double> dash;  // pt on, off, ..., anew at each part of the path; empty: solid
  bool round = false;        // ends of dashes
  bool ground = false;       // painted in the colour that lies under the hatch
};

// What hatch_marks draws within the box, yet to be clipped; painted in this order. The hatch must
// lie on a fill, whose colour shows within rings.
std::vector<HatchStroke> hatch_strokes(const Hatch& hatch, const Rect& area);

}  // namespace dogear::canvas
