#pragma once
// The paper that a unit is sewn on: its mirror image, with the patches numbered in sewing order.

#include <string>

#include "drawing/labels.h"
#include "drawing/template_parts.h"

namespace dogear::drawing {

// Standing: a quarter turn clockwise.
TemplateParts foundation_parts(const Scene& scene, UnitId id, double scale, bool standing);
// The name of the unit, and "1 A3, 2 B1" for who only hears the figure.
std::string foundation_words(const Scene& scene, UnitId id);

// The finished edge, the cut edge and the seams between the patches.
void draw_paper(canvas::DisplayList& list, const TemplateParts& parts);
// "1 · A3" in each patch, the number alone where there is no more room, else outside.
void put_numbers(Labels& labels, const TemplateParts& parts, double largest);

// Small, in a step.
Rect paper_box(const Scene& scene, UnitId id, double scale);
void draw_step_paper(canvas::DisplayList& list, Labels& labels, const Scene& scene, UnitId id,
                     double scale);

}  // namespace dogear::drawing
