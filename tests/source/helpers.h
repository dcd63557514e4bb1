#pragma once
#include <catch2/catch.hpp>
#include <string>

#include "diag/print.h"

namespace dogear {

// The piece of a source that a span covers, so that tests read as a person would look.
inline std::string covered(const Sources& sources, const Span& span) {
  std::u32string out;
  for (std::size_t line = span.line; line <= span.end_line; ++line) {
    const std::u32string text = code_points(sources.line(span.file, line));
    const std::size_t begin = line == span.line ? span.column - 1 : 0;
    const std::size_t end = line == span.end_line ? span.end_column - 1 : text.size();
    REQUIRE(begin <= end);
    REQUIRE(end <= text.size());
    out += text.substr(begin, end - begin);
    if (line != span.end_line) out += U'\n';
  }
  return utf8(out);
}

inline std::string repeated(const std::string& piece, std::size_t times) {
  std::string out;
  out.reserve(piece.size() * times);
  for (std::size_t i = 0; i < times; ++i) out += piece;
  return out;
}

}  // namespace dogear
