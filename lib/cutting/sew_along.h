#pragma once
// A size sewn in parts, month by month, as Pattern::schedule says.
//
// Each month is cut by itself: its blocks (or the assembly, or the finishing) take strips of their
// own. So the months together may take more cloth than the plan of the whole, and more sheets of a
// bundle; both are counted.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "cutting/quantities.h"
#include "piecing/some_blocks.h"

namespace dogear {

struct MonthPlan {
  std::size_t month = 0;           // Pattern::schedule
  std::vector<BlockCount> blocks;  // those that this size has
  SizeSewing sewing;
  // Pieces, strips and cloth of this month; `yards` is what to buy if it is bought by itself.
  SizeQuantities cut;
};

struct ClothByMonth {
  FabricId fabric = 0;
  long long sheets_at_once = 0, sheets_by_month = 0;  // of bundles, fat quarters, ...
  long long sheets_had = 0;                           // 0: as many as are needed
  Exact inches_at_once, inches_by_month;              // cut into strips, without allowances
  std::optional<Fraction> at_once;                    // yards to buy for the plan of the whole
  std::optional<Fraction> cut_by_month;               // bought at once, cut month by month
  std::optional<Fraction> bought_by_month;            // each month's cloth rounded up by itself
};

struct SewAlong {
  std::vector<MonthPlan> months;    // as many as in the schedule
  std::vector<ClothByMonth> cloth;  // in order of use
};

// Error D504 where the months do not add up to the size (a fault of ours).
std::optional<SewAlong> plan_sew_along(const CheckedPattern& checked, const Piecing& piecing,
                                       const Quantities& quantities, std::size_t size,
                                       Diagnostics& diagnostics);

// Whether this size has something to make, sew together or finish in that month.
bool has_work(const Instalment& month, const SizeSewing& sewing, const SizeQuantities& quantities);

// The months with work as facts of a size, "month.1.title" -> "January", "month.1.lantern.count" ->
// "2", "month.3.assembly" -> "yes"; none without a schedule.
void add_month_facts(const Pattern& pattern, const SizeSewing& sewing,
                     const SizeQuantities& quantities, std::map<std::string, std::string>& facts);

// Warning D676: cut month by month, the sheets of a fabric run out.
void check_sew_along(const CheckedPattern& checked, const Piecing& piecing,
                     const Quantities& quantities, Diagnostics& diagnostics);

}  // namespace dogear
