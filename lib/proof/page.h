#pragma once
// Before and after a change, as one web page that needs nothing else: for a reviewer without
// dogear.
//
// The page asks nothing of any network, runs no script, and its policy allows neither. The markup
// is well-formed XML. Same input, same bytes.

#include <optional>
#include <string>

#include "compile/compare.h"
#include "proof/state.h"

namespace dogear::proof {

// One side: its state, and what was said of it as HTML (messages_html).
struct Side {
  std::string name;  // "HEAD", "patterns/harbor-lights"
  State state;
  bool there = true;       // false: there was no pattern
  std::size_t errors = 0;  // said of it
  std::string messages;
};

struct ProofPage {
  Side was, now;
  std::optional<Comparison> comparison;  // where both sides are planned
};

// What the page shows, in a sentence: "Nothing differs."
std::string summary(const ProofPage& page, const canvas::FontSet& fonts);

std::string to_html(const ProofPage& page, const canvas::FontSet& fonts);

}  // namespace dogear::proof
