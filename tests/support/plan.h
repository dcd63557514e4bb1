#pragma once
// Patterns written in a test, taken through the stages in memory.

#include <catch2/catch.hpp>
#include <map>
#include <string>

#include "base/files.h"
#include "cutting/quantities.h"
#include "diag/print.h"
#include "support/project.h"

namespace dogear::test {

struct Planned {
  std::optional<CheckedPattern> checked;
  std::optional<Piecing> piecing;
  std::optional<Quantities> quantities;
  Diagnostics diagnostics;
  Sources sources;

  std::string errors() const { return print_for_people(diagnostics, sources, false); }
  bool has(const std::string& code) const {
    for (const Diagnostic& d : diagnostics.all()) {
      if (d.code == code) return true;
    }
    return false;
  }
};

inline Planned plan(const std::string& folder, const Files& files) {
  Planned out;
  auto pattern = load_pattern(folder, files, out.sources, out.diagnostics);
  if (pattern) out.checked = check_pattern(std::move(*pattern), out.diagnostics);
  if (out.checked) out.piecing = plan_piecing(*out.checked, out.diagnostics);
  if (out.piecing) out.quantities = plan_cutting(*out.checked, *out.piecing, out.diagnostics);
  return out;
}

inline Planned plan_demo(const std::string& name) {
  return plan(test::project_folder() + "/patterns/" + name, DiskFiles());
}

// A pattern with one block set once, from the text of the block file.
inline Planned plan_block(const std::string& block, const std::string& roles,
                          const std::string& extra = "", const std::string& size_extra = "") {
  MemoryFiles files;
  files.content["p/blocks/b.yaml"] = block;
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\n" + extra +
      "fabrics:\n"
      "  red: {colour: \"#aa2222\"}\n"
      "  blue: {colour: \"#2222aa\"}\n"
      "  grey: {colour: \"#888888\"}\n"
      "rulers:\n"
      "  sixty: {angle: 60, tip: blunt, lowest: 1 in, highest: 8 1/2 in, "
      "step: 1/2 in}\n"
      "  straight: {angle: 90, highest: 24 in}\n"
      "blocks:\n"
      "  b: {block: b, fabrics: {" +
      roles +
      "}}\n"
      "sizes:\n"
      "  one: {setting: rows, rows: [[b]]" +
      size_extra + "}\n";
  return plan("p", files);
}

inline const CutPiece* find_piece(const Planned& p, std::size_t size, const std::string& words) {
  for (const CutPiece& c : p.quantities->sizes[size].pieces) {
    if (p.piecing->pieces[c.piece].shape_words == words) return &c;
  }
  return nullptr;
}

}  // namespace dogear::test
