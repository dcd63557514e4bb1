#pragma once
// What a unit says about its cloth and its seams: `grain` and `press`.

#include <string>
#include <vector>

#include "diag/diagnostics.h"
#include "model/pattern.h"
#include "source/node.h"

namespace dogear {

// `grain: 45`, `grain: along the long edge`: how far the strip lies from the shape's base.
void read_grain(const Node& node, UnitDef& unit, Diagnostics& diagnostics);

// `press: open`, `to the first`, `to the last`, `towards ROLE`, `away from ROLE`.
void read_press(const Node& node, const std::vector<std::string>& roles, UnitDef& unit,
                Diagnostics& diagnostics);

}  // namespace dogear
