#pragma once
#include <optional>
#include <string>

#include "base/files.h"
#include "diag/diagnostics.h"

namespace dogear {

// Reads a file and remembers its text for messages. A file that cannot be read is error D001,
// reported at `asked_by`, the place that names the file (may be Span{}).
std::optional<std::string> load(const Files& files, const std::string& path, const Span& asked_by,
                                Sources& sources, Diagnostics& diagnostics,
                                const std::string& hint = {});

}  // namespace dogear
