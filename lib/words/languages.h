#pragma once
// What templates/ holds when nothing else is asked for: papers, languages and their words.

#include <map>
#include <string>
#include <vector>

#include "words/words.h"

namespace dogear {

const std::map<std::string, std::string>& builtin_templates();  // file name -> text

std::vector<std::string> papers();     // "a4", "letter", ...: templates that say a page
std::vector<std::string> languages();  // "de", "en": words-*.yaml

// The words of a language; those of English for one that is not known.
const Words& words_of(const std::string& language);
inline const Words& english_words() { return words_of("en"); }

// Every placeholder that some language uses in this text.
const std::vector<std::string>& known_placeholders(const std::string& key);

}  // namespace dogear
