// Sections are written beside each other: what comes of it does not depend on who writes them when.

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "base/text.h"
#include "booklet/manuscript.h"
#include "canvas/font.h"
#include "help.h"
#include "support/project.h"
#include "support/threads.h"

using namespace dogear;
using dogear::test::Threads;

namespace {

std::vector<std::string> messages(const Diagnostics& d) {
  std::vector<std::string> out;
  for (const Diagnostic& m : d.all()) out.push_back(m.code + ' ' + m.message);
  return out;
}

struct Set {
  std::optional<canvas::Document> document;
  std::vector<std::string> said;
};

Set set_with(std::size_t threads, const help::Compiled& c, SectionMemory* memory = nullptr) {
  const Threads now(threads);
  const canvas::FontSet own = help::fonts().another();
  const Scene scene{c.checked, c.piecing, c.quantities, own, words_of(c.checked.pattern.language)};
  Diagnostics d;
  Set out;
  out.document = set_booklet(scene, 0, help::letter(), d, {}, memory);
  out.said = messages(d);
  return out;
}

std::vector<std::string> anchors_of(const help::Compiled& c) {
  booklet::Manuscript manuscript(c.scene(), 0, help::letter(), {});
  manuscript.write();
  std::vector<std::string> out;
  for (const booklet::WrittenSection& section : manuscript.sections)
    for (const booklet::Box& box : section.boxes)
      out.insert(out.end(), box.anchors.begin(), box.anchors.end());
  return out;
}

// The designer's words besides, in a file whose headings may have the names of fabrics'.
MemoryFiles with_words(const std::string& welcome, const std::string& cutting) {
  MemoryFiles files = help::small_pattern();
  std::string& pattern = files.content["p/pattern.yaml"];
  const std::string listed = "prose/welcome.md,";
  pattern.replace(pattern.find(listed), listed.size(), "prose/welcome.md, prose/cutting.md,");
  files.content["p/prose/welcome.md"] = welcome;
  files.content["p/prose/cutting.md"] = cutting;
  return files;
}

}  // namespace

TEST_CASE("a booklet is the same on any number of threads") {
  DiskFiles disk;
  const auto lap = help::compile(test::project_folder() + "/patterns/harbor-lights", disk);
  const Set alone = set_with(1, *lap);
  REQUIRE(alone.document);
  for (const std::size_t threads : {2U, 5U}) {
    const Set many = set_with(threads, *lap);
    REQUIRE(many.document);
    CHECK((many.document->pages == alone.document->pages));
    CHECK(many.said == alone.said);
  }
}

TEST_CASE("two sections that name the same place get two names") {
  const MemoryFiles files = with_words("# Welcome\n\nGood day.\n", "# Red\n\nMind the mat.\n");
  const auto c = help::compile("p", files);
  const std::vector<std::string> anchors = anchors_of(*c);
  CAPTURE(anchors);
  CHECK(std::set<std::string>(anchors.begin(), anchors.end()).size() == anchors.size());
  const auto first = std::find(anchors.begin(), anchors.end(), "cutting/red");
  REQUIRE(first != anchors.end());
  CHECK(std::find(first, anchors.end(), "cutting/red-2") != anchors.end());
  const Set alone = set_with(1, *c), many = set_with(3, *c);
  REQUIRE(alone.document);
  REQUIRE(many.document);
  CHECK((alone.document->pages == many.document->pages));
}

TEST_CASE("a character that only a figure's font lacks is told, whoever draws the figure") {
  // The text font has it, the labels' font has not.
  std::string letter;
  const canvas::FontSet& fonts = help::fonts();
  for (char32_t c = 0x100; c < 0x2000 && letter.empty(); ++c)
    if (fonts.has(canvas::FontId::text, c) && fonts.has(canvas::FontId::text_bold, c) &&
        !fonts.has(canvas::FontId::sans, c))
      letter = utf8(c);
  REQUIRE_FALSE(letter.empty());
  // Written a second time, as its heading has the name of a fabric's.
  MemoryFiles files = with_words("# Welcome\n\n![Fabrics](figure:fabrics)\n",
                                 "# Sand\n\n![Fabrics](figure:fabrics)\n");
  std::string& pattern = files.content["p/pattern.yaml"];
  pattern.replace(pattern.find("name: Red"), 9, "name: Red" + letter);
  const auto c = help::compile("p", files);
  for (const std::size_t threads : {1U, 2U, 4U}) {
    const Set made = set_with(threads, *c);
    CHECK_FALSE(made.document);
    REQUIRE_FALSE(made.said.empty());
    for (const std::string& said : made.said) CHECK(said.rfind("D404", 0) == 0);
  }
  // Nor does a memory forget it.
  SectionMemory memory;
  const Set first = set_with(2, *c, &memory);
  CHECK(set_with(2, *c, &memory).said == first.said);
}

TEST_CASE("blocks whose section begins below another are planned for the room left there") {
  const auto pages_of = [](const std::string& demo, bool fitted) {
    const auto c = help::compile(test::project_folder() + "/patterns/" + demo, DiskFiles());
    booklet::Manuscript manuscript(c->scene(), 0, help::letter(), {});
    manuscript.write();
    if (fitted) manuscript.fit_blocks();
    std::vector<booklet::Box> boxes;
    for (const booklet::WrittenSection& section : manuscript.sections)
      boxes.insert(boxes.end(), section.boxes.begin(), section.boxes.end());
    return booklet::paginate(boxes, help::letter().text_height());
  };
  CHECK(pages_of("reed-bed", true).size() < pages_of("reed-bed", false).size());
  // They begin a page here, so that there is nothing to mend.
  const auto before = pages_of("harbor-lights", false), after = pages_of("harbor-lights", true);
  REQUIRE(before.size() == after.size());
  for (std::size_t i = 0; i < before.size(); ++i) CHECK(before[i].end == after[i].end);
}
