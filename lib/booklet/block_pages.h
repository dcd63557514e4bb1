#pragma once
// Which blocks share a page, and at which scale their figures are drawn. Heights in pt.

#include <cstddef>
#include <functional>
#include <vector>

namespace dogear::booklet {

// How far down each row of an entry reaches from the entry's top, where a page may break behind it.
using Reach = std::vector<double>;
using ReachAt = std::function<Reach(std::size_t entry, double scale)>;  // never empty

struct BlockPages {
  double height = 0;          // of a page
  double begun = 0;           // of the first page, taken by what stands above
  double apart = 0;           // between two entries
  std::vector<bool> compact;  // by entry: nothing to sew, which fills no page by itself
};

// Consecutive entries on one page, or on as many as the first of them needs.
struct BlockPage {
  std::size_t begin = 0, end = 0;  // entries
  double scale = 0;                // pt an inch
  double spare = 0;                // left empty on the first page
  bool runs_on = false;            // over more pages than one
};

std::vector<BlockPage> plan_block_pages(const BlockPages& pages, const ReachAt& reach);

}  // namespace dogear::booklet
