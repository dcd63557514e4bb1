#pragma once
// The texts of page.css and page.js as they were when the program was built.

#include <map>
#include <string>

namespace dogear {

const std::map<std::string, std::string>& html_files();  // by name

}  // namespace dogear
