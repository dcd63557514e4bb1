#pragma once
// The schedule of a sew-along as lists: what is made, cut and bought in each month.

#include <optional>
#include <vector>

#include "compile/lists.h"

namespace dogear {

// schedule (each month with its work), those of each part with a column for the month, and cloth
// over all months beside the plan of the whole. Nothing is listed of a pattern without a schedule.
std::optional<std::vector<List>> schedule_lists(const Plan& plan, std::size_t size,
                                                Diagnostics& diagnostics);

}  // namespace dogear
