#pragma once
// Left and right: which pieces are not symmetric, and how many layers of cloth are cut at once.

#include "cutting/quantities.h"

namespace dogear {

// The mirror image of a shape, as it comes from the lower layer of folded cloth. `directional`: a
// print that must not be turned at all.
Hand hand_of(const Polygon& shape, bool directional = false);

// Sets hand, twin and layers of every piece of the size; warns of pieces that folded cloth would
// give in the wrong hand.
void plan_layers(const Pattern& pattern, const Piecing& piecing, SizeQuantities& size,
                 Diagnostics& diagnostics);

}  // namespace dogear
