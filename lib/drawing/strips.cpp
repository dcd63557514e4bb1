#include "drawing/strips.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "drawing/marks.h"

namespace dogear::drawing {
namespace {

Ring to_corner(const Ring& r) {
  const Rect b = box(r);
  return moved(r, Motion::move(-b.left, -b.top));
}

// The least and greatest x of a ring at a height.
std::array<double, 2> extent_at(const Ring& r, double y) {
  std::array<double, 2> out{1e9, -1e9};
  for (std::size_t i = 0; i < r.size(); ++i) {
    const Spot a = r[i], b = r[(i + 1) % r.size()];
    if (y < std::min(a.y, b.y) - 1e-9 || y > std::max(a.y, b.y) + 1e-9) continue;
    const double dy = b.y - a.y;
    const double t = std::abs(dy) < 1e-12 ? 0 : std::clamp((y - a.y) / dy, 0.0, 1.0);
    const double x = a.x + (b.x - a.x) * t;
    out[0] = std::min(out[0], x);
    out[1] = std::max(out[1], x);
    if (std::abs(dy) < 1e-12) {
      out[0] = std::min(out[0], b.x);
      out[1] = std::max(out[1], b.x);
    }
  }
  return out;
}

// How far right `next` must move to touch `before` without covering it; both convex.
double touch(const Ring& before, const Ring& next) {
  double shift = -1e9;
  for (const Ring* r : {&before, &next}) {
    for (const Spot c : *r) {
      const auto left = extent_at(next, c.y), right = extent_at(before, c.y);
      if (left[1] < left[0] || right[1] < right[0]) continue;
      shift = std::max(shift, right[1] - left[0]);
    }
  }
  return shift;
}

// A shape with one square end has it at the strip's start.
bool starts_turned(const Ring& r) {
  const Rect b = box(r);
  bool left = false, right = false;
  for (std::size_t i = 0; i < r.size(); ++i) {
    const Spot p = r[i], q = r[(i + 1) % r.size()];
    if (std::abs(p.x - q.x) > 1e-6 || std::abs(p.y - q.y) < b.height() * 0.7) continue;
    (p.x < b.center().x ? left : right) = true;
  }
  return right && !left;
}

// A square's side or corner towards which a half or quarter of it lies.
Ring part_of_square(const PieceCut& cut, const Ring& shape, double x, double s) {
  const Spot a{x, 0}, b{x + s, 0}, c{x + s, s}, d{x, s}, m{x + s / 2, s / 2};
  const Spot lean = centroid(shape) - box(shape).center();
  if (cut.method == CutMethod::quarter_square) {
    if (std::abs(lean.x) > std::abs(lean.y)) return lean.x > 0 ? Ring{b, c, m} : Ring{d, a, m};
    return lean.y > 0 ? Ring{c, d, m} : Ring{a, b, m};
  }
  if (lean.x < 0) return lean.y < 0 ? Ring{a, b, d} : Ring{d, a, c};
  return lean.y < 0 ? Ring{b, c, a} : Ring{c, d, b};
}

std::vector<Ring> laid_one_way(const PieceCut& cut, std::size_t n, double scale) {
  const Ring upright = to_corner(ring(cut.cut_shape, scale));
  const bool squares =
      cut.method == CutMethod::half_square || cut.method == CutMethod::quarter_square;
  const double each = (squares ? cut.length.approx() : cut.pitch) * scale;
  std::vector<Ring> out;
  for (std::size_t i = 0; i < n; ++i) {
    const double x = static_cast<double>(i) * each;
    out.push_back(squares ? part_of_square(cut, upright, x, each)
                          : moved(upright, Motion::move(x, 0)));
  }
  return out;
}

}  // namespace

std::vector<LaidPiece> laid_run(const Scene& scene, std::size_t size, const Run& run,
                                double scale) {
  std::vector<LaidPiece> out;
  const CutPiece* cut = cut_of(scene, size, run.piece);
  if (cut == nullptr) return out;
  const bool squares =
      cut->cut.method == CutMethod::half_square || cut->cut.method == CutMethod::quarter_square;
  const bool turn_about = run.shared && !squares;
  const auto lay = [&](PieceCut kind, PieceId piece, long long n, double from) {
    if (turn_about) kind.pitch = 2 * kind.turned_pitch;
    for (const Ring& r : laid(kind, n, scale)) {
      out.push_back({moved(r, Motion::move(from, 0)), piece});
    }
  };
  const Ring own = to_corner(ring(cut->cut.cut_shape, scale));
  double from = 0;
  for (const auto& [piece, n] : run.also) {
    const CutPiece* other = cut_of(scene, size, piece);
    if (other == nullptr) continue;
    double at = 0;
    if (turn_about) {
      const Ring next = to_corner(ring(other->cut.cut_shape, scale));
      // A square end lies at the strip's start.
      (starts_turned(own) ? from : at) = starts_turned(own) ? touch(next, own) : touch(own, next);
    }
    lay(other->cut, piece, n, at);
  }
  lay(cut->cut, run.piece, run.count, from);
  return out;
}

std::vector<Ring> laid(const PieceCut& cut, long long count, double scale) {
  std::vector<Ring> out;
  const auto n = static_cast<std::size_t>(std::max(0LL, count));
  if (cut.one_way) return laid_one_way(cut, n, scale);
  if (cut.method == CutMethod::half_square || cut.method == CutMethod::quarter_square) {
    const double s = cut.length.approx() * scale;
    const std::size_t each = cut.method == CutMethod::half_square ? 2 : 4;
    for (std::size_t i = 0; i < n; ++i) {
      const double x = static_cast<double>(i / each) * s;
      const Spot a{x, 0}, b{x + s, 0}, c{x + s, s}, d{x, s}, m{x + s / 2, s / 2};
      const std::array<Ring, 2> halves{Ring{a, b, d}, Ring{b, c, d}};
      const std::array<Ring, 4> quarters{Ring{a, b, m}, Ring{b, c, m}, Ring{c, d, m},
                                         Ring{d, a, m}};
      out.push_back(each == 2 ? halves[i % 2] : quarters[i % 4]);
    }
    return out;
  }
  const Ring upright = to_corner(ring(cut.cut_shape, scale));
  if (upright.size() < 3) {
    const double w = cut.length.approx() * scale, h = cut.strip.approx() * scale;
    for (std::size_t i = 0; i < n; ++i) {
      const double x = static_cast<double>(i) * w;
      out.push_back({{x, 0}, {x + w, 0}, {x + w, h}, {x, h}});
    }
    return out;
  }
  if (cut.method == CutMethod::templated) {
    for (std::size_t i = 0; i < n; ++i) {
      const double x = static_cast<double>(i) * cut.length.approx() * scale;
      out.push_back(moved(upright, Motion::move(x, 0)));
    }
    return out;
  }
  const double h = box(upright).height();
  const Ring turned = moved(upright, Motion{-1, 0, 0, -1, box(upright).width(), h});
  const std::size_t first = starts_turned(upright) ? 1 : 0;
  for (std::size_t i = 0; i < n; ++i) {
    const Ring& shape = (i + first) % 2 == 0 ? upright : turned;
    const double x = out.empty() ? 0 : touch(out.back(), shape);
    out.push_back(moved(shape, Motion::move(x, 0)));
  }
  return out;
}

std::string cut_words(const Words& w, const PieceCut& cut, long long count) {
  const WordValues values{{"length", w.inches(cut.length)}, {"angle", std::to_string(cut.angle)}};
  switch (cut.method) {
    case CutMethod::rectangle:
      if (!(cut.length == cut.strip)) return w("drawn long", values);
      return w(count == 1 ? "drawn square" : "drawn squares", values);
    case CutMethod::joined_strip:
      return w("drawn joined", values);
    case CutMethod::half_square:
      return w("drawn half squares", values);
    case CutMethod::quarter_square:
      return w("drawn quarter squares", values);
    case CutMethod::templated:
      return w("drawn templated", values);
    case CutMethod::lengthwise:
      return w("drawn along cloth", values);
    case CutMethod::angled:
    case CutMethod::half_angled:
    case CutMethod::from_strip_set:
      break;
  }
  if (cut.parallel && !cut.reading) return w("drawn slanted", values);
  std::string words = cut.reading ? w("drawn at line", {{"length", w.inches(*cut.reading)}})
                                  : w("drawn wider edge", values);
  if (cut.method == CutMethod::half_angled) words += w("drawn one end square");
  if (cut.angle == 45 && !cut.reading) words += w("drawn both ends", {{"angle", "45"}});
  return words;
}

const CutPiece* cut_of(const Scene& scene, std::size_t size, PieceId piece) {
  return dogear::cut_of(scene.quantities.sizes.at(size), piece);
}

const StripSet* strip_set_of(const Scene& scene, std::size_t size, UnitId unit) {
  return dogear::strip_set_of(scene.quantities.sizes.at(size), unit);
}

bool is_long_below(const PieceCut& cut) {
  const Ring r = ring(cut.cut_shape, 1);
  if (r.size() < 3) return true;
  const Rect b = box(r);
  const auto width_at = [&](double y) {
    const auto e = extent_at(r, y);
    return e[1] - e[0];
  };
  return (width_at(b.bottom) > width_at(b.top)) != starts_turned(r);
}

namespace {

constexpr double beyond_the_last = 0.7;  // inches of a set that goes on past the last cut shown
constexpr double name_rise = 5.5;        // pt, of a name's middle from the strip's edge

// What shows of each strip once its neighbours are sewn on.
std::vector<double> shown_heights(const Scene& scene, const StripSet& set) {
  const double q = scene.checked.pattern.seam_allowance.approx();
  std::vector<double> out;
  for (std::size_t i = 0; i < set.strips.size(); ++i) {
    const int seams = (i > 0 ? 1 : 0) + (i + 1 < set.strips.size() ? 1 : 0);
    out.push_back(set.strips[i].second.approx() - q * seams);
  }
  return out;
}

// The part of a convex ring between two heights.
Ring between(const Ring& r, double top, double bottom) {
  Ring out = r;
  for (const bool upper : {true, false}) {
    const double limit = upper ? top : bottom;
    const auto inside = [&](Spot p) { return upper ? p.y >= limit : p.y <= limit; };
    const Ring in = std::move(out);
    out.clear();
    for (std::size_t i = 0; i < in.size(); ++i) {
      const Spot a = in[i], b = in[(i + 1) % in.size()];
      if (inside(a)) out.push_back(a);
      if (inside(a) != inside(b)) out.push_back(a + (b - a) * ((limit - a.y) / (b.y - a.y)));
    }
  }
  return out;
}

// Whether the shape cut there becomes this unit: it has the wider end in the same strip.
bool becomes_unit(const Scene& scene, const StripSet& set, UnitId unit, const Ring& shape) {
  const FabricId first = set.strips.front().first, last = set.strips.back().first;
  if (first == last) return true;
  double more = 0;  // of the first strip's fabric than of the last one's
  for (const PlacedPiece& placed : flatten(scene.piecing, unit)) {
    const Piece& piece = scene.piecing.pieces.at(placed.piece);
    if (piece.fabric == first) more += area(ring(piece.shape, 1));
    if (piece.fabric == last) more -= area(ring(piece.shape, 1));
  }
  const Rect b = box(shape);
  const double middle = b.center().y;
  const double upper = area(between(shape, b.top, middle));
  const double lower = area(between(shape, middle, b.bottom));
  const double even = 0.02;  // of the area, for shapes alike both ways up
  if (std::abs(upper - lower) < even * (upper + lower)) return true;
  return (upper > lower) == (more > 0);
}

}  // namespace

int shapes_of(const Scene& scene, const StripSet& set, std::size_t n) {
  if (n >= set.set_lengths.size() || set.cut.pitch <= 0) return 0;
  const double length =
      set.set_lengths[n].approx() - scene.checked.pattern.allowances.set_ends.approx();
  return 1 + static_cast<int>((length - set.cut.first) / set.cut.pitch + 1e-9);
}

SetDrawing measure_strip_set(const Scene& scene, const StripSet& set, double scale, int shapes) {
  SetDrawing size;
  for (const double h : shown_heights(scene, set)) size.height += h * scale;
  const std::vector<Ring> rings = laid(set.cut, shapes, scale);
  // The ends that are squared off once it is sewn.
  const double ends = scene.checked.pattern.allowances.set_ends.approx();
  if (!rings.empty()) size.width = box(rings.back()).right + ends * scale;
  size.goes_on = shapes_of(scene, set) > shapes;
  if (size.goes_on) size.width += beyond_the_last * scale;
  return size;
}

SetDrawing draw_strip_set(canvas::DisplayList& list, Labels& labels, const Scene& scene,
                          const StripSet& set, Spot at, double scale, int shapes,
                          std::optional<UnitId> meant, bool numbers) {
  const SetDrawing size = measure_strip_set(scene, set, scale, shapes);
  const std::vector<double> heights = shown_heights(scene, set);
  const std::vector<Fabric>& fabrics = scene.checked.pattern.fabrics;
  const double ends = scene.checked.pattern.allowances.set_ends.approx();
  const std::vector<Ring> rings = [&] {
    std::vector<Ring> out;
    for (const Ring& r : laid(set.cut, shapes, scale)) {
      out.push_back(moved(r, Motion::move(at.x + ends * scale / 2, at.y)));
    }
    return out;
  }();
  double y = at.y;
  for (std::size_t i = 0; i < set.strips.size(); ++i) {
    const Fabric& fabric = fabrics.at(set.strips[i].first);
    const Rect strip = Rect::of(at.x, y, size.width, heights[i] * scale);
    canvas::Style style = cloth(fabric);
    if (meant) {
      style = canvas::Style::filled(tint(fabric));
      style.stroke = pale;
    }
    list.shape(size.goes_on ? outline(torn_strip(strip)) : canvas::Path::rect(strip), style);
    if (size.goes_on) torn_line(list, strip);
    for (const Ring& r : rings) {
      if (!meant || !becomes_unit(scene, set, *meant, r)) continue;
      const Ring part = between(r, strip.top, strip.bottom);
      if (part.size() > 2) list.shape(outline(part), cloth(fabric));
    }
    y = strip.bottom;
  }
  // Only the cuts across: the strip's own edges are there already.
  for (const Ring& r : rings) {
    for (std::size_t i = 0; i < r.size(); ++i) {
      const Spot a = r[i], b = r[(i + 1) % r.size()];
      if (std::abs(a.y - b.y) < 0.01) continue;
      cut_line_on_cloth(list, a, b);
    }
  }
  // Each strip's fabric and cut width at its left; those of two strips above and below.
  const bool named = !meant && !numbers;
  const bool outside = named && named_outside(set);
  y = at.y;
  for (std::size_t i = 0; i < set.strips.size(); ++i) {
    const Fabric& fabric = fabrics.at(set.strips[i].first);
    const double h = heights[i] * scale;
    LabelStyle style;
    style.font = canvas::FontId::sans;
    style.largest = 7;
    style.plate = false;
    const std::string words = named ? fabric.name + " (" + std::to_string(fabric.number) + "), " +
                                          scene.words.inches(set.strips[i].second)
                                    : std::to_string(fabric.number);
    const Rect m = labels.measure(words, 7, style);
    const Spot beside{at.x - 3 - m.width() / 2, y + h / 2};
    const Spot over{at.x + m.width() / 2, i == 0 ? y - name_rise : y + h + name_rise};
    labels.put_at(outside ? over : beside, words, 7, style);
    y += h;
  }
  labels.keep_off(Ring{at,
                       {at.x + size.width, at.y},
                       {at.x + size.width, at.y + size.height},
                       {at.x, at.y + size.height}});
  return size;
}

}  // namespace dogear::drawing

namespace dogear {

std::vector<UnitId> cut_together(const Scene& scene, std::size_t size, UnitId unit) {
  const StripSet* set =
      scene.piecing.units.at(unit).strip_set ? drawing::strip_set_of(scene, size, unit) : nullptr;
  if (set == nullptr) return {unit};
  for (const BlockSewing& block : scene.piecing.sizes.at(size).blocks) {
    const auto& steps = block.steps;
    if (std::find(steps.begin(), steps.end(), unit) == steps.end()) continue;
    std::vector<UnitId> out;
    for (const UnitId step : steps) {
      if (!scene.piecing.units.at(step).strip_set) continue;
      if (drawing::strip_set_of(scene, size, step) == set) out.push_back(step);
    }
    return out;
  }
  return {unit};
}

}  // namespace dogear
