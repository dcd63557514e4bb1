#pragma once
// What stands in the way of reading a figure: a list of plain words, empty for a sound one.

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "canvas/display.h"

namespace dogear::test {

struct Painted {
  std::optional<canvas::Shape> shape;   // in place, widths in points on the page
  std::optional<canvas::GlyphRun> run;  // in place
};

// Everything in the order of painting.
inline void unfold(const canvas::DisplayList& list, const canvas::Transform& t,
                   std::vector<Painted>& out) {
  const double scale = std::sqrt(std::abs(t.a * t.d - t.b * t.c));
  for (const canvas::Item& item : list.items()) {
    if (const auto* shape = std::get_if<canvas::Shape>(&item)) {
      canvas::Shape there{shape->path.transformed(t), shape->style};
      there.style.width *= scale;
      if (there.style.hatch) there.style.hatch->line *= scale;
      out.push_back({there, {}});
    } else if (const auto* run = std::get_if<canvas::GlyphRun>(&item)) {
      canvas::GlyphRun there = *run;
      const canvas::Point p = t.apply(canvas::Point{run->x, run->y});
      there.x = p.x, there.y = p.y;
      there.size *= scale, there.width *= scale, there.ascent *= scale, there.descent *= scale;
      out.push_back({{}, there});
    } else if (const auto* form = std::get_if<canvas::Form>(&item)) {
      unfold(*form->list, form->transform.then(t), out);
    } else if (const auto* group = std::get_if<canvas::Group>(&item)) {
      unfold(*group->list, group->transform.then(t), out);
    }
  }
}

// The box of the capitals and figures, with what hangs below the line.
inline canvas::Rect letters_of(const canvas::GlyphRun& run) {
  const bool hangs = run.text().find_first_of("gjpqyQ,;()") != std::string::npos;
  const canvas::Rect level{0, -0.66 * run.size, run.width, hangs ? 0.2 * run.size : 0};
  return canvas::Transform::turn(run.turn).then(canvas::Transform::move(run.x, run.y)).apply(level);
}

using Edge = std::pair<canvas::Point, canvas::Point>;

// The straight lines of a path, curves as eight each.
inline std::vector<Edge> edges_of(const canvas::Path& path) {
  std::vector<Edge> out;
  canvas::Point at, start;
  std::size_t next = 0;
  for (const canvas::Path::Op op : path.ops()) {
    const auto point = [&] { return path.points().at(next++); };
    switch (op) {
      case canvas::Path::Op::move:
        at = start = point();
        break;
      case canvas::Path::Op::line: {
        const canvas::Point to = point();
        out.emplace_back(at, to);
        at = to;
        break;
      }
      case canvas::Path::Op::cubic: {
        const canvas::Point a = at, b = point(), c = point(), d = point();
        for (int i = 1; i <= 8; ++i) {
          const double s = i / 8.0, r = 1 - s;
          const canvas::Point to{
              r * r * r * a.x + 3 * r * r * s * b.x + 3 * r * s * s * c.x + s * s * s * d.x,
              r * r * r * a.y + 3 * r * r * s * b.y + 3 * r * s * s * c.y + s * s * s * d.y};
          out.emplace_back(at, to);
          at = to;
        }
        break;
      }
      case canvas::Path::Op::close:
        out.emplace_back(at, start);
        at = start;
        break;
    }
  }
  return out;
}

inline bool crosses(const Edge& e, const canvas::Rect& r) {
  double from = 0, to = 1;
  const auto clip = [&](double start, double by, double least, double most) {
    if (by == 0) return start > least && start < most;
    const double a = (least - start) / by, b = (most - start) / by;
    from = std::max(from, std::min(a, b));
    to = std::min(to, std::max(a, b));
    return from < to;
  };
  return clip(e.first.x, e.second.x - e.first.x, r.left, r.right) &&
         clip(e.first.y, e.second.y - e.first.y, r.top, r.bottom);
}

inline bool lies_in(const canvas::Path& path, canvas::Point p) {
  bool inside = false;
  for (const auto& [a, b] : edges_of(path)) {
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) * (b.x - a.x) / (b.y - a.y))
      inside = !inside;
  }
  return inside;
}

inline bool covers(const canvas::Path& path, const canvas::Rect& r) {
  const canvas::Rect all = path.bounds();
  if (all.left > r.left || all.right < r.right || all.top > r.top || all.bottom < r.bottom)
    return false;
  if (!lies_in(path, r.center())) return false;
  for (const Edge& e : edges_of(path)) {
    if (crosses(e, r)) return false;
  }
  return true;
}

inline bool overlap(const canvas::Rect& a, const canvas::Rect& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

inline double off(canvas::Point p, const Edge& e) {
  const double x = e.second.x - e.first.x, y = e.second.y - e.first.y;
  const double l = x * x + y * y;
  const double t =
      l > 0 ? std::clamp(((p.x - e.first.x) * x + (p.y - e.first.y) * y) / l, 0.0, 1.0) : 0;
  return std::hypot(p.x - e.first.x - t * x, p.y - e.first.y - t * y);
}

struct Reading {
  double least_line = 0.4, least_words = 6;  // pt
  double least_contrast = 4.5;               // of WCAG 2.1, 1.4.3
  // Lines thinner than this may lie under a plate: seams within a block that has its name on it.
  double own_seams = 0;
};

// The size of a figure's picture is `scale`; 1 where it is printed as drawn.
inline std::vector<std::string> faults(const canvas::DisplayList& figure, const Reading& how = {}) {
  constexpr double slack = 1e-6;
  constexpr double touch = 0.25;  // pt that letters, plates and lines may come closer than drawn
  std::vector<Painted> all;
  unfold(figure, {}, all);
  std::vector<std::string> out;
  struct Label {
    canvas::Rect letters, plate;  // the plate is the letters' box where there is none
    std::string words;
    std::size_t at = 0;    // in `all`
    std::size_t from = 0;  // what was painted before is covered
    bool plated = false;
  };
  std::vector<Label> labels;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (const auto& shape = all[i].shape) {
      const canvas::Style& s = shape->style;
      if (s.stroke && s.width < how.least_line - slack)
        out.push_back("a line of " + std::to_string(s.width) + " pt");
      if (s.hatch && s.hatch->line < how.least_line - slack)
        out.push_back("a hatch of " + std::to_string(s.hatch->line) + " pt");
      continue;
    }
    const canvas::GlyphRun& run = *all[i].run;
    Label label;
    label.words = run.text();
    if (label.words.find_first_not_of(' ') == std::string::npos) continue;
    if (run.size < how.least_words - slack)
      out.push_back("`" + label.words + "` in " + std::to_string(run.size) + " pt");
    label.letters = label.plate = letters_of(run);
    label.at = i;
    canvas::Color behind = canvas::white;
    bool hatched = false;
    for (std::size_t j = i; j-- > 0;) {
      if (!all[j].shape || !all[j].shape->style.fill) continue;
      if (!covers(all[j].shape->path, label.letters.grown(-touch))) continue;
      const canvas::Style& s = all[j].shape->style;
      behind = *s.fill;
      hatched = s.hatch.has_value();
      label.from = j;
      const canvas::Rect b = all[j].shape->path.bounds();
      label.plated = behind == canvas::white && b.height() < label.letters.height() + 6 &&
                     b.width() < label.letters.width() + 8;
      if (label.plated) label.plate = b;
      break;
    }
    if (hatched) out.push_back("`" + label.words + "` on a hatch");
    if (contrast(run.color, behind) < how.least_contrast)
      out.push_back("`" + label.words + "` has a contrast of " +
                    std::to_string(contrast(run.color, behind)));
    labels.push_back(label);
  }
  for (std::size_t i = 0; i < labels.size(); ++i) {
    for (std::size_t j = 0; j < labels.size(); ++j) {
      if (i == j || !overlap(labels[i].plate.grown(-touch), labels[j].letters.grown(-touch)))
        continue;
      out.push_back("`" + labels[i].words + "` lies on `" + labels[j].words + "`");
    }
  }
  for (const Label& label : labels) {
    const canvas::Rect letters = label.letters.grown(-touch), plate = label.plate.grown(-touch);
    const canvas::Point middle = label.plate.center();
    for (std::size_t j = 0; j < all.size(); ++j) {
      if (!all[j].shape || j == label.from) continue;
      const canvas::Shape& shape = *all[j].shape;
      const bool above = j > label.from || !label.plated;  // of the plate
      if (shape.style.fill && j > label.at && overlap(shape.path.bounds(), letters) &&
          (covers(shape.path, letters) || lies_in(shape.path, letters.center())))
        out.push_back("`" + label.words + "` is painted over");
      if (!shape.style.stroke && j <= label.at) continue;
      if (shape.style.stroke == canvas::white && j < label.at) continue;  // halos
      if (!overlap(shape.path.bounds().grown(0.01), plate)) continue;
      if (!above && shape.style.width < how.own_seams) continue;
      for (const Edge& e : edges_of(shape.path)) {
        if (!crosses(e, above && j > label.from ? letters : plate)) continue;
        if (!label.plated && j < label.from) continue;
        // A plate may sit on its own line: a measure, a grain line, its leader.
        if (!above && off(middle, e) < 0.8) continue;
        out.push_back("`" + label.words + "` meets a line of " + std::to_string(shape.style.width) +
                      " pt");
        break;
      }
    }
  }
  return out;
}

}  // namespace dogear::test
