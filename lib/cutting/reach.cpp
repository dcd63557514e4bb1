#include "cutting/reach.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "cutting/lines.h"
#include "cutting/sums.h"

namespace dogear {

namespace {

// Cut at `measure` from an edge, over a stroke as long as `stroke`.
bool can_cut(const Ruler& r, const Exact& measure, const Exact& stroke) {
  return measure <= *r.width || (measure <= r.highest && stroke <= *r.width);
}

// By how much an inch more in the reading grows across the block and the top where most of these
// pieces lie on a line.
struct Sides {
  double block = 0, top = 0;
};

Sides sides_of(const Piecing& piecing, PieceId id) {
  const Polygon& shape = piecing.pieces[id].shape;
  const Box box = bounds(shape);
  const double height = box.height().approx();
  Stretch grows;
  if (shape.size() == 3) {
    grows.xx = grows.yy = 1 / height;
  } else {
    // Two slanted ends move apart by 2/√3 of what the reading gains, on the middle width.
    grows.xx = 2 / std::sqrt(3.0) * height / area(shape).approx();
  }
  const auto most = [&](UnitId unit) {
    std::vector<PlacedPiece> patches = flatten(piecing, unit);
    std::erase_if(patches, [&](const PlacedPiece& p) { return p.piece != id; });
    double sum = 0;
    for (const bool rows : {true, false}) {
      const LineSum line = greatest_sum(piecing, patches, {{id, grows}}, rows);
      sum = std::max(sum, std::abs(line.inches));
    }
    return sum;
  };
  Sides out;
  for (const SizeSewing& size : piecing.sizes) {
    for (const BlockSewing& block : size.blocks) {
      for (const UnitId unit : block.finals) out.block = std::max(out.block, most(unit));
    }
    out.top = std::max(out.top, most(size.top));
  }
  return out;
}

}  // namespace

std::optional<Exact> longest_ruler(const Pattern& pattern) {
  std::optional<Exact> longest;
  for (const Ruler& r : pattern.rulers) {
    if (r.angle == 90) longest = longest ? max(*longest, r.highest) : r.highest;
  }
  return longest;
}

bool beyond_rulers(const Pattern& pattern, const PieceCut& cut) {
  const auto longest = longest_ruler(pattern);
  return longest && cut.method == CutMethod::rectangle && Exact(cut.length) > *longest;
}

void check_reach(const Pattern& pattern, const Piecing& piecing, const std::vector<PieceCut>& cuts,
                 Diagnostics& diagnostics) {
  std::vector<const Ruler*> straight;
  for (const Ruler& r : pattern.rulers) {
    if (r.angle == 90) straight.push_back(&r);
  }
  const auto all_known = [](const Ruler* r) { return r->width.has_value(); };
  if (straight.empty() || !std::all_of(straight.begin(), straight.end(), all_known)) return;
  for (PieceId id = 0; id < piecing.pieces.size(); ++id) {
    const Piece& piece = piecing.pieces[id];
    const PieceCut& cut = cuts[id];
    const bool from_square =
        cut.method == CutMethod::half_square || cut.method == CutMethod::quarter_square;
    if (piece.in_strip_set || (cut.method != CutMethod::rectangle && !from_square)) continue;
    const Exact strip = cut.strip;
    const Exact length = from_square ? cut.strip : cut.length;
    // A strip as wide as the cloth is longer than any ruler, so it needs the ruler's width.
    const auto cuts_strip = [&](const Ruler* r) { return strip <= *r->width; };
    const auto cuts_length = [&](const Ruler* r) { return can_cut(*r, length, strip); };
    const bool strip_cut = std::any_of(straight.begin(), straight.end(), cuts_strip);
    // A long narrow strip is folded in half and cut from the fold.
    const bool folds = strip_cut && length > strip;
    if (strip_cut && (folds || std::any_of(straight.begin(), straight.end(), cuts_length)))
      continue;
    Diagnostic& d = diagnostics.warning(
        "D553", piece.span,
        "the " + piece.shape_words + " of " + pattern.fabrics[piece.fabric].name + " is cut from " +
            (from_square ? "a square of " : "a strip of ") + plain_inches(cut.strip) +
            ", wider than every straight ruler");
    for (const Ruler* r : straight) {
      d.notes.push_back({r->span, r->name + " is " + about_inches(*r->width) + " wide"});
    }
    d.hints.push_back(
        "describe a wider ruler under `rulers`, such as a square one: `{angle: 90, "
        "width: " +
        plain_inches(Exact(cut.strip).round_up(1)) +
        ", highest: " + plain_inches(Exact(cut.strip).round_up(1)) + "}`");
  }
}

void add_nearest_rulers(Diagnostic& diagnostic, const Pattern& pattern, const PieceCut& cut,
                        const Piecing& piecing, std::optional<PieceId> piece) {
  const bool angled = cut.method == CutMethod::angled || cut.method == CutMethod::half_angled ||
                      cut.method == CutMethod::from_strip_set;
  std::optional<Sides> sides;
  for (const Ruler& r : pattern.rulers) {
    if (r.angle != (angled ? cut.angle : 90)) continue;
    diagnostic.notes.push_back({r.span, r.name + " is described here"});
    for (const CutMeasure& m : cut.measures) {
      if (m.what != CutMeasure::What::reading) continue;
      std::vector<std::string> lines;
      for (const Fraction& line : {line_down(m.exact, r.step), line_up(m.exact, r.step)}) {
        const double off = (Exact(line) - m.exact).approx();
        if (Exact(line) < r.lowest || Exact(line) > r.highest || off == 0) continue;
        // A triangle's depth lies between three seams, a trapezoid's width between two.
        const double seam = off / (cut.upper_reading ? 2 : 3);
        if (piece && !sides) sides = sides_of(piecing, *piece);
        const auto across = [&](double inches) {
          std::string words;
          if (sides && sides->block > 0) {
            words += ", " + small_inches(inches * sides->block) + " across the block";
          }
          if (sides && sides->top > 0) {
            words += ", " + small_inches(inches * sides->top) + " across the top";
          }
          return words;
        };
        lines.push_back(plain_inches(line) + " (every piece " + small_inches(off) +
                        (off < 0 ? " smaller, " : " larger, ") + small_inches(seam) +
                        " in each seam" + across(off) + ")");
      }
      if (!lines.empty()) {
        diagnostic.hints.push_back("the nearest lines of " + r.name + ": " + join(lines, "; "));
      }
    }
  }
}

}  // namespace dogear
