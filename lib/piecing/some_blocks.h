#pragma once
// What some of a size's blocks take, as if they were all that is sewn.

#include <utility>
#include <vector>

#include "piecing/piecing.h"

namespace dogear {

struct BlockCount {
  std::size_t use = 0;  // Pattern::uses
  long long blocks = 0;
};

// The units and pieces of so many blocks; uses that the size does not sew as blocks are left out.
SizeSewing some_blocks(const CheckedPattern& checked, const Piecing& piecing,
                       const SizeSewing& size, const std::vector<BlockCount>& blocks);

// `make` and `pieces` of a sewing from the units that are wanted.
void count_down(const Piecing& piecing, const std::map<UnitId, long long>& wanted,
                SizeSewing& sewing);

}  // namespace dogear
