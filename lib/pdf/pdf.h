#pragma once
// Finished pages as a PDF file.

#include <cstdint>
#include <optional>
#include <string>

#include "canvas/display.h"
#include "canvas/font.h"

namespace dogear {

struct PdfOptions {
  // Seconds since 1970-01-01 UTC (SOURCE_DATE_EPOCH) for the document's dates; no dates without.
  std::optional<std::int64_t> date = {};
  // Points around each page: what may be inked beyond the trimmed edge, and beyond that room for
  // marks. Where there are any, the boxes of the file say what is what.
  double bleed = 0, room = 0;
  // Structure, links and page labels; a file that is only printed does without.
  bool tagged = true;
};

// The bytes of the file, or nothing with `error` holding every reason found, one a line: a glyph a
// font lacks, a coordinate that is no number or beyond ±32000 pt, a link to no anchor, an anchor
// defined twice. Same input, same bytes.
std::optional<std::string> to_pdf(const canvas::Document& document, const canvas::FontSet& fonts,
                                  std::string& error, const PdfOptions& options = {});

}  // namespace dogear
