#pragma once
// Parts of a booklet as Markdown, for places that take text alone.

#include <string>
#include <vector>

#include "booklet/element.h"

namespace dogear {

// Text with the characters escaped that Markdown would read as marks.
std::string markdown_text(const std::string& text);
std::string markdown_text(const booklet::Runs& runs);  // bold and italic words keep their marks

// Headings begin at `level` where an element's is 1. Figures and columns of pictures are left out.
std::string as_markdown(const std::vector<booklet::Element>& elements, int level);

}  // namespace dogear
