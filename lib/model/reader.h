#pragma once
// Strict reading of YAML maps: every key is asked for, what is left over is an error. What may be
// asked for, with its defaults and limits, stands in a table of keys; asking for anything else is a
// fault of the program.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/length.h"
#include "diag/diagnostics.h"
#include "source/keys.h"
#include "source/node.h"

namespace dogear {

class MapReader {
 public:
  // `what` completes "the fabric `ink` has no ..."; otherwise the table's own words do.
  MapReader(const Node& node, const KeyTable& table, std::string what, Diagnostics& diagnostics);
  MapReader(const Node& node, const KeyTable& table, Diagnostics& diagnostics)
      : MapReader(node, table, table.what, diagnostics) {}

  bool ok() const { return ok_; }         // false when the node is no map (an error was added)
  const Node* may(std::string_view key);  // nullptr when absent
  // Adds D102 when absent, D101 where another key looks like it.
  const Node* need(std::string_view key);
  // Adds D101 for each key nobody asked for, with the nearest known key.
  void finish();
  const Node& node() const { return node_; }
  const Key& key(std::string_view name) const;  // of the table; throws where it has none

  // Each gives the table's default, or `otherwise`, where the key is absent or wrong. What lies
  // beyond the table's limits is an error.
  std::string text(std::string_view key);
  std::string text(std::string_view key, std::string otherwise);
  std::string need_text(std::string_view key);
  Exact length(std::string_view key);
  Exact length(std::string_view key, const Exact& otherwise);
  std::optional<Exact> need_length(std::string_view key);
  long long whole(std::string_view key);
  bool yes(std::string_view key);
  // Which of the table's words it is; nothing where it is another, or absent without a default.
  std::optional<std::size_t> choice(std::string_view key);

 private:
  void unknown(const Entry& entry, std::vector<std::string> known);  // adds D101
  std::optional<Exact> read_limited(const Key& key, const Node& node);

  const Node& node_;
  const KeyTable& table_;
  std::string what_;
  Diagnostics& diagnostics_;
  std::vector<std::string> asked_;
  bool ok_ = true;
};

// Reading of single nodes; each adds one error and returns nothing (or "") when it cannot.
std::optional<std::string> read_text(const Node& node, std::string_view what, Diagnostics& d);
std::optional<Exact> read_length(const Node& node, Diagnostics& d, bool may_be_zero = false);
std::optional<long long> read_whole(const Node& node, long long least, long long most,
                                    Diagnostics& d);
// The items of a list; a single scalar is not taken for a list.
const std::vector<Node>* read_list(const Node& node, std::string_view what, Diagnostics& d);

// "there is no fabric called «x»" with the nearest known name as hint.
void unknown_name(const std::string& code, const Span& span, std::string_view kind,
                  std::string_view name, const std::vector<std::string>& known, Diagnostics& d);

}  // namespace dogear
