#include "drawing/labels.h"

#include <algorithm>
#include <array>

namespace dogear::drawing {
namespace {

constexpr double pad_x = 1.6, pad_y = 1.3;  // pt between words and the edge of their plate
constexpr double drop = 0.22;               // of the size: how far letters such as g hang down
constexpr double beside = 6;                // pt, so that words do not read on into others

bool hangs(const std::string& words) {
  return words.find_first_of("gjpqyQ,;()") != std::string::npos;
}

const std::array<Spot, 24>& directions() {
  static const std::array<Spot, 24> all = [] {
    std::array<Spot, 24> d;
    for (int i = 0; i < 24; ++i) {
      d[static_cast<std::size_t>(i)] =
          spot(dogear::Transform::turned(i).apply_direction({1, 0}), 1);
    }
    return d;
  }();
  return all;
}

// A plate of this size with its middle there.
Rect plate_at(Spot at, const Rect& size) {
  return Rect::of(at.x - size.width() / 2, at.y - size.height() / 2, size.width(), size.height());
}

Rect widened(const Rect& r, double x, double y) {
  return {r.left - x, r.top - y, r.right + x, r.bottom + y};
}

Rect clear_of_shapes(const Rect& plate) { return widened(plate, 3, 1); }

}  // namespace

Rect Labels::measure(const std::string& words, double size, const LabelStyle& style) const {
  const double w = fonts_.width(style.font, size, words);
  const double cap = fonts_.metrics(style.font).cap_height * size;
  const double h = cap + (hangs(words) ? drop * size : 0);
  return Rect::of(0, 0, w + 2 * pad_x, h + 2 * pad_y);
}

bool Labels::is_free(const Rect& r) const {
  for (const Rect& t : taken_) {
    if (meets(t, r)) return false;
  }
  for (const Leader& l : leaders_) {
    if (meets(l.from, l.to, r.grown(1))) return false;
  }
  return true;
}

Rect Labels::keep(const std::string& words, double size, const LabelStyle& style,
                  const Rect& plate) {
  words_.push_back({plate, fonts_.shape(style.font, size, words), style.plate});
  taken_.push_back(plate);
  return plate;
}

Rect Labels::put_at(Spot at, const std::string& words, double size, const LabelStyle& style) {
  const Rect m = measure(words, size, style);
  return keep(words, size, style, plate_at(at, m));
}

std::optional<Rect> Labels::put_inside(const Ring& ring, const std::string& words,
                                       const LabelStyle& style) {
  const Rect least = measure(words, style.smallest, style), around = box(ring);
  if (least.width() > around.width() || least.height() > around.height() ||
      least.width() * least.height() > area(ring))
    return {};
  // Most words fit at once, in the middle.
  const Rect first = plate_at(deepest(ring), measure(words, style.largest, style));
  if (holds(ring, first, style.clear) && is_free(first))
    return keep(words, style.largest, style, first);
  const std::vector<Spot> spots = depths(ring);
  for (double size = style.largest; size >= style.smallest; size -= 0.5) {
    const Rect m = measure(words, size, style);
    if (m.width() * m.height() > area(ring)) continue;
    const double half = std::min(m.width(), m.height()) / 2;
    for (std::size_t i = 0; i < spots.size(); ++i) {
      const Rect plate = plate_at(spots[i], m);
      if (!is_free(plate)) continue;
      // All but the first come in order of depth: once one is too near an edge, so is the rest.
      if (i > 0 && depth(ring, spots[i]) < half) break;
      if (!holds(ring, plate, style.clear)) continue;
      return keep(words, size, style, plate);
    }
  }
  return {};
}

Rect Labels::put_outside(Spot target, const std::string& words, const LabelStyle& style) {
  const double size = std::min(7.0, style.largest);
  const Rect m = measure(words, size, style);
  const auto holds_target = [&](const Rect& r) {
    return target.x > r.left && target.x < r.right && target.y > r.top && target.y < r.bottom;
  };
  const auto joins = [&](Spot a, Spot b) {
    return std::none_of(taken_.begin(), taken_.end(),
                        [&](const Rect& r) { return !holds_target(r) && meets(a, b, r); });
  };
  Spot best = target;
  for (double away = 10; away < 400; away += 3) {
    for (const Spot d : directions()) {
      const Spot at = target + d * away;
      const Rect plate = plate_at(at, m);
      if (!is_free(widened(plate, beside, 0.8))) continue;
      const bool outside = std::none_of(rings_.begin(), rings_.end(),
                                        [&](const Ring& r) { return meets(r, plate.grown(2)); });
      if (!outside || !joins(target, at)) continue;
      leaders_.push_back({target, at});
      return keep(words, size, style, plate);
    }
    best = target + Spot{0, away};
  }
  return keep(words, size, style, plate_at(best, m));
}

Rect Labels::put_by(const Rect& near, const std::string& words, const LabelStyle& style,
                    bool left_first) {
  const Rect m = measure(words, style.largest, style);
  const double dx = (near.width() + m.width()) / 2 + 2, dy = (near.height() + m.height()) / 2 + 2;
  const Spot c = near.center();
  const Spot below{c.x, c.y + dy}, above{c.x, c.y - dy}, right{c.x + dx, c.y}, left{c.x - dx, c.y};
  const std::array<Spot, 4> places = left_first ? std::array<Spot, 4>{left, right, below, above}
                                                : std::array<Spot, 4>{below, above, right, left};
  const auto free = [&](const Rect& plate) {
    return is_free(plate) && std::none_of(rings_.begin(), rings_.end(), [&](const Ring& r) {
             return meets(r, clear_of_shapes(plate));
           });
  };
  // A little further on the first side is better than another side.
  for (const double further : {0.0, 4.0, 8.0}) {
    const Rect plate = plate_at(places[0] + unit(places[0] - c) * further, m);
    if (free(plate)) return keep(words, style.largest, style, plate);
  }
  for (double further = 0; further < 60; further += 4) {
    for (const Spot place : places) {
      const Rect plate = plate_at(place + unit(place - c) * further, m);
      if (free(plate)) return keep(words, style.largest, style, plate);
    }
  }
  return keep(words, style.largest, style, plate_at(places[0], m));
}

std::optional<Rect> Labels::put_nearest(const std::vector<Ring>& rings, std::size_t own,
                                        const std::string& words, const LabelStyle& style) {
  constexpr double apart = 3;  // pt nearer to its own ring than to any other
  const Rect m = measure(words, style.largest, style);
  for (double away = 4; away < 40; away += 2) {
    for (const Spot corner : rings[own]) {
      for (const Spot d : directions()) {
        const Spot at = corner + Spot{d.x * (away + m.width() / 2), d.y * (away + m.height() / 2)};
        const Rect plate = plate_at(at, m);
        if (!is_free(plate)) continue;
        const double far = -depth(rings[own], at);
        bool clear = true;
        for (std::size_t i = 0; i < rings.size() && clear; ++i) {
          clear = !meets(rings[i], clear_of_shapes(plate)) &&
                  (i == own || -depth(rings[i], at) > far + apart);
        }
        if (clear) return keep(words, style.largest, style, plate);
      }
    }
  }
  return {};
}

void Labels::paint(canvas::DisplayList& list) const {
  for (const Leader& l : leaders_) {
    list.stroke_path(canvas::Path::segment(l.from, l.to), canvas::white, 1.8);
    list.stroke_path(canvas::Path::segment(l.from, l.to), ink, edge);
    list.fill_path(canvas::Path::circle(l.from, 1.2), ink);
  }
  for (const Word& w : words_) {
    if (w.has_plate) list.fill_path(canvas::Path::rounded_rect(w.plate, 1.6), canvas::white);
    const double cap = fonts_.metrics(w.text.font).cap_height * w.text.size;
    list.text(w.plate.left + pad_x, w.plate.top + pad_y + cap, w.text, canvas::black);
  }
}

double write(canvas::DisplayList& list, const canvas::FontSet& fonts, double x, double y,
             double size, const std::string& words, canvas::FontId font) {
  const canvas::ShapedText text = fonts.shape(font, size, words);
  list.text(x, y, text, canvas::black);
  return text.width;
}

}  // namespace dogear::drawing
