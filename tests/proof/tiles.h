#pragma once
// The small pattern whose proofs are looked at, and single changes of it.

#include <catch2/catch.hpp>
#include <string>

#include "support/pattern_files.h"
#include "support/small_pattern.h"

namespace dogear::test {

inline PatternFiles tiles(const std::string& head = "title: Tiles\ndesigner: Jo\n",
                          const std::string& words = "# Welcome\n\nA mat for a mug.\n") {
  PatternFiles files;
  files.content = squares_pattern(head, words).content;
  return files;
}

inline void change(PatternFiles& files, const std::string& file, const std::string& before,
                   const std::string& after) {
  std::string& text = files.content.at(file);
  const std::size_t at = text.find(before);
  REQUIRE(at != std::string::npos);
  text.replace(at, before.size(), after);
}

inline bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace dogear::test
