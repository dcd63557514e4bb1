#pragma once
// What every output is made from: a pattern that fits, how it is sewn, what is cut and bought.

#include "cutting/quantities.h"

namespace dogear {

struct Plan {
  CheckedPattern checked;
  Piecing piecing;
  Quantities quantities;
  const Pattern& pattern() const { return checked.pattern; }
};

}  // namespace dogear
