#pragma once
// What every drawing of a template is put together from.

#include <string>
#include <utility>
#include <vector>

#include "drawing/figures.h"
#include "drawing/labels.h"

namespace dogear::drawing {

inline constexpr double true_size = 72;   // pt an inch
inline constexpr double cut_width = 0.9;  // pt, lines whose middles are the measure
inline constexpr double seam_width = 0.6;
inline constexpr double square_cm = 5 / 2.54 * true_size;  // pt, side of the larger test square

struct NumberedPatch {  // of a foundation
  Ring ring;
  std::string number, label;  // "1", "A3"
};

struct TemplateParts {
  Ring cut, seam;                            // pt
  std::vector<std::pair<Spot, Spot>> marks;  // across the allowance, from the seam line outwards
  Spot thread{1, 0};                         // the way of the strip
  std::vector<std::string> labels;           // "4 × A1", one a piece
  std::string names;                         // "A1, A2R", or the unit of a foundation
  bool paper = false;                        // a foundation: the cut line is dashed
  std::vector<std::pair<Spot, Spot>> lines;  // seams between its patches
  std::vector<NumberedPatch> patches;        // in sewing order
};

// Standing: a quarter turn clockwise.
TemplateParts template_parts(const Scene& scene, std::size_t size, const TemplateUse& use,
                             double scale, bool standing);

void draw_outlines(canvas::DisplayList& list, const TemplateParts& parts);
void draw_marks(canvas::DisplayList& list, const TemplateParts& parts);
// All on one line where the ring holds it, else each by itself, outside with a leader if need be.
// The plate of the first that lies inside.
std::optional<Rect> put_labels(Labels& labels, const Ring& ring,
                               const std::vector<std::string>& lines);
// A square of 1 in within one of 5 cm, their upper left corners at `at`, with their measures.
void draw_test_squares(canvas::DisplayList& list, const canvas::FontSet& fonts, Spot at);

}  // namespace dogear::drawing
