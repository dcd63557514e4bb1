#pragma once
// What is looked at before the Markdown parser runs.

#include <string>

#include "source/lines.h"

namespace dogear {

constexpr std::size_t most_nesting = 30;

// Limits on columns, table cells and nesting; true when the text is harmless.
bool check_markdown_limits(const Lines& lines, Diagnostics& diagnostics);

// The same text, byte for byte as long, in which the inside of each {{tag}} means nothing to
// Markdown; unshield() gives the characters back in any piece of it.
std::string shield_tags(std::string_view text);
std::string unshield(std::string_view piece);

}  // namespace dogear
