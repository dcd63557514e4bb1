#pragma once
// What a designer says about the order of sewing a unit or block.

#include <cstddef>
#include <optional>
#include <vector>

#include "diag/diagnostics.h"

namespace dogear {

enum class SeamKind {
  straight,  // from edge to edge
  partial,   // sewn from one end and left open before the other
  finish,    // the open end of a partial seam, sewn later
  set_in,    // turns at one corner or more
  stopped,   // a mitred border: from allowance to allowance, both ends left open
  mitre      // of two mitred borders, once both are on: from the inside corner out
};

// One line of `sew:`, such as `1 + 2` or `3 + 1, set in`.
struct SewLine {
  std::vector<std::size_t> parts;  // counted from 0 in the order in which they are written
  SeamKind kind = SeamKind::straight;
  Span span;
};

struct SewingWish {
  std::vector<SewLine> lines;   // empty: the order is found
  std::optional<bool> columns;  // `sew: columns` or `sew: rows`
  bool set_in = false;          // `set-in: yes`
  Span span;
};

}  // namespace dogear
