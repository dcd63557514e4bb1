#pragma once
// What the tests against facts of the trade start from.

#include "model/pattern.h"

namespace dogear::test {

inline Fraction f(int num, int den = 1) { return Fraction::of(num, den); }

// Seams of 1/4 in, cloth of 42 in, and a straight ruler with eighths.
inline Pattern plain_pattern() {
  Pattern p;
  p.seam_allowance = Exact::ratio(1, 4);
  p.usable_width = 42;
  p.rulers.push_back(
      {"straight", "ruler", 90, false, Exact::ratio(1, 2), Exact(24), Exact::ratio(1, 8), {}});
  return p;
}

}  // namespace dogear::test
