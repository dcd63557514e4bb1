// Inputs that fuzzing kept, tried again by every build: those of the corpus, and those that once
// broke a promise.

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

#include "fuzz/targets.h"
#include "support/pattern_files.h"
#include "support/project.h"

namespace {

namespace fs = std::filesystem;

std::vector<fs::path> inputs(const fs::path& folder) {
  std::vector<fs::path> out;
  for (const auto& entry : fs::directory_iterator(folder)) out.push_back(entry.path());
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace

// A broken promise or a crash ends the test program, which the test's name and the last input told
// lead to.
TEST_CASE("inputs kept from fuzzing keep every promise") {
  const fs::path root = dogear::test::project_folder() + "/tests/fuzz/inputs";
  for (const auto& [name, target] : dogear::fuzz::targets()) {
    const auto all = inputs(root / name);
    CHECK_FALSE(all.empty());
    for (const fs::path& path : all) {
      UNSCOPED_INFO(path.string());
      target(dogear::test::whole_file(path));
    }
  }
  for (const fs::path& folder : inputs(root))
    CHECK(dogear::fuzz::targets().count(folder.filename().string()) == 1);
}
