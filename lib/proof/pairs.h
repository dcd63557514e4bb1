#pragma once
// Pictures of one state set beside those of another.

#include <string>
#include <vector>

#include "proof/state.h"

namespace dogear::proof {

// Pages that say the same beside each other, in order; one of a pair may be missing.
struct PagePair {
  const Picture* was = nullptr;
  const Picture* now = nullptr;
};
std::vector<PagePair> pair_pages(const std::vector<Picture>& was, const std::vector<Picture>& now);

// Whether two pages differ in nothing but what runs along their edges, such as the page's number.
bool same_within(const Picture& was, const Picture& now, const canvas::FontSet& fonts);

// A figure that changed, came or went, alike in all of `sizes` (titles).
struct FigurePair {
  const Picture* was = nullptr;
  const Picture* now = nullptr;
  std::vector<std::string> sizes;
  const Picture& either() const { return now != nullptr ? *now : *was; }
};
std::vector<FigurePair> changed_figures(const State& was, const State& now);

}  // namespace dogear::proof
