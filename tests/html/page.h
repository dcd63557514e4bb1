#pragma once
// A pattern as the page for screens, and what can be read of it.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "html/html.h"
#include "support/fonts.h"
#include "support/plan.h"

namespace dogear::test {

inline const Template& letter() {
  static const Template loaded = [] {
    Diagnostics d;
    auto style = load_template("letter", "en", DiskFiles(), d);
    REQUIRE(style);
    return std::move(*style);
  }();
  return loaded;
}

inline ScreenPage page_of(const Planned& p) {
  REQUIRE(p.quantities);
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts(), english_words()};
  const Pattern& pattern = p.checked->pattern;
  ScreenPage page{pattern.id, pattern.title, pattern.edition, "en", {}};
  for (std::size_t s = 0; s < pattern.sizes.size(); ++s) {
    Diagnostics d;
    auto parts = write_booklet(scene, s, letter(), d);
    INFO(print_for_people(d, Sources(), false));
    REQUIRE(parts);
    page.sizes.push_back(std::move(*parts));
  }
  return page;
}

inline std::string html_of(const Planned& p) { return to_html(page_of(p), letter(), test_fonts()); }

// A small pattern of one block and two sizes, with these words of the designer's.
inline MemoryFiles two_sizes(const std::string& welcome, const std::string& title = "Small") {
  MemoryFiles files;
  files.content["p/pattern.yaml"] = "title: " + title +
                                    "\n"
                                    R"(designer: Test Studio
edition: "3"
fabrics:
  red:  {name: Red, colour: "#b03030"}
  sand: {name: Sand, colour: "#e0d0b0"}
rulers:
  straight: {name: 6 × 24 in ruler, angle: 90, highest: 24 in, step: 1/8 in}
blocks:
  check: {block: check, fabrics: {dark: red, light: sand}}
sizes:
  one: {title: Mug Rug, setting: rows, rows: [[check]]}
  four:
    title: Table Topper
    setting: rows
    rows: [[check, check], [check, check]]
    binding: {fabric: red}
    backing: {}
    batting: {}
booklet: [cover, contents, prose/welcome.md, requirements, cutting, blocks, assembly, finishing, back]
)";
  files.content["p/blocks/check.yaml"] = R"(block: Check
grid: square
unit: 2 in
roles: [dark, light]
words: Four squares.
shape: square 2
units:
  a: {shape: square 1, fabric: dark}
  b: {shape: square 1, fabric: light}
  pair: {row: [a, b]}
stack: [pair, pair turned 180]
)";
  files.content["p/prose/welcome.md"] = welcome;
  return files;
}

}  // namespace dogear::test
