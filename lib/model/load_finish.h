#pragma once
// What goes round and under a quilt: borders, binding, backing, batting, hanging sleeve.

#include <optional>

#include "model/pattern.h"
#include "model/reader.h"

namespace dogear {

// One item of `borders`, or nothing with an error. Fabrics and uses must be read before.
std::optional<BorderDef> read_border(const Node& node, const Pattern& pattern,
                                     Diagnostics& diagnostics);

// The keys `binding`, `backing`, `batting` and `hanging sleeve` of a size.
void read_finish(MapReader& map, const Pattern& pattern, SizeDef& size, Diagnostics& diagnostics);

}  // namespace dogear
