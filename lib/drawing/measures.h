#pragma once
// Rows of measures along an edge: a line with ticks a stretch, its words on it or a little further
// out.

#include <string>
#include <vector>

#include "drawing/labels.h"

namespace dogear::drawing {

struct Measured {
  double from = 0, to = 0;         // along the edge, pt
  std::vector<std::string> words;  // the first that fits is written; the last is tried further out
};

// Puts the measures of an edge at height `y`, from left to right, on its lower or upper side; words
// stay between `left` and `right`. Those that find no place are left out, with their line.
void put_measures(canvas::DisplayList& list, Labels& labels, double y, bool below,
                  std::vector<Measured> measures, double left, double right);

}  // namespace dogear::drawing
