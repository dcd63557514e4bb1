#pragma once
// The segments of a JPEG file (ITU-T T.81), read as far as printing needs.

#include <string>
#include <string_view>

#include "canvas/image.h"

namespace dogear::canvas {

// Size, channels and how the camera was held; the packed dots are kept as they are. Baseline,
// extended and progressive files of 8 bits in grey or colour. False, and `error`, for all others.
bool read_jpeg(std::string_view file, Raster& out, std::string& error);

}  // namespace dogear::canvas
