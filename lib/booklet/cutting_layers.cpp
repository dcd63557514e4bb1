// Layers of cloth cut at once, and pieces of which the mirror image is another piece.

#include <algorithm>

#include "base/length.h"
#include "booklet/writer.h"

namespace dogear::booklet {
namespace {

void say(Column& column, std::string text) {
  ParagraphStyle how;
  how.keep_with_next = true;
  column.paragraph({{std::move(text), column.italic(), false}}, how);
}

std::string label(const Writer& w, const CutPiece& piece) {
  return w.scene.piecing.pieces[piece.piece].label(w.pattern());
}

// `other` is the reversed one.
std::string twins_words(const Writer& w, const CutPiece& one, const CutPiece& other) {
  const std::string a = label(w, one);
  const std::string b = label(w, other);
  const long long pairs = std::min(one.count, other.count);
  if (one.layers == 1 || pairs < 2) return w.words("mirror images", {{"a", a}, {"b", b}});
  std::string text = w.words(w.pattern().folded ? "mirror pairs folded" : "mirror pairs",
                             {{"a", a},
                              {"b", b},
                              {"n", std::to_string(2 * pairs)},
                              {"pairs", w.words.count("pairs", pairs)}});
  const long long rest = std::max(one.count, other.count) - pairs;
  if (rest > 0)
    text += " " + w.words("mirror rest", {{"n", std::to_string(rest)},
                                          {"piece", one.count > other.count ? a : b}});
  return text;
}

}  // namespace

std::string layers_words(const Writer& w, const CutPiece& piece) {
  if (piece.layers == 1 || piece.twin) return {};  // of twins a sentence of its own tells
  const std::string layers = w.words.number(piece.layers);
  if (piece.cut.per_cut == 1) return w.words("layers at once", {{"layers", layers}});
  return w.words("layers give",
                 {{"layers", layers},
                  {"n", w.words.number(static_cast<long long>(piece.layers) * piece.cut.per_cut)}});
}

void write_layers(Writer& w, Column& column) {
  const auto& pieces = w.quantities().pieces;
  int most = 1;
  for (const CutPiece& piece : pieces) {
    if (!piece.twin) most = std::max(most, piece.layers);
  }
  if (most == 1) return;
  const std::string layers = w.words.number(most);
  if (!w.pattern().folded)
    column.paragraph(w.words("layers stacked", {{"layers", layers}}));
  else
    column.paragraph(w.words(most == 2 ? "layers folded" : "layers folded twice"));
}

void write_hands(Writer& w, Column& column, FabricId fabric) {
  std::vector<std::string> alone, grain;
  const auto& pieces = w.quantities().pieces;
  for (const CutPiece& piece : pieces) {
    const Piece& own = w.scene.piecing.pieces[piece.piece];
    if (own.fabric != fabric || own.in_strip_set || own.letter.empty()) continue;
    if (piece.twin) {
      const CutPiece* twin = cut_of(w.quantities(), *piece.twin);
      if (!own.reversed && twin != nullptr) say(column, twins_words(w, piece, *twin));
    } else if (piece.hand == Hand::mirrored) {
      alone.push_back(label(w, piece));
    } else if (piece.hand == Hand::other_grain && w.pattern().folded) {
      grain.push_back(label(w, piece));
    }
  }
  const bool stacked = w.pattern().layers > 1 && !w.pattern().folded;
  if (!alone.empty()) {
    const bool one = alone.size() == 1;
    const std::string pieces_words = w.words.list(alone);
    say(column, stacked ? w.words(one ? "one hand stacked" : "one hand each stacked",
                                  {{"pieces", pieces_words}})
                        : w.words(one ? "one hand" : "one hand each", {{"pieces", pieces_words}}));
  }
  if (!grain.empty()) say(column, w.words("one grain", {{"pieces", w.words.list(grain)}}));
}

}  // namespace dogear::booklet
