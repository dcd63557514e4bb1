#include "compile/step_outs.h"

#include <algorithm>

#include "base/text.h"
#include "piecing/some_blocks.h"

namespace dogear {

namespace {

constexpr long long plenty = 100000;  // sheets

// "ray, A3 and B1": what the step sews, equal parts counted once.
std::string sewn_from(const Plan& plan, UnitId id) {
  const SewnUnit& unit = plan.piecing.units[id];
  std::vector<std::pair<std::string, long long>> parts;
  for (const Input& in : unit.inputs) {
    std::string name;
    if (in.is_piece) {
      const Piece& piece = plan.piecing.pieces[in.piece];
      name = piece.label(plan.pattern());
    } else {
      name = plan.piecing.units[in.unit].name;
    }
    const auto same =
        std::find_if(parts.begin(), parts.end(), [&](const auto& p) { return p.first == name; });
    if (same == parts.end()) {
      parts.emplace_back(name, 1);
    } else {
      ++same->second;
    }
  }
  std::vector<std::string> words;
  for (const auto& [name, n] : parts) {
    words.push_back(n == 1 ? name : std::to_string(n) + " of " + name);
  }
  return join(words, " + ");
}

}  // namespace

std::vector<Sample> samples(const Plan& plan, std::size_t size) {
  std::vector<Sample> out;
  for (const BlockSewing& block : plan.piecing.sizes[size].blocks) {
    std::size_t step = 0;
    for (const UnitId unit : block.steps) {
      const auto patches = static_cast<long long>(flatten(plan.piecing, unit).size());
      out.push_back({block.use, ++step, unit, patches});
    }
  }
  return out;
}

std::optional<SizeQuantities> plan_samples(const Plan& plan, std::size_t size,
                                           const std::vector<Sample>& samples,
                                           Diagnostics& diagnostics) {
  SizeSewing sewing;
  sewing.size = plan.piecing.sizes[size].size;
  sewing.blocks = plan.piecing.sizes[size].blocks;
  std::map<UnitId, long long> wanted;
  for (const Sample& sample : samples) ++wanted[sample.unit];
  count_down(plan.piecing, wanted, sewing);
  CheckedPattern checked = plan.checked;
  for (Fabric& fabric : checked.pattern.fabrics) {
    if (fabric.sources.back().had) fabric.sources.back().had = plenty;
  }
  return plan_part(checked, plan.piecing, plan.quantities.cuts, sewing, diagnostics);
}

std::optional<std::vector<List>> step_out_lists(const Plan& plan, std::size_t size,
                                                Diagnostics& diagnostics) {
  const std::vector<Sample> all = samples(plan, size);
  List list{"samples", {"block", "step", "sample", "sewn from", "pieces"}, {}, true};
  for (const Sample& sample : all) {
    list.rows.push_back({plan.pattern().uses[sample.use].title, static_cast<long long>(sample.step),
                         plan.piecing.units[sample.unit].name, sewn_from(plan, sample.unit),
                         sample.pieces});
  }
  const auto part = plan_samples(plan, size, all, diagnostics);
  if (!part) return std::nullopt;
  List bundles{"bundles", {"bundle", "count"}, {}, true};
  for (const BundleUse& use : part->bundles) {
    bundles.rows.push_back({plan.pattern().bundles[use.bundle].name, use.bought});
  }
  std::vector<List> lists{std::move(list), std::move(bundles)};
  for (List& each : part_lists(plan, *part)) lists.push_back(std::move(each));
  return lists;
}

}  // namespace dogear
