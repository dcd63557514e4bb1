#pragma once
// What is tried with bytes of any kind: each target takes them as one input and aborts, with a line
// that says why, where a promise of the library is broken.

#include <map>
#include <string>
#include <string_view>

namespace dogear::fuzz {

void try_yaml(std::string_view bytes);
void try_length(std::string_view bytes);
void try_markdown(std::string_view bytes);  // and its tags
void try_template(std::string_view bytes);
void try_ledger(std::string_view bytes);
// A whole pattern in memory, from source to pages. The bytes are files, each after a line
// "=== PATH"; they stand in for those of a small pattern, and what comes before the first such line
// is its pattern.yaml.
void try_compile(std::string_view bytes);

// All by name: "yaml", "length", ...
const std::map<std::string, void (*)(std::string_view)>& targets();

}  // namespace dogear::fuzz
