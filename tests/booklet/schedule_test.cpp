// The section of a sew-along, and the order in which fabrics are asked for.

#include <catch2/catch.hpp>

#include "help.h"
#include "support/project.h"

using namespace dogear;

namespace {

MemoryFiles months() {
  MemoryFiles files;
  const DiskFiles disk;
  const std::string base = test::project_folder() + "/tests/patterns/base/months/";
  std::string error;
  for (const std::string name : {"pattern.yaml", "blocks/four.yaml"}) {
    files.content["p/" + name] = disk.read(base + name, error).value();
  }
  return files;
}

std::string booklet_words(const MemoryFiles& files) {
  const auto made = help::compile("p", files);
  Diagnostics d;
  const auto document = set_booklet(made->scene(), 0, help::letter(), d);
  REQUIRE(document);
  return help::running_words(*document);
}

void change(MemoryFiles& files, const std::string& before, const std::string& after) {
  std::string& text = files.content.at("p/pattern.yaml");
  const std::size_t at = text.find(before);
  REQUIRE(at != std::string::npos);
  text.replace(at, before.size(), after);
}

bool stand_in_order(const std::string& text, const std::vector<std::string>& words) {
  std::size_t at = 0;
  for (const std::string& word : words) {
    at = text.find(word, at);
    if (at == std::string::npos) {
      UNSCOPED_INFO("not in its place: " << word);
      return false;
    }
    at += word.size();
  }
  return true;
}

}  // namespace

TEST_CASE("a schedule is printed month by month, with cuts and cloth") {
  const std::string words = booklet_words(months());
  CHECK(stand_in_order(words, {"Schedule",
                               "January",
                               "First.",
                               "Make 2.",
                               "Second.",
                               "Make 2.",
                               "Cream",
                               "1 strip of 2 1/2 in",
                               "4 A1",
                               "Ink",
                               "1 strip of the bundle",
                               "8 A3",
                               "February",
                               "into the top",
                               "March",
                               "Finish the quilt: binding.",
                               "Plum",
                               "2 strips of 2 1/2 in",
                               "binding",
                               "1/4 yd",
                               "Fabric over all months",
                               "Plum",
                               "1/4 yd",
                               "1/4 yd",
                               "3/8 yd",
                               "Of the bundles: Ink 1 at once, 1 month by month."}));
}

TEST_CASE("a schedule is printed only where the booklet has the section") {
  MemoryFiles files = months();
  change(files, "requirements, schedule, cutting", "requirements, cutting");
  CHECK(booklet_words(files).find("January") == std::string::npos);
  // A booklet without a list of its own has every section that there is something for.
  files = months();
  change(files, "booklet: [cover, requirements, schedule, cutting, blocks, assembly, finishing]",
         "");
  CHECK(booklet_words(files).find("January") != std::string::npos);
  change(files, "schedule:\n", "");
  change(files, "  - {month: January, blocks: [first, second]}\n", "");
  change(files, "  - {month: February, assembly: yes}\n", "");
  change(files, "  - {month: March, finishing: yes}\n", "");
  CHECK(booklet_words(files).find("Schedule") == std::string::npos);
}

TEST_CASE("fabrics are asked for by number, with their use in parentheses") {
  // Better Homes & Gardens: each fabric's use in parentheses.
  MemoryFiles files = months();
  change(files, "assembly, finishing]", "assembly, finishing, back]");
  const std::string words = booklet_words(files);
  CHECK(stand_in_order(words, {"Fabric requirements", "(blocks)", "(blocks, binding)"}));
  const std::size_t back = words.rfind("Fabric requirements");
  CHECK(stand_in_order(words.substr(back), {"(blocks)", "(blocks, binding)"}));
}
