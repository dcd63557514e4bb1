#pragma once
#include <string>

#include "diag/diagnostics.h"

namespace dogear {

// "file:line:column: error: message [CODE]", the source line, a caret line, notes alike, hints.
std::string print_for_people(const Diagnostics& diagnostics, const Sources& sources, bool colour);

}  // namespace dogear
