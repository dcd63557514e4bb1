#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <regex>
#include <set>

#include "booklet/writer.h"
#include "canvas/svg.h"
#include "diag/print.h"
#include "help.h"
#include "support/project.h"

using namespace dogear;

namespace {

canvas::Document set(const help::Compiled& c, std::size_t size, const Template& style) {
  Diagnostics d;
  auto document = set_booklet(c.scene(), size, style, d);
  INFO(print_for_people(d, Sources(), false));
  REQUIRE(document);
  CHECK_FALSE(d.has_errors());
  return std::move(*document);
}

// The errors of a welcome page with this text.
struct Failed {
  std::string text;
  std::vector<Diagnostic> all;
};
Failed welcome(const std::string& text, std::size_t size = 1) {
  MemoryFiles files = help::small_pattern();
  files.content["p/prose/welcome.md"] = text;
  const auto c = help::compile("p", files);
  Diagnostics d;
  const bool made = set_booklet(c->scene(), size, help::letter(), d).has_value();
  CHECK(made != d.has_errors());
  return {text, d.all()};
}

void check_error(const Failed& failed, const std::string& code, const std::string& at,
                 const std::string& hint = "") {
  REQUIRE(failed.all.size() == 1);
  const Diagnostic& e = failed.all[0];
  INFO(e.message);
  CHECK(e.code == code);
  CHECK(e.span.file == "p/prose/welcome.md");
  const auto [line, column] = help::place_of(failed.text, at);
  CHECK(e.span.line == line);
  CHECK(e.span.column == column);
  if (!hint.empty()) CHECK(e.hints.at(0) == hint);
}

void find_links(const canvas::DisplayList& list, std::set<std::string>& links,
                std::multiset<std::string>& anchors) {
  for (const canvas::Item& item : list.items()) {
    if (const auto* link = std::get_if<canvas::Link>(&item)) {
      if (link->uri.empty()) links.insert(link->destination);
    } else if (const auto* anchor = std::get_if<canvas::Anchor>(&item)) {
      anchors.insert(anchor->name);
    } else if (const auto* group = std::get_if<canvas::Group>(&item)) {
      find_links(*group->list, links, anchors);
    }
  }
}

std::string text_of_pages(const canvas::Document& document) {
  std::string out;
  for (const canvas::Page& page : document.pages)
    out += canvas::to_svg(page.content, page.width, page.height, help::fonts());
  return out;
}

}  // namespace

namespace {

// What a page says and shows, without the running lines.
canvas::Rect body_of(const canvas::Page& page) {
  canvas::DisplayList body;
  for (const canvas::Item& item : page.content.items()) {
    const auto* group = std::get_if<canvas::Group>(&item);
    if (group == nullptr || group->role != canvas::Role::artifact) body.add(item);
  }
  return body.bounds();
}

}  // namespace

TEST_CASE("every demo pattern comes out in every size on every paper, within its margins") {
  DiskFiles files;
  Diagnostics d;
  for (const std::string pattern : {"harbor-lights", "tide-star", "reed-bed", "uferwiese"}) {
    const auto c = help::compile(test::project_folder() + "/patterns/" + pattern, files);
    for (const std::string& paper : papers()) {
      const auto style = load_template(paper, c->checked.pattern.language, files, d);
      REQUIRE(style);
      for (std::size_t size = 0; size < c->checked.sizes.size(); ++size) {
        INFO(pattern << " " << size << " " << paper);
        const canvas::Document document = set(*c, size, *style);
        CHECK(document.pages.size() >= 8);
        CHECK(document.pages.size() <= 48);

        std::set<std::string> links;
        std::multiset<std::string> anchors;
        for (std::size_t p = 0; p < document.pages.size(); ++p) {
          const canvas::Page& page = document.pages[p];
          INFO("page " << p + 1);
          CHECK(page.label == std::to_string(p + 1));
          // All that is painted stays within the side margins and clear of the paper's edge.
          const canvas::Rect ink = page.content.bounds();
          CHECK(ink.left >= style->left - 1);
          CHECK(ink.right <= page.width - style->right + 1);
          CHECK(ink.top >= 18);
          CHECK(ink.bottom <= page.height - 18);
          const canvas::Rect body = body_of(page);
          CHECK(body.top >= style->top - 4);
          CHECK(body.bottom <= page.height - style->bottom + 4);
          find_links(page.content, links, anchors);
        }
        for (const std::string& link : links) CHECK(anchors.count(link) == 1);
        for (const canvas::OutlineEntry& e : document.outline)
          CHECK(anchors.count(e.destination) == 1);
        CHECK(document.outline.size() > 6);
        CHECK(help::fonts().missing().empty());
      }
    }
  }
}

TEST_CASE("the pages of the blocks and of the assembly are well filled") {
  DiskFiles files;
  constexpr double least = 0.55;
  for (const std::string pattern : {"harbor-lights", "tide-star", "reed-bed"}) {
    const auto c = help::compile(test::project_folder() + "/patterns/" + pattern, files);
    const Template& style = help::letter();
    for (std::size_t size = 0; size < c->checked.sizes.size(); ++size) {
      const canvas::Document document = set(*c, size, style);
      for (std::size_t p = 0; p + 1 < document.pages.size(); ++p) {
        const auto section = [&](std::size_t n) {
          for (const help::Said& s : help::said(document.pages[n].content))
            if (s.y < style.top * 0.7 && s.x > style.page_width / 2) return s.text;
          return std::string();
        };
        if (section(p) != section(p + 1)) continue;
        if (section(p) != "Making the blocks" && section(p) != "Assembling the top") continue;
        double lowest = 0;
        for (const help::Said& s : help::said(document.pages[p].content))
          if (s.y < style.page_height - style.bottom) lowest = std::max(lowest, s.y);
        INFO(pattern << " " << size << " page " << p + 1);
        CHECK((lowest - style.top) / style.text_height() >= least);
      }
    }
  }
}

TEST_CASE("mirrored pieces are told apart, and what is left over is listed") {
  DiskFiles files;
  const auto c = help::compile(test::project_folder() + "/patterns/harbor-lights", files);
  std::string words = help::words_of(set(*c, 0, help::letter()));
  std::replace(words.begin(), words.end(), '\n', ' ');
  CHECK(words.find("F11R is F11 reversed, its mirror image: cut both from a single layer, right "
                   "side up, and keep them "
                   "apart.") != std::string::npos);
  CHECK(words.find("What is left") != std::string::npos);
  const std::string plain =
      help::words_of(set(*help::compile("p", help::small_pattern()), 1, help::letter()));
  CHECK(plain.find("mirror") == std::string::npos);
}

TEST_CASE("every measure is set as a fraction, never as a decimal or with a slash") {
  DiskFiles files;
  const std::regex bad(R"([0-9]/[0-9]|[0-9]\.[0-9])");
  for (const std::string pattern : {"harbor-lights", "tide-star", "reed-bed"}) {
    const auto c = help::compile(test::project_folder() + "/patterns/" + pattern, files);
    const canvas::Document document = set(*c, 0, help::letter());
    bool fractions = false;
    for (const canvas::Page& page : document.pages) {
      for (const help::Said& said : help::said(page.content)) {
        INFO(said.text);
        CHECK_FALSE(std::regex_search(said.text, bad));
        fractions = fractions || said.text.find("\u2044") != std::string::npos;
      }
    }
    CHECK(fractions);
  }
}

TEST_CASE("the same pattern gives the same pages") {
  const auto a = help::compile("p", help::small_pattern());
  const auto b = help::compile("p", help::small_pattern());
  CHECK(text_of_pages(set(*a, 1, help::letter())) == text_of_pages(set(*b, 1, help::letter())));
}

TEST_CASE("the booklet says what to buy, cut, sew and measure") {
  const auto c = help::compile("p", help::small_pattern());
  const canvas::Document document = set(*c, 1, help::letter());
  const std::string words = help::words_of(document);
  for (const char* expected :
       {"Small Squares", "Table Topper", "Contents", "Fabric requirements", "Cutting",
        "Before you begin", "Take care", "Width of fabric", "Make 8.", "Finishing", "Binding",
        "Backing", "Batting", "A1", "A2"}) {
    INFO(expected);
    CHECK(words.find(expected) != std::string::npos);
  }
  CHECK(document.title == "Small Squares · Table Topper");
  CHECK(document.author == "Test Studio");
}

TEST_CASE("the contents name the page each chapter is on") {
  const auto c = help::compile("p", help::small_pattern());
  const canvas::Document document = set(*c, 1, help::letter());
  std::size_t checked = 0;
  for (const canvas::OutlineEntry& e : document.outline) {
    if (e.level != 1) continue;
    std::string page;
    for (const canvas::Page& p : document.pages) {
      std::set<std::string> links;
      std::multiset<std::string> anchors;
      find_links(p.content, links, anchors);
      if (anchors.count(e.destination) != 0) page = p.label;
    }
    const std::vector<help::Said> contents = help::said(document.pages[1].content);
    for (std::size_t i = 0; i + 1 < contents.size(); ++i) {
      if (contents[i].text != e.title) continue;
      CHECK(contents[i + 1].text == page);
      ++checked;
      break;
    }
  }
  CHECK(checked >= 6);
}

TEST_CASE("only abbreviations that are used are explained") {
  MemoryFiles files = help::small_pattern();
  CHECK(help::words_of(set(*help::compile("p", files), 1, help::letter()))
            .find("Right sides together.") == std::string::npos);
  files.content["p/prose/welcome.md"] = "# Welcome\n\nSew the squares RST.\n";
  CHECK(help::words_of(set(*help::compile("p", files), 1, help::letter()))
            .find("Right sides together.") != std::string::npos);
}

TEST_CASE("prose may hold every kind of Markdown, figures and program-written parts") {
  MemoryFiles files = help::small_pattern();
  files.content["p/prose/welcome.md"] =
      "# Welcome\n\nSome *words*, **strong** ones, `code` and [a link](#cutting), "
      "[outside](https://example.org/a).\n\n## Second\n\n### Third\n\n- one\n- two\n  - inner\n\n"
      "3. three\n4. four\n\n> quoted\n\n---\n\n| A | B |\n|:--|--:|\n| x | 1/2 |\n\n"
      "![The quilt](figure:quilt) \n\n![a](figure:block/check) ![b](figure:step/check/1)\n\n"
      "![Fabric requirements](table:requirements)\n\n![c](table:cutting)\n\n![d](steps:check)\n\n"
      "![e](steps:assembly)\n";
  const canvas::Document document = set(*help::compile("p", files), 1, help::letter());
  const std::string words = help::words_of(document);
  for (const char* expected : {"strong", "code", "quoted", "The quilt", "3.", "4.", "inner"}) {
    INFO(expected);
    CHECK(words.find(expected) != std::string::npos);
  }
}

TEST_CASE("a block's own prose stands before its steps or in place of them") {
  MemoryFiles files = help::small_pattern();
  files.content["p/prose/blocks/check.md"] = "Chain the pairs.\n";
  std::string words = help::words_of(set(*help::compile("p", files), 1, help::letter()));
  CHECK(words.find("Chain the pairs.") != std::string::npos);
  CHECK(words.find("Make 8.") != std::string::npos);
  files.content["p/prose/blocks/check.md"] = "My own way.\n\n![first](figure:step/check/1)\n";
  const auto c = help::compile("p", files);
  words = help::words_of(set(*c, 1, help::letter()));
  CHECK(words.find("My own way.") != std::string::npos);
  CHECK(words.find("Make 8.") == std::string::npos);
}

TEST_CASE("errors of the prose stand at their place") {
  check_error(welcome("# Größe\n\nÄpfel {{size.widht}} wide\n"), "D401", "{{size",
              "did you mean `size.width`?");
  check_error(welcome("# W\n\nText ![a](figure:block/chek) more\n"), "D402", "![a]",
              "did you mean `figure:block/check`?");
  check_error(welcome("# W\n\n- ![a](tabel:cutting)\n"), "D402", "![a]",
              "did you mean `table:cutting`?");
  check_error(welcome("# W\n\nMy ![cat](photos/cat.gif)\n"), "D402", "![cat]");
  check_error(welcome("# W\n\nSo [here](#cuting) it is\n"), "D406", "[here]",
              "did you mean `#cutting`?");
  CHECK(welcome("# W\n\nA cat: 猫\n").all.at(0).code == "D404");
  CHECK(welcome("# W\n\n<b>raw</b>\n").all.size() >= 1);
}

TEST_CASE("a figure only another size has is an error unless its section is of that size") {
  check_error(welcome("# W\n\n![b](figure:backing)\n", 0), "D402", "![b]");
  CHECK(welcome("# W\n\n{{#four}}\n![b](figure:backing)\n{{/four}}\n", 0).all.empty());
  CHECK(welcome("# W\n\n{{#four}}\n![b](figure:backing)\n{{/four}}\n", 1).all.empty());
}

TEST_CASE("all errors of the prose are told at once") {
  CHECK(welcome("# W\n\n{{x}} ![a](b.gif) [c](#d)\n").all.size() == 3);
}

TEST_CASE("an unprintable character in a title is an error, not a hole") {
  MemoryFiles files = help::small_pattern();
  std::string& yaml = files.content["p/pattern.yaml"];
  yaml.replace(yaml.find("Small Squares"), 13, "Small 猫");
  const auto c = help::compile("p", files);
  Diagnostics d;
  CHECK_FALSE(set_booklet(c->scene(), 1, help::letter(), d));
  REQUIRE_FALSE(d.all().empty());
  CHECK(d.all()[0].code == "D404");
}

TEST_CASE("steps say what is sewn, pressed and measured") {
  const auto c = help::compile("p", help::small_pattern());
  Diagnostics d;
  const booklet::Writer writer(c->scene(), 1, help::letter(), d);
  const BlockSewing& block = writer.sewing().blocks.at(0);
  REQUIRE(block.steps.size() == 2);
  const booklet::StepWords pair = booklet::step_words(writer, block.steps[0], {});
  CHECK(pair.sew == "Sew A1 and A2 together to make a pair unit.");
  CHECK(pair.press == "Press the seam toward A1.");
  CHECK(pair.make == "Make 8.");
  CHECK(pair.measure == "Measures 4½ in × 2½ in with seam allowances.");
  CHECK_FALSE(pair.two_bias);
  CHECK(pair.outer_bias.empty());
  CHECK(pair.unequal.empty());
  const booklet::StepWords whole = booklet::step_words(writer, block.steps[1], {});
  CHECK(whole.sew == "Sew two pair units together to make a Check block. Turn them as shown.");
  CHECK(whole.make == "Make 4.");
  CHECK(whole.measure == "Measures 4½ in × 4½ in with seam allowances.");
}

TEST_CASE("measures that are not exact are said to be about") {
  DiskFiles files;
  const auto c = help::compile(test::project_folder() + "/patterns/harbor-lights", files);
  const std::string words = help::words_of(set(*c, 0, help::letter()));
  // A hexagon of two 4 in half-hexagons is 16/√3 = 9.238 in wide, 8 in high.
  CHECK(words.find("about 9\u20091⁄4 in") != std::string::npos);
}

TEST_CASE("rows stand in line, and each tells its pressing or none does") {
  DiskFiles files;
  const auto c = help::compile(test::project_folder() + "/patterns/harbor-lights", files);
  const canvas::Document document = set(*c, 0, help::letter());
  std::set<long> starts;
  std::size_t rows = 0, told = 0;
  for (const canvas::Page& page : document.pages) {
    for (const help::Said& said : help::said(page.content)) {
      if (said.in_figure) continue;
      if (said.text.starts_with("Row ") && said.font == canvas::FontId::text_bold) {
        ++rows;
        starts.insert(std::lround(said.x * 10));
      }
      if (said.text.starts_with("Press all seams to") && said.size < help::letter().type.small)
        ++told;
    }
  }
  CHECK(rows >= 10);
  CHECK(starts.size() == 1);
  CHECK((told == 0 || told == rows));
}
