#pragma once
// The floor under writing a PDF: the same pages with plain calls of libharu, without tags, forms or
// fonts of our own making.

#include <cstddef>

#include "canvas/display.h"
#include "canvas/font.h"

namespace dogear::bench {

// The bytes of the file it made.
std::size_t write_with_haru(const canvas::Document& document, const canvas::FontPaths& paths);

}  // namespace dogear::bench
