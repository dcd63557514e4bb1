#include "cutting/lines.h"

#include <algorithm>
#include <cmath>

namespace dogear {

namespace {

Exact eighth() { return Exact::ratio(1, 8); }

bool has_lines_at(const Exact& step, const Exact& every) {
  const auto n = (every / step).as_fraction();
  return n && n->den == 1;
}

Fraction fraction(const Exact& e) { return e.as_fraction().value_or(e.round_up(64)); }

Exact coarse(const Exact& step) { return has_lines_at(step, eighth()) ? eighth() : step; }

}  // namespace

Exact straight_step(const Pattern& pattern) {
  std::optional<Exact> finest;
  for (const Ruler& r : pattern.rulers) {
    if (r.angle == 90) finest = finest ? min(*finest, r.step) : r.step;
  }
  return finest.value_or(eighth());
}

Fraction line_up(const Exact& measure, const Exact& step) {
  return fraction(step * Exact((measure / step).round_up(1)));
}

Fraction line_down(const Exact& measure, const Exact& step) {
  return fraction(step * Exact((measure / step).round_down(1)));
}

Fraction printed_line(const Exact& measure, const Exact& step) {
  const Exact sixteenth = Exact::ratio(1, 16);
  const Fraction printed = line_up(measure, coarse(step));
  if (Exact(printed) - measure <= Exact::ratio(1, 32) || !has_lines_at(step, sixteenth)) {
    return printed;
  }
  return line_up(measure, sixteenth);
}

Fraction trimmed_line(const Exact& measure, const Exact& step) {
  return line_up(measure, coarse(step));
}

std::vector<Fraction> lines_beside(const Exact& measure, const Exact& step, const Exact& least) {
  std::vector<Fraction> out;
  for (const Exact& every : {step, eighth()}) {
    for (const Fraction& line : {line_down(measure, every), line_up(measure, every)}) {
      if (Exact(line) >= least && std::find(out.begin(), out.end(), line) == out.end()) {
        out.push_back(line);
      }
    }
  }
  return out;
}

std::string small_inches(double inches) {
  const double size = std::abs(inches);
  const auto parts = static_cast<std::int64_t>(std::llround(size * 64));
  if (parts == 0) return "less than 1/64 in";
  const Fraction f = Fraction::of(parts, 64);
  return (std::abs(f.approx() - size) < 1e-6 ? "" : "about ") + plain_inches(f);
}

}  // namespace dogear
