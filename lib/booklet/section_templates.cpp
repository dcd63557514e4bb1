// Templates for the pieces that no ruler cuts, in their true size where the page has room.

#include <algorithm>

#include "base/text.h"
#include "booklet/writer.h"

namespace dogear::booklet {
namespace {

std::string counts(const Writer& w, const TemplateUse& use) {
  std::vector<std::string> plain, over;
  for (const PieceId id : use.pieces) {
    const Piece& piece = w.scene.piecing.pieces[id];
    long long count = 0;
    for (const CutPiece& cut : w.quantities().pieces) count += cut.piece == id ? cut.count : 0;
    const bool turned = piece.reversed != w.scene.piecing.pieces[use.pieces.front()].reversed;
    (turned ? over : plain)
        .push_back(w.words("template count", {{"n", std::to_string(count)},
                                              {"label", piece.label(w.pattern())},
                                              {"name", w.fabric(piece.fabric).name}}));
  }
  std::string text = w.words("template cut", {{"pieces", w.words.list(plain)}});
  if (!over.empty())
    text += " " + w.words("template cut turned over", {{"pieces", w.words.list(over)}});
  return text;
}

}  // namespace

void write_templates(Writer& w, Column& column) {
  const std::vector<TemplateUse> templates = templates_of(w.scene, w.size);
  if (templates.empty()) return;
  w.heading(column, 1, w.words("templates"), "templates");
  const double height = w.style.text_height() * 0.8;
  bool any = false;
  for (const TemplateUse& use : templates)
    any = any || template_fits(w.scene, w.size, use, column.width(), height);
  std::string intro = w.words("templates intro");
  if (any) intro += " " + w.words("templates print");
  column.paragraph(intro);
  if (any) {
    if (auto square = w.picture("template/test-square", column.width(), height)) {
      square->true_size = true;
      column.figure(*square, column.plain(w.words("test square")));
    }
  }
  for (const TemplateUse& use : templates) {
    const std::string label = w.scene.piecing.pieces[use.pieces.front()].label(w.pattern());
    const bool fits = template_fits(w.scene, w.size, use, column.width(), height);
    auto figure = w.picture("template/" + label, column.width(), height);
    if (!figure) continue;
    figure->true_size = fits;
    Runs words = column.plain(counts(w, use));
    if (!fits) words.push_back({" " + w.words("template too large"), column.bold(), false});
    column.figure(*figure, words);
  }
}

}  // namespace dogear::booklet
