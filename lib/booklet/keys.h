#pragma once
// The keys of templates/*.yaml and of designers' own templates, a table for each kind of map.

#include "source/keys.h"

namespace dogear::keys {

const KeyTable& template_file();
const KeyTable& page();
const KeyTable& margins();
const KeyTable& type();
const KeyTable& colours();
const KeyTable& fonts();

}  // namespace dogear::keys
