#pragma once
#include "diag/diagnostics.h"

namespace dogear {

// Says the messages of `from` again, in their order: of tasks that ran beside each other.
void add_all(const Diagnostics& from, Diagnostics& to);
void add_all(const std::vector<Diagnostic>& from, Diagnostics& to);

}  // namespace dogear
