#include "booklet/template.h"

#include <catch2/catch.hpp>
#include <regex>
#include <set>

#include "help.h"

using namespace dogear;

namespace {

Diagnostics load(const std::string& name, const MemoryFiles& files, bool expect) {
  Diagnostics d;
  const bool made = load_template(name, files, d).has_value();
  CHECK(made == expect);
  CHECK(d.has_errors() == !expect);
  return d;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

MemoryFiles own_template(const std::string& from, const std::string& to) {
  MemoryFiles files;
  files.content["t/own.yaml"] = builtin_templates().at("letter.yaml");
  for (const char* part : {"style.yaml", "words-en.yaml"})
    files.content[std::string("t/") + part] = builtin_templates().at(part);
  for (auto& [path, text] : files.content) {
    if (text.find(from) != std::string::npos) text = replaced(text, from, to);
  }
  return files;
}

}  // namespace

TEST_CASE("both papers are built in") {
  MemoryFiles none;
  Diagnostics d;
  const auto letter = load_template("letter", none, d);
  const auto a4 = load_template("a4", none, d);
  REQUIRE(letter);
  REQUIRE(a4);
  CHECK(letter->page_width == 612);
  CHECK(letter->page_height == 792);
  CHECK(a4->page_width == Approx(595.2756).margin(0.001));
  CHECK(a4->page_height == Approx(841.8898).margin(0.001));
  CHECK(letter->words.texts == a4->words.texts);
}

TEST_CASE("text colors keep enough contrast on white") {
  // WCAG 2, 1.4.3: 4.5:1 for text.
  const auto& c = help::letter().colours;
  for (const canvas::Color& color : {c.ink, c.accent, c.muted})
    CHECK(canvas::contrast(color, canvas::white) >= 4.5);
}

TEST_CASE("an unknown paper is told with the nearest") {
  const Diagnostics d = load("leter", {}, false);
  CHECK(d.all()[0].code == "D410");
  CHECK(d.all()[0].hints.at(0) == "did you mean `letter`?");
}

TEST_CASE("a template of one's own may stand beside the pattern") {
  const MemoryFiles files = own_template("heading 2: 15", "heading 2: 17");
  Diagnostics d;
  const auto t = load_template("t/own.yaml", files, d);
  REQUIRE(t);
  CHECK(t->type.heading2 == 17);
}

TEST_CASE("unknown keys, bad numbers, colors and margins are errors") {
  const auto code = [](const std::string& from, const std::string& to) {
    const Diagnostics d = load("t/own.yaml", own_template(from, to), false);
    REQUIRE_FALSE(d.all().empty());
    CHECK(d.all()[0].span.line > 0);
    return d.all()[0].code;
  };
  CHECK(code("  leading: 15", "  leading: 15\n  ledding: 3") == "D101");
  CHECK(code("  leading: 15", "  other: 3").starts_with("D10"));
  CHECK(code("text: 10.5", "text: 10.5 in") == "D412");
  CHECK(code("text: 10.5", "text: 400") == "D412");
  CHECK(code("ink: \"#23211e\"", "ink: dark") == "D413");
  CHECK(code("left: 1 1/16 in", "left: 7 in") == "D414");
  CHECK(code("  contents: Contents", "  kontents: Contents") == "D411");
  CHECK(code("Make {n}.", "Make {m}.") == "D411");
  CHECK(code("words-en.yaml]", "words-enn.yaml]") == "D410");
}

TEST_CASE("a template that says nothing of its type is an error") {
  const Diagnostics d = load(
      "t/own.yaml", own_template("with: [style.yaml, words-en.yaml]", "with: [style.yaml]"), false);
  CHECK(d.all()[0].code == "D415");
}

TEST_CASE("every text the program asks for is written, and none besides") {
  DiskFiles files;
  const std::string folder = std::string(DOGEAR_ROOT) + "/lib/booklet";
  std::set<std::string> asked;
  std::string all_code;
  for (const std::string& name : files.list(folder)) {
    if (!name.ends_with(".cpp")) continue;
    std::string error;
    all_code += files.read(folder + "/" + name, error).value();
  }
  const std::regex call(R"re((?:words|\(\*this\))(?:\.count)?\(\s*"([^"]+)"\s*[,)])re");
  for (std::sregex_iterator at(all_code.begin(), all_code.end(), call), end; at != end; ++at)
    asked.insert((*at)[1]);
  CHECK(asked.size() > 60);
  const Words& words = help::letter().words;
  for (const std::string& key : asked) {
    INFO(key);
    CHECK(words.texts.count(key) == 1);
  }
  for (const auto& [key, text] : words.texts) {
    INFO(key);
    const bool meaning = key.starts_with("meaning of ");
    CHECK((meaning || all_code.find('"' + key + '"') != std::string::npos));
  }
}

TEST_CASE("words fill in names, counts and lists") {
  const Words& words = help::letter().words;
  CHECK(words("make", {{"n", "24"}}) == "Make 24.");
  CHECK(words.count("strips", 1) == "1\u00A0strip");
  CHECK(words.count("strips", 3) == "3\u00A0strips");
  CHECK(words.list({}) == "");
  CHECK(words.list({"A"}) == "A");
  CHECK(words.list({"A3", "B1", "C2"}) == "A3, B1 and C2");
  CHECK(words.number(2) == "two");
  CHECK(words.number(12) == "twelve");
  CHECK(words.number(13) == "13");
  CHECK(placeholders("a {b} c {d}") == std::vector<std::string>{"b", "d"});
}
