#pragma once
// A faulty pattern and the messages it must give, in one file:
//
//   One or more lines of words: what this case shows.
//   base: star                          the folder of base/ that the case starts from (optional)
//
//   --- blocks/star.yaml                this file is what follows, up to the next --- or ===
//   block: star
//
//   --- pattern.yaml, changed           these lines of the base's file are replaced
//   - title: Small star
//   + titel: Small star
//
//   --- prose/welcome.md, removed       this file is not there
//
//   === error D101 pattern.yaml:1:1 some words of the message
//       note pattern.yaml:4:3 some words of the note
//       hint some words of the hint
//
// A warning that the source accepts is expected as "=== accepted D551 ...".
// The place is "-" for a message about nothing in particular, "pattern.yaml" for a whole file.
// A case without === lines must compile without a word.

#include <map>
#include <string>
#include <vector>

#include "diag/diagnostics.h"

namespace dogear::test {

struct Expected {
  std::string severity, code, place, words;
  std::vector<std::pair<std::string, std::string>> notes;  // place, words
  std::vector<std::string> hints;
  std::size_t line = 0;  // in the case file
};

struct Case {
  std::map<std::string, std::string> files;  // by path within the pattern's folder
  std::vector<Expected> expected;
};

// The folder the files of a case are put into.
inline const std::string case_folder = "case";

// Throws std::runtime_error, with the line, where the case itself is badly written.
Case read_case(const std::string& text, const std::string& bases);

// What differs between the messages given and those expected, in words; empty when nothing does.
std::string compare(const std::vector<Expected>& expected, const Diagnostics& given);

// The messages as a case file spells them.
std::string as_expected(const Diagnostics& given);

}  // namespace dogear::test
