#pragma once
// Glyph outlines as paths.

#include <cstdint>

#include "canvas/display.h"
#include "canvas/font.h"

namespace dogear::canvas {

// In font units with y up and the origin on the baseline.
Path glyph_outline(const FontSet& fonts, FontId font, std::uint32_t glyph);

}  // namespace dogear::canvas
