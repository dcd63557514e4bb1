#pragma once
// What is printed from the tables of keys: JSON Schemas for editors, and the manual's reference.

#include <string>
#include <string_view>
#include <vector>

#include "source/keys.h"

namespace dogear {

// A kind of source file.
struct SourceKind {
  std::string name;   // "block"
  std::string files;  // "blocks/NAME.yaml"
  const KeyTable& (*table)();
};

const std::vector<SourceKind>& source_kinds();
const SourceKind* find_source_kind(std::string_view name);  // nullptr where there is none
std::string list_source_kinds();                            // a line each

// The tables that a file of this kind may use, its own first, in the order in which they are met.
std::vector<const KeyTable*> tables_of(const SourceKind& kind);

// A JSON Schema (draft 2020-12). It takes what the strict reader takes, whether an editor gives
// numbers and `yes` as texts or as values of their own kind.
std::string schema_of(const SourceKind& kind);

// tools/dogear/manual/keys.md
std::string keys_as_markdown();

}  // namespace dogear
