#include "compile/lines_of.h"

#include <algorithm>
#include <map>
#include <vector>

#include "base/text.h"
#include "compile/compare.h"
#include "compile/compare_words.h"
#include "source/node.h"

namespace dogear {

namespace {

struct Said {
  FactName name;
  std::map<std::string, std::string> by_part;
};

void add_lines(const Node& node, const std::string& place, std::string& out) {
  if (node.kind == Node::Kind::list) {
    std::size_t n = 0;
    for (const Node& item : node.items) {
      add_lines(item, place + (place.empty() ? "" : " > ") + std::to_string(++n), out);
    }
  } else if (node.kind == Node::Kind::map) {
    for (const Entry& entry : node.entries) {
      add_lines(entry.node(), place + (place.empty() ? "" : " > ") + one_line(entry.key), out);
    }
  }
  const bool empty = node.items.empty() && node.entries.empty();
  if (empty) out += place + ": " + one_line(node.text) + '\n';
}

}  // namespace

std::optional<std::string> lines_of_ledger(std::string_view text, std::string& error) {
  const auto side = side_of_ledger("", text, error);
  if (!side) return std::nullopt;
  // By the order in which kinds of facts matter, then by name.
  std::map<std::string, std::map<std::pair<FactKind, std::string>, Said>> sizes;
  std::map<std::string, std::string> titles;
  for (const auto& [full, value] : side->facts) {
    const auto [size, name] = split_size(full);
    FactName read = read_fact_name(name);
    if (read.kind == FactKind::title) titles[size] = value;
    Said& said = sizes[size][{read.kind, read.group}];
    said.by_part[read.part] = value;
    if (said.by_part.size() == 1) said.name = std::move(read);
  }
  std::string out;
  for (const auto& [size, groups] : sizes) {
    const std::string head = titles.contains(size) ? titles[size] + " (" + size + ')' : size;
    for (const auto& [key, said] : groups) {
      out += head + ", " + subject_words(said.name, {}) + ": " +
             value_words(said.name, said.by_part) + '\n';
    }
  }
  return out;
}

std::optional<std::string> lines_of_yaml(const std::string& file, const std::string& text,
                                         Diagnostics& diagnostics) {
  const auto root = read_yaml(file, text, diagnostics);
  if (!root) return std::nullopt;
  std::string out;
  add_lines(*root, "", out);
  return out;
}

}  // namespace dogear
