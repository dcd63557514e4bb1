#pragma once
// What every code means, in plain words: the files of lib/diag/codes/, built into the program.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "diag/diagnostics.h"

namespace dogear {

// Lines of a source that give the code, and the lines they take the place of.
struct CodeExample {
  std::string base;      // a folder of tests/patterns/base/
  std::string file;      // "blocks/star.yaml", within it
  std::string language;  // "yaml" or "markdown"
  std::string faulty;    // whole lines, each with its newline
  std::string mended;
};

struct CodeEntry {
  std::string code;   // "D204"
  std::string title;  // "Strips do not add up to the shape's height"
  Severity severity = Severity::error;
  bool judged =
      false;  // an error that judges words, which may mean another thing: it can be accepted
  std::vector<std::string> text;       // paragraphs; one that is an item of a list starts with "- "
  std::vector<std::string> why;        // why it matters to the quilter
  std::optional<CodeExample> example;  // either this,
  std::vector<std::string> raised_by;  // or what brings about a code that no pattern can give
};

// Reads one file of codes/; nothing, with `error` saying what is wrong and in which line, when it
// is not written as DEVELOPERS.md asks.
std::optional<CodeEntry> read_code(const std::string& text, std::string& error);

// All codes in their order. Throws std::logic_error when a file that was built in is badly written.
const std::vector<CodeEntry>& code_catalogue();

const CodeEntry* find_code(std::string_view code);

// "keys, names and measures" of D1xx: the stage that speaks.
std::string code_stage(std::string_view code);

// The texts as they were built in, by code.
const std::map<std::string, std::string>& code_files();

}  // namespace dogear
