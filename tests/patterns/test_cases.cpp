// Every case of cases/: the messages that come are those the case expects, no more and no fewer.

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>

#include "case.h"
#include "compile/compile.h"
#include "support/fonts.h"
#include "support/pattern_files.h"
#include "support/project.h"

using namespace dogear;
using namespace dogear::test;

namespace fs = std::filesystem;

namespace {

const fs::path here = fs::path(test::project_folder()) / "tests" / "patterns";

std::set<fs::path> case_paths() {
  std::set<fs::path> paths;
  for (const auto& entry : fs::directory_iterator(here / "cases")) paths.insert(entry.path());
  return paths;
}

}  // namespace

TEST_CASE("cases give the messages they expect") {
  REQUIRE(case_paths().size() >= 30);
  for (const fs::path& path : case_paths()) {
    DYNAMIC_SECTION(path.filename().string()) {
      const Case read = read_case(whole_file(path), (here / "base").string());
      PatternFiles files;
      for (const auto& [name, text] : read.files) files.content[case_folder + '/' + name] = text;

      Session session(files);
      const auto booklets = compile(case_folder, {}, test_fonts(), session);
      settle(session, true);
      INFO("what came, as a case file spells it:\n" << as_expected(session.diagnostics));
      if (std::getenv("DOGEAR_UPDATE") != nullptr &&
          !compare(read.expected, session.diagnostics).empty()) {
        const std::string old = whole_file(path);
        const auto from = old.find("\n===");
        std::ofstream(path) << (from == std::string::npos ? old + "\n" : old.substr(0, from + 1))
                            << as_expected(session.diagnostics);
      }
      CHECK(compare(read.expected, session.diagnostics) == "");
      CHECK(booklets.has_value() != session.diagnostics.has_errors());
    }
  }
}
