#pragma once
// Strict reading of YAML maps: every key is asked for, what is left over is an error.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/length.h"
#include "diag/diagnostics.h"
#include "source/node.h"

namespace dogear {

class MapReader {
 public:
  // `what` completes "a fabric has no ...": "a fabric", "the pattern".
  MapReader(const Node& node, std::string what, Diagnostics& diagnostics);

  bool ok() const { return ok_; }          // false when the node is no map (an error was added)
  const Node* may(std::string_view key);   // nullptr when absent
  const Node* need(std::string_view key);  // adds D102 when absent
  // Adds D101 for each key nobody asked for, with the nearest known key.
  void finish();
  const Node& node() const { return node_; }

  std::string text(std::string_view key, std::string otherwise);
  std::string need_text(std::string_view key);
  Exact length(std::string_view key, Exact otherwise);
  // Also refuses what lies below `least` or above `most`, inches.
  Exact length(std::string_view key, Exact otherwise, const Exact& least, const Exact& most);
  std::optional<Exact> need_length(std::string_view key);
  long long whole(std::string_view key, long long otherwise, long long least, long long most);
  bool yes(std::string_view key, bool otherwise);

 private:
  const Node& node_;
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
