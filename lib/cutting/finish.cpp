#include "cutting/finish.h"

#include <array>

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

Fraction yards_up(const Exact& inches) { return (inches / Exact(36)).round_up(8); }

long long centimetres_up(const Exact& inches) {
  // 1 in = 2.54 cm exactly (NIST SP 811, value from memory).
  return (inches * Exact::ratio(254, 100) / Exact(5)).round_up(1).num * 5;
}

Binding plan_binding(const BindingDef& def, const Exact& width, const Exact& height,
                     const Exact& usable_width) {
  Binding b;
  b.fabric = def.fabric;
  const Exact wanted = (width + height) * Exact(2) + Exact(24);
  // A diagonal join uses up about 2 in of each strip: 40 of 42.
  b.strips = ceil_div(wanted, usable_width - Exact(2));
  b.strip = def.strip.round_nearest(16);
  // What the strips give once joined on the diagonal, each join a strip's width short.
  b.length = (usable_width * Exact(b.strips) - def.strip * Exact(b.strips - 1)).round_down(1);
  return b;
}

Backing plan_backing(const BackingDef& def, const Exact& width, const Exact& height) {
  const Exact w = width + def.extra;
  const Exact h = height + def.extra;
  const long long down = panels_across(w, def.width);
  const long long across = panels_across(h, def.width);
  const Exact vertical = h * Exact(down);
  const Exact horizontal = w * Exact(across);
  Backing b;
  b.name = def.name;
  b.width = w.round_up(1);
  b.height = h.round_up(1);
  b.seams_vertical = vertical <= horizontal;
  b.panels = b.seams_vertical ? down : across;
  const Exact length = b.seams_vertical ? vertical : horizontal;
  b.yards = yards_up(length);
  b.centimetres = centimetres_up(length);
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

}  // namespace dogear
