#pragma once
// A block written in a test, set in one size and checked.

#include <optional>
#include <string>

#include "base/files.h"
#include "check/checked.h"
#include "diag/print.h"

namespace dogear::test {

struct Checked {
  std::optional<CheckedPattern> pattern;
  Diagnostics diagnostics;
  Sources sources;
  std::string errors() { return print_for_people(diagnostics, sources, false); }
};

inline Checked check(const std::string& block,
                     const std::string& setting = "{setting: rows, rows: [[b]]}") {
  MemoryFiles files;
  files.content["p/blocks/b.yaml"] = block;
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\nfabrics: {red: {colour: \"#aa2222\"}, blue: {colour: \"#2222aa\"}}\n"
      "rulers: {straight: {angle: 90, highest: 24 in}}\nblocks: {b: {block: b}}\nsizes:\n  one: " +
      setting + "\n";
  Checked out;
  auto pattern = load_pattern("p", files, out.sources, out.diagnostics);
  if (pattern) out.pattern = check_pattern(std::move(*pattern), out.diagnostics);
  return out;
}

}  // namespace dogear::test
