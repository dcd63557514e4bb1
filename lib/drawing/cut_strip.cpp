#include "drawing/cut_strip.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "drawing/marks.h"
#include "drawing/measures.h"

namespace dogear::drawing {
namespace {

constexpr double largest_piece = 10;  // pt, letters of pieces
constexpr double largest_note = 7;    // pt, measures of what is left over

Ring corners(const Rect& r) {
  return {{r.left, r.top}, {r.right, r.top}, {r.right, r.bottom}, {r.left, r.bottom}};
}

bool is_whole(const StripPlan& plan, const Run& run) { return run.length == plan.usable; }

std::string height_by_length(const Words& words, const Fraction& height, const Fraction& length) {
  return pretty(height) + " × " + words.inches(length);
}

}  // namespace

std::string run_words(const Scene& scene, std::size_t size, const StripPlan& plan, const Run& run) {
  const Words& w = scene.words;
  const std::string down =
      run.kind != Run::Kind::leftover && run.height.num > 0 && !(run.height == plan.height)
          ? w("drawn cut down", {{"height", w.inches(run.height)}})
          : "";
  switch (run.kind) {
    case Run::Kind::piece: {
      const CutPiece* cut = cut_of(scene, size, run.piece);
      std::string words = std::to_string(run.count) + " × " +
                          scene.piecing.pieces.at(run.piece).label(scene.checked.pattern);
      for (const auto& [piece, n] : run.also) {
        words += w("list last") + std::to_string(n) + " × " +
                 scene.piecing.pieces.at(piece).label(scene.checked.pattern);
      }
      if (cut == nullptr) return words + down;
      const bool square_ended =
          cut->cut.method == CutMethod::rectangle || cut->cut.method == CutMethod::joined_strip;
      return words + (square_ended ? ", " : " ") + cut_words(w, cut->cut, run.count) + down;
    }
    case Run::Kind::strip_set:
      return w("drawn for strip set",
               {{"n", std::to_string(run.strip_set + 1)}, {"length", w.inches(run.length)}}) +
             down;
    case Run::Kind::whole_strip: {
      const std::string purpose = run.purpose.empty() ? plan.purpose : run.purpose;
      return (is_whole(plan, run) ? w("drawn whole strip") : w.inches(run.length)) +
             (purpose.empty() ? "" : " " + w.named("for ", purpose)) + down;
    }
    case Run::Kind::leftover:
      return w("drawn left over",
               {{"size",
                 height_by_length(w, run.height.num > 0 ? run.height : plan.height, run.length)}});
  }
  return {};
}

Rect StripArt::area_of(const StripPlan& plan, const Run& run) const {
  const Fraction& height = run.height.num > 0 ? run.height : plan.height;
  const double bottom = (plan.height.approx() - run.y.approx()) * scale_;
  return {run.x.approx() * scale_, std::max(0.0, bottom - height.approx() * scale_),
          (run.x.approx() + run.length.approx()) * scale_, bottom};
}

void StripArt::draw(canvas::DisplayList& list, Labels& labels, const StripPlan& plan,
                    const Motion& where) const {
  const Rect whole = Rect::of(0, 0, plan.usable.approx() * scale_, plan.height.approx() * scale_);
  canvas::Style strip = waste();  // what no run covers
  strip.stroke = ink;
  strip.width = edge;
  strip.dash.clear();
  list.shape(outline(moved(corners(whole), where)), strip);
  for (const Run& run : plan.runs) {
    const Rect area = area_of(plan, run);
    const Ring there = moved(corners(area), where);
    if (run.kind == Run::Kind::leftover) {
      left_over(list, labels, box(there), Exact(run.height), Exact(run.length));
    } else if (run.kind == Run::Kind::piece) {
      pieces(list, labels, run, there, Motion::move(area.left, area.top).then(where));
    } else {
      list.shape(outline(there), cloth(fabric_));
      LabelStyle style;
      style.font = canvas::FontId::sans;
      style.largest = 8;
      const std::string purpose = run.purpose.empty() ? plan.purpose : run.purpose;
      put_name(labels, there,
               run.kind == Run::Kind::strip_set
                   ? scene_.words("drawn strip set", {{"n", std::to_string(run.strip_set + 1)}})
                   : scene_.words.named("use ", purpose),
               style);
    }
  }
}

namespace {

bool in_two_lines(Labels& labels, const Rect& area, const std::string& first,
                  const std::string& second, const LabelStyle& style) {
  const Rect a = labels.measure(first, style.smallest, style);
  const Rect b = labels.measure(second, style.smallest, style);
  constexpr double closer = 1.4;  // pt, by which their plates run into one
  const double high = std::max(a.height(), b.height());
  const Spot c = area.center();
  const double wide = std::max(a.width(), b.width());
  const double apart = high - closer;
  if (wide > area.width() - 1 || apart + high > area.height() - 1 ||
      !labels.is_free(Rect::of(c.x - wide / 2, c.y - (apart + high) / 2, wide, apart + high)))
    return false;
  labels.put_at({c.x, c.y - apart / 2}, first, style.smallest, style);
  labels.put_at({c.x, c.y + apart / 2}, second, style.smallest, style);
  return true;
}

}  // namespace

void StripArt::left_over(canvas::DisplayList& list, Labels& labels, const Rect& area,
                         const Exact& height, const Exact& length) const {
  if (area.width() < 0.3 || area.height() < 0.3) return;
  list.shape(canvas::Path::rect(area), waste());
  LabelStyle words;
  words.font = canvas::FontId::sans;
  words.largest = largest_note;
  words.clear = 0.6;
  const Fraction high = height.round_down(16), wide = length.round_down(16);
  if (labels.put_inside(corners(area), height_by_length(scene_.words, high, wide), words)) return;
  if (in_two_lines(labels, area, pretty(high) + " ×", scene_.words.inches(wide), words)) return;
  labels.put_inside(corners(area), pretty(high) + " × " + pretty(wide), words);
}

void StripArt::pieces(canvas::DisplayList& list, Labels& labels, const Run& run, const Ring& area,
                      const Motion& there) const {
  const Pattern& pattern = scene_.checked.pattern;
  const auto label = [&](PieceId piece) { return scene_.piecing.pieces.at(piece).label(pattern); };
  const CutPiece* cut = cut_of(scene_, size_, run.piece);
  LabelStyle style;
  style.largest = largest_piece;
  const bool plain = cut == nullptr || cut->cut.method == CutMethod::joined_strip ||
                     cut->cut.method == CutMethod::lengthwise;
  if (plain) {
    list.shape(outline(area), cloth(fabric_));
    const std::string name = label(run.piece);
    if (!labels.put_inside(area, name + ", " + scene_.words.inches(run.length), style))
      put_name(labels, area, name, style);
    return;
  }
  bool named = true;
  for (const LaidPiece& laid : laid_run(scene_, size_, run, scale_)) {
    const Ring ring = moved(laid.ring, there);
    list.shape(outline(ring), cloth(fabric_));
    // A kind that the first piece has no room for is named once for the whole run.
    named = named && labels.put_inside(ring, label(laid.piece), style).has_value();
  }
  spare(list, labels, run, cut->cut, there);
  if (named) return;
  std::string all = std::to_string(run.count) + " " + label(run.piece);
  for (const auto& [piece, n] : run.also) all += ", " + std::to_string(n) + " " + label(piece);
  put_name(labels, area, all, style);
}

// On thin strips nearer to the edges than elsewhere; what is thinner yet waits for name_rest().
void StripArt::put_name(Labels& labels, const Ring& area, const std::string& name,
                        LabelStyle style) const {
  if (labels.put_inside(area, name, style)) return;
  style.clear = 0.3;
  style.largest = style.smallest;
  if (!labels.put_inside(area, name, style)) unnamed_.emplace_back(box(area).center(), name);
}

void StripArt::name_rest(Labels& labels) const {
  LabelStyle style;
  style.largest = smallest_label + 0.4;
  for (const auto& [at, name] : unnamed_) labels.put_outside(at, name, style);
  unnamed_.clear();
}

// Squares cut apart may give more triangles than are sewn.
void StripArt::spare(canvas::DisplayList& list, Labels& labels, const Run& run, const PieceCut& cut,
                     const Motion& there) const {
  const long long more = spare_pieces(cut, run.count);
  if (more == 0) return;
  const long long all = run.count + more;
  const std::vector<Ring> rings = laid(cut, all, scale_);
  for (std::size_t i = static_cast<std::size_t>(run.count); i < rings.size(); ++i) {
    const Ring ring = moved(rings[i], there);
    list.shape(outline(ring), waste());
    LabelStyle style;
    style.font = canvas::FontId::sans;
    style.largest = largest_note;
    const std::string label = scene_.piecing.pieces.at(run.piece).label(scene_.checked.pattern);
    if (!labels.put_inside(ring, scene_.words("drawn spare", {{"piece", label}}), style))
      labels.put_inside(ring, label, style);
  }
}

std::vector<std::string> StripArt::measured_words(const Run& run) const {
  const std::string length = scene_.words.inches(run.length);
  if (run.kind != Run::Kind::piece || run.count == 1) return {length};
  return {std::to_string(run.count) + " " +
              scene_.piecing.pieces.at(run.piece).label(scene_.checked.pattern) + ": " + length,
          length};
}

void StripArt::measure(canvas::DisplayList& list, Labels& labels, const StripPlan& plan, Spot at,
                       bool below, bool both) const {
  std::vector<Measured> lower, upper;
  for (const Run& run : plan.runs) {
    const Rect area = area_of(plan, run);
    const Measured m{at.x + area.left, at.x + area.right, measured_words(run)};
    if (run.y.num == 0) lower.push_back(m);
    // Less than an inch above it is not worth keeping, and nothing is drawn there.
    const bool highest = area.top < 0.99 * scale_;
    if (highest && (!both || run.kind != Run::Kind::leftover)) upper.push_back(m);
  }
  const double right = at.x + plan.usable.approx() * scale_;
  if (below) {
    put_measures(list, labels, at.y + plan.height.approx() * scale_, true, lower, at.x, right);
    return;
  }
  if (both) {
    std::erase_if(upper, [&](const Measured& m) {
      return std::any_of(lower.begin(), lower.end(), [&](const Measured& o) {
        return std::abs(o.from - m.from) < 0.5 && std::abs(o.to - m.to) < 0.5;
      });
    });
  }
  put_measures(list, labels, at.y, false, upper, at.x, right);
}

}  // namespace dogear::drawing
