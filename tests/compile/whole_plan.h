#pragma once
// A pattern of tests/ or patterns/ taken through all stages.

#include <catch2/catch.hpp>

#include "compile/compile.h"
#include "diag/print.h"
#include "support/project.h"

namespace dogear::test {

inline Plan whole_plan(const std::string& folder) {
  const DiskFiles disk;
  Session session(disk);
  auto plan = make_plan(test::project_folder() + '/' + folder, session);
  INFO(print_for_people(session.diagnostics, session.sources, false));
  REQUIRE(plan);
  return std::move(*plan);
}

}  // namespace dogear::test
