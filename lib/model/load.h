#pragma once
#include <string>
#include <vector>

#include "model/pattern.h"

namespace dogear {

// The sections that the program writes, in the order of a booklet that says none.
const std::vector<std::string>& section_names();

// One file of blocks/, its name without .yaml being `id`.
BlockDef read_block(const std::string& id, const Node& root, Diagnostics& diagnostics);

// The part of pattern.yaml below `sizes`; fabrics and uses must be read before.
void read_sizes(const Node& node, Pattern& pattern, Diagnostics& diagnostics);

// Whether a colour is written as figures need it; an error where it is not.
bool is_colour(const std::string& text, const Span& span, Diagnostics& diagnostics);

// `other colorings`; fabrics must be read before.
void read_colorings(const Node& node, Pattern& pattern, Diagnostics& diagnostics);

// One bundle; fabrics must be read before.
void read_bundle(const Entry& entry, Pattern& pattern, Diagnostics& diagnostics);

// The sources of a fabric from its key `from`, where it has one; bundles must be read before.
void read_sources(FabricId fabric, const Node* from, Pattern& pattern, Diagnostics& diagnostics);

// The keys `allowances`, `schedule` and `errata`.
void read_allowances(const Node& node, Pattern& pattern, Diagnostics& diagnostics);
void read_schedule(const Node& node, Pattern& pattern, Diagnostics& diagnostics);
void read_errata(const Node& node, Pattern& pattern, Diagnostics& diagnostics);

// The block use named by a node, or nothing with an error.
std::optional<std::size_t> read_block_use(const Node& node, const Pattern& pattern,
                                          Diagnostics& diagnostics);

// `sew` and `set-in` of a unit or block whose parts are known.
class MapReader;
SewingWish read_sewing(MapReader& map, const UnitDef& unit, Diagnostics& diagnostics);

// `foundation` and `foundation allowance` of a unit or block that is read.
void read_foundation(MapReader& map, UnitDef& unit, Diagnostics& diagnostics);

// The fabric named by a node, or nothing with an error.
std::optional<FabricId> read_fabric(const Node& node, const Pattern& pattern,
                                    Diagnostics& diagnostics);

}  // namespace dogear
