#pragma once
// Computed values in the designer's prose: {{name}} and {{#size}}...{{/size}}.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "diag/diagnostics.h"

namespace dogear {

struct TagValues {
  std::map<std::string, std::string> values;                  // of the current size
  std::map<std::string, std::vector<std::string>> elsewhere;  // names other sizes have: which
  std::vector<std::string> sizes;                             // ids of all sizes
  std::string size;                                           // id of the current one
};

// What to do with words that only these sizes can print.
std::string only_in(const std::vector<std::string>& sizes);

// "1 1/8 yd" -> "1⅛ yd".
std::string pretty_fractions(std::string_view text);

// Checks every tag at its place in the source (D401 and those of find_tags), then expands them;
// characters that Markdown would take for marks are escaped in the values.
std::optional<std::string> expand_tags(const std::string& file, const std::string& text,
                                       const TagValues& values, Diagnostics& diagnostics);

}  // namespace dogear
