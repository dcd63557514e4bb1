// What the documents show must work, and the files they name must be there.

#include <catch2/catch.hpp>
#include <filesystem>
#include <regex>

#include "compile/compile.h"
#include "diag/print.h"
#include "support/pattern_files.h"

using namespace dogear;

namespace {

const std::filesystem::path root = DOGEAR_ROOT;

std::vector<std::string> yaml_blocks(const std::string& markdown) {
  std::vector<std::string> out;
  const std::string open = "```yaml\n";
  for (auto at = markdown.find(open); at != std::string::npos; at = markdown.find(open, at + 1)) {
    const auto from = at + open.size();
    out.push_back(markdown.substr(from, markdown.find("```", from) - from));
  }
  return out;
}

}  // namespace

TEST_CASE("the first pattern of the README compiles without a word") {
  const auto blocks = yaml_blocks(test::whole_file(root / "README.md"));
  REQUIRE(blocks.size() == 2);
  test::PatternFiles files;
  files.content["my-stars/blocks/pinwheel.yaml"] = blocks[0];
  files.content["my-stars/pattern.yaml"] = blocks[1];
  Session session(files);
  const auto fonts = load_fonts(session, canvas::FontPaths::debian());
  REQUIRE(fonts);
  const auto booklets = compile("my-stars", {}, *fonts, session);
  INFO(print_for_people(session.diagnostics, session.sources, false));
  REQUIRE(booklets);
  CHECK(session.diagnostics.all().empty());
  CHECK(booklets->outputs.size() == 1);
}

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
