#pragma once
// The quantities as lists to read, to open in a spreadsheet or to hand to another program.

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "compile/plan.h"

namespace dogear {

// A count or a text; an empty text where there is nothing to say. Lengths are texts, "2 1/2 in".
using Cell = std::variant<std::string, long long>;

struct List {
  std::string name;                     // "pieces"
  std::vector<std::string> columns;     // "cut along"
  std::vector<std::vector<Cell>> rows;  // each as wide as `columns`
  bool to_tick = false;                 // people get a box before each row
};

// Lists that are printed together: those of a size, or of the pattern as a whole.
struct ListGroup {
  std::optional<std::size_t> size;  // Pattern::sizes
  std::string title;                // of a group without a size: "Kits"
  std::vector<List> lists;          // empty ones are left out
};

// The lists of a size, empty ones left out: quilt, fabrics, pieces, strip sets, batches,
// foundations, strips, grain, tips, finishing, rulers.
std::vector<List> quantity_lists(const Plan& plan, std::size_t size);

// What a part of a size takes (plan_part): pieces, strip sets, batches, foundations, strips,
// cloth; empty ones are kept, so that parts can be joined list by list.
std::vector<List> part_lists(const Plan& plan, const SizeQuantities& part);

enum class ListFormat { text, csv, json, markdown };
std::optional<ListFormat> list_format(std::string_view name);

// CSV as in RFC 4180: one table whose first columns are the size (blank for the pattern as a whole)
// and the list, and whose others are those of all lists together. JSON: the lists of the whole
// beside the array of sizes.
std::string print_lists(const Pattern& pattern, const std::vector<ListGroup>& groups,
                        ListFormat format);

// The quantity lists of the given sizes (indices of Pattern::sizes).
std::string print_quantities(const Plan& plan, const std::vector<std::size_t>& sizes,
                             ListFormat format);

}  // namespace dogear
