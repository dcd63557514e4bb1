// How units are pieced on paper foundations: told once, then the order of each.

#include "booklet/writer.h"

namespace dogear::booklet {
namespace {

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
  const auto& inputs = w.scene.piecing.units[id].inputs;
  const auto label = [&](std::size_t i) {
    return w.scene.piecing.pieces[inputs[i].piece].label(w.pattern());
  };
  std::string rest = label(1);
  for (std::size_t i = 2; i < inputs.size(); ++i) rest += w.words("foundation then") + label(i);
  return w.words("foundation order", {{"first", label(0)}, {"rest", rest}});
}

void write_foundation_method(Writer& w, Column& column) {
  if (foundations_of(w.scene, w.size).empty()) return;
  const std::string allowance = w.words.inches(w.pattern().seam_allowance.round_nearest(16));
  w.heading(column, 2, w.words("foundation method"), "foundation-method");
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
