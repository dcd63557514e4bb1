#pragma once
// How many layers of cloth lie beside a point where seams meet.

#include <vector>

#include "piecing/piecing.h"

namespace dogear {

// One part of the seam: the ways its own seams are pressed at the point, in order along the seam:
// +1 on along it, -1 back, 0 open.
using WaysAtPoint = std::vector<int>;

struct LayersBeside {
  std::vector<int> first, second;  // between those seams, in order; one more than there are seams
  int most() const;
};

// The last seam is pressed to its first part, to its second or open.
LayersBeside layers_beside(const WaysAtPoint& first, const WaysAtPoint& second, Press last);

}  // namespace dogear
