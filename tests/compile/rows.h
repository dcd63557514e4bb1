#pragma once
// Lists looked into by name.

#include <catch2/catch.hpp>

#include "base/text.h"
#include "compile/lists.h"

namespace dogear::test {

inline const List& list_named(const std::vector<List>& lists, const std::string& name) {
  for (const List& list : lists) {
    if (list.name == name) return list;
  }
  FAIL("no list " << name);
  return lists.front();
}

inline bool has_list(const std::vector<List>& lists, const std::string& name) {
  for (const List& list : lists) {
    if (list.name == name && !list.rows.empty()) return true;
  }
  return false;
}

// "2 | Brass": the cells of a row.
inline std::string row(const List& list, std::size_t n) {
  REQUIRE(n < list.rows.size());
  std::vector<std::string> cells;
  for (const Cell& cell : list.rows[n]) {
    const auto* count = std::get_if<long long>(&cell);
    cells.push_back(count != nullptr ? std::to_string(*count) : std::get<std::string>(cell));
  }
  return join(cells, " | ");
}

inline Cell cell(const List& list, std::size_t n, const std::string& column) {
  REQUIRE(n < list.rows.size());
  for (std::size_t c = 0; c < list.columns.size(); ++c) {
    if (list.columns[c] == column) return list.rows[n][c];
  }
  FAIL("no column " << column << " in " << list.name);
  return {};
}

}  // namespace dogear::test
