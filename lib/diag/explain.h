#pragma once
// The catalogue of codes as words for a terminal and as a page of the manual.

#include <string>

#include "diag/catalogue.h"

namespace dogear {

// Title, meaning, why it matters, faulty and mended source; prose is wrapped, source is not.
std::string explain_code(const CodeEntry& entry);

// All codes by stage, each with its title.
std::string list_codes();

// tools/dogear/manual/messages.md
std::string catalogue_as_markdown();

// The entry of "D204", "d204" or "204"; nothing, with `near` the most likely one or "", otherwise.
const CodeEntry* find_spoken_code(std::string_view words, std::string& near);

}  // namespace dogear
