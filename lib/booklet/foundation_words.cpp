// How units are pieced on paper foundations: told once, then the order of each.

#include <algorithm>

#include "booklet/writer.h"

namespace dogear::booklet {
namespace {

bool has_foundation(const Writer& w, const BlockSewing& block) {
  return std::any_of(block.steps.begin(), block.steps.end(),
                     [&](UnitId id) { return w.scene.piecing.units[id].foundation.has_value(); });
}

// A print that has an up is laid down so that it stands upright once it is flipped.
bool has_print(const Writer& w) {
  for (const TemplateUse& use : foundations_of(w.scene, w.size)) {
    for (const Input& in : w.scene.piecing.units[*use.foundation].inputs) {
      if (w.scene.piecing.pieces[in.piece].directional) return true;
    }
  }
  return false;
}

}  // namespace

std::string foundation_sentence(const Writer& w, UnitId id) {
  std::string order;
  for (const Input& in : w.scene.piecing.units[id].inputs) {
    if (!order.empty()) order += w.words("foundation then");
    order += w.scene.piecing.pieces[in.piece].label(w.pattern());
  }
  return w.words("foundation order", {{"order", order}});
}

void write_foundation_method(Writer& w, Column& column, const BlockSewing& block) {
  const auto& blocks = w.sewing().blocks;
  const auto first = std::find_if(blocks.begin(), blocks.end(),
                                  [&](const BlockSewing& b) { return has_foundation(w, b); });
  if (first == blocks.end() || first->use != block.use) return;
  const std::string allowance = w.words.inches(w.pattern().seam_allowance.round_nearest(16));
  w.heading(column, 3, w.words("foundation method"), "foundation-method");
  std::vector<Runs> steps;
  for (const char* key :
       {"foundation print", "foundation first", "foundation next", "foundation sew",
        "foundation trim", "foundation flip", "foundation square up", "foundation remove"})
    steps.push_back(column.plain(w.words(key, {{"allowance", allowance}})));
  if (has_print(w))
    steps[2].push_back({" " + w.words("foundation directional"), column.text(), false});
  column.list(steps, true);
  column.paragraph(w.words("foundation care"));
}

}  // namespace dogear::booklet
