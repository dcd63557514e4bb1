#pragma once
// Shapes laid out along strips of cloth.

#include <optional>
#include <string>
#include <vector>

#include "drawing/figure.h"
#include "drawing/labels.h"
#include "drawing/sketch.h"

namespace dogear::drawing {

// `count` shapes as cut from a strip, from x = 0, the strip's upper edge at y = 0: every other one
// turned half round, each as near to the one before as it goes. Squares cut on the diagonal count
// as two, cut twice as four.
std::vector<Ring> laid(const PieceCut& cut, long long count, double scale);

// The pieces of a run as they lie on the strip, those of other kinds from the same cuts with them.
struct LaidPiece {
  Ring ring;
  PieceId piece = 0;
};
std::vector<LaidPiece> laid_run(const Scene& scene, std::size_t size, const Run& run, double scale);

// "at the 3½ in line", "2½ in long", "from squares of 2⅞ in, each cut once on the diagonal".
std::string cut_words(const Words& words, const PieceCut& cut, long long count);

const CutPiece* cut_of(const Scene& scene, std::size_t size, PieceId piece);
const StripSet* strip_set_of(const Scene& scene, std::size_t size, UnitId unit);

// Whether a shape with one square end has its longer level edge below once that end is at the left.
bool is_long_below(const PieceCut& cut);

// Strips sewn along their long edges with the cut lines of some shapes; origin at the top left.
// Where `meant` names one of the units cut from the set, the shapes that become the others are pale
// and the strips go by their fabrics' numbers alone, as they do with `numbers`. The words beside it
// are put into `labels`: at the left, or where there are two strips, above and below. A set that
// gives more shapes than are shown ends in teeth.
struct SetDrawing {
  double width = 0, height = 0;  // of the cloth, pt
  bool goes_on = false;
};
// How many shapes one of the sets gives; the first is the longest.
int shapes_of(const Scene& scene, const StripSet& set, std::size_t n = 0);
inline bool named_outside(const StripSet& set) { return set.strips.size() == 2; }
SetDrawing draw_strip_set(canvas::DisplayList& list, Labels& labels, const Scene& scene,
                          const StripSet& set, Spot at, double scale, int shapes,
                          std::optional<UnitId> meant = {}, bool numbers = false);
// Whether the figure of the step that cuts the unit shows but the beginning of its set.
bool goes_on_in_step(const Scene& scene, std::size_t size, UnitId unit);
SetDrawing measure_strip_set(const Scene& scene, const StripSet& set, double scale, int shapes);

}  // namespace dogear::drawing
