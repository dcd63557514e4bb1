#pragma once
// The sewing steps as names and values, so that they are compared as the quantities are.

#include <map>
#include <string>

#include "compile/plan.h"

namespace dogear {

// "lap steps.lantern.order" -> "ray, half"; "lap steps.lantern.ray.parts" -> what it is sewn from;
// "lap steps.lantern.ray.pressing" -> each seam in its order; "lap steps.lantern.figure" -> a
// number for how the block looks; "lap steps.assembly.layout" -> its blocks. Nothing depends on a
// letter.
std::map<std::string, std::string> step_facts(const Plan& plan);

}  // namespace dogear
