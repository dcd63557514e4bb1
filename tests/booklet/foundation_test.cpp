// What a booklet says of units that are pieced on paper.

#include <algorithm>
#include <catch2/catch.hpp>

#include "canvas/font.h"
#include "help.h"
#include "support/project.h"

using namespace dogear;

namespace {

using Changes = std::vector<std::pair<std::string, std::string>>;

std::string lamp_words(const std::string& lines, const std::string& language = "en",
                       const Changes& changes = {}, const std::string& paper = "letter") {
  MemoryFiles files;
  DiskFiles disk;
  const std::string base = test::project_folder() + "/tests/patterns/base/lamp/";
  std::string error;
  for (const char* name : {"pattern.yaml", "blocks/lamp.yaml"}) {
    const auto text = disk.read(base + name, error);
    REQUIRE(text);
    files.content[std::string("p/") + name] = *text;
  }
  std::string& pattern = files.content["p/pattern.yaml"];
  for (const auto& [before, after] : changes) {
    const std::size_t at = pattern.find(before);
    REQUIRE(at != std::string::npos);
    pattern.replace(at, before.size(), after);
  }
  pattern = lines + pattern;
  const auto c = help::compile("p", files);
  Diagnostics d;
  const auto style = load_template(paper, language, DiskFiles(), d);
  REQUIRE(style);
  Scene scene = c->scene();
  const Scene own{scene.checked, scene.piecing, scene.quantities, scene.fonts, style->words};
  const auto document = set_booklet(own, 0, *style, d);
  REQUIRE(document);
  std::string text = canvas::normal_fractions(help::words_of(*document));
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text;
}

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t n = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
  return n;
}

}  // namespace

TEST_CASE("a booklet tells once how to piece on paper, and the order of every unit") {
  const std::string text = lamp_words("");
  for (const char* said :
       {"Piecing on a foundation", "the printed side faces you while you sew",
        "trim the seam allowance to 1/4 in", "Leave the paper in until",
        "On its paper foundation, lay ", "cut generously: ", "Foundations", "Glass unit: print 3.",
        "Point unit: print 3.", "Foundation paper", "for 9 foundations",
        "Before you sew, measure the print: 4 in × 6 in between",
        "The squares measure exactly 1 in"}) {
    INFO(said);
    CHECK(text.find(said) != std::string::npos);
  }
  CHECK(count(text, "Piecing on a foundation") == 1);
  CHECK(count(text, "On its paper foundation, lay ") == 3);
  CHECK(text.find("round a template instead") == std::string::npos);
}

TEST_CASE("a German booklet tells it in German") {
  const std::string text = lamp_words("language: de\n", "de");
  for (const char* said : {"Auf Papier nähen", "Nähvorlagen", "3 Mal drucken", "großzügig",
                           "Legen Sie auf die Nähvorlage"}) {
    INFO(said);
    CHECK(text.find(said) != std::string::npos);
  }
  CHECK(text.find("oundation") == std::string::npos);
}

TEST_CASE("a generous piece longer than the ruler says how it is cut, and that it is generous") {
  const std::string text = lamp_words("", "en", {{"highest: 24 in", "highest: 6 in"}});
  CHECK(count(text, "cut generously: ") >= 3);
  CHECK(count(text, ", longer than the ruler: fold the squared end of the strip over, ") >= 1);
}

TEST_CASE("each month tells how many papers to print") {
  const std::string text = lamp_words(
      "schedule:\n  - {month: May, blocks: [lamp]}\n  - {month: June, blocks: [other]}\n", "en",
      {{"  lamp: {block",
        "  other: {block: lamp, title: Other, fabrics: {light: ink, dark: "
        "cream, glow: amber}}\n  lamp: {block"},
       {"[[lamp], [lamp], [lamp]]", "[[lamp], [lamp], [other]]"},
       {"requirements, cutting", "requirements, schedule, cutting"}});
  CHECK(text.find("Print 2 papers of the ") != std::string::npos);
  CHECK(text.find("Print 1 paper of the ") != std::string::npos);
}

TEST_CASE("foundations larger than a page take no sheets for the sake of the test squares") {
  // 4 1/2 × 6 1/2 in with allowances, on half-letter: two halves, the squares before them.
  const std::string text = lamp_words("", "en", {}, "half-letter");
  CHECK(count(text, "sheet 2 of 2") >= 1);
  CHECK(count(text, "sheet 3 of") == 0);
  CHECK(count(text, "The squares measure exactly 1 in") == 1);
  CHECK(text.find("measure the print: 4 in × 6 in between") != std::string::npos);
}
