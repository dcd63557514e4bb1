#pragma once
// How a batch of ready-made units is sewn, stage by stage: what lies on what, where the line is
// drawn, where it is sewn and where it is cut.

#include <string>

#include "drawing/figure.h"
#include "drawing/labels.h"

namespace dogear::drawing {

// Of the two pieces that a batch takes, the one that the line is drawn on: the small one, or the
// lighter one. An index into SewnBatch::takes.
std::size_t marked_piece(const Scene& scene, const SewnUnit& unit);

// The scale of a batch in a step whose other units are drawn at `scale`, pt an inch.
double method_scale(const Scene& scene, const SewnUnit& unit, double scale);

Rect method_box(const Scene& scene, UnitId id, double scale);
void draw_method(canvas::DisplayList& list, Labels& labels, const Scene& scene, UnitId id,
                 double scale);

// "Four at a time from 1 × A3 and 4 × B1".
std::string batch_words(const Scene& scene, UnitId id);

}  // namespace dogear::drawing
