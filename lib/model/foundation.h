#pragma once
// What a designer says about piecing a unit on a paper foundation.

#include <optional>
#include <vector>

#include "base/exact.h"
#include "diag/diagnostics.h"

namespace dogear {

// `foundation: yes`, or `foundation: [2, 1, 3]`: parts in the order in which they are sewn on.
struct FoundationWish {
  struct Part {
    std::size_t number = 0;  // counted from 0 as the parts are written
    Span span;
  };
  std::vector<Part> order;         // empty: it is found
  std::optional<Exact> allowance;  // cloth cut beyond the finished patch; else the pattern's
  Span span;
};

}  // namespace dogear
