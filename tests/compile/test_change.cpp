// One number changes in one line; everything that follows from it changes, and nothing else does.

#include <catch2/catch.hpp>

#include "base/text.h"
#include "compile/compile.h"
#include "cutting/quantities.h"
#include "diag/print.h"
#include "support/page_text.h"
#include "support/pattern_files.h"
#include "support/project.h"

using namespace dogear;

namespace {

struct Made {
  std::map<std::string, std::string> facts;
  std::string quilt;  // the figure
  std::string text;   // of the booklet
};

Made make(const std::string& unit) {
  test::PatternFiles files;
  files.add(test::project_folder() + "/patterns/tide-star", "tide-star");
  std::string& block = files.content["tide-star/blocks/sawtooth.yaml"];
  const auto at = block.find("unit: 3 in");
  REQUIRE(at != std::string::npos);
  block.replace(at, 10, "unit: " + unit);
  Session session(files);
  const auto fonts = load_fonts(session, canvas::FontPaths::debian());
  REQUIRE(fonts);
  const auto plan = make_plan("tide-star", session);
  INFO(print_for_people(session.diagnostics, session.sources, false));
  REQUIRE(plan);
  Made out;
  out.facts = facts(plan->checked, plan->piecing, plan->quantities, 0);
  out.quilt = *draw(*plan, 0, "quilt", *fonts, session.diagnostics);
  Options options;
  options.size = "throw";
  const auto pages = set_pages(*plan, options, *fonts, session);
  REQUIRE(pages);
  for (const canvas::Page& page : pages->front().document.pages)
    test::read_text(page.content, out.text);
  return out;
}

}  // namespace

TEST_CASE("a block resized in one line takes cuts, cloth, figures and text with it") {
  const Made before = make("3 in");
  const Made same = make("3 in");
  const Made after = make("4 in");
  CHECK(before.facts == same.facts);
  CHECK(before.quilt == same.quilt);
  CHECK(before.text == same.text);

  const std::map<std::string, std::pair<std::string, std::string>> changed{
      // 3 x 12 or 16, sashing 4 x 2, borders 2 x 5
      {"size.width", {"54 in", "66 in"}},
      {"block.coral-star.finished-width", {"12 in", "16 in"}},
      {"block.coral-star.unfinished-height", {"12 1/2 in", "16 1/2 in"}},
      {"backing.width", {"62 in", "74 in"}},
  };
  for (const auto& [name, values] : changed) {
    INFO(name);
    CHECK(before.facts.at(name) == values.first);
    CHECK(after.facts.at(name) == values.second);
  }
  // Cuts go by their measure: half-square triangles from finished + 7/8, corners from + 1/2.
  for (const std::string cut :
       {"cut.coral.3-7/8.half-square-triangle", "cut.shell.3-1/2.square-3-1/2",
        "cut.sand.2-1/2.rectangle-12-1/2"}) {
    CHECK(before.facts.contains(cut));
    CHECK_FALSE(after.facts.contains(cut));
  }
  for (const std::string cut :
       {"cut.coral.4-7/8.half-square-triangle", "cut.shell.4-1/2.square-4-1/2",
        "cut.sand.2-1/2.rectangle-16-1/2"}) {
    CHECK(after.facts.contains(cut));
  }
  // What does not follow from the size stays: how many of everything, the cornerstones, the words.
  for (const auto& [name, value] : before.facts) {
    const bool count = starts_with(name, "make.") || name.ends_with(".count") ||
                       name == "cut.coral.2-1/2.square-2-1/2" || name == "size.title" ||
                       name == "binding.width" || starts_with(name, "ruler.");
    if (!count) continue;
    INFO(name);
    REQUIRE(after.facts.contains(name));
    CHECK(after.facts.at(name) == value);
  }
  CHECK(before.quilt != after.quilt);
  CHECK(before.text.find("54 in") != std::string::npos);
  CHECK(after.text.find("54 in") == std::string::npos);
  CHECK(after.text.find("66 in") != std::string::npos);
  CHECK(before.facts.size() > 60);
}
