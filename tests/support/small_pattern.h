#pragma once
// A pattern of one block of squares in the sizes "one" and "four", in folder "p".

#include <string>

#include "base/files.h"

namespace dogear::test {

// `head` are the lines above the fabrics: title, designer, ...
inline MemoryFiles squares_pattern(const std::string& head, const std::string& welcome) {
  MemoryFiles files;
  files.content["p/pattern.yaml"] = head + R"(fabrics:
  red:  {name: Red, colour: "#b03030"}
  sand: {name: Sand, colour: "#e0d0b0"}
rulers:
  straight: {name: 6 × 24 in ruler, angle: 90, highest: 24 in, step: 1/8 in}
blocks:
  check: {block: check, fabrics: {dark: red, light: sand}}
sizes:
  one:
    title: Mug Rug
    setting: rows
    rows: [[check]]
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
