// Beside a point the cloth is counted between each two seams. A patch is one layer. A seam pressed
// to one side lays both its allowances there, two layers more; pressed open it lays one on each
// side. The seam sewn last folds back the allowance of each part with all that lies on it: over
// its own part when it is pressed open, else both over one part. What lies on an allowance left of
// the point is what lies left of the part's first seam, and so on the right. Of two plain seams
// that nest this gives 1, 3, 5 and 7 layers in the four corners.
#include "piecing/press_layers.h"

#include <algorithm>

namespace dogear {

namespace {

std::vector<int> own_layers(const WaysAtPoint& ways) {
  std::vector<int> out(ways.size() + 1, 1);
  for (std::size_t i = 0; i < ways.size(); ++i) {
    if (ways[i] <= 0) out[i] += ways[i] == 0 ? 1 : 2;
    if (ways[i] >= 0) out[i + 1] += ways[i] == 0 ? 1 : 2;
  }
  return out;
}

// Lays an allowance with these layers at its two ends over a part.
void fold_over(std::vector<int>& part, int left, int right) {
  for (std::size_t i = 0; i < part.size(); ++i) {
    if (2 * i + 1 < part.size()) part[i] += left;
    if (2 * i + 1 == part.size()) part[i] += std::max(left, right);
    if (2 * i + 1 > part.size()) part[i] += right;
  }
}

}  // namespace

int LayersBeside::most() const {
  return std::max(*std::max_element(first.begin(), first.end()),
                  *std::max_element(second.begin(), second.end()));
}

LayersBeside layers_beside(const WaysAtPoint& first, const WaysAtPoint& second, Press last) {
  const std::vector<int> a = own_layers(first);
  const std::vector<int> b = own_layers(second);
  LayersBeside out{a, b};
  std::vector<int>& over_a = last == Press::to_second ? out.second : out.first;
  std::vector<int>& over_b = last == Press::to_first ? out.first : out.second;
  fold_over(over_a, a.front(), a.back());
  fold_over(over_b, b.front(), b.back());
  return out;
}

}  // namespace dogear
