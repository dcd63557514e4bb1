#include "drawing/figure.h"

#include <algorithm>
#include <charconv>
#include <set>

#include "base/text.h"
#include "drawing/figures.h"
#include "drawing/tip.h"

namespace dogear {
namespace drawing {

Figure finish(canvas::DisplayList list, std::string alt) {
  const Rect all = list.bounds();
  Figure figure;
  figure.alt = std::move(alt);
  if (all.empty()) {
    figure.list = canvas::share(std::move(list));
    return figure;
  }
  canvas::DisplayList moved;
  moved.draw(canvas::share(std::move(list)), Motion::move(-all.left, -all.top));
  figure.list = canvas::share(std::move(moved));
  figure.width = all.width();
  figure.height = all.height();
  return figure;
}

Figure fitted(Room room, double cap, double least,
              const std::function<Figure(double scale)>& draw) {
  Figure figure;
  double scale = cap;
  for (int round = 0; round < 16; ++round) {
    figure = draw(scale);
    const double part = std::min(room.width / std::max(figure.width, 1e-6),
                                 room.height / std::max(figure.height, 1e-6));
    if (part >= 1) return figure;
    if (scale <= least) break;
    scale = std::max(least, scale * std::min(part, 0.985));
  }
  const double part = std::min(room.width / figure.width, room.height / figure.height);
  if (part >= 1 || part <= 0) return figure;
  canvas::DisplayList list;
  list.draw(figure.list, Motion::scale(part));
  figure.list = canvas::share(std::move(list));
  figure.width *= part;
  figure.height *= part;
  return figure;
}

namespace {

std::optional<std::size_t> number(const std::string& text) {
  std::size_t n = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), n);
  if (error != std::errc{} || end != text.data() + text.size() || text[0] == '0') return {};
  return n;
}

std::optional<Figure> draw(const Scene& scene, std::size_t size, const std::string& address,
                           Room room) {
  const std::vector<std::string> words = split(address, '/');
  const std::string& family = words[0];
  if (words.size() == 1) {
    if (family == "quilt") return quilt_figure(scene, size, true, room);
    if (family == "layout") return layout_figure(scene, size, room);
    if (family == "key") return key_figure(scene, size, room);
    if (family == "fabrics") return fabrics_figure(scene, size, room);
    if (family == "backing") return backing_figure(scene, size, room);
    if (family == "mitre") return mitre_figure(scene, size, room);
    if (family == "binding") return binding_figure(scene, size, room);
    if (family == "bias-binding") return bias_figure(scene, size, room);
    return {};
  }
  if (words.size() == 2) {
    if (family == "quilt" && words[1] == "plain") return quilt_figure(scene, size, false, room);
    if (address == "quilt/line") return line_quilt_figure(scene, size, room);
    if (address == "fabrics/line") return blank_fabrics_figure(scene, size, room);
    if (family == "block") return block_figure(scene, size, words[1], room);
    if (family == "cutting") return cutting_figure(scene, size, words[1], {}, room);
    if (family == "template") return template_figure(scene, size, words[1], room);
    if (family == "ruler") return ruler_figure(scene, size, words[1], room);
    if (family == "swatch") return swatch_figure(scene, words[1], room);
    const auto n = number(words[1]);
    if (family == "assembly" && n) return assembly_figure(scene, size, *n, room);
    if (family == "foundation" && n) return foundation_figure(scene, size, *n, room);
    return {};
  }
  const auto n = number(words[2]);
  if (words.size() != 3 || !n) return {};
  if (family == "step") return step_figure(scene, size, words[1], *n, room);
  if (family == "tip") return tip_figure(scene, size, words[1], *n, room);
  const bool colored = words[1] == "coloring";
  if (family == "quilt" && colored) return coloring_quilt_figure(scene, size, *n, room);
  if (family == "fabrics" && colored) return coloring_fabrics_figure(scene, size, *n, room);
  const bool of_set = words[1] == "strip-set";
  if (family == "cutting" && of_set) return strip_set_figure(scene, size, *n, room);
  if (family == "cutting") return cutting_figure(scene, size, words[1], *n, room);
  if (family == "ruler" && of_set) return strip_set_ruler_figure(scene, size, *n, room);
  return {};
}

}  // namespace
}  // namespace drawing

std::vector<std::string> figure_addresses(const Scene& scene, std::size_t size) {
  std::vector<std::string> out{"quilt", "quilt/plain", "quilt/line",
                               "key",   "fabrics",     "fabrics/line"};
  const Pattern& pattern = scene.checked.pattern;
  const SizeSewing& sewing = scene.piecing.sizes.at(size);
  const SizeQuantities& cloth = scene.quantities.sizes.at(size);
  const auto number = [](std::size_t n) { return std::to_string(n); };
  for (std::size_t n = 1; n <= pattern.colorings.size(); ++n) {
    out.push_back("quilt/coloring/" + number(n));
    out.push_back("fabrics/coloring/" + number(n));
  }
  for (const Fabric& fabric : pattern.fabrics) out.push_back("swatch/" + fabric.id);
  for (FabricId f = 0; f < pattern.fabrics.size(); ++f) {
    const std::size_t kinds = drawing::strip_kinds(scene, size, f);
    if (kinds == 0) continue;
    const std::string address = "cutting/" + pattern.fabrics[f].id;
    out.push_back(address);
    for (std::size_t n = 1; n <= kinds; ++n) out.push_back(address + "/" + number(n));
  }
  for (std::size_t n = 1; n <= cloth.strip_sets.size(); ++n) {
    out.push_back("cutting/strip-set/" + number(n));
    if (drawing::has_ruler_line(scene, cloth.strip_sets[n - 1].cut)) {
      out.push_back("ruler/strip-set/" + number(n));
    }
  }
  std::set<std::string> labels;
  for (const CutPiece& cut : cloth.pieces) {
    const std::string label = scene.piecing.pieces.at(cut.piece).label(pattern);
    const bool slanted =
        drawing::has_ruler_line(scene, cut.cut) || drawing::is_half_angled(scene, cut.cut);
    if (slanted && labels.insert(label).second) {
      out.push_back("ruler/" + label);
    }
  }
  const std::vector<TemplateUse> templates = templates_of(scene, size);
  const std::size_t foundations = foundations_of(scene, size).size();
  if (!templates.empty() || foundations > 0) out.emplace_back("template/test-square");
  for (const TemplateUse& use : templates) {
    out.push_back("template/" + scene.piecing.pieces.at(use.pieces.front()).label(pattern));
  }
  for (std::size_t n = 1; n <= foundations; ++n) out.push_back("foundation/" + number(n));
  for (const BlockSewing& block : sewing.blocks) {
    const std::string& use = pattern.uses.at(block.use).id;
    out.push_back("block/" + use);
    for (std::size_t n = 1; n <= block.steps.size(); ++n) {
      out.push_back("step/" + use + "/" + number(n));
      if (drawing::tip_to_show(scene, size, block.steps[n - 1]))
        out.push_back("tip/" + use + "/" + number(n));
    }
  }
  out.push_back("layout");
  for (std::size_t n = 1; n <= sewing.assembly.size(); ++n) {
    out.push_back("assembly/" + number(n));
  }
  if (drawing::has_mitre(scene, size)) out.emplace_back("mitre");
  if (cloth.backing) out.push_back("backing");
  if (cloth.binding && cloth.binding->square) out.emplace_back("bias-binding");
  if (cloth.binding) out.emplace_back("binding");
  return out;
}

std::optional<Figure> draw_figure(const Scene& scene, std::size_t size, const std::string& address,
                                  double max_width, double max_height) {
  if (size >= scene.checked.sizes.size() || size >= scene.piecing.sizes.size() ||
      size >= scene.quantities.sizes.size() || max_width <= 0 || max_height <= 0) {
    return {};
  }
  return drawing::draw(scene, size, address, {max_width, max_height});
}

}  // namespace dogear
