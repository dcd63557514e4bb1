#pragma once
// Pages of a booklet on the sheets it is printed on: two side by side, both sides of a sheet one
// after the other, to be turned over at the short edge, laid into each other, folded and stapled.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "canvas/display.h"

namespace dogear::canvas {

struct Imposition {
  double bleed = 0;  // pt beyond the trimmed sheet that may be inked
  double room = 0;   // pt beyond the bleed for marks where to trim and fold; 0 leaves them out
  // Sheets lie round each other, so each stands out from the one around it by the thickness of
  // paper (pt), and is trimmed level; what is on it moves as much towards the fold.
  double paper = 0;
};

// One side of a sheet: indices of the pages, nothing for a blank one.
struct SheetSide {
  std::optional<std::size_t> left, right;
};
// In the order of printing: front and back of the outermost sheet first. Blank pages that fill the
// last sheet come before the last page, so that the back stays the back.
std::vector<SheetSide> sheet_sides(std::size_t pages);

// A page for each side of a sheet, twice as wide as the document's pages; without outline. Nothing,
// and `error`, where the pages are of different sizes.
std::optional<Document> impose(const Document& document, const Imposition& how, std::string& error);

}  // namespace dogear::canvas
