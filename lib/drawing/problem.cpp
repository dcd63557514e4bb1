#include "drawing/problem.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "drawing/labels.h"
#include "drawing/marks.h"
#include "drawing/sketch.h"

namespace dogear {
namespace {

using namespace drawing;
using canvas::Path;
using Kind = PictureRegion::Kind;

constexpr double margin = 34;           // pt around the drawing, for measures and words outside
constexpr double headline = 20;         // pt above it
constexpr double key_line = 15;         // pt below it, for each line of the key
constexpr double words_size = 8;        // pt
constexpr std::size_t most_named = 60;  // parts; of more, none is named

// Each kind has a hatch, a colour and a word of its own, so that none needs the others.
struct Look {
  const char* word;
  const char* meaning;
  int hatch;
  canvas::Color pale, strong;
};

const Look& look(Kind kind) {
  static const Look gap{"gap", "gap: no part lies here", 0, {0.99, 0.90, 0.87}, {0.72, 0.13, 0.08}};
  static const Look overlap{
      "overlap", "overlap: two parts lie here", 3, {0.87, 0.92, 0.99}, {0.06, 0.27, 0.62}};
  static const Look overhang{
      "beyond", "beyond: a part reaches past the shape", 7, {0.98, 0.94, 0.80}, {0.52, 0.36, 0.0}};
  return kind == Kind::gap ? gap : kind == Kind::overlap ? overlap : overhang;
}

std::string inches(double v) {
  const Fraction f = Fraction::of(std::llround(v * 16), 16);
  return (std::abs(f.approx() - v) < 1e-6 ? "" : "about ") + plain_inches(f);
}

class ProblemFigure {
 public:
  ProblemFigure(const ProblemPicture& picture, const canvas::FontSet& fonts, double max_width,
                double max_height)
      : picture_(picture), fonts_(fonts), labels_(fonts) {
    for (const PicturePart& p : picture.parts) add(p.outline);
    add(picture.promised);
    for (const PictureRegion& r : picture.regions) {
      for (const PictureRing& ring : r.rings) add(ring);
    }
    for (const PictureMark& m : picture.marks) add({m.at});
    sound_ = sound_ && !extent_.empty();
    if (!sound_) extent_ = Rect::of(0, 0, 0, 0);
    const double keys = key_line * static_cast<double>(key().size()) + 6;
    const double room_x = max_width - 2 * margin;
    const double room_y = max_height - 2 * margin - headline - keys;
    const double wide = std::max(extent_.width(), 1e-3);
    const double high = std::max(extent_.height(), 1e-3);
    scale_ = std::min({room_x / wide, room_y / high, 72.0});
    width_ = max_width;
    left_ = (width_ - extent_.width() * scale_) / 2;
    top_ = headline + margin;
    below_ = top_ + extent_.height() * scale_ + margin;
    height_ = below_ + keys;
  }

  Figure draw() {
    Figure out;
    out.width = width_;
    out.height = height_;
    out.alt = alt();
    if (sound_) {
      keep_on_the_page();
      parts();
      regions();
      lines();
      promised();
      marks();
      measures();
      words();
      labels_.paint(list_);
      title();
      write_key();
    }
    out.list = share(std::move(list_));
    return out;
  }

 private:
  void add(const PictureRing& ring) {
    constexpr double farthest = 1e6;  // in
    for (const PicturePoint& p : ring) {
      if (std::abs(p.x) <= farthest && std::abs(p.y) <= farthest) {
        extent_.add(Spot{p.x, p.y});
      } else {
        sound_ = false;  // so does what is no number
      }
    }
  }
  Spot at(const PicturePoint& p) const {
    return {left_ + (p.x - extent_.left) * scale_, top_ + (p.y - extent_.top) * scale_};
  }
  Ring placed(const PictureRing& ring) const {
    Ring out;
    for (const PicturePoint& p : ring) out.push_back(at(p));
    return out;
  }

  void keep_on_the_page() {
    constexpr double far = 1e5;
    labels_.keep_off(Rect{-far, -far, 0, far});
    labels_.keep_off(Rect{width_, -far, far, far});
    labels_.keep_off(Rect{-far, -far, far, headline});
    labels_.keep_off(Rect{-far, below_, far, far});
  }

  void parts() {
    for (const PicturePart& p : picture_.parts) {
      if (p.outline.size() < 3) continue;
      canvas::Style style = canvas::Style::filled({0.97, 0.97, 0.96});
      style.stroke = ink;
      style.width = edge;
      style.round_joins = true;
      const Ring ring = placed(p.outline);
      list_.shape(outline(ring), style);
      if (picture_.parts.size() <= most_named) labels_.keep_off(ring);
    }
    if (picture_.parts.size() > most_named) {
      const Rect all =
          Rect{left_, top_, left_ + extent_.width() * scale_, top_ + extent_.height() * scale_};
      labels_.keep_off(Ring{{all.left, all.top},
                            {all.right, all.top},
                            {all.right, all.bottom},
                            {all.left, all.bottom}});
    }
  }

  void regions() {
    for (const PictureRegion& r : picture_.regions) {
      const Look& l = look(r.kind);
      Path path;
      for (const PictureRing& ring : r.rings) path.append(outline(placed(ring)));
      list_.shape(std::move(path), region_style(l, 1.2));
    }
  }

  static canvas::Style region_style(const Look& l, double line) {
    canvas::Style style = canvas::Style::filled(l.pale);
    style.hatch = canvas::Hatch{l.hatch, l.strong, 5, 0.7};
    style.stroke = l.strong;
    style.width = line;
    style.round_joins = true;
    style.even_odd = true;
    return style;
  }

  void promised() {
    if (picture_.promised.size() < 3) return;
    const Ring ring = placed(picture_.promised);
    list_.stroke_path(outline(ring), canvas::white, heavy + 1.4);
    list_.stroke_path(outline(ring), ink, heavy, {5, 2.6});
    labels_.keep_off(ring);
  }

  void lines() {
    for (const PictureLine& l : picture_.lines) {
      for (std::size_t i = 1; i < l.points.size(); ++i) {
        seam_line(list_, at(l.points[i - 1]), at(l.points[i]));
      }
    }
  }

  void marks() {
    for (const PictureMark& m : picture_.marks) {
      const Spot c = at(m.at);
      list_.fill_path(Path::circle(c, 5.2), canvas::white);
      list_.stroke_path(Path::circle(c, 5.2), look(Kind::gap).strong, 1.4);
      list_.fill_path(Path::circle(c, 1.7), look(Kind::gap).strong);
    }
  }

  static Rect box_of(const std::vector<PictureRing>& rings) {
    Rect box;
    for (const PictureRing& ring : rings) {
      for (const PicturePoint& p : ring) box.add(Spot{p.x, p.y});
    }
    return box;
  }

  // What the parts should fill; without a promise, what they do fill.
  Rect frame() const {
    if (!picture_.promised.empty()) return box_of({picture_.promised});
    return parts_box();
  }
  Rect parts_box() const {
    Rect box;
    for (const PicturePart& part : picture_.parts) box.add(box_of({part.outline}));
    return box;
  }

  void measures() {
    if (picture_.regions.size() == 1) return measure_place(box_of(picture_.regions[0].rings));
    if (!picture_.regions.empty()) return;
    if (picture_.marks.size() == 1) {
      const PicturePoint& p = picture_.marks[0].at;
      return measure_place({p.x, p.y, p.x, p.y});
    }
    if (!picture_.marks.empty()) return;
    if (!picture_.promised.empty()) return measure_two(frame(), parts_box());
    if (picture_.parts.size() != 2) return;
    measure_two(box_of({picture_.parts[0].outline}), box_of({picture_.parts[1].outline}));
  }

  // From the left and the top of the whole to what is marked, and how far that reaches.
  void measure_place(const Rect& what) {
    const Rect whole = frame();
    if (whole.empty() || what.empty()) return;
    across(std::min(whole.left, what.left), what.left, true);
    across(what.left, what.right, true);
    down(std::min(whole.top, what.top), what.top, true);
    down(what.top, what.bottom, true);
  }

  // Two things of different sizes: the first above and at the left, the second below and right.
  void measure_two(const Rect& first, const Rect& second) {
    if (first.empty() || second.empty()) return;
    across(first.left, first.right, true);
    down(first.top, first.bottom, true);
    across(second.left, second.right, false);
    down(second.top, second.bottom, false);
  }

  void across(double from, double to, bool above) {
    if (to - from < 1e-6) return;
    const double y = above ? top_ - 12 : below_ - margin + 12;
    const Spot a{at({from, 0}).x, y};
    const Spot b{at({to, 0}).x, y};
    measure_line(list_, a, b);
    labels_.keep_off(Rect{a.x, y - 2, b.x, y + 2});
    say({(a.x + b.x) / 2, y + (above ? -8.0 : 8.0)}, inches(to - from), {0, above ? -1.0 : 1.0});
  }

  void down(double from, double to, bool left) {
    if (to - from < 1e-6) return;
    const double x = left ? left_ - 12 : left_ + extent_.width() * scale_ + 12;
    const Spot a{x, at({0, from}).y};
    const Spot b{x, at({0, to}).y};
    measure_line(list_, a, b);
    labels_.keep_off(Rect{x - 2, a.y, x + 2, b.y});
    say({x + (left ? -4.0 : 4.0), (a.y + b.y) / 2}, inches(to - from), {left ? -1.0 : 1.0, 0});
  }

  // A measure beside its line, on the side of `away`; where it would meet other words it moves on.
  void say(Spot where, const std::string& measure, Spot away) {
    LabelStyle style;
    style.font = canvas::FontId::sans;
    const Rect m = labels_.measure(measure, 7, style);
    for (int step = 0; step < 12; ++step) {
      Spot c = where;
      if (away.x != 0) {
        c.x += away.x * m.width() / 2;
        c.y += (step % 2 == 0 ? 1 : -1) * ((step + 1) / 2) * (m.height() + 1);
      } else {
        c.y += away.y * step * (m.height() + 1);
      }
      c.x = std::clamp(c.x, m.width() / 2 + 1, width_ - m.width() / 2 - 1);
      const Rect plate = Rect::of(c.x - m.width() / 2, c.y - m.height() / 2, m.width(), m.height());
      if (!labels_.is_free(plate) && step < 11) continue;
      labels_.put_at(c, measure, 7, style);
      return;
    }
  }

  void words() {
    for (const PictureRegion& r : picture_.regions) {
      if (r.rings.empty()) continue;
      const Ring ring = placed(r.rings[0]);
      if (!labels_.put_inside(ring, look(r.kind).word)) {
        labels_.put_outside(deepest(ring), look(r.kind).word);
      }
    }
    for (const PictureMark& m : picture_.marks) {
      const Spot c = at(m.at);
      if (!m.words.empty()) labels_.put_outside(c, m.words);
      labels_.keep_off(Rect::of(c.x - 6, c.y - 6, 12, 12));
    }
    if (picture_.parts.size() > most_named) return;
    LabelStyle style;
    style.font = canvas::FontId::sans;
    style.largest = words_size;
    for (const PicturePart& p : picture_.parts) {
      if (!p.name.empty() && p.outline.size() > 2) {
        labels_.put_inside(placed(p.outline), p.name, style);
      }
    }
  }

  void title() {
    std::string what = picture_.what;
    if (!what.empty() && what[0] >= 'a' && what[0] <= 'z')
      what[0] = static_cast<char>(what[0] - 32);
    double size = 10;
    while (size > 6 && fonts_.width(canvas::FontId::sans_bold, size, what) > width_) size -= 0.5;
    write(list_, fonts_, 0, 12, size, what, canvas::FontId::sans_bold);
  }

  struct KeyLine {
    std::string words;
    std::optional<Kind> region;
    enum class Sign { region, promised, seam, mark } sign = Sign::region;
  };
  std::vector<KeyLine> key() const {
    std::vector<KeyLine> all;
    for (const Kind kind : {Kind::gap, Kind::overlap, Kind::overhang}) {
      if (std::any_of(picture_.regions.begin(), picture_.regions.end(),
                      [&](const PictureRegion& r) { return r.kind == kind; })) {
        all.push_back({look(kind).meaning, kind, KeyLine::Sign::region});
      }
    }
    if (picture_.promised.size() > 2) {
      all.push_back({"the shape that the parts must fill", {}, KeyLine::Sign::promised});
    }
    if (!picture_.lines.empty()) {
      all.push_back({"seams that end in the marked corner", {}, KeyLine::Sign::seam});
    }
    if (!picture_.marks.empty()) {
      all.push_back({"where a seam would have to turn or stop", {}, KeyLine::Sign::mark});
    }
    return all;
  }

  void write_key() {
    double y = below_;
    for (const KeyLine& k : key()) {
      const Rect swatch = Rect::of(0.6, y, 22, 10);
      const Spot from{swatch.left, swatch.center().y};
      const Spot to{swatch.right, swatch.center().y};
      if (k.region) {
        list_.shape(Path::rect(swatch), region_style(look(*k.region), 0.9));
      } else if (k.sign == KeyLine::Sign::promised) {
        list_.stroke_path(Path::segment(from, to), ink, heavy, {5, 2.6});
      } else if (k.sign == KeyLine::Sign::seam) {
        seam_line(list_, from, to);
      } else {
        list_.stroke_path(Path::circle(swatch.center(), 4.2), look(Kind::gap).strong, 1.4);
        list_.fill_path(Path::circle(swatch.center(), 1.5), look(Kind::gap).strong);
      }
      write(list_, fonts_, swatch.right + 7, y + 8, words_size, k.words);
      y += key_line;
    }
  }

  std::string alt() const {
    std::string out = picture_.what + '.';
    for (const PictureRegion& r : picture_.regions) {
      Rect box;
      for (const PictureRing& ring : r.rings) {
        for (const PicturePoint& p : ring) box.add(Spot{p.x, p.y});
      }
      out += std::string(" Marked: ") + look(r.kind).word + ", " + inches(box.width()) + " by " +
             inches(box.height()) + '.';
    }
    for (const PictureMark& m : picture_.marks) out += " Marked: " + m.words + '.';
    return out;
  }

  const ProblemPicture& picture_;
  const canvas::FontSet& fonts_;
  Labels labels_;
  canvas::DisplayList list_;
  Rect extent_;
  bool sound_ = true;
  double scale_ = 1, width_ = 0, height_ = 0, left_ = 0, top_ = 0, below_ = 0;
};

}  // namespace

Figure draw_problem(const ProblemPicture& picture, const canvas::FontSet& fonts, double max_width,
                    double max_height) {
  return ProblemFigure(picture, fonts, max_width, max_height).draw();
}

}  // namespace dogear
