#include <cmath>

#include "base/length.h"
#include "check/build.h"
#include "check/picture.h"
#include "geom/regions.h"

namespace dogear {

namespace {

constexpr int most_drawn = 20;  // of one whole; a picture holds all its parts

std::string inches(double v) {
  const Fraction f = Fraction::of(std::llround(v * 16), 16);
  return (std::abs(f.approx() - v) < 1e-9 ? "" : "about ") + plain_inches(f);
}

}  // namespace

void PartBuilder::report_misfit(const Whole& what, const std::vector<Placed>& parts,
                                const std::vector<Span>& spans,
                                const std::vector<Polygon>& outlines) {
  const std::string& called = what.called.empty() ? what.name : what.called;
  const std::string name = called.empty() ? "the block" : "`" + called + "`";
  const Span& at = what.fill_span.line > 0 ? what.fill_span : what.span;
  const Misfits found = find_misfits(outlines, what.must_fill);
  ProblemPicture whole;
  for (std::size_t i = 0; i < outlines.size(); ++i) {
    whole.parts.push_back({checked_.parts[parts[i].part].name, picture_ring(outlines[i])});
  }
  if (what.must_fill) whole.promised = picture_ring(*what.must_fill);
  const auto drawn = [&](const std::string& does) {
    auto picture = std::make_shared<ProblemPicture>(whole);
    picture->what = "the parts of " + (called.empty() ? "the block" : called) + " " + does;
    return picture;
  };
  int said = 0;
  const auto say = [&](const char* code, PictureRegion::Kind kind, const std::string& does,
                       const Region& r, const std::string& note_words) {
    Diagnostic& d =
        diagnostics_.error(code, at,
                           "the parts of " + name + " " + does + ": " + inches(r.width) + " by " +
                               inches(r.height) + ", which starts " + inches(r.x - found.left) +
                               " from its left and " + inches(r.y - found.top) + " from its top");
    if (said++ < most_drawn) {
      auto picture = drawn(does);
      picture->regions.push_back({kind, {}});
      for (const auto& ring : r.rings) {
        PictureRing& corners = picture->regions.back().rings.emplace_back();
        for (const Measured& m : ring) corners.push_back({m.x, m.y});
      }
      d.picture = std::move(picture);
    }
    for (const std::size_t i : r.parts) {
      if (d.notes.size() >= 3 || i >= spans.size() || spans[i].line == 0) continue;
      const std::string& part = checked_.parts[parts[i].part].name;
      Note note;
      note.span = spans[i];
      note.message = part.empty() ? std::string("this part") : "`" + part + "`";
      note.message += note_words;
      d.notes.push_back(std::move(note));
    }
  };
  if (what.must_fill && found.overlaps.empty()) {
    // A shape of another size than its parts is one fault, not a gap here and an overhang there.
    const Box want = bounds(*what.must_fill);
    const double w = want.width().approx();
    const double h = want.height().approx();
    if (std::abs(w - found.all.width) > 1e-6 && std::abs(h - found.all.height) > 1e-6) {
      Diagnostic& d = diagnostics_.error(
          "D201", at,
          "the parts of " + name + " make " + inches(found.all.width) + " by " +
              inches(found.all.height) + ", but its shape is " + inches(w) + " by " + inches(h));
      d.hints.push_back("measures of shapes are counted in grid steps; `unit` is one step");
      d.picture = drawn("have another size than its shape");
      return;
    }
  }
  using Kind = PictureRegion::Kind;
  for (const Region& r : found.gaps) say("D201", Kind::gap, "leave a gap", r, " lies beside it");
  for (const Region& r : found.overlaps) say("D202", Kind::overlap, "overlap", r, " lies there");
  for (const Region& r : found.outside) say("D202", Kind::overhang, "stick out", r, " lies there");
  if (!found.gaps.empty() || !found.overlaps.empty() || !found.outside.empty()) return;
  Diagnostic& d = diagnostics_.error("D202", what.span,
                                     "the parts of " + name + " do not meet along whole edges");
  d.hints.push_back("parts that touch at a corner alone cannot be sewn; check how each is turned");
  d.picture = drawn("do not meet along whole edges");
}

}  // namespace dogear
