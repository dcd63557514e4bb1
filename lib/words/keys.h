#pragma once
// The texts that the program writes, as a table of keys.

#include "source/keys.h"

namespace dogear::keys {

const KeyTable& words();       // every text that a template may change, with that of English
const KeyTable& all_words();   // also those that only some language has
const KeyTable& words_file();  // templates/words-*.yaml

}  // namespace dogear::keys
