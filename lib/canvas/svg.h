#pragma once
// A display list as a self-contained SVG picture: glyphs as outlines, no outside fonts.

#include <string>
#include <string_view>

#include "canvas/display.h"
#include "canvas/font.h"

namespace dogear::canvas {

// `width` and `height` in points give the view box from (0, 0). Same input, same bytes.
// `id_prefix` keeps identifiers apart where several pictures are put into one web page.
// Texts are kept as aria-labels, alternative texts as <title>; anchors are left out.
std::string to_svg(const DisplayList& list, double width, double height, const FontSet& fonts,
                   std::string_view id_prefix = {});

}  // namespace dogear::canvas
