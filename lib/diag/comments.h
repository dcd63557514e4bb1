#pragma once
// The comments of YAML and Markdown sources, found in the text itself.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "diag/diagnostics.h"

namespace dogear {

struct Comment {
  std::string text;     // between its marks, trimmed
  Span span;            // of that text
  bool alone = false;   // nothing else stands on its lines
  bool on_top = false;  // nothing but comments and blank lines stands above
};

// `text` as Sources keeps it, without a byte order mark. A # in quotes, within a word or in a text
// block of YAML begins no comment, nor does <!-- in code of Markdown.
std::vector<Comment> yaml_comments(const std::string& file, std::string_view text);
std::vector<Comment> markdown_comments(const std::string& file, std::string_view text);

// Is it written to accept a warning, rightly or not: "accept D551: eased in"?
bool is_acceptance(std::string_view comment);

// "<!-- accept D401: it is meant -->" and nothing else.
bool is_acceptance_markup(std::string_view html);

}  // namespace dogear
