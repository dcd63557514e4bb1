// One slanted cut: the strip, the ruler laid on it, and the line that lies on the strip's edge.

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/text.h"
#include "cutting/tips.h"
#include "drawing/figures.h"
#include "drawing/labels.h"
#include "drawing/marks.h"
#include "drawing/strips.h"

namespace dogear::drawing {
namespace {

constexpr double blunt = 0.25;  // inches of tip that a blunt ruler lacks
constexpr canvas::Color glass{0.90, 0.94, 0.96};

// Half the angle's tangent from a short table: the angles that rulers have.
std::optional<double> slope_of(int angle) {
  switch (angle) {
    case 30:
      return 0.26794919243112270647;
    case 45:
      return 0.41421356237309504880;
    case 60:
      return 0.57735026918962576451;
    case 90:
      return 1;
    default:
      return angle > 0 && angle < 180 ? std::optional(std::tan(angle * 3.14159265358979 / 360))
                                      : std::nullopt;
  }
}

const Ruler* ruler_of(const Scene& scene, const PieceCut& cut) {
  for (const std::size_t r : cut.rulers) {
    const Ruler& ruler = scene.checked.pattern.rulers.at(r);
    if (ruler.angle < 90) return &ruler;
  }
  return nullptr;
}

// With its longer level edge below, the cut shape's box at the origin; inches.
Ring standing(const PieceCut& cut, const Polygon& shape) {
  Ring r = ring(cut.cut_shape, 1);
  Ring out = ring(shape, 1);
  Rect b = box(r);
  double above = 0, below = 0;
  for (std::size_t i = 0; i < r.size(); ++i) {
    const Spot p = r[i], q = r[(i + 1) % r.size()];
    if (std::abs(p.y - q.y) > 1e-6) continue;
    (p.y < b.center().y ? above : below) += std::abs(p.x - q.x);
  }
  if (above > below) {
    r = moved(r, Motion{-1, 0, 0, -1, 0, 0});
    out = moved(out, Motion{-1, 0, 0, -1, 0, 0});
  }
  b = box(r);
  return moved(out, Motion::move(-b.left, -b.top));
}

struct Cloth {
  Fabric fabric;
  double from = 0, to = 0;  // inches down the strip
};

class RulerDrawing {
 public:
  RulerDrawing(const Scene& scene, const PieceCut& cut, const Ruler& ruler, double slope,
               std::vector<Cloth> cloths, const std::optional<Polygon>& untrimmed)
      : scene_(scene),
        cut_(cut),
        ruler_(ruler),
        slope_(slope),
        cloths_(std::move(cloths)),
        shape_(standing(cut, cut.cut_shape)) {
    if (untrimmed) untrimmed_ = standing(cut, *untrimmed);
  }

  Figure draw(double scale, const std::string& alt) const {
    canvas::DisplayList list;
    const double height = box(shape_).height();
    const double reading = cut_.reading->approx();
    const double tip =
        height - reading;  // the zero of the ruler's scale, down from the strip's top
    const double lowest = std::min(ruler_.highest.approx() + 0.5, reading + 1.5);
    const double axis = axis_at(reading, height);
    const double wide = half(lowest);
    const double left = std::min(axis - wide, 0.0) - 1.2;
    const double right = std::max(axis + wide, box(shape_).width()) + 1.2;

    const auto page = [&](double x, double y) { return Spot{x * scale, y * scale}; };
    for (const Cloth& c : cloths_) {
      Ring r{page(left, c.from), page(right, c.from), page(right, c.to), page(left, c.to)};
      list.shape(outline(r), cloth(c.fabric));
    }
    // The ruler is clear: cloth under it keeps its hatch on a paler ground.
    const auto slice = [&](double from, double to) {
      return Ring{page(axis - half(from), tip + from), page(axis + half(from), tip + from),
                  page(axis + half(to), tip + to), page(axis - half(to), tip + to)};
    };
    list.shape(outline(slice(0, lowest)), canvas::Style::filled(glass));
    for (const Cloth& c : cloths_) {
      const double from = std::max(0.0, c.from - tip), to = std::min(lowest, c.to - tip);
      if (to <= from) continue;
      canvas::Style style = cloth(c.fabric);
      style.fill = mix(colour(c.fabric), glass, 0.55);
      style.hatch->color = mix(*style.fill, canvas::black, 0.3);
      style.stroke.reset();
      list.shape(outline(slice(from, to)), style);
    }
    // The ruler leaves tips that are trimmed for the seams.
    if (!untrimmed_.empty()) {
      list.stroke_path(outline(moved(untrimmed_, Motion::scale(scale))), ink, fine);
    }
    cut_line(list, moved(shape_, Motion::scale(scale)));
    lines(list, scale, axis, tip, lowest, reading);

    canvas::Style rim = canvas::Style::stroked(ink, 1.0);
    rim.round_joins = true;
    canvas::Path path = canvas::Path::polyline(
        {page(axis - half(lowest), tip + lowest), page(axis - half(0), tip + 0),
         page(axis + half(0), tip + 0), page(axis + half(lowest), tip + lowest)});
    list.shape(path, rim);
    broken_edge(list, page(axis - half(lowest), tip + lowest),
                page(axis + half(lowest), tip + lowest), lowest >= ruler_.highest.approx() + 0.5);

    const Spot on_line = page(axis + half(reading), tip + reading);
    list.stroke_path(canvas::Path::segment(page(axis - half(reading), tip + reading), on_line),
                     canvas::white, 3.2);
    list.stroke_path(canvas::Path::segment(page(axis - half(reading), tip + reading), on_line),
                     canvas::black, 1.7);
    Labels labels(scene_.fonts);
    LabelStyle style;
    style.largest = 8;
    const std::string words =
        scene_.words("drawn line", {{"length", scene_.words.inches(*cut_.reading)}});
    const Rect m = labels.measure(words, 8, style);
    const Spot end{right * scale + 6, on_line.y};
    list.stroke_path(canvas::Path::segment(on_line, end), ink, edge);
    labels.put_at({end.x + m.width() / 2, end.y}, words, 8, style);
    if (cut_.upper_reading && cut_.upper_reading->num > 0) {
      const std::string upper =
          scene_.words("drawn line", {{"length", scene_.words.inches(*cut_.upper_reading)}});
      const Rect u = labels.measure(upper, 7, style);
      const Spot at =
          page(axis + half(cut_.upper_reading->approx()), tip + cut_.upper_reading->approx());
      const Spot to{right * scale + 6, at.y};
      const Rect wanted = Rect::of(to.x, to.y - u.height() / 2, u.width(), u.height());
      if (labels.is_free(wanted)) {
        list.stroke_path(canvas::Path::segment(at, to), ink, fine);
        labels.put_at(wanted.center(), upper, 7, style);
      }
    }
    labels.paint(list);
    return finish(std::move(list), alt);
  }

 private:
  double half(double reading) const { return (reading + (ruler_.blunt ? blunt : 0)) * slope_; }

  // Where the ruler's middle stands: its slanting side lies on a slanting side of the shape. Tips
  // may be trimmed, so the side is followed down to the strip's edge.
  double axis_at(double reading, double height) const {
    const double middle = centroid(shape_).x;
    double left = 0, right = 0, left_drop = 0, right_drop = 0;
    bool left_slants = false, right_slants = false;
    for (std::size_t i = 0; i < shape_.size(); ++i) {
      const Spot p = shape_[i], q = shape_[(i + 1) % shape_.size()];
      const double drop = std::abs(p.y - q.y);
      if (drop < 1e-6) continue;
      const bool on_left = (p.x + q.x) / 2 < middle;
      double& longest = on_left ? left_drop : right_drop;
      if (drop <= longest) continue;
      longest = drop;
      (on_left ? left : right) = p.x + (q.x - p.x) * (height - p.y) / (q.y - p.y);
      (on_left ? left_slants : right_slants) = std::abs(p.x - q.x) > 1e-6;
    }
    if (left_slants) return left + half(reading);
    return right_slants ? right - half(reading) : middle;
  }

  void lines(canvas::DisplayList& list, double scale, double axis, double tip, double lowest,
             double reading) const {
    const double step = std::max(0.125, ruler_.step.approx());
    for (double r = ruler_.lowest.approx(); r <= lowest - 0.1; r += step) {
      if (std::abs(r - reading) < 1e-6) continue;
      const bool whole = std::abs(r - std::round(r)) < 1e-6;
      const double y = (tip + r) * scale;
      list.stroke_path(
          canvas::Path::segment({(axis - half(r)) * scale, y}, {(axis + half(r)) * scale, y}),
          whole ? ink : pale, whole ? 0.6 : fine);
      if (!whole || scale < 9) continue;
      Labels number(scene_.fonts);
      LabelStyle style;
      style.font = canvas::FontId::sans;
      style.largest = 6;
      number.put_at({axis * scale, y}, decimal(r, 0), 6, style);
      number.paint(list);
    }
  }

  // A plain edge where the ruler really ends, a wave where the drawing stops.
  static void broken_edge(canvas::DisplayList& list, Spot from, Spot to, bool real) {
    canvas::Path path;
    path.move(from.x, from.y);
    const int waves = std::max(2, static_cast<int>((to.x - from.x) / 12));
    const double step = (to.x - from.x) / (2 * waves);
    for (int i = 0; i < 2 * waves && !real; ++i) {
      const double x = from.x + i * step, rise = i % 2 == 0 ? -2.2 : 2.2;
      path.cubic({x + step * 0.4, from.y + rise}, {x + step * 0.6, from.y + rise},
                 {x + step, from.y});
    }
    if (real) path.line(to.x, to.y);
    list.stroke_path(path, ink, real ? 1.0 : 0.6);
  }

  const Scene& scene_;
  const PieceCut& cut_;
  const Ruler& ruler_;
  double slope_;
  std::vector<Cloth> cloths_;
  Ring shape_;
  Ring untrimmed_;
};

std::optional<Figure> draw_ruler(const Scene& scene, const PieceCut& cut, std::vector<Cloth> cloths,
                                 const std::string& what, Room room,
                                 const std::optional<Polygon>& untrimmed = {},
                                 const std::string& trims = "") {
  if (!has_ruler_line(scene, cut)) return {};
  const Ruler& ruler = *ruler_of(scene, cut);
  const RulerDrawing drawing(scene, cut, ruler, *slope_of(ruler.angle), std::move(cloths),
                             untrimmed);
  const std::string alt = scene.words("drawn ruler", {{"what", what},
                                                      {"line", scene.words.inches(*cut.reading)},
                                                      {"ruler", ruler.name},
                                                      {"strip", scene.words.inches(cut.strip)}}) +
                          trims;
  return fitted(room, 16, 5, [&](double scale) { return drawing.draw(scale, alt); });
}

// A shape with one square end: the mark on its long edge and the ruler's side laid through it.
Figure draw_half_angled(const Scene& scene, const PieceCut& cut, const Ruler& ruler,
                        const Fabric& fabric, double slope, double scale, const std::string& alt) {
  canvas::DisplayList list;
  Labels labels(scene.fonts);
  const double height = cut.strip.approx(), wide = cut.length.approx();
  const double narrow = wide - height * slope;
  const bool below = is_long_below(cut);
  const auto page = [&](double x, double y) {  // y from the short edge to the long one
    return Spot{x * scale, (below ? y : height - y) * scale};
  };
  const double right = wide + 2.2;
  // The rest of the strip is pale, but hatched: its right side.
  canvas::Style rest = cloth(fabric);
  rest.fill = tint(fabric);
  rest.hatch->color = mix(tint(fabric), colour(fabric), 0.45);
  rest.stroke = pale;
  list.shape(outline(Ring{page(0, 0), page(right, 0), page(right, height), page(0, height)}), rest);
  const Ring piece{page(0, 0), page(narrow, 0), page(wide, height), page(0, height)};
  list.shape(outline(piece), cloth(fabric));

  // The ruler lies on the piece, its tip a little past the short edge.
  constexpr double past = 0.9, beyond = 0.5;
  const double lowest = std::min(ruler.highest.approx() + beyond, past + height + beyond);
  const double off = ruler.blunt ? blunt : 0;
  const double axis = wide - (past + height + off) * slope;
  const auto half = [&](double reading) { return (reading + off) * slope; };
  const Ring rim{page(axis - half(lowest), lowest - past), page(axis - half(0), -past),
                 page(axis + half(0), -past), page(axis + half(lowest), lowest - past)};
  canvas::Style clear = canvas::Style::stroked(ink, 1.0);
  clear.round_joins = true;
  for (double r = std::ceil(past); r < lowest; r += 1) {
    list.stroke_path(
        canvas::Path::segment(page(axis - half(r), r - past), page(axis + half(r), r - past)), pale,
        fine);
  }
  canvas::Style halo = canvas::Style::stroked(canvas::white, 2.6);
  halo.round_joins = true;
  list.shape(outline(rim), halo);
  list.shape(outline(rim), clear);
  cut_line_on_cloth(list, page(narrow, 0), page(wide, height));

  constexpr double away = beyond + 0.35;
  LabelStyle style;
  style.largest = 8;
  const auto measure = [&](double to, double y, const std::string& words) {
    const Spot a = page(0, y), b = page(to, y);
    measure_line(list, a, b);
    const double side = labels.measure(words, 8, style).width();
    labels.put_at(to * scale > side + 8 ? (a + b) * 0.5 : Spot{a.x - side / 2 - 4, a.y}, words, 8,
                  style);
  };
  measure(wide, height + away, scene.words.inches(cut.length));
  measure(narrow, -past - 0.4, scene.words.inches(half_angled_short_edge(cut)));
  labels.paint(list);
  return finish(std::move(list), alt);
}

}  // namespace

bool is_half_angled(const Scene& scene, const PieceCut& cut) {
  if (cut.method != CutMethod::half_angled || cut.reading) return false;
  const Ruler* ruler = ruler_of(scene, cut);
  return ruler != nullptr && ruler->angle == 60;
}

bool has_ruler_line(const Scene& scene, const PieceCut& cut) {
  if (!cut.reading || cut.cut_shape.size() < 3) return false;
  const Ruler* ruler = ruler_of(scene, cut);
  return ruler != nullptr && slope_of(ruler->angle).has_value();
}

std::optional<Figure> ruler_figure(const Scene& scene, std::size_t size, const std::string& label,
                                   Room room) {
  for (const CutPiece& piece : scene.quantities.sizes.at(size).pieces) {
    const Piece& p = scene.piecing.pieces.at(piece.piece);
    if (p.label(scene.checked.pattern) != label) continue;
    if (is_half_angled(scene, piece.cut)) {
      const Ruler& ruler = *ruler_of(scene, piece.cut);
      const std::string alt = scene.words(
          "drawn half angled",
          {{"what", label}, {"ruler", ruler.name}, {"mark", scene.words.inches(piece.cut.length)}});
      return fitted(room, 16, 5, [&](double scale) {
        return draw_half_angled(scene, piece.cut, ruler, scene.checked.pattern.fabrics.at(p.fabric),
                                *slope_of(ruler.angle), scale, alt);
      });
    }
    if (!has_ruler_line(scene, piece.cut)) continue;
    const double height = bounds(piece.cut.cut_shape).height().approx();
    const Polygon whole = as_cut(p.shape, piece.cut, scene.checked.pattern.seam_allowance);
    const bool trimmed = tidy(whole) != piece.cut.cut_shape;
    return draw_ruler(scene, piece.cut, {{scene.checked.pattern.fabrics.at(p.fabric), 0, height}},
                      label, room, trimmed ? std::optional(whole) : std::nullopt,
                      trimmed ? scene.words("drawn trimmed") : "");
  }
  return {};
}

std::optional<Figure> strip_set_ruler_figure(const Scene& scene, std::size_t size, std::size_t n,
                                             Room room) {
  const std::vector<StripSet>& sets = scene.quantities.sizes.at(size).strip_sets;
  if (n < 1 || n > sets.size()) return {};
  const StripSet& set = sets[n - 1];
  const double q = scene.checked.pattern.seam_allowance.approx();
  std::vector<Cloth> cloths;
  double y = 0;
  for (std::size_t i = 0; i < set.strips.size(); ++i) {
    const int seams = (i > 0 ? 1 : 0) + (i + 1 < set.strips.size() ? 1 : 0);
    const double to = y + set.strips[i].second.approx() - q * seams;
    cloths.push_back({scene.checked.pattern.fabrics.at(set.strips[i].first), y, to});
    y = to;
  }
  return draw_ruler(scene, set.cut, std::move(cloths),
                    scene.words("drawn strip set", {{"n", std::to_string(n)}}), room);
}

}  // namespace dogear::drawing

namespace dogear {

Fraction half_angled_short_edge(const PieceCut& cut) {
  const Exact slope = Exact::sqrt3() / Exact(3);
  return (Exact(cut.length) - Exact(cut.strip) * slope).round_nearest(8);
}

}  // namespace dogear
