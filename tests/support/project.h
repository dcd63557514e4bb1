#pragma once
#include <string>

namespace dogear::test {

// Known to one source file alone, so that what was compiled in one copy of the project serves
// another.
std::string project_folder();

}  // namespace dogear::test
