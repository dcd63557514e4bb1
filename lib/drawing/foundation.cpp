#include "drawing/foundation.h"

#include <algorithm>

#include "base/text.h"
#include "drawing/figures.h"
#include "drawing/marks.h"
#include "geom/offset.h"

namespace dogear::drawing {
namespace {

dogear::Transform mirror() {
  dogear::Transform over;
  over.mirrored = true;
  return over;
}

std::string label_of(const Scene& scene, const Input& in) {
  return scene.piecing.pieces.at(in.piece).label(scene.checked.pattern);
}

std::string unit_name(const Scene& scene, UnitId id) {
  return scene.words.name(scene.piecing.units.at(id).name);
}

}  // namespace

TemplateParts foundation_parts(const Scene& scene, UnitId id, double scale, bool standing) {
  const SewnUnit& unit = scene.piecing.units.at(id);
  const dogear::Transform over = mirror();
  const Motion turn = standing ? Motion{0, 1, -1, 0, 0, 0} : Motion{};
  TemplateParts parts;
  parts.paper = true;
  const Polygon outline = over.apply(unit.outline);
  parts.seam = moved(ring(outline, scale), turn);
  parts.cut = moved(ring(offset(outline, scene.checked.pattern.seam_allowance), scale), turn);
  for (const Seam& seam : unit.seams) {
    parts.lines.emplace_back(turn.apply(spot(over.apply(seam.where.a), scale)),
                             turn.apply(spot(over.apply(seam.where.b), scale)));
  }
  for (std::size_t i = 0; i < unit.inputs.size(); ++i) {
    const Input& in = unit.inputs[i];
    const Polygon patch = in.where.then(over).apply(scene.piecing.pieces.at(in.piece).shape);
    parts.patches.push_back(
        {moved(ring(patch, scale), turn), std::to_string(i + 1), label_of(scene, in)});
  }
  parts.names = unit_name(scene, id);
  return parts;
}

std::string foundation_words(const Scene& scene, UnitId id) {
  const SewnUnit& unit = scene.piecing.units.at(id);
  std::vector<std::string> patches;
  for (std::size_t i = 0; i < unit.inputs.size(); ++i)
    patches.push_back(std::to_string(i + 1) + " " + label_of(scene, unit.inputs[i]));
  return scene.words("drawn foundation",
                     {{"name", unit_name(scene, id)}, {"patches", join(patches, ", ")}});
}

void draw_paper(canvas::DisplayList& list, const TemplateParts& parts) {
  list.shape(outline(parts.cut), canvas::Style::filled(canvas::white));
  list.stroke_path(outline(parts.cut), ink, seam_width, {3.2, 2.2});
  list.stroke_path(outline(parts.seam), ink, cut_width);
  for (const auto& [from, to] : parts.lines)
    list.stroke_path(canvas::Path::segment(from, to), ink, cut_width);
}

void put_numbers(Labels& labels, const TemplateParts& parts, double largest) {
  LabelStyle style;
  style.largest = largest;
  style.plate = false;
  for (const NumberedPatch& p : parts.patches) {
    const std::string both = p.number + " · " + p.label;
    if (labels.put_inside(p.ring, both, style)) continue;
    if (labels.put_inside(p.ring, p.number, style)) continue;
    LabelStyle outside = style;
    outside.plate = true;  // it covers the end of the leader
    labels.put_outside(deepest(p.ring), both, outside);
  }
}

Rect paper_box(const Scene& scene, UnitId id, double scale) {
  return box(foundation_parts(scene, id, scale, false).cut).grown(cut_width);
}

void draw_step_paper(canvas::DisplayList& list, Labels& labels, const Scene& scene, UnitId id,
                     double scale) {
  const TemplateParts parts = foundation_parts(scene, id, scale, false);
  list.shape(outline(parts.cut), canvas::Style::filled(canvas::white));
  list.stroke_path(outline(parts.cut), ink, fine, {2.4, 1.8});
  list.stroke_path(outline(parts.seam), ink, edge);
  for (const auto& [from, to] : parts.lines)
    list.stroke_path(canvas::Path::segment(from, to), ink, edge);
  labels.keep_off(parts.cut);
  put_numbers(labels, parts, largest_label);
}

}  // namespace dogear::drawing

namespace dogear {

std::vector<TemplateUse> foundations_of(const Scene& scene, std::size_t size) {
  std::vector<TemplateUse> out;
  const SizeSewing& sewing = scene.piecing.sizes.at(size);
  const auto add = [&](UnitId id) {
    if (scene.piecing.units.at(id).foundation) out.push_back({{}, id});
  };
  for (const BlockSewing& block : sewing.blocks) {
    for (const UnitId id : block.steps) add(id);
  }
  for (const UnitId id : sewing.assembly) add(id);
  return out;
}

}  // namespace dogear
