#pragma once
// A unit and what it is sewn from: pulled apart along the seams, and sewn.

#include <string>
#include <vector>

#include "drawing/labels.h"
#include "drawing/patchwork.h"

namespace dogear::drawing {

struct ApartStyle {
  double gap = 18;          // pt between seam lines pulled apart
  bool allowances = true;   // show the cut edges
  bool grain = true;        // grain lines and bias marks on pieces
  bool names = true;        // names of units made before
  bool blocks = false;      // what blocks hand over goes by the block's title
  bool press = false;       // pressing marks in the gaps
  bool every_label = true;  // otherwise one label a kind of piece is enough
  // A long row over two lines: these inputs are moved so far, to its second line.
  std::vector<bool> below;  // empty: one line
  Spot below_by;
};

// Boxes for laying out, allowances, marks and names included; pt.
Rect apart_box(const Patchwork& work, const Scene& scene, std::size_t size, UnitId id,
               const ApartStyle& style);
Rect sewn_box(const Patchwork& work, const Scene& scene, UnitId id);

void draw_apart(canvas::DisplayList& list, Labels& labels, Patchwork& work, const Scene& scene,
                std::size_t size, UnitId id, Spot at, const ApartStyle& style);
// With cut edges and the pressing of this unit's own seams.
void draw_sewn(canvas::DisplayList& list, Patchwork& work, const Scene& scene, UnitId id, Spot at);

// The shape as cut, in the piece's coordinates; from the cutting plan where it has one.
Ring cut_ring(const Scene& scene, std::size_t size, PieceId piece, double scale);

// "A3", the unit's name, or the title of the block that hands the unit over: its halves have
// names that many blocks share.
// What a unit is called: a name the program gave it in the words of the language.
std::string unit_words(const Scene& scene, UnitId unit);
std::string input_words(const Scene& scene, std::size_t size, const Input& input, bool blocks);
// "A3, B1 and 2 × ray"; with blocks, "2 × Lantern half".
std::string inputs_words(const Scene& scene, std::size_t size, const SewnUnit& unit, bool blocks);

}  // namespace dogear::drawing
