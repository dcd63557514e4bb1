#include "cutting/cut_shape.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "cutting/lines.h"
#include "geom/arcs.h"
#include "geom/offset.h"

namespace dogear {

namespace {

struct Sides {
  Exact top, bottom;  // finished widths along the two strip edges; 0 at a tip
  Point left, right;  // directions of the two ends, pointing down
  bool found = false;
};

// The two ends of a shape that reaches from one strip edge to the other with straight ends.
Sides sides_of(const Polygon& p) {
  const Box box = bounds(p);
  Sides s;
  int ends = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Segment e = p.edge(i);
    const Point d = e.b - e.a;
    if (d.y.is_zero()) {
      if (e.a.y == box.least.y) s.top = abs(d.x);
      if (e.a.y == box.most.y) s.bottom = abs(d.x);
    } else if (abs(d.y) == box.height()) {
      ++ends;
      if (d.y.sign() > 0) {
        s.right = d;
      } else {
        s.left = Point{} - d;
      }
    } else {
      return s;
    }
  }
  s.found = ends == 2;
  return s;
}

// The angle of an end to the strip: 90, 60 or 45 degrees; 0 for any other.
int slant(const Point& d) {
  const Exact x = d.x * d.x;
  const Exact y = d.y * d.y;
  return x.is_zero() ? 90 : y == x * Exact(3) ? 60 : y == x ? 45 : 0;
}

// The angle of the ends that are not square, where a ruler cuts both; 0 where none does.
int ruler_angle(const Sides& ends) {
  const int left = slant(ends.left);
  const int right = slant(ends.right);
  if (left == 45 && right == 45) return 45;
  const bool sixty = (left == 60 || left == 90) && (right == 60 || right == 90);
  return sixty ? 60 : 0;
}

using What = CutMeasure::What;

// A measure as printed, on a line of a ruler; the cut keeps what it stands for. Cuts are rounded
// up, never down; a line to lay the ruler on is the nearest.
Fraction printed(PieceCut& cut, What what, const Exact& exact, const Exact& step,
                 bool eased = false) {
  Fraction line;
  if (what == What::strip || what == What::length) {
    line = printed_line(exact, step);
  } else {
    line = exact.round_nearest(8);
    if (abs(Exact(line) - exact) > Exact::ratio(1, 32)) line = exact.round_nearest(16);
  }
  if (!eased) cut.rounded = std::max(cut.rounded, std::abs((Exact(line) - exact).approx()));
  cut.measures.push_back({what, exact, line, eased});
  return line;
}

// How far down from where its sides would meet a blunt ruler begins (common practice).
Exact blunt_depth(Tip tip) { return tip == Tip::blunt ? Exact::ratio(1, 4) : Exact(0); }

Exact width_of(const Polygon& p) { return bounds(p).width(); }

Exact width_at(const Polygon& p, bool top) {
  const Box box = bounds(p);
  Exact least = box.most.x;
  Exact most = box.least.x;
  for (const Point& c : p.corners) {
    if (c.y != (top ? box.least.y : box.most.y)) continue;
    least = min(least, c.x);
    most = max(most, c.x);
  }
  return max(most - least, Exact(0));
}

bool is_right_isosceles(const Polygon& p, bool& hypotenuse_on_strip, Exact& leg) {
  if (p.size() != 3) return false;
  for (std::size_t i = 0; i < 3; ++i) {
    const Point a = p.at(i + 1) - p.at(i);
    const Point b = p.at(i + 2) - p.at(i + 1);
    if (!dot(a, b).is_zero() || dot(a, a) != dot(b, b)) continue;
    const Point across = p.at(i) - p.at(i + 2);
    hypotenuse_on_strip = across.x.is_zero() || across.y.is_zero();
    leg = hypotenuse_on_strip ? abs(across.x) + abs(across.y) : abs(a.x) + abs(a.y);
    return hypotenuse_on_strip || a.x.is_zero() || a.y.is_zero();
  }
  return false;
}

}  // namespace

namespace {

// A tip whose curve runs into its other side: less than 5° between them. An inward arc leaves its
// first chord by half of 15°, so the chord's angle is that much larger than the curve's.
bool has_cusp(const Polygon& shape) {
  constexpr std::array<double, 3> least{0.0875, 0.2217, 0.3640};  // tan of 5°, 12.5°, 20°
  for (std::size_t i = 0; i < shape.size(); ++i) {
    std::size_t inward = 0;
    for (const Segment& e : {shape.edge(i), shape.edge(i + 1)}) {
      const auto arc = arc_of(e, shape.arcs);
      inward += arc && !bulges(e, *arc) ? 1 : 0;
    }
    const Point back = shape.at(i) - shape.at(i + 1);
    const Point on = shape.at(i + 2) - shape.at(i + 1);
    const double along = dot(back, on).approx();
    if (along > 0 && std::abs(cross(back, on).approx()) < least[inward] * along) return true;
  }
  return false;
}

}  // namespace

std::optional<PieceCut> plan_template(const Polygon& shape, const Pattern& pattern,
                                      const std::vector<TrimLine>& trims) {
  if (!shape.arcs.empty() && has_cusp(shape)) return std::nullopt;
  for (std::size_t i = 0; i < shape.size() && !shape.arcs.empty(); ++i) {
    // An inward curve no wider than the allowance closes.
    const Segment e = shape.edge(i);
    const auto arc = arc_of(e, shape.arcs);
    if (arc && !bulges(e, *arc) && radius(*arc) <= pattern.seam_allowance) return std::nullopt;
  }
  PieceCut cut;
  cut.method = CutMethod::templated;
  cut.cut_shape = tidy(offset(shape, pattern.seam_allowance));
  if (!is_simple(cut.cut_shape)) return std::nullopt;  // too narrow for its allowances
  for (const TrimLine& t : trims) {
    const auto trimmed = clip(cut.cut_shape, t.at, t.along);
    if (trimmed && is_simple(*trimmed)) cut.cut_shape = *trimmed;
  }
  const Box box = bounds(cut.cut_shape);
  cut.strip = box.height().round_up(8);
  cut.length = box.width().round_up(8);
  cut.first = cut.pitch = cut.length.approx();
  return cut;
}

std::optional<PieceCut> plan_cut(const Polygon& shape, const Pattern& pattern,
                                 const std::vector<TrimLine>& trims, Tip tip, bool from_set) {
  const Exact q = pattern.seam_allowance;
  const Exact step = straight_step(pattern);
  const Box box = bounds(shape);
  PieceCut cut;
  if (!shape.arcs.empty() || !is_convex(shape))
    return from_set ? std::nullopt : plan_template(shape, pattern, trims);
  const Polygon full = offset(shape, q);
  Exact strip_top = box.least.y - q;
  Exact strip_bottom = box.most.y + q;

  bool on_strip = false;
  Exact leg;
  const Sides ends = sides_of(shape);
  const bool square_left = ends.found && ends.left.x.is_zero();
  const bool square_right = ends.found && ends.right.x.is_zero();
  if (is_right_isosceles(shape, on_strip, leg)) {
    // common practice: finished leg + 7/8 for two, finished long edge + 1 1/4 for four, both at
    // q = 1/4; exactly q(2 + √2) and q(2 + 2√2), rounded up so that they can be trimmed.
    const Exact extra = Exact::sqrt2() * Exact(on_strip ? 2 : 1) + Exact(2);
    cut.method = on_strip ? CutMethod::quarter_square : CutMethod::half_square;
    cut.length = trimmed_line(leg + q * extra, step);
    cut.measures.push_back({What::length, leg + q * extra, cut.length, true});
    cut.strip = cut.length;
    cut.per_cut = on_strip ? 4 : 2;
    cut.first = cut.pitch = cut.length.approx();
  } else if (square_left && square_right) {
    cut.method = CutMethod::rectangle;
    cut.strip = printed(cut, What::strip, box.height() + q * Exact(2), step);
    // Long strips are eased to what they are sewn to; short pieces have to be right.
    const bool is_long = box.width() > Exact(10) && box.width() > box.height();
    cut.length = printed(cut, What::length, box.width() + q * Exact(2), step, is_long);
    cut.first = cut.pitch = cut.length.approx();
    if (box.width() + q * Exact(2) > pattern.usable_width) cut.method = CutMethod::joined_strip;
  } else if (ends.found && ruler_angle(ends) != 0) {
    cut.angle = ruler_angle(ends);
    const Exact sine = (cut.angle == 60 ? Exact::sqrt3() : Exact::sqrt2()) / Exact(2);
    // A blunt ruler cuts a tip off where the strip ends, a seam allowance beyond the finished tip;
    // with a pointed one the strip is a seam allowance higher and the tip stays.
    const bool keeps_tip =
        tip == Tip::pointed && !from_set && shape.size() == 3 && !square_left && !square_right;
    const Exact above = ends.top.is_zero() && keeps_tip ? q * Exact(2) : q;
    const Exact below = ends.bottom.is_zero() && keeps_tip ? q * Exact(2) : q;
    cut.strip = printed(cut, What::strip, box.height() + above + below, step);
    strip_top = box.least.y - above;
    strip_bottom = box.most.y + below;
    std::optional<Polygon> strip = clip(full, {Exact(0), strip_top}, {Exact(1), Exact(0)});
    if (strip) strip = clip(*strip, {Exact(0), strip_bottom}, {Exact(-1), Exact(0)});
    if (!strip) return std::nullopt;
    const Exact narrow = min(width_at(*strip, true), width_at(*strip, false));
    const Exact wide = max(width_at(*strip, true), width_at(*strip, false));
    const bool square_end = square_left || square_right;
    cut.method = square_end ? CutMethod::half_angled : CutMethod::angled;
    cut.square_ends = square_end;
    cut.parallel = !square_end && cross(ends.left, ends.right).is_zero();
    if (cut.parallel) {
      // The measure that a ruler shows: square across the slanted cuts.
      cut.length =
          printed(cut, What::length, max(ends.top, ends.bottom) * sine + q * Exact(2), step);
      cut.first = width_of(*strip).approx();
      cut.pitch = wide.approx();
    } else {
      // Squared off after sewing, so 1/16 in more or less does no harm.
      cut.length = printed(cut, What::length, wide, step, true);
      cut.first = wide.approx();
      cut.pitch = ((wide + narrow) / Exact(2)).approx();
      if (!square_end && cut.angle == 60) {
        // Depth below a pointed tip: how far down the ruler the wider edge lies.
        const Exact off = blunt_depth(tip);
        cut.reading = printed(cut, What::reading,
                              max(ends.top, ends.bottom) * sine + q * Exact(3) - off, step);
        if (shape.size() == 4) {
          cut.upper_reading =
              printed(cut, What::upper_reading, min(ends.top, ends.bottom) * sine + q - off, step);
        }
      }
    }
  } else {
    return from_set ? std::nullopt : plan_template(shape, pattern, trims);
  }

  Polygon trimmed = full;
  const bool halved =
      cut.method == CutMethod::half_square || cut.method == CutMethod::quarter_square;
  if (!halved) {
    if (auto p = clip(trimmed, {Exact(0), strip_top}, {Exact(1), Exact(0)})) trimmed = *p;
    if (auto p = clip(trimmed, {Exact(0), strip_bottom}, {Exact(-1), Exact(0)})) trimmed = *p;
  }
  for (const TrimLine& t : trims) {
    if (auto p = clip(trimmed, t.at, t.along)) trimmed = *p;
  }
  cut.cut_shape = tidy(trimmed);
  return cut;
}

namespace {

// Pattern::rulers that can make the cut; `why_not` says what is missing when there is none.
std::vector<std::size_t> rulers_for(const PieceCut& cut, const Pattern& pattern, Tip tip,
                                    std::string& why_not) {
  std::vector<std::size_t> out;
  const bool angled = cut.method == CutMethod::angled || cut.method == CutMethod::half_angled ||
                      cut.method == CutMethod::from_strip_set;
  const int angle = angled ? cut.angle : 90;
  const Exact across = cut.method == CutMethod::rectangle ? min(Exact(cut.strip), Exact(cut.length))
                       : angled && angle == 45            ? Exact(cut.length)
                                                          : Exact(cut.strip);
  const Exact line = cut.reading ? Exact(*cut.reading) : across;
  bool any = false;
  for (std::size_t i = 0; i < pattern.rulers.size(); ++i) {
    const Ruler& r = pattern.rulers[i];
    if (r.angle != angle || (angle == 60 && r.blunt != (tip == Tip::blunt))) continue;
    any = true;
    // A tip a seam allowance above the finished one must not lie beyond the ruler's own end.
    if (cut.reading && !cut.upper_reading && blunt_depth(tip) > pattern.seam_allowance) {
      why_not = "the seam allowance is narrower than the blunt tip of " + r.name;
      continue;
    }
    const auto steps = (line / r.step).as_fraction();
    if (line < r.lowest || line > r.highest) {
      why_not = "it needs the " + plain_inches(line.round_nearest(16)) + " line, and " + r.name +
                " has lines from " + plain_inches(r.lowest.round_nearest(16)) + " to " +
                plain_inches(r.highest.round_nearest(16));
    } else if (cut.reading && (!steps || steps->den != 1 || cut.rounded > 0.001)) {
      why_not = "it needs a line at " + std::string(cut.rounded > 0.001 ? "about " : "") +
                plain_inches(line.round_nearest(16)) + ", and " + r.name + " has one every " +
                plain_inches(r.step.round_nearest(64));
    } else {
      out.push_back(i);
    }
  }
  if (!any) {
    why_not = "no ruler of " + std::to_string(angle) + " degrees is described";
  }
  return out;
}

}  // namespace

std::optional<PieceCut> plan_cut_with_rulers(const Polygon& shape, const Pattern& pattern,
                                             const std::vector<TrimLine>& trims,
                                             std::string& why_not, bool from_set) {
  std::vector<Tip> tips;
  for (const Tip tip : {Tip::blunt, Tip::pointed}) {
    if (std::any_of(pattern.rulers.begin(), pattern.rulers.end(), [&](const Ruler& r) {
          return r.angle == 60 && r.blunt == (tip == Tip::blunt);
        })) {
      tips.push_back(tip);
    }
  }
  if (tips.empty()) tips.push_back(Tip::blunt);
  std::optional<PieceCut> first;
  for (const Tip tip : tips) {
    auto cut = plan_cut(shape, pattern, trims, tip, from_set);
    if (!cut || cut->method == CutMethod::templated) return cut;
    const bool described = std::any_of(pattern.rulers.begin(), pattern.rulers.end(),
                                       [&](const Ruler& r) { return r.angle == cut->angle; });
    if (cut->angle == 45 && !described && !from_set) return plan_template(shape, pattern, trims);
    std::string why;
    cut->rulers = rulers_for(*cut, pattern, tip, why);
    if (!cut->rulers.empty()) return cut;
    if (first) continue;
    first = std::move(cut);
    why_not = why;
  }
  return first;
}

}  // namespace dogear
