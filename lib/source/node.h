#pragma once
// A YAML document as a tree with a span on every node and every key.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "diag/diagnostics.h"

namespace dogear {

struct Node;

struct Entry {
  std::string key;
  Span key_span;
  std::vector<Node> value;  // exactly one; a vector only because Node is incomplete here
  const Node& node() const { return value.front(); }
};

struct Node {
  enum class Kind { null, scalar, list, map };
  Kind kind = Kind::null;
  Span span;
  std::string text;            // scalar
  bool quoted = false;         // scalar written in quotes
  std::vector<Node> items;     // list
  std::vector<Entry> entries;  // map, in source order

  const Entry* find(std::string_view key) const;  // nullptr when absent
  const char* kind_name() const;                  // "a text", "a list", "a map", "nothing"
};

// Reads exactly one YAML document: strict UTF-8, no aliases or anchors, no tags, no duplicate
// keys, bounded size (1 MiB) and depth (40). Nothing is returned if and only if an error is added.
std::optional<Node> read_yaml(const std::string& file, const std::string& text,
                              Diagnostics& diagnostics);

}  // namespace dogear
