#pragma once
// Text as markup: escaped, with fractions and links.

#include <string>
#include <string_view>

#include "booklet/element.h"

namespace dogear::html {

std::string attribute(std::string_view name, std::string_view value);  // ` name="value"`

// Escaped, fractions set apart so that they may be larger: "2½" stays readable aloud.
std::string words(std::string_view text);

// A paragraph's content. Links within the booklet begin with `prefix`; of other addresses only
// http, https and mailto become links.
std::string runs(const booklet::Runs& runs, std::string_view prefix);

}  // namespace dogear::html
