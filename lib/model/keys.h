#pragma once
// The keys of pattern.yaml and of blocks/*.yaml, a table for each kind of map.

#include "source/keys.h"

namespace dogear::keys {

// pattern.yaml
const KeyTable& pattern();
const KeyTable& fabric();
const KeyTable& bundle();
const KeyTable& allowances();
const KeyTable& ruler();
const KeyTable& block_use();
const KeyTable& coloring();
const KeyTable& coloring_fabric();
const KeyTable& month();
const KeyTable& erratum();

// Its sizes.
const KeyTable& size();
const KeyTable& sashing();
const KeyTable& border();
const KeyTable& binding();
const KeyTable& backing();
const KeyTable& batting();
const KeyTable& hanging_sleeve();

// blocks/*.yaml
const KeyTable& block();
const KeyTable& unit();
const KeyTable& placed_unit();
const KeyTable& arc();
const KeyTable& stitched_corners();

}  // namespace dogear::keys
