#pragma once
// Which line of the source brought a change about.

#include "compile/compare.h"

namespace dogear {

// At most this many changes of the source are tried, each in a compilation of its own.
inline constexpr std::size_t most_tried = 40;

// Fills in the causes where both sides have sources. Each changed line is applied alone to the old
// source: a change has a line for its cause if that line alone brings it about, and no other does.
// Where no line does, neighbouring lines are tried together.
void find_causes(Comparison& comparison, const ComparedSide& was, const ComparedSide& now);

}  // namespace dogear
