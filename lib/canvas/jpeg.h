#pragma once
// The segments of a JPEG file (ITU-T T.81), read as far as printing needs.

#include <optional>
#include <string>
#include <string_view>

#include "canvas/image.h"

namespace dogear::canvas {

// Size, channels and how the camera was held; the packed dots are kept as they are. Baseline,
// extended and progressive files of 8 bits in grey or colour; `error` says what else it is.
std::optional<Raster> read_jpeg(std::string_view file, std::string& error);

}  // namespace dogear::canvas
