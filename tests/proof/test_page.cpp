// Before and after as one page.

#include <catch2/catch.hpp>

#include "compile/compare_causes.h"
#include "proof/builder.h"
#include "proof/markup.h"
#include "proof/page.h"
#include "proof/pairs.h"
#include "support/fonts.h"
#include "tiles.h"

using namespace dogear;
using namespace dogear::proof;
using dogear::test::change;
using dogear::test::has;
using dogear::test::PatternFiles;
using dogear::test::tiles;

namespace {

Side side(const std::string& name, const PatternFiles& files) {
  Built built = Builder("p", test_fonts()).build(files, {});
  Side out{name, std::move(built.state), true, built.diagnostics.error_count(), {}};
  out.messages = messages_html(built.diagnostics, built.sources, "p");
  return out;
}

ProofPage page_of(const PatternFiles& was, const PatternFiles& now) {
  ProofPage page{side("HEAD", was), side("p", now), {}};
  if (page.was.state.planned && page.now.state.planned) {
    page.comparison = compare_sides(page.was.state.side, page.now.state.side);
    find_causes(*page.comparison, page.was.state.side, page.now.state.side);
  }
  return page;
}

std::size_t count(const std::string& text, const std::string& words) {
  std::size_t n = 0;
  for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1))
    ++n;
  return n;
}

}  // namespace

TEST_CASE("where nothing differs the page says so and shows no picture") {
  const ProofPage page = page_of(tiles(), tiles());
  CHECK(summary(page, test_fonts()) == "Nothing differs.");
  const std::string html = to_html(page, test_fonts());
  CHECK(has(html, "Nothing differs."));
  CHECK_FALSE(has(html, "role=\"img\""));
}

TEST_CASE("a changed block is shown before and after, with its quantities and their cause") {
  PatternFiles now = tiles();
  change(now, "p/blocks/check.yaml", "unit: 2 in", "unit: 3 in");
  const std::string html = to_html(page_of(tiles(), now), test_fonts());
  CHECK(has(html, "data-figure=\"block/check\""));
  CHECK(has(html, "blocks/check.yaml:"));
  CHECK(has(html, "Finished size"));
  CHECK(has(html, "<code class=\"place\">blocks/check.yaml:3</code> <code>unit: 3 in</code>"));
  CHECK(count(html, ">Before</figcaption>") == count(html, ">After</figcaption>"));
  // Figures that are the same in both sizes are shown once.
  CHECK(count(html, "data-figure=\"block/check\"") == 1);
  CHECK(has(html, "Mug Rug, Table Topper"));
  // Same input, same bytes.
  CHECK(to_html(page_of(tiles(), now), test_fonts()) == html);
}

TEST_CASE("a changed word changes a page, no figure and no quantity") {
  const ProofPage page =
      page_of(tiles(), tiles("title: Tiles\ndesigner: Jo\n", "# Welcome\n\nA mat for a cup.\n"));
  CHECK(summary(page, test_fonts()) == "0 figures, 2 pages and 0 quantities differ.");
}

TEST_CASE("an old side with errors is told of, with what can be shown") {
  PatternFiles was = tiles();
  change(was, "p/blocks/check.yaml", "fabric: dark", "fabric: drak");
  const std::string html = to_html(page_of(was, tiles()), test_fonts());
  CHECK(has(html, "Before (HEAD) has 1 error: nothing of it can be shown."));
  CHECK(has(html, "id=\"old-messages\""));
  CHECK(has(html, "<mark>drak</mark>"));
  CHECK_FALSE(has(html, "role=\"img\""));
  // Where only the words are wrong, figures and quantities are compared all the same.
  PatternFiles words = tiles("title: Tiles\ndesigner: Jo\n", "{{size.depth}}\n");
  PatternFiles now = tiles();
  change(now, "p/pattern.yaml", "#b03030", "#305090");
  const std::string part = to_html(page_of(words, now), test_fonts());
  CHECK(has(part, "its figures and quantities are shown, its pages are not."));
  CHECK(has(part, "data-figure=\"block/check\""));
  CHECK_FALSE(has(part, "id=\"pages\""));
}

TEST_CASE("a new side with errors is told of with its source lines") {
  PatternFiles now = tiles();
  change(now, "p/blocks/check.yaml", "fabric: dark", "fabric: drak");
  const std::string html = to_html(page_of(tiles(), now), test_fonts());
  CHECK(has(html, "After (p) has 1 error"));
  CHECK(has(html, "The two cannot be compared."));
  CHECK(has(html, "<mark>drak</mark>"));
}

TEST_CASE("where there was no pattern all is new") {
  ProofPage page;
  page.was.name = "HEAD";
  page.was.there = false;
  page.now = side("p", tiles());
  const std::string html = to_html(page, test_fonts());
  CHECK(has(html, "Before (HEAD) has no pattern here: all is new."));
  CHECK(has(html, "All is new: "));
  CHECK(has(html, ">new</span>"));
  CHECK_FALSE(has(html, "aria-label=\"Before"));
  CHECK(has(html, "id=\"quantities\""));
}

TEST_CASE("a page fetches nothing, runs nothing and holds a pattern's text as text") {
  const std::string bad = "<script>alert(1)</script>";
  PatternFiles now =
      tiles("title: \"" + bad + "\"\ndesigner: \"" + bad + "\"\nsummary: \"" + bad + "\"\n",
            "# " + bad + "\n\nSee `" + bad + "`.\n");
  change(now, "p/pattern.yaml", "name: Red", "name: \"" + bad + "\"");
  change(now, "p/pattern.yaml", "title: Mug Rug", "title: \"" + bad + "\"");
  change(now, "p/blocks/check.yaml", "block: Check", "block: \"" + bad + "\"");
  const std::string html = to_html(page_of(tiles(), now), test_fonts());
  CHECK_FALSE(has(html, "<script"));
  CHECK(has(html, "&lt;script&gt;alert(1)&lt;/script&gt;"));
  CHECK(has(html, "content=\"default-src &#39;none&#39;; style-src &#39;sha256-"));
  for (const char* reach : {"href=\"http", "src=\"http", "@import"}) CHECK_FALSE(has(html, reach));
  CHECK(count(html, "url(") == count(html, "url(#"));
}

TEST_CASE("pages are paired by what they say, and a new number is no change") {
  const State was = side("", tiles()).state;
  const State now = side("", tiles(
                                 "title: Tiles\ndesigner: Jo\n",
                                 "# Welcome\n\nA mat for a mug.\n\n# More\n\n" +
                                     [] {
                                       std::string words;
                                       for (int i = 0; i < 400; ++i)
                                         words +=
                                             "Sew the patches with patience and a thin thread.\n\n";
                                       return words;
                                     }()))
                        .state;
  const auto& before = was.sizes.front().pages;
  const auto& after = now.sizes.front().pages;
  REQUIRE(after.size() > before.size());
  std::size_t fresh = 0, moved = 0, gone = 0;
  for (const PagePair& pair : pair_pages(before, after)) {
    if (pair.was == nullptr) {
      ++fresh;
    } else if (pair.now == nullptr) {
      ++gone;
    } else if (pair.was->svg != pair.now->svg && same_within(*pair.was, *pair.now, test_fonts())) {
      ++moved;
    }
  }
  CHECK(fresh == after.size() - before.size());
  CHECK(gone == 0);
  CHECK(moved >= 2);
}

TEST_CASE("no message is told of where there are errors, and no column is empty") {
  PatternFiles bad = tiles();
  change(bad, "p/blocks/check.yaml", "fabric: dark", "fabric: drak");
  const Built built = Builder("p", test_fonts()).build(bad, {});
  REQUIRE(built.diagnostics.error_count() > 0);
  const std::string rest = messages_html(built.diagnostics, built.sources, "p", Said::others);
  CHECK_FALSE(has(rest, "No messages"));
  CHECK(has(messages_html(Diagnostics(), built.sources, "p"), "No messages"));

  List list;
  list.name = "pieces";
  list.columns = {"label", "reading", "count"};
  list.rows = {{"A1", "", 4LL}, {"B2", "", 2LL}};
  const std::string html = lists_html({list}, nullptr);
  CHECK(has(html, ">label</th>"));
  CHECK_FALSE(has(html, "reading"));
  CHECK(count(html, "<td") == 4);
}
