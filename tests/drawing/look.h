#pragma once
// What a display list paints, with every nested list unfolded.

#include <cmath>
#include <set>

#include "canvas/display.h"

namespace look {

using namespace dogear;

struct Drawn {
  std::vector<canvas::Shape> shapes;   // in place; widths in points on the page
  std::vector<canvas::GlyphRun> runs;  // upright runs in place
  std::set<const canvas::DisplayList*> lists;
  std::size_t stored_shapes = 0;  // each list counted once
};

inline void unfold(const canvas::DisplayList& list, const canvas::Transform& t, Drawn& out) {
  const bool fresh = out.lists.insert(&list).second;
  const double scale = std::sqrt(std::abs(t.a * t.d - t.b * t.c));
  for (const canvas::Item& item : list.items()) {
    if (const auto* shape = std::get_if<canvas::Shape>(&item)) {
      canvas::Shape there{shape->path.transformed(t), shape->style};
      there.style.width *= scale;
      out.shapes.push_back(there);
      if (fresh) ++out.stored_shapes;
    } else if (const auto* run = std::get_if<canvas::GlyphRun>(&item)) {
      canvas::GlyphRun there = *run;
      const canvas::Point p = t.apply(canvas::Point{run->x, run->y});
      there.x = p.x, there.y = p.y;
      there.size *= scale;
      there.width *= scale;
      out.runs.push_back(there);
    } else if (const auto* form = std::get_if<canvas::Form>(&item)) {
      unfold(*form->list, form->transform.then(t), out);
    } else if (const auto* group = std::get_if<canvas::Group>(&item)) {
      unfold(*group->list, group->transform.then(t), out);
    }
  }
}

inline Drawn at(const canvas::DisplayList& list) {
  Drawn out;
  unfold(list, {}, out);
  return out;
}

// The box of the capitals and figures, with what hangs below the line.
inline canvas::Rect words_box(const canvas::GlyphRun& run) {
  const bool hangs = run.text().find_first_of("gjpqyQ,;()") != std::string::npos;
  return {run.x, run.y - 0.72 * run.size, run.x + run.width, run.y + (hangs ? 0.2 * run.size : 0)};
}

inline bool meet(const canvas::Rect& a, const canvas::Rect& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

}  // namespace look
