#include "cutting/finish.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace dogear {

namespace {

long long ceil_div(const Exact& a, const Exact& b) {
  const Fraction f = (a / b).round_up(1);
  return f.num;
}

// Panels across `span` from cloth `width` wide, joined with seams of 1/2 in.
long long panels_across(const Exact& span, const Exact& width) {
  return span <= width ? 1 : ceil_div(span - Exact(1), width - Exact(1));
}

}  // namespace

Fraction yards_up(const Exact& inches, long long parts) {
  return Fraction::of((inches * Exact(parts) / Exact(36)).round_up(1).num, parts);
}

long long centimetres_up(const Exact& inches, long long step) {
  // 1 in = 2.54 cm exactly (NIST SP 811, value from memory).
  return (inches * Exact::ratio(254, 100) / Exact(step)).round_up(1).num * step;
}

long long bias_square(const Exact& length, const Exact& strip, const Exact& seam_allowance) {
  // The square is cut once on the diagonal and sewn up again twice along its side.
  const Exact wanted = length * strip;
  const Exact lost = seam_allowance * Exact(4);
  const auto gives = [&](long long side) { return Exact(side) * (Exact(side) - lost) >= wanted; };
  auto side = std::max(1LL, static_cast<long long>(std::sqrt(std::max(0.0, wanted.approx()))));
  while (side > 1 && gives(side - 1)) --side;
  while (!gives(side)) ++side;
  return side;
}

Binding plan_binding(const BindingDef& def, const Exact& width, const Exact& height,
                     const Exact& usable_width, const Exact& seam_allowance) {
  Binding b;
  b.fabric = def.fabric;
  const Exact wanted = (width + height) * Exact(2) + Exact(24);
  b.strip = def.strip.round_nearest(16);
  if (def.bias) {
    long long side = 0;
    do {
      ++b.squares;
      side = bias_square(wanted / Exact(b.squares), def.strip, seam_allowance);
    } while (Exact(side) > usable_width);
    b.square = Fraction::of(side, 1);
    const Exact each = Exact(side) * (Exact(side) - seam_allowance * Exact(4)) / def.strip;
    b.length = (each * Exact(b.squares) - def.strip * Exact(b.squares - 1)).round_down(1);
    return b;
  }
  // A diagonal join uses up about 2 in of each strip: 40 of 42. Joins of wide strips use up more;
  // 10 in are to be left for turning corners and closing the ring (common practice).
  const Exact round = (width + height) * Exact(2) + Exact(10);
  b.strips = std::max(ceil_div(wanted, usable_width - Exact(2)),
                      ceil_div(round - def.strip, usable_width - def.strip));
  // What the strips give once joined on the diagonal, each join a strip's width short.
  b.length = (usable_width * Exact(b.strips) - def.strip * Exact(b.strips - 1)).round_down(1);
  return b;
}

namespace {

struct Panels {
  long long count = 1;
  bool vertical = true;
  Exact length;  // of cloth
};

Panels cheaper_panels(const Exact& w, const Exact& h, const Exact& cloth) {
  const long long down = panels_across(w, cloth);
  const long long across = panels_across(h, cloth);
  const Exact vertical = h * Exact(down);
  const Exact horizontal = w * Exact(across);
  // Of equal lengths the one with fewer seams.
  const bool up = vertical < horizontal || (vertical == horizontal && down <= across);
  return up ? Panels{down, true, vertical} : Panels{across, false, horizontal};
}

}  // namespace

Backing plan_backing(const BackingDef& def, const Exact& width, const Exact& height,
                     const Allowances& rounding) {
  const Exact w = width + def.extra;
  const Exact h = height + def.extra;
  const Panels panels = cheaper_panels(w, h, def.width);
  Backing b;
  b.name = def.name;
  b.width = w.round_up(1);
  b.height = h.round_up(1);
  b.seams_vertical = panels.vertical;
  b.panels = panels.count;
  b.yards = yards_up(panels.length, rounding.yard_parts);
  b.centimetres = centimetres_up(panels.length, rounding.centimetre_step);
  if (def.wide) {
    const Panels of_wide = cheaper_panels(w, h, *def.wide);
    b.wide = def.wide->round_down(8);
    b.wide_yards = yards_up(of_wide.length, rounding.yard_parts);
    b.wide_centimetres = centimetres_up(of_wide.length, rounding.centimetre_step);
    b.wide_panels = of_wide.count;
  }
  return b;
}

Batting plan_batting(const BattingDef& def, const Exact& width, const Exact& height) {
  struct Package {
    int width, length;
  };
  constexpr std::array<Package, 5> packages{{{45, 60}, {72, 90}, {81, 96}, {90, 108}, {120, 120}}};
  Batting b;
  const Exact w = width + def.extra;
  const Exact h = height + def.extra;
  b.width = w.round_up(1);
  b.height = h.round_up(1);
  for (const Package& p : packages) {
    const bool fits = (w <= Exact(p.width) && h <= Exact(p.length)) ||
                      (h <= Exact(p.width) && w <= Exact(p.length));
    if (!fits) continue;
    b.package = std::to_string(p.width) + " × " + std::to_string(p.length) + " in";
    break;
  }
  return b;
}

Sleeve plan_sleeve(const SleeveDef& def, const Exact& width, const Exact& seam_allowance) {
  Sleeve s;
  s.fabric = def.fabric;
  s.strip = (def.depth * Exact(2) + seam_allowance * Exact(2)).round_up(8);
  s.length = (width - Exact(1)).round_up(8);
  s.finished = def.depth.round_nearest(8);
  return s;
}

}  // namespace dogear
