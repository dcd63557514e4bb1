#pragma once
// The lines of the described rulers: where a measure can be read, and what lies next to it.

#include <vector>

#include "model/pattern.h"

namespace dogear {

// How far apart the lines of the finest straight ruler are; 1/8 in when none is described.
Exact straight_step(const Pattern& pattern);

// The multiple of `step` (a plain fraction) not below, or not above, a measure.
Fraction line_up(const Exact& measure, const Exact& step);
Fraction line_down(const Exact& measure, const Exact& step);

// The measure as a cut list prints it: up to the next 1/8 in, to 1/16 in where that would be more
// than 1/32 off, and always on a line that a ruler with such a step has.
Fraction printed_line(const Exact& measure, const Exact& step);
// The same without 1/16: for squares that are cut large and trimmed.
Fraction trimmed_line(const Exact& measure, const Exact& step);

// The lines next below and above, first those that the ruler has, then eighths of an inch; none
// twice, none below `least`.
std::vector<Fraction> lines_beside(const Exact& measure, const Exact& step, const Exact& least);

// "1/32 in", "about 3/64 in", "less than 1/64 in": what rounding costs, without a sign.
std::string small_inches(double inches);

}  // namespace dogear
