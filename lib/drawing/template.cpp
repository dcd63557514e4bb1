// Templates: one for all pieces cut alike, in its true size, or smaller with its edges measured.

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "drawing/figures.h"
#include "drawing/foundation.h"
#include "drawing/marks.h"
#include "drawing/strips.h"
#include "drawing/template_parts.h"
#include "geom/arcs.h"

namespace dogear::drawing {
namespace {

std::string edge_words(const Words& words, const Segment& e) {
  const Exact squared = dogear::dot(e.b - e.a, e.b - e.a);
  const double v = std::sqrt(squared.approx());
  return words("inches", {{"n", words.decimal_number(v, 3)}});
}

// Smaller than life, with every cut edge measured.
Figure draw_measured(const Scene& scene, std::size_t size, const TemplateUse& use, double scale) {
  const CutPiece& cut = *cut_of(scene, size, use.pieces.front());
  const TemplateParts parts = template_parts(scene, size, use, scale, false);
  canvas::DisplayList list;
  Labels labels(scene.fonts);
  draw_outlines(list, parts);
  LabelStyle style;
  style.largest = 15;
  const auto plate = labels.put_inside(parts.seam, parts.names, style);
  put_grain(list, labels, parts.seam, parts.thread, plate);
  labels.keep_off(parts.cut);
  const Polygon& shape = cut.cut.cut_shape;
  for (const Arc& arc : shape.arcs) {
    // Said once, beside the middle of the curve.
    std::vector<std::size_t> along;
    for (std::size_t i = 0; i < shape.size(); ++i) {
      if (arc_near(shape.edge(i), {arc})) along.push_back(i);
    }
    if (along.empty()) continue;
    const Segment e = shape.edge(along[along.size() / 2]);
    const std::string words = scene.words(
        "drawn radius",
        {{"length",
          scene.words("inches", {{"n", scene.words.decimal_number(radius(arc).approx(), 3)}})}});
    LabelStyle small;
    small.font = canvas::FontId::sans;
    labels.put_at((spot(e.a, scale) + spot(e.b, scale)) * 0.5, words, 7, small);
  }
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Segment e = shape.edge(i);
    if (!shape.arcs.empty() && arc_near(e, shape.arcs)) continue;
    const Spot a = spot(e.a, scale), b = spot(e.b, scale);
    const Spot d = dogear::drawing::unit(b - a);
    const Rect m = labels.measure(edge_words(scene.words, e), 7, {});
    const Spot out{d.y, -d.x};
    const double away = 3 + std::abs(out.x) * m.width() / 2 + std::abs(out.y) * m.height() / 2;
    LabelStyle small;
    small.font = canvas::FontId::sans;
    small.plate = false;
    labels.put_at((a + b) * 0.5 + out * away, edge_words(scene.words, e), 7, small);
  }
  if (!plate) labels.put_outside(deepest(parts.seam), parts.names, style);
  labels.paint(list);
  return finish(std::move(list), scene.words("drawn template", {{"label", parts.names}}) +
                                     scene.words("drawn reduced"));
}

Figure draw_whole(const Scene& scene, std::size_t size, const TemplateUse& use, bool standing) {
  const TemplateParts parts = template_parts(scene, size, use, true_size, standing);
  canvas::DisplayList list;
  Labels labels(scene.fonts);
  if (use.foundation) {
    draw_paper(list, parts);
    labels.keep_off(parts.cut);
    put_numbers(labels, parts, 12);
    labels.paint(list);
    return finish(std::move(list),
                  foundation_words(scene, *use.foundation) + scene.words("drawn true size"));
  }
  draw_outlines(list, parts);
  draw_marks(list, parts);
  labels.keep_off(parts.cut);
  const auto plate = put_labels(labels, parts.seam, parts.labels);
  put_grain(list, labels, parts.seam, parts.thread, plate);
  labels.paint(list);
  std::string alt = scene.words("drawn template", {{"label", parts.names}});
  if (!parts.marks.empty())
    alt += scene.words("drawn marks", {{"n", std::to_string(parts.marks.size())}});
  return finish(std::move(list), alt + scene.words("drawn true size"));
}

Figure test_squares(const Scene& scene) {
  canvas::DisplayList list;
  draw_test_squares(list, scene.fonts, {0, 0});
  return finish(std::move(list), scene.words("drawn test squares"));
}

bool fits(const Ring& cut, Room room) {
  const Rect b = box(cut);
  return b.width() + cut_width <= room.width && b.height() + cut_width <= room.height;
}

}  // namespace

std::optional<Figure> template_figure(const Scene& scene, std::size_t size,
                                      const std::string& label, Room room) {
  if (label == "test-square") {
    if (templates_of(scene, size).empty() && foundations_of(scene, size).empty()) return {};
    return test_squares(scene);
  }
  for (const TemplateUse& use : templates_of(scene, size)) {
    const bool named = std::any_of(use.pieces.begin(), use.pieces.end(), [&](PieceId id) {
      return scene.piecing.pieces.at(id).label(scene.checked.pattern) == label;
    });
    if (!named) continue;
    if (const auto whole = whole_template(scene, size, use, {room.width, room.height}))
      return whole;
    return fitted(room, true_size / 2, 4,
                  [&](double scale) { return draw_measured(scene, size, use, scale); });
  }
  return {};
}

std::optional<Figure> foundation_figure(const Scene& scene, std::size_t size, std::size_t n,
                                        Room room) {
  const std::vector<TemplateUse> all = foundations_of(scene, size);
  if (n < 1 || n > all.size()) return {};
  if (const auto whole = whole_template(scene, size, all[n - 1], {room.width, room.height}))
    return whole;
  return fitted(room, true_size / 2, 4, [&](double scale) {
    canvas::DisplayList list;
    Labels labels(scene.fonts);
    draw_step_paper(list, labels, scene, *all[n - 1].foundation, scale);
    labels.paint(list);
    return finish(std::move(list), foundation_words(scene, *all[n - 1].foundation) +
                                       scene.words("drawn foundation smaller"));
  });
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

std::optional<Figure> whole_template(const Scene& scene, std::size_t size, const TemplateUse& use,
                                     FigureRoom room) {
  for (const bool standing : {false, true}) {
    const drawing::Ring cut =
        drawing::template_parts(scene, size, use, drawing::true_size, standing).cut;
    if (drawing::fits(cut, {room.width, room.height}))
      return drawing::draw_whole(scene, size, use, standing);
  }
  return {};
}

}  // namespace dogear
