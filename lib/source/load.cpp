#include "source/load.h"

namespace dogear {

std::optional<std::string> load(const Files& files, const std::string& path, const Span& asked_by,
                                Sources& sources, Diagnostics& diagnostics,
                                const std::string& hint) {
  std::string reason;
  std::optional<std::string> text = files.read(path, reason);
  if (!text) {
    const Span span = asked_by.file.empty() ? Span{path, 0, 0, 0, 0} : asked_by;
    Diagnostic& told =
        diagnostics.error("D001", span, "the file " + path + " cannot be read: " + reason);
    if (!hint.empty()) told.hints.push_back(hint);
    return std::nullopt;
  }
  sources.add(path, *text);
  return text;
}

}  // namespace dogear
