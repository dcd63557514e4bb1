// A booklet in another language holds no word of English, and its own marks.

#include <catch2/catch.hpp>
#include <set>

#include "base/text.h"
#include "help.h"
#include "support/project.h"

using namespace dogear;

namespace {

const help::Compiled& uferwiese() {
  static const auto compiled =
      help::compile(test::project_folder() + "/patterns/uferwiese", DiskFiles());
  return *compiled;
}

canvas::Document set(std::size_t size, const std::string& paper) {
  Diagnostics d;
  const auto style = load_template(paper, "de", DiskFiles(), d);
  REQUIRE(style);
  auto document = set_booklet(uferwiese().scene(), size, *style, d);
  REQUIRE(document);
  CHECK(d.all().empty());
  return std::move(*document);
}

// Words of letters alone, small, without what stands in braces.
std::set<std::string> tokens(const std::string& text) {
  std::set<std::string> out;
  std::string word;
  bool in_braces = false;
  for (const char32_t c : code_points(text + " ")) {
    if (c == '{' || c == '}') in_braces = c == '{';
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                        (c >= 0xC0 && c <= 0xFF && c != 0xD7 && c != 0xF7);
    if (letter && !in_braces) {
      word += utf8(c);
    } else {
      if (word.size() > 1) out.insert(lower(word));
      word.clear();
    }
  }
  return out;
}

std::set<std::string> tokens_of(const Words& words) {
  std::set<std::string> out;
  for (const auto& [key, text] : words.texts) {
    if (key.starts_with("list ") || key == "hyphenation" || key == "capitals" ||
        key == "article an before")
      continue;
    out.merge(tokens(text));
  }
  return out;
}

void alt_texts(const canvas::DisplayList& list, std::string& out) {
  for (const canvas::Item& item : list.items()) {
    if (const auto* group = std::get_if<canvas::Group>(&item)) {
      out += group->alt + "\n";
      if (group->list) alt_texts(*group->list, out);
    }
  }
}

}  // namespace

TEST_CASE("no word of English is left in a German booklet, nor in what is read aloud") {
  std::set<std::string> foreign = tokens_of(words_of("en"));
  for (const std::string& german : tokens_of(words_of("de"))) foreign.erase(german);
  CHECK(foreign.size() > 500);
  CHECK(foreign.contains("sew"));
  CHECK(foreign.contains("strips"));
  for (std::size_t size = 0; size < uferwiese().checked.sizes.size(); ++size) {
    for (const char* paper : {"a5", "letter"}) {
      const canvas::Document document = set(size, paper);
      CHECK(document.language == "de");
      std::string all = help::running_words(document), alts;
      for (const canvas::Page& page : document.pages) alt_texts(page.content, alts);
      CHECK(alts.size() > 1000);
      for (const auto& e : document.outline) all += "\n" + e.title;
      for (const std::string& word : tokens(all + alts)) {
        INFO(word);
        CHECK_FALSE(foreign.contains(word));
      }
      CHECK((all + alts).find('{') == std::string::npos);
    }
  }
}

TEST_CASE("German measures, quotes and sentences are written as German writes them") {
  const std::string text = help::running_words(set(0, "a5"));
  for (const char* said :
       {"Stoffbedarf", "Zuschnitt", "Fertige Größe 46\u2033 × 16\u2033 (117 cm × 41 cm)",
        "„Nicht mehr?“, werden Sie fragen", "rechts auf rechts", "zwei Einheiten „Keil“",
        "zu einem Block „Windrad“ zusammen", "7 Stück anfertigen",
        "Nähen Sie links und rechts je ein B4 an die Quiltmitte.",
        "In den Schritten 1 und 2 entsteht je eine Reihe.", "Zusammengesetzt aus 14 Blöcken",
        "Zoll (2,54 cm)"}) {
    INFO(said);
    CHECK(text.find(said) != std::string::npos);
  }
  for (const char* wrong : {" in.", " in ×", "\"", "“Nicht", "Einheit Keil"}) {
    INFO(wrong);
    CHECK(text.find(wrong) == std::string::npos);
  }
  // What is a block under its heading is one in the rows, whatever it is made of.
  const std::string mat = help::running_words(set(1, "a5"));
  CHECK(mat.find("je einen Block „Halme“ an einen Block „Windrad“") != std::string::npos);
  CHECK(mat.find("Einheit „Halme“") == std::string::npos);
  CHECK(help::running_words(set(1, "a5")).find("Wer „nur“ ein einzelnes") != std::string::npos);
}
