#include "drawing/marks.h"

#include <algorithm>
#include <cmath>

namespace dogear::drawing {
namespace {

using canvas::Path;

Spot across(Spot d) { return {-d.y, d.x}; }

// Dark on a white border, so that a hatch beneath does not swallow it.
void haloed(canvas::DisplayList& list, const Path& path, double width) {
  canvas::Style halo = canvas::Style::stroked(canvas::white, width + 1.6);
  halo.round_caps = halo.round_joins = true;
  list.shape(path, halo);
  canvas::Style line = canvas::Style::stroked(ink, width);
  line.round_caps = line.round_joins = true;
  list.shape(path, line);
}

Path head(Spot tip, Spot towards, double size, double half) {
  const Spot back = tip - towards * size;
  return Path::polygon({tip, back + across(towards) * half, back - across(towards) * half});
}

// Filled shapes and a stem, all on one white border.
void solid(canvas::DisplayList& list, const std::vector<Path>& heads, const Path& stem) {
  for (const bool halo : {true, false}) {
    if (!stem.empty()) {
      canvas::Style line = canvas::Style::stroked(halo ? canvas::white : ink, halo ? 2.5 : 0.9);
      list.shape(stem, line);
    }
    for (const Path& h : heads) {
      canvas::Style style = canvas::Style::filled(halo ? canvas::white : ink);
      if (halo) style.stroke = canvas::white, style.width = 1.6;
      style.round_joins = true;
      list.shape(h, style);
    }
  }
}

// The right edge, from the top down.
Ring torn_edge(const Rect& strip) {
  constexpr double depth = 2.2, tooth = 4.5;  // pt
  const int teeth = std::max(1, static_cast<int>(std::lround(strip.height() / tooth)));
  const double half = strip.height() / (2 * teeth);
  Ring out;
  for (int i = 0; i <= 2 * teeth; ++i)
    out.push_back({i % 2 == 0 ? strip.right : strip.right - depth, strip.top + half * i});
  return out;
}

}  // namespace

Ring torn_strip(const Rect& strip) {
  Ring out{{strip.left, strip.bottom}, {strip.left, strip.top}};
  const Ring teeth = torn_edge(strip);
  out.insert(out.end(), teeth.begin(), teeth.end());
  return out;
}

void torn_line(canvas::DisplayList& list, const Rect& strip) {
  list.stroke_path(Path::polyline(torn_edge(strip)), ink, torn);
}

void grain_line(canvas::DisplayList& list, Spot from, Spot to) {
  const Spot d = unit(to - from);
  const Spot back = d * 3.0, side = across(d) * 1.7;
  Path path = Path::segment(from, to);
  path.append(Path::polyline({from + back + side, from, from + back - side}));
  path.append(Path::polyline({to - back + side, to, to - back - side}));
  haloed(list, path, 0.7);
}

void print_line(canvas::DisplayList& list, Spot from, Spot to) {
  const Spot d = unit(to - from);
  const double size = std::min(5.0, length(to - from) * 0.62);
  Path stem = Path::segment(from, to - d * (size * 0.8));
  const Spot foot = across(d) * (size * 0.52);
  stem.append(Path::segment(from - foot, from + foot));
  solid(list, {head(to, d, size, size * 0.52)}, stem);
}

void bias_wave(canvas::DisplayList& list, Spot middle, Spot along, double span) {
  const Spot d = unit(along), n = across(d);
  const int waves = span > 11.5 ? 3 : 2;
  const double step = span / (2 * waves);
  const double rise = 1.9;
  Spot at = middle - d * (span / 2);
  Path path;
  path.move(at.x, at.y);
  for (int i = 0; i < 2 * waves; ++i) {
    const Spot up = n * (i % 2 == 0 ? rise : -rise);
    path.cubic(at + d * (step * 0.36) + up, at + d * (step * 0.64) + up, at + d * step);
    at = at + d * step;
  }
  canvas::Style style = canvas::Style::stroked(ink, 0.7);
  style.round_caps = style.round_joins = true;
  list.shape(path, style);
}

void press_arrow(canvas::DisplayList& list, Spot at, Spot towards, double size) {
  const Spot d = unit(towards);
  solid(list, {head(at + d * (size * 0.58), d, size * 0.58, size * 0.23)},
        Path::segment(at - d * (size * 0.5), at + d * (size * 0.1)));
}

void press_open(canvas::DisplayList& list, Spot at, Spot side, double size) {
  const Spot d = unit(side);
  solid(list,
        {head(at + d * (size * 0.6), d, size * 0.46, size * 0.23),
         head(at - d * (size * 0.6), d * -1, size * 0.46, size * 0.23)},
        {});
}

void seam_stop(canvas::DisplayList& list, Spot at) {
  constexpr int sides = 24;
  Ring ring;
  for (int k = 0; k < sides; ++k) {
    const dogear::Point d = Transform::turned(k).apply_direction({Exact(1), Exact(0)});
    ring.push_back(at + Spot{d.x.approx(), d.y.approx()} * 3.2);
  }
  for (const bool halo : {true, false}) {
    canvas::Style style = canvas::Style::stroked(halo ? canvas::white : ink, halo ? 2.6 : 1.1);
    list.shape(outline(ring), style);
  }
}

void becomes(canvas::DisplayList& list, Spot middle, double width, bool down) {
  const Spot d = down ? Spot{0, 1} : Spot{1, 0};
  const Spot n = across(d);
  const Spot tail = middle - d * (width / 2), tip = middle + d * (width / 2);
  const double neck = width - 7;
  canvas::Style style = canvas::Style::filled(canvas::white);
  style.stroke = ink;
  style.width = 0.8;
  style.round_joins = true;
  list.shape(
      Path::polygon({tail + n * 2.2, tail + d * neck + n * 2.2, tail + d * neck + n * 5.2, tip,
                     tail + d * neck - n * 5.2, tail + d * neck - n * 2.2, tail - n * 2.2}),
      style);
}

void measure_line(canvas::DisplayList& list, Spot from, Spot to) {
  const Spot tick = across(unit(to - from)) * 2.4;
  Path path = Path::segment(from, to);
  path.append(Path::segment(from - tick, from + tick));
  path.append(Path::segment(to - tick, to + tick));
  list.stroke_path(path, ink, edge);
}

void seam_line(canvas::DisplayList& list, Spot from, Spot to) {
  list.stroke_path(Path::segment(from, to), ink, heavy);
}

void drawn_line(canvas::DisplayList& list, Spot from, Spot to) {
  list.stroke_path(Path::segment(from, to), ink, edge);
}

void stitches(canvas::DisplayList& list, Spot from, Spot to) {
  canvas::Style halo = canvas::Style::stroked(canvas::white, 2.2);
  halo.round_caps = true;
  list.shape(Path::segment(from, to), halo);
  canvas::Style dots = canvas::Style::stroked(ink, 1.4, {0.01, 2.8});
  dots.round_caps = true;
  list.shape(Path::segment(from, to), dots);
}

void cut_line(canvas::DisplayList& list, const Ring& ring) {
  list.stroke_path(ring.size() > 2 ? outline(ring) : Path::polyline(ring), ink, 0.7, {2.4, 1.4});
}

void cut_line_on_cloth(canvas::DisplayList& list, Spot from, Spot to, double halo) {
  list.stroke_path(Path::segment(from, to), canvas::white, halo);
  cut_line(list, {from, to});
}

bool put_grain(canvas::DisplayList& list, Labels& labels, const Ring& patch, Spot thread,
               const std::optional<Rect>& label, LineMark mark, double shortest) {
  const Spot d = unit(thread);
  constexpr double inset = 1.8, least_tail = 4.2, longest = 30;
  if (label) {
    const Spot c = label->center();
    // Half of what the plate covers of a line through its middle.
    const double hidden =
        std::min(std::abs(d.x) > 1e-9 ? label->width() / 2 / std::abs(d.x) : 1e9,
                 std::abs(d.y) > 1e-9 ? label->height() / 2 / std::abs(d.y) : 1e9);
    const auto room = reach(patch, c, d);
    if (room[0] - inset > hidden + least_tail && room[1] - inset > hidden + least_tail) {
      const double most = hidden + 9;
      const Spot a = c - d * std::min(room[1] - inset, most);
      const Spot b = c + d * std::min(room[0] - inset, most);
      mark(list, a, b);
      Rect taken;
      taken.add(a);
      taken.add(b);
      labels.keep_off(taken.grown(2));
      return true;
    }
  }
  for (const Spot at : depths(patch)) {
    const auto room = reach(patch, at, d);
    const double half = std::min({room[0], room[1], longest / 2 + inset}) - inset;
    if (half < shortest / 2) continue;
    const Spot a = at - d * half, b = at + d * half;
    Rect taken;
    taken.add(a);
    taken.add(b);
    taken = taken.grown(2);
    const Spot n = across(d) * 2.4;
    const bool inside = depth(patch, a + n) > 0.6 && depth(patch, a - n) > 0.6 &&
                        depth(patch, b + n) > 0.6 && depth(patch, b - n) > 0.6;
    if (!inside || (label && meets(a, b, label->grown(2.6)))) continue;
    mark(list, a, b);
    labels.keep_off(taken);
    return true;
  }
  return false;
}

}  // namespace dogear::drawing
