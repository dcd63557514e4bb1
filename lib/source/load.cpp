#include "source/load.h"

namespace dogear {

std::optional<std::string> load(const Files& files, const std::string& path, const Span& asked_by,
                                Sources& sources, Diagnostics& diagnostics) {
  std::string reason;
  std::optional<std::string> text = files.read(path, reason);
  if (!text) {
    const Span span = asked_by.file.empty() ? Span{path, 0, 0, 0, 0} : asked_by;
    diagnostics.error("D001", span, "the file " + path + " cannot be read: " + reason);
    return std::nullopt;
  }
  sources.add(path, *text);
  return text;
}

}  // namespace dogear
