// What the documents show must work, and the files they name must be there.

#include <catch2/catch.hpp>
#include <filesystem>
#include <regex>

#include "compile/compile.h"
#include "diag/print.h"
#include "support/pattern_files.h"
#include "support/project.h"

using namespace dogear;

namespace {

const std::filesystem::path root = test::project_folder();

}  // namespace

TEST_CASE("the documents name files that are there") {
  const std::regex named(
      "(?:`|\\()((?:lib|tools|tests|templates|patterns)/[A-Za-z0-9_./-]+)(?:`|\\))");
  int seen = 0;
  for (const std::string document : {"README.md", "DEVELOPERS.md"}) {
    const std::string text = test::whole_file(root / document);
    for (std::sregex_iterator it(text.begin(), text.end(), named), end; it != end; ++it) {
      const std::string path = (*it)[1];
      // What a reader is told to make, and what a build leaves.
      if (path.starts_with("patterns/my-stars") || path.starts_with("patterns/out")) continue;
      INFO(document << " names " << path);
      CHECK(std::filesystem::exists(root / path));
      ++seen;
    }
  }
  CHECK(seen > 15);
}
