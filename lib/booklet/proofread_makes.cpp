// "Make N" counted a second way. The plan counts from the top down; here each block's need is
// counted by itself and taken as often as the setting has the block, and what the assembly uses
// beside whole blocks is added.

#include "booklet/proofread_edit.h"

namespace dogear::editing {
namespace {

// Units made before come first, so one pass from the last down counts what `last` needs of each.
void add_need(const Piecing& piecing, UnitId last, long long times,
              std::map<UnitId, long long>& sum) {
  std::map<UnitId, long long, std::greater<>> waiting{{last, times}};
  while (!waiting.empty()) {
    const auto [unit, n] = *waiting.begin();
    waiting.erase(waiting.begin());
    sum[unit] += n;
    for (const Input& in : piecing.units[unit].inputs)
      if (!in.is_piece) waiting[in.unit] += n;
  }
}

}  // namespace

std::map<UnitId, long long> made_for_blocks(const Scene& scene, std::size_t size) {
  const SizeSewing& sewing = scene.piecing.sizes[size];
  std::map<UnitId, long long> sum;
  std::set<UnitId> finals;
  for (const BlockSewing& block : sewing.blocks) {
    finals.insert(block.finals.begin(), block.finals.end());
    // One kind of half makes up the block twice; else each once, and the rest is single patches.
    std::size_t pieces = 0;
    for (const UnitId id : block.finals) pieces += flatten(scene.piecing, id).size();
    const std::size_t patches = flatten(scene.checked, scene.checked.block_parts[block.use]).size();
    const long long each = block.finals.size() == 1 && patches == 2 * pieces ? 2 : 1;
    for (const UnitId id : block.finals) add_need(scene.piecing, id, block.blocks * each, sum);
  }
  const std::set<UnitId> assembly(sewing.assembly.begin(), sewing.assembly.end());
  for (const UnitId id : sewing.assembly) {
    const auto made = sewing.make.find(id);
    if (made == sewing.make.end() || finals.contains(id)) continue;
    for (const Input& in : scene.piecing.units[id].inputs)
      if (!in.is_piece && !finals.contains(in.unit) && !assembly.contains(in.unit))
        add_need(scene.piecing, in.unit, made->second, sum);
  }
  return sum;
}

void check_makes(const Edit& edit) {
  for (std::size_t nth = 0; nth < edit.sizes.size(); ++nth) {
    const SizeSewing& sewing = edit.sewing(nth);
    const auto need = made_for_blocks(edit.scene, edit.sizes[nth]);
    for (const BlockSewing& block : sewing.blocks) {
      for (const UnitId id : block.steps) {
        const auto made = sewing.make.find(id);
        const auto wanted = need.find(id);
        const long long n = made == sewing.make.end() ? 0 : made->second;
        const long long of = wanted == need.end() ? 0 : wanted->second;
        if (n == of) continue;
        const SewnUnit& unit = edit.scene.piecing.units[id];
        const BlockUse& use = edit.pattern().uses[block.use];
        Diagnostic& d = edit.diagnostics.error(
            "D440", unit.span,
            "the step of `" + unit.name + "` makes " + std::to_string(n) + ", but " +
                std::to_string(block.blocks) + " of the block " + use.title + " need " +
                std::to_string(of) + " in the size `" + edit.known[nth].size_def().id + "`");
        d.notes.push_back({use.span, "the block is here"});
        d.hints.push_back("this is a fault of dogear; please tell its makers of this pattern");
      }
    }
  }
}

}  // namespace dogear::editing
