// Templates larger than a page.
//
// A grid of equal sheets is laid over the template, neighbours overlapping by a strip. What lies
// beyond a sheet is cut off line by line, so that the numbers in a file are those on the paper. Of
// two sheets the later one has the strip shaded: the earlier is trimmed along its edge and laid on
// the shade until the marks of one letter meet. Both sheets show every mark of the strip.

#include <algorithm>
#include <array>
#include <cmath>

#include "drawing/foundation.h"
#include "drawing/marks.h"
#include "drawing/template_parts.h"
#include "drawing/within.h"

namespace dogear::drawing {
namespace {

constexpr double overlap = 30;  // pt
constexpr double mark = 6;      // pt, half of a joining mark

bool holds_something(const Ring& ring, const Rect& r) {
  const Ring part = ring_within(ring, r);
  return part.size() > 2 && area(part) > 1;
}

struct Join {
  Spot at;
  std::string letter;
  bool upright = false;  // of the strip
};

class Grid {
 public:
  Grid(const Scene& scene, TemplateParts parts, Room room)
      : scene_(scene), parts_(std::move(parts)) {
    all_ = box(parts_.cut).grown(cut_width);
    across_ = count(all_.width(), room.width);
    down_ = count(all_.height(), room.height);
    wide_ = part(all_.width(), across_);
    high_ = part(all_.height(), down_);
    for (std::size_t row = 0; row < down_; ++row) {
      for (std::size_t column = 0; column < across_; ++column) {
        if (!holds_something(parts_.cut, place(column, row))) continue;
        places_.emplace_back(column, row);
      }
    }
    for (std::size_t row = 0; row < down_; ++row) {
      for (std::size_t column = 0; column < across_; ++column) {
        if (column + 1 < across_) join(place(column, row), place(column + 1, row), true);
        if (row + 1 < down_) join(place(column, row), place(column, row + 1), false);
      }
    }
  }

  std::size_t sheets() const { return places_.size(); }

  TemplateSheet sheet(std::size_t n) const {
    const auto [column, row] = places_.at(n);
    const Rect paper = place(column, row);
    canvas::DisplayList list;
    Labels labels(scene_.fonts);
    shade(list, column, row);
    const canvas::Path cut = lines_within(parts_.cut, paper);
    const canvas::Path seam = lines_within(parts_.seam, paper);
    const canvas::Path& solid = parts_.paper ? seam : cut;
    const canvas::Path& dashed = parts_.paper ? cut : seam;
    if (!solid.empty()) list.stroke_path(solid, ink, cut_width);
    if (!dashed.empty()) list.stroke_path(dashed, ink, seam_width, {3.2, 2.2});
    for (const auto& [from, to] : parts_.lines) {
      if (const auto part = within(from, to, paper)) {
        list.stroke_path(canvas::Path::segment(part->first, part->second), ink, cut_width);
      }
    }
    edges(list, column, row);
    for (const auto& [from, to] : parts_.marks) {
      if (const auto part = within(from, to, paper)) {
        list.stroke_path(canvas::Path::segment(part->first, part->second), ink, 1.2);
      }
    }
    for (const Join& j : joins_) draw_join(list, labels, j, paper);
    TemplateSheet out;
    if (const auto at = room_for_squares(labels, paper)) {
      draw_test_squares(list, scene_.fonts, *at);
      out.squares = true;
      labels.keep_off(Rect::of(at->x, at->y, square_cm, square_cm).grown(3));
    }
    const Ring inner = ring_within(parts_.seam, clear(column, row));
    if (parts_.paper) number_patches(labels, n, inner);
    if (inner.size() > 2 && !parts_.paper) {
      std::vector<std::string> lines = parts_.labels;
      if (sheets() > 1) lines.push_back(sheet_words(n));
      LabelStyle style;
      style.largest = 15;
      for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto plate = labels.put_inside(inner, lines[i], style);
        if (i == 0) put_grain(list, labels, inner, parts_.thread, plate);
      }
    }
    labels.paint(list);
    std::string alt =
        scene_.words(parts_.paper ? "drawn paper" : "drawn template", {{"label", parts_.names}}) +
        scene_.words("drawn true size");
    if (sheets() > 1) alt += ", " + sheet_words(n);
    out.figure = finish(std::move(list), alt);
    return out;
  }

  // Small, every sheet with its number.
  Figure overview() const {
    const double scale = std::min({0.25, 200 / all_.width(), 130 / all_.height()});
    const Motion small = Motion::scale(scale);
    canvas::DisplayList list;
    Labels labels(scene_.fonts);
    const Ring cut = moved(parts_.cut, small);
    list.shape(outline(cut), canvas::Style::filled(offcut));
    list.stroke_path(outline(cut), ink, cut_width);
    for (std::size_t n = 0; n < places_.size(); ++n) {
      const Rect paper = small.apply(place(places_[n].first, places_[n].second));
      list.stroke_path(canvas::Path::rect(paper), ink, edge, {2.4, 1.8});
    }
    for (std::size_t n = 0; n < places_.size(); ++n) {
      const Rect paper = small.apply(place(places_[n].first, places_[n].second));
      const Ring part = ring_within(cut, paper);
      labels.put_at(part.size() > 2 ? centroid(part) : paper.center(), std::to_string(n + 1), 8);
    }
    labels.paint(list);
    return finish(std::move(list), scene_.words("drawn sheets", {{"n", std::to_string(sheets())},
                                                                 {"label", parts_.names}}));
  }

 private:
  // What of each patch no other sheet shows has its number and piece.
  void number_patches(Labels& labels, std::size_t n, const Ring& inner) const {
    const Rect own = clear(places_.at(n).first, places_.at(n).second);
    TemplateParts here;
    for (const NumberedPatch& p : parts_.patches) {
      const Ring part = ring_within(p.ring, own);
      if (part.size() > 2 && area(part) > 1) here.patches.push_back({part, p.number, p.label});
    }
    LabelStyle style;
    style.plate = false;
    for (const NumberedPatch& p : here.patches) {
      style.largest = 12;
      if (!labels.put_inside(p.ring, p.number + " · " + p.label, style))
        labels.put_inside(p.ring, p.number, style);
    }
    if (inner.size() > 2 && sheets() > 1) name_sheet(labels, n, here.patches);
  }

  // Within a patch, so that no seam crosses the words, or below the sheet.
  void name_sheet(Labels& labels, std::size_t n, std::vector<NumberedPatch> patches) const {
    std::stable_sort(
        patches.begin(), patches.end(),
        [](const NumberedPatch& a, const NumberedPatch& b) { return area(a.ring) > area(b.ring); });
    LabelStyle style;
    style.plate = false;
    const std::string words = parts_.names + ", " + sheet_words(n);
    for (const NumberedPatch& p : patches) {
      if (labels.put_inside(p.ring, words, style)) return;
    }
    const auto [column, row] = places_.at(n);
    labels.put_by(place(column, row), words, style);
  }

  std::string sheet_words(std::size_t n) const {
    return scene_.words("drawn sheet",
                        {{"n", std::to_string(n + 1)}, {"of", std::to_string(sheets())}});
  }
  static std::size_t count(double length, double room) {
    if (length <= room) return 1;
    const double most = std::max(room - overlap, overlap);
    return static_cast<std::size_t>(std::ceil((length - overlap) / most - 1e-9));
  }
  static double part(double length, std::size_t n) {
    return (length - overlap) / static_cast<double>(n) + overlap;
  }
  Rect place(std::size_t column, std::size_t row) const {
    return Rect::of(all_.left + static_cast<double>(column) * (wide_ - overlap),
                    all_.top + static_cast<double>(row) * (high_ - overlap), wide_, high_);
  }
  // Without the strips that other sheets show as well.
  Rect clear(std::size_t column, std::size_t row) const {
    Rect r = place(column, row);
    if (column > 0) r.left += overlap;
    if (column + 1 < across_) r.right -= overlap;
    if (row > 0) r.top += overlap;
    if (row + 1 < down_) r.bottom -= overlap;
    return r;
  }

  // Two marks along a strip, where the template lies on it.
  void join(const Rect& a, const Rect& b, bool upright) {
    const Rect strip{std::max(a.left, b.left), std::max(a.top, b.top), std::min(a.right, b.right),
                     std::min(a.bottom, b.bottom)};
    const Ring on = ring_within(parts_.cut, strip);
    if (on.size() < 3 || area(on) < 1) return;
    const Rect span = box(on);
    for (const double share : {0.2, 0.8}) {
      const Spot at = upright ? Spot{strip.center().x, span.top + span.height() * share}
                              : Spot{span.left + span.width() * share, strip.center().y};
      joins_.push_back({at, letter(joins_.size()), upright});
    }
  }
  static std::string letter(std::size_t n) {
    std::string out(1, static_cast<char>('a' + n % 26));
    return n < 26 ? out : letter(n / 26 - 1) + out;
  }

  void shade(canvas::DisplayList& list, std::size_t column, std::size_t row) const {
    const Rect p = place(column, row);
    if (column > 0)
      list.shape(canvas::Path::rect(p.left, p.top, overlap, p.height()),
                 canvas::Style::filled(offcut));
    if (row > 0)
      list.shape(canvas::Path::rect(p.left, p.top, p.width(), overlap),
                 canvas::Style::filled(offcut));
  }
  // Edges along which the paper is trimmed.
  void edges(canvas::DisplayList& list, std::size_t column, std::size_t row) const {
    const Rect p = place(column, row);
    if (column + 1 < across_) cut_line(list, {{p.right, p.top}, {p.right, p.bottom}});
    if (row + 1 < down_) cut_line(list, {{p.left, p.bottom}, {p.right, p.bottom}});
  }

  static void draw_join(canvas::DisplayList& list, Labels& labels, const Join& j,
                        const Rect& paper) {
    const Rect around = Rect::of(j.at.x - mark, j.at.y - mark, 2 * mark, 2 * mark);
    if (around.left < paper.left || around.right > paper.right || around.top < paper.top ||
        around.bottom > paper.bottom)
      return;
    const Spot x{mark, 0}, y{0, mark};
    canvas::Path path = canvas::Path::polygon({j.at - x, j.at - y, j.at + x, j.at + y});
    path.append(canvas::Path::segment(j.at - x, j.at + x));
    path.append(canvas::Path::segment(j.at - y, j.at + y));
    list.stroke_path(path, ink, edge);
    labels.keep_off(around);
    labels.put_by(around, j.letter, {}, !j.upright);
  }

  // Clear of every line and label; beside the template rather than on it.
  std::optional<Spot> room_for_squares(const Labels& labels, const Rect& paper) const {
    constexpr double step = 12, beside = 5;
    for (const bool on_it : {false, true}) {
      if (on_it && parts_.paper) continue;  // seams and numbers lie there
      for (double y = paper.top + beside; y + square_cm + beside < paper.bottom; y += step) {
        for (double x = paper.left + beside; x + square_cm + beside < paper.right; x += step) {
          const Rect r = Rect::of(x, y, square_cm, square_cm).grown(beside);
          const bool inside = depth(parts_.cut, r.center()) > 0;
          if (inside != on_it || !labels.is_free(r) || crossed(parts_.cut, r) ||
              crossed(parts_.seam, r) || on_strip(r))
            continue;
          return Spot{x, y};
        }
      }
    }
    return {};
  }
  static bool crossed(const Ring& ring, const Rect& r) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      if (meets(ring[i], ring[(i + 1) % ring.size()], r)) return true;
    }
    return false;
  }
  bool on_strip(const Rect& r) const {
    for (std::size_t i = 1; i < across_; ++i) {
      const double left = place(i, 0).left;
      if (r.left < left + overlap && r.right > left) return true;
    }
    for (std::size_t i = 1; i < down_; ++i) {
      const double top = place(0, i).top;
      if (r.top < top + overlap && r.bottom > top) return true;
    }
    return false;
  }

  const Scene& scene_;
  TemplateParts parts_;
  Rect all_;
  std::size_t across_ = 1, down_ = 1;
  double wide_ = 0, high_ = 0;
  std::vector<std::pair<std::size_t, std::size_t>> places_;  // column, row
  std::vector<Join> joins_;
};

}  // namespace
}  // namespace dogear::drawing

namespace dogear {

TemplateSheets template_sheets(const Scene& scene, std::size_t size, const TemplateUse& use,
                               FigureRoom room) {
  using namespace drawing;
  std::optional<Grid> best;
  for (const bool standing : {false, true}) {
    Grid grid(scene, template_parts(scene, size, use, true_size, standing),
              {room.width, room.height});
    if (!best || grid.sheets() < best->sheets()) best.emplace(std::move(grid));
  }
  TemplateSheets out;
  for (std::size_t n = 0; n < best->sheets(); ++n) out.sheets.push_back(best->sheet(n));
  out.overview = best->overview();
  return out;
}

}  // namespace dogear
