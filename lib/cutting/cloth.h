#pragma once
// The cloth of one fabric: what is cut from which source, what is bought, what is left, and the
// least that could be bought.

#include <optional>
#include <utility>
#include <vector>

#include "cutting/one_way.h"
#include "cutting/quantities.h"
#include "cutting/strips.h"

namespace dogear {

// What one fabric must give.
struct ClothWants {
  FabricId fabric = 0;
  std::vector<StripDemand> demands;
  std::vector<CutFamily> families;  // of directional prints
  // Strips cut along the length of the cloth.
  struct Along {
    PieceId piece = 0;
    Fraction width, length;
    long long count = 0;
    Span span = {};
  };
  std::vector<Along> along;
  long long effort = 2000;  // stock::Problem::effort
};

struct ClothPlan {
  std::vector<StripPlan> strips;
  FabricNeed need;  // all but its uses
  // What is left beside strips along the length, below the last strip cut across it.
  std::vector<std::pair<Fraction, Fraction>> rests;  // height along the cloth's length, length
  long long short_by = 0;                            // sheets that the last source does not have
  std::vector<Strip> find_none;                      // the strips that were to be cut from those
};

// `cuts` by PieceId. Errors: D503 a piece longer than every source, D505 one higher than every
// strip, D504 a plan that does not hold what it must (a fault of ours).
std::optional<ClothPlan> plan_cloth(const Pattern& pattern, const Piecing& piecing,
                                    const std::vector<PieceCut>& cuts, const ClothWants& wants,
                                    Diagnostics& diagnostics);

// What would fit if no ends were squared.
std::string strip_ends_hint(const Exact& ends, const char* key);

// Inches of cloth to buy for inches cut into strips, every allowance by itself.
struct WithAllowances {
  Exact squaring, shrinkage, margin;
  Exact all;  // the strips and these
};
WithAllowances with_allowances(const Allowances& allowances, const Exact& length,
                               const Exact& tallest);

}  // namespace dogear
