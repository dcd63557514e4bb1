#pragma once
// A pattern's booklet as one self-contained web page, for a tablet beside the sewing machine.
//
// Every size is in it; boxes to tick steps off are remembered by the browser. The page asks nothing
// of any network, and its policy lets it ask nothing. The markup is well-formed XML.

#include <string>
#include <vector>

#include "booklet/booklet.h"
#include "booklet/template.h"
#include "canvas/font.h"

namespace dogear {

struct ScreenPage {
  std::string id, title, edition;  // of the pattern
  std::string language = "en";     // BCP 47
  std::vector<BookletParts> sizes;
};

// Same input, same bytes.
std::string to_html(const ScreenPage& page, const Template& style, const canvas::FontSet& fonts);

}  // namespace dogear
