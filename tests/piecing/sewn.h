#pragma once
// A block written in a test, taken as far as its sewing.

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "base/files.h"
#include "diag/print.h"
#include "piecing/piecing.h"

namespace dogear::test {

struct SewnBlock {
  std::optional<CheckedPattern> checked;
  std::optional<Piecing> piecing;
  Diagnostics diagnostics;
  Sources sources;

  const SewnUnit& unit(const std::string& name) const {
    const auto found = std::find_if(piecing->units.begin(), piecing->units.end(),
                                    [&](const SewnUnit& u) { return u.name == name; });
    REQUIRE(found != piecing->units.end());
    return *found;
  }
  std::vector<std::string> codes() const {
    std::vector<std::string> out;
    for (const Diagnostic& d : diagnostics.all()) out.push_back(d.code);
    return out;
  }
  std::string hint() const {
    for (const Diagnostic& d : diagnostics.all()) {
      if (!d.hints.empty()) return d.hints.front();
    }
    return "";
  }
};

// The block is set `rows` times one above the other, `columns` abreast.
inline SewnBlock sew_block(const std::string& block, int rows = 1, int columns = 1,
                           const std::string& red = "", const std::string& size = "") {
  MemoryFiles files;
  files.content["p/blocks/b.yaml"] = block;
  std::string row;
  for (int i = 0; i < columns; ++i) row += i > 0 ? ", b" : "b";
  std::string all;
  for (int i = 0; i < rows; ++i) all += (i > 0 ? ", [" : "[") + row + "]";
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\nfabrics:\n  red: {colour: \"#aa2222\"" + red +
      "}\n  blue: {colour: \"#222266\"}\n"
      "rulers: {straight: {angle: 90, highest: 24 in}}\n"
      "blocks: {b: {block: b, title: B}}\nsizes: {one: {setting: rows, rows: [" +
      all + "]" + size + "}}\n";
  SewnBlock out;
  auto pattern = load_pattern("p", files, out.sources, out.diagnostics);
  if (pattern) out.checked = check_pattern(std::move(*pattern), out.diagnostics);
  if (out.checked) out.piecing = plan_piecing(*out.checked, out.diagnostics);
  INFO(print_for_people(out.diagnostics, out.sources, false));
  REQUIRE((out.piecing || out.diagnostics.has_errors()));
  return out;
}

inline const std::string four_patch =
    "block: B\ngrid: square\nunit: 2 in\nroles: [red, blue]\nunits:\n"
    "  light: {shape: square 1, fabric: red}\n"
    "  dark: {shape: square 1, fabric: blue}\n"
    "  pair: {row: [light, dark]}\n";

}  // namespace dogear::test
