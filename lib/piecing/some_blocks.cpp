#include "piecing/some_blocks.h"

#include <algorithm>

namespace dogear {

SizeSewing some_blocks(const CheckedPattern& checked, const Piecing& piecing,
                       const SizeSewing& size, const std::vector<BlockCount>& blocks) {
  SizeSewing out;
  out.size = size.size;
  std::map<UnitId, long long> wanted;
  for (const BlockCount& some : blocks) {
    const auto block = std::find_if(size.blocks.begin(), size.blocks.end(),
                                    [&](const BlockSewing& b) { return b.use == some.use; });
    if (block == size.blocks.end() || block->finals.empty() || some.blocks <= 0) continue;
    // A hexagon may be two of the same half.
    Exact finals = 0;
    for (const UnitId unit : block->finals) finals += area(piecing.units[unit].outline);
    const Exact whole = area(checked.parts[checked.block_parts[some.use]].outline);
    const long long each = std::max<long long>((whole / finals).round_nearest(1).num, 1);
    for (const UnitId unit : block->finals) wanted[unit] += each * some.blocks;
    BlockSewing own = *block;
    own.blocks = some.blocks;
    own.steps.insert(own.steps.begin(), own.shared.begin(), own.shared.end());
    own.shared.clear();
    out.blocks.push_back(std::move(own));
  }
  count_down(piecing, wanted, out);
  return out;
}

void count_down(const Piecing& piecing, const std::map<UnitId, long long>& wanted,
                SizeSewing& sewing) {
  sewing.make = wanted;
  // A unit's parts are filed before it, so the last ones are counted first.
  for (UnitId unit = piecing.units.size(); unit-- > 0;) {
    const auto found = sewing.make.find(unit);
    if (found == sewing.make.end()) continue;
    const long long n = found->second;
    for (const Input& in : piecing.units[unit].inputs) {
      if (in.is_piece) {
        sewing.pieces[in.piece] += n;
      } else {
        sewing.make[in.unit] += n;
      }
    }
  }
}

}  // namespace dogear
