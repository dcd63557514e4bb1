#pragma once
#include <string>

#include "diag/diagnostics.h"

namespace dogear {

// "file:line:column: error: message [CODE]", the source line, a caret line, notes alike, hints, and
// how to draw it. Accepted warnings are only counted. `folder` is the pattern's, for that command.
std::string print_for_people(const Diagnostics& diagnostics, const Sources& sources, bool colour,
                             const std::string& folder = "DIR");

}  // namespace dogear
