#pragma once
// Filler blocks from what is left of the cloth.

#include <map>
#include <string>
#include <vector>

#include "cutting/quantities.h"

namespace dogear {

// Blocks that could be sewn from the leftovers of a size as they lie.
struct FillerOffer {
  std::size_t use = 0;                      // Pattern::uses
  std::map<std::string, FabricId> fabrics;  // by role: the use's own, or others that are left
  long long count = 0;
};

// For every filler the size sews (every block where the pattern marks none): how many more in its
// own fabrics, each by itself.
std::vector<FillerOffer> fillers_from_leftovers(const CheckedPattern& checked,
                                                const Piecing& piecing,
                                                const Quantities& quantities, std::size_t size);

// For every filler block, one use of it standing for all: as many as possible in any of the fabrics
// left, together. Several offers of one use, each in other fabrics, can all be sewn.
std::vector<FillerOffer> fillers_of_any_fabric(const CheckedPattern& checked,
                                               const Piecing& piecing, const Quantities& quantities,
                                               std::size_t size);

// Where a size says that it has as many fillers as the bundle gives: error D506 when the bundle,
// cut anew, gives one more and a plain block could make way for it; D507 when there is no filler or
// no bundle to speak of.
void check_fillers(const CheckedPattern& checked, const Piecing& piecing,
                   const Quantities& quantities, Diagnostics& diagnostics);

}  // namespace dogear
