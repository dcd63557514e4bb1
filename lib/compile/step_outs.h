#pragma once
// The samples of a class: of every block one frozen at each step, so that all stages lie side by
// side. A sample of step k holds what is sewn by then and nothing more.

#include <optional>
#include <vector>

#include "compile/lists.h"

namespace dogear {

struct Sample {
  std::size_t use = 0;   // Pattern::uses
  std::size_t step = 0;  // of the block, from 1
  UnitId unit = 0;
  long long pieces = 0;  // patches in it
};

// Block by block in order of use, step by step. A unit that an earlier block makes as well has its
// sample there.
std::vector<Sample> samples(const Plan& plan, std::size_t size);

// What all samples take, planned like a size of its own. Of bundles and sheets as many as it takes.
std::optional<SizeQuantities> plan_samples(const Plan& plan, std::size_t size,
                                           const std::vector<Sample>& samples,
                                           Diagnostics& diagnostics);

// samples, bundles, then the lists of that plan.
std::optional<std::vector<List>> step_out_lists(const Plan& plan, std::size_t size,
                                                Diagnostics& diagnostics);

}  // namespace dogear
