// The whole block, every patch labelled.

#include <algorithm>
#include <set>

#include "drawing/figures.h"
#include "drawing/labels.h"
#include "drawing/marks.h"
#include "drawing/patchwork.h"

namespace dogear::drawing {
namespace {

const BlockSewing* sewing_of(const Scene& scene, std::size_t size, std::size_t use) {
  for (const BlockSewing& sewing : scene.piecing.sizes.at(size).blocks) {
    if (sewing.use == use) return &sewing;
  }
  return nullptr;
}

std::string fabric_words(const Scene& scene, const std::vector<FlatPatch>& patches) {
  std::vector<FabricId> seen;
  std::string out;
  for (const FlatPatch& patch : patches) {
    const FabricId fabric = scene.checked.parts.at(patch.patch).fabric;
    if (std::find(seen.begin(), seen.end(), fabric) != seen.end()) continue;
    seen.push_back(fabric);
    out += (seen.size() > 1 ? ", " : "") + scene.checked.pattern.fabrics.at(fabric).name;
  }
  return out;
}

}  // namespace

std::optional<Figure> block_figure(const Scene& scene, std::size_t size, const std::string& use_id,
                                   Room room) {
  const std::vector<BlockUse>& uses = scene.checked.pattern.uses;
  const auto use =
      std::find_if(uses.begin(), uses.end(), [&](const BlockUse& u) { return u.id == use_id; });
  if (use == uses.end()) return {};
  const auto index = static_cast<std::size_t>(use - uses.begin());
  const PartId id = scene.checked.block_parts.at(index);
  const Part& part = scene.checked.parts.at(id);
  const BlockSewing* sewing = sewing_of(scene, size, index);
  // Two halves alike are one unit made twice.
  const bool in_halves = sewing != nullptr && comes_in_halves(scene, *sewing);

  const std::vector<FlatPatch> patches =
      part.is_patch ? std::vector<FlatPatch>{{id, {}}} : flatten(scene.checked, id);
  PatchLabels names(scene);
  const std::vector<bool> on_paper = patches_on_paper(scene, id);
  const long long count = static_cast<long long>(patches.size());
  std::string alt = scene.words(
      "drawn block", {{"name", use->title.empty() ? use->id : use->title},
                      {"patches", std::to_string(count) + " " + scene.words.noun("patches", count)},
                      {"fabrics", fabric_words(scene, patches)}});
  if (in_halves) alt += scene.words("drawn in halves");

  const auto draw = [&](double scale) {
    canvas::DisplayList list;
    Patchwork work(scene, scale);
    Labels labels(scene.fonts);
    work.part(list, id, {});
    if (in_halves) {
      for (const Meeting& m : part.meetings) {
        seam_line(list, spot(m.where.a, scale), spot(m.where.b, scale));
      }
    }
    canvas::Style frame = canvas::Style::stroked(ink, 0.9);
    frame.round_joins = true;
    list.shape(outline(ring(part.outline, scale)), frame);
    labels.keep_off(ring(part.outline, scale));

    std::vector<std::pair<Ring, std::string>> homeless;
    std::set<std::string> said;
    for (std::size_t i = 0; i < patches.size(); ++i) {
      const FlatPatch& patch = patches[i];
      const std::string& words = names.of(patch.patch, on_paper[i]);
      if (words.empty()) continue;
      const Ring r = moved(ring(scene.checked.parts.at(patch.patch).outline, scale),
                           motion(patch.where, scale));
      if (labels.put_inside(r, words)) {
        said.insert(words);
      } else {
        homeless.emplace_back(r, words);
      }
    }
    // Many small patches: one leader for each kind of piece tells enough.
    const bool all = homeless.size() <= 6;
    for (const auto& [r, words] : homeless) {
      if (all || said.insert(words).second) labels.put_outside(deepest(r), words);
    }
    labels.paint(list);
    return finish(std::move(list), alt);
  };
  return fitted(room, 24, 3, draw);
}

}  // namespace dogear::drawing

namespace dogear {

bool comes_in_halves(const Scene& scene, const BlockSewing& block) {
  const Part& whole = scene.checked.parts.at(scene.checked.block_parts.at(block.use));
  return !block.finals.empty() &&
         area(scene.piecing.units.at(block.finals[0]).outline) != area(whole.outline);
}

}  // namespace dogear
