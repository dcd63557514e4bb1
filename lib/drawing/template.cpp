// Templates at exact scale: cut line, seam line, grain, letter and count.

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "drawing/figures.h"
#include "drawing/marks.h"
#include "drawing/strips.h"
#include "geom/arcs.h"

namespace dogear::drawing {
namespace {

constexpr double exact = 72;  // pt an inch

std::string edge_words(const Segment& e) {
  const Exact squared = dogear::dot(e.b - e.a, e.b - e.a);
  const double v = std::sqrt(squared.approx());
  return decimal(v, 3) + " in";
}

Figure draw(const Scene& scene, std::size_t size, const TemplateUse& use, double scale) {
  const CutPiece& cut = *cut_of(scene, size, use.pieces.front());
  const Piece& piece = scene.piecing.pieces.at(cut.piece);
  canvas::DisplayList list;
  Labels labels(scene.fonts);
  const Ring outer = ring(cut.cut.cut_shape, scale), inner = ring(piece.shape, scale);
  list.shape(outline(outer), canvas::Style::filled(canvas::white));
  list.stroke_path(outline(outer), ink, 0.9);
  list.stroke_path(outline(inner), ink, 0.6, {3.2, 2.2});
  std::string label;
  for (const PieceId id : use.pieces) {
    label += (label.empty() ? "" : ", ") + scene.piecing.pieces.at(id).label(scene.checked.pattern);
  }
  LabelStyle style;
  style.largest = 15;
  style.smallest = 6;
  const auto plate = labels.put_inside(inner, label, style);
  put_grain(list, labels, inner, {1, 0}, plate);
  std::string alt = "Template for " + label + ", cut line and seam line";
  if (scale != exact) {
    labels.keep_off(outer);
    const Polygon& shape = cut.cut.cut_shape;
    for (const Arc& arc : shape.arcs) {
      // Said once, beside the middle of the curve.
      std::vector<std::size_t> along;
      for (std::size_t i = 0; i < shape.size(); ++i) {
        if (arc_near(shape.edge(i), {arc})) along.push_back(i);
      }
      if (along.empty()) continue;
      const Segment e = shape.edge(along[along.size() / 2]);
      const std::string words = "radius " + decimal(radius(arc).approx(), 3) + " in";
      LabelStyle small;
      small.font = canvas::FontId::sans;
      labels.put_at((spot(e.a, scale) + spot(e.b, scale)) * 0.5, words, 7, small);
    }
    for (std::size_t i = 0; i < shape.size(); ++i) {
      const Segment e = shape.edge(i);
      if (!shape.arcs.empty() && arc_near(e, shape.arcs)) continue;
      const Spot a = spot(e.a, scale), b = spot(e.b, scale);
      const Spot d = dogear::drawing::unit(b - a);
      const Rect m = labels.measure(edge_words(e), 7, {});
      const Spot out{d.y, -d.x};
      const double away = 3 + std::abs(out.x) * m.width() / 2 + std::abs(out.y) * m.height() / 2;
      LabelStyle small;
      small.font = canvas::FontId::sans;
      small.plate = false;
      labels.put_at((a + b) * 0.5 + out * away, edge_words(e), 7, small);
    }
    alt += "; smaller than its size, with the length of every cut edge";
  } else {
    alt += ", in its true size";
  }
  if (!plate) labels.put_outside(deepest(inner), label, style);
  labels.paint(list);
  return finish(std::move(list), alt);
}

Figure test_square(const Scene& scene) {
  canvas::DisplayList list;
  list.stroke_path(canvas::Path::rect(0, 0, exact, exact), ink, 0.9);
  write(list, scene.fonts, 22, 40, 10, "1 in", canvas::FontId::sans_bold);
  return finish(std::move(list), "A square that measures 1 in each way when printed at 100%");
}

}  // namespace

bool template_fits(const Scene& scene, std::size_t size, const TemplateUse& use, Room room) {
  const dogear::Box box = bounds(cut_of(scene, size, use.pieces.front())->cut.cut_shape);
  constexpr double line = 1;
  return box.width().approx() * exact + line <= room.width &&
         box.height().approx() * exact + line <= room.height;
}

std::optional<Figure> template_figure(const Scene& scene, std::size_t size,
                                      const std::string& label, Room room) {
  if (label == "test-square") {
    if (templates_of(scene, size).empty()) return {};
    return test_square(scene);
  }
  for (const TemplateUse& use : templates_of(scene, size)) {
    const bool named = std::any_of(use.pieces.begin(), use.pieces.end(), [&](PieceId id) {
      return scene.piecing.pieces.at(id).label(scene.checked.pattern) == label;
    });
    if (!named) continue;
    if (template_fits(scene, size, use, room)) return draw(scene, size, use, exact);
    return fitted(room, exact / 2, 4, [&](double scale) { return draw(scene, size, use, scale); });
  }
  return {};
}

}  // namespace dogear::drawing

namespace dogear {

std::vector<TemplateUse> templates_of(const Scene& scene, std::size_t size) {
  std::vector<TemplateUse> out;
  const auto& cuts = scene.quantities.sizes.at(size).pieces;
  const auto alike = [&](const CutPiece& cut, const TemplateUse& use) {
    const CutPiece& other = *drawing::cut_of(scene, size, use.pieces.front());
    if (scene.piecing.pieces.at(cut.piece).letter != scene.piecing.pieces.at(other.piece).letter) {
      return false;
    }
    // Tips may be trimmed to other neighbours; measured cuts agree to a thousandth.
    constexpr double close = 1e-3;
    const dogear::Box a = bounds(cut.cut.cut_shape), b = bounds(other.cut.cut_shape);
    const double areas = (area(cut.cut.cut_shape) - area(other.cut.cut_shape)).approx();
    return std::abs((a.width() - b.width()).approx()) < close &&
           std::abs((a.height() - b.height()).approx()) < close && std::abs(areas) < close;
  };
  for (const CutPiece& cut : cuts) {
    if (cut.cut.method != CutMethod::templated) continue;
    const auto known = std::find_if(out.begin(), out.end(),
                                    [&](const TemplateUse& use) { return alike(cut, use); });
    if (known == out.end()) {
      out.push_back({{cut.piece}});
    } else {
      known->pieces.push_back(cut.piece);
    }
  }
  // The template is drawn as its first piece lies; one that is not reversed leads.
  for (TemplateUse& use : out) {
    std::stable_partition(use.pieces.begin(), use.pieces.end(),
                          [&](PieceId id) { return !scene.piecing.pieces.at(id).reversed; });
  }
  return out;
}

bool template_fits(const Scene& scene, std::size_t size, const TemplateUse& use, double width,
                   double height) {
  return drawing::template_fits(scene, size, use, {width, height});
}

}  // namespace dogear
