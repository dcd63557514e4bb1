#pragma once
#include "piecing/piecing.h"

namespace dogear {

// Of all that a size sews, each as often as it is made.
struct PressCounts {
  long long open = 0;       // seams pressed open
  long long crossings = 0;  // places where seams cross
  long long nested = 0;     // of those, where they nest
  int most_layers = 0;      // beside any point
};
PressCounts count_presses(const Piecing& piecing, const SizeSewing& sewing);

}  // namespace dogear
