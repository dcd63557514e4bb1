#pragma once
// Reads ready-made units: `shape: flying geese 2 x 1` with `fabrics`, `method` and `oversize`, and
// `stitched corners` of a square or rectangle.

#include <functional>
#include <optional>
#include <string>

#include "model/pattern.h"
#include "model/reader.h"

namespace dogear {

// The ready-made unit that a `shape` names, whatever its measures.
std::optional<ReadyMade> ready_made_kind(const Node& shape);
std::vector<std::string> ready_made_names();  // "flying-geese", as shapes are compared

// Says whether a role exists in the block and notes its use.
using RoleReader = std::function<std::string(const Node& node, const std::string& name)>;

// `shape` names a ready-made unit; fills unit.shape and unit.ready. A grid step is `step` inches.
void read_ready_made(MapReader& map, const Node& shape, GridKind grid, const Exact& step,
                     const RoleReader& role, UnitDef& unit, Diagnostics& diagnostics);

// Corners stitched on to unit.shape, which is of one fabric.
void read_stitched_corners(const Node& node, const Exact& step, const RoleReader& role,
                           UnitDef& unit, Diagnostics& diagnostics);

}  // namespace dogear
