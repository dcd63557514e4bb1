#pragma once
// Colours as a printer without coloured ink shows them.

#include "canvas/display.h"

namespace dogear::canvas {

// The grey of the same luminance, so that contrasts stay what they were.
Color in_grey(const Color& color);

// The whole document in grey; lists drawn often are still drawn through one pointer. Photographs
// are turned grey, too, but for coloured JPEG files: `left` names how many of them stay coloured.
Document in_grey(const Document& document, std::size_t& left);

}  // namespace dogear::canvas
