#include "cutting/border_cut.h"

#include "cutting/lines.h"
#include "geom/offset.h"

namespace dogear {

Exact mitre_spare() { return Exact(2); }

PieceCut plan_border_cut(const Piece& piece, const Pattern& pattern, Diagnostics& d) {
  const Exact both = pattern.seam_allowance * Exact(2);
  const Exact step = straight_step(pattern);
  const Box box = bounds(piece.shape);
  const Exact high = box.height() + both;
  const Exact longest = longest_strip(pattern, piece.fabric);
  PieceCut cut;
  cut.strip = printed_line(high, step);
  cut.measures.push_back({CutMeasure::What::strip, high, cut.strip, false});
  const Exact needed = box.width() + both + (piece.mitred ? mitre_spare() : Exact(0));
  cut.length = piece.mitred ? needed.round_up(8) : printed_line(needed, step);
  cut.measures.push_back({CutMeasure::What::length, needed, cut.length, true});
  cut.first = cut.pitch = cut.length.approx();
  cut.method = piece.along                   ? CutMethod::lengthwise
               : Exact(cut.length) > longest ? CutMethod::joined_strip
                                             : CutMethod::rectangle;
  const Polygon full = offset(piece.shape, pattern.seam_allowance);
  cut.cut_shape = full;
  if (piece.mitred) {
    // The sharp corners end with the strip.
    const auto above = clip(full, {Exact(0), box.least.y - both / Exact(2)}, {Exact(1), Exact(0)});
    const auto within =
        above ? clip(*above, {Exact(0), box.most.y + both / Exact(2)}, {Exact(-1), Exact(0)})
              : above;
    cut.cut_shape = tidy(within.value_or(full));
  }
  for (std::size_t i = 0; i < pattern.rulers.size(); ++i) {
    const Ruler& r = pattern.rulers[i];
    if (r.angle == 90 && r.lowest <= Exact(cut.strip) && Exact(cut.strip) <= r.highest) {
      cut.rulers.push_back(i);
    }
  }
  const std::string name = "the " + piece.shape_words + " of " + pattern.fabrics[piece.fabric].name;
  const Exact wide = Exact(pattern.fabrics[piece.fabric].sources.back().length.round_down(8));
  if (piece.along && Exact(cut.strip) > wide) {
    Diagnostic& e =
        d.error("D541", piece.span,
                name + " is cut " + plain_inches(cut.strip) +
                    " wide along the length of cloth that is " + about_inches(wide) + " wide");
    e.hints.push_back("write `cut: across the width`, or make the border narrower");
  } else if (cut.rulers.empty() && cut.method == CutMethod::rectangle) {
    d.error("D502", piece.span,
            "no described ruler can cut " + name + ": it needs the " + plain_inches(cut.strip) +
                " line of a straight ruler")
        .hints.push_back("describe another ruler under `rulers`, or change the finished measure");
  }
  return cut;
}

double cut_area(const Piece& piece, const PieceCut& cut) {
  return piece.mitred ? area(cut.cut_shape).approx() : cut.length.approx() * cut.strip.approx();
}

}  // namespace dogear
