#pragma once
// The texts of page.css and page.js as they were when the program was built.

#include <string_view>

namespace dogear::html {

std::string_view page_style();
std::string_view page_script();

}  // namespace dogear::html
