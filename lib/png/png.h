#pragma once
// A drawing as a PNG picture, for listings: painted by cairo, glyphs as outlines.

#include <optional>
#include <string>

#include "canvas/display.h"
#include "canvas/font.h"

namespace dogear {

// The part from (0, 0) to (width, height), in points, on white, so many pixels wide (1 to 20000).
// Same input, same bytes. Nothing, with a reason, where there is too little memory
// or a photograph among the drawings.
std::optional<std::string> to_png(const canvas::DisplayList& list, double width, double height,
                                  int pixels, const canvas::FontSet& fonts, std::string& reason);

}  // namespace dogear
