#include <catch2/catch.hpp>
#include <cstdint>
#include <set>

#include "booklet/linebreak.h"
#include "booklet/paragraph.h"
#include "help.h"

using namespace dogear;
using namespace dogear::booklet;

namespace {

const char* prose =
    "When the ferries have gone home the harbor belongs to the lights: a lantern on the quay, a "
    "red buoy, a late sail, and a star or two over the breakwater. Everything is cut from 2½ in "
    "strips with a 60° ruler, and every seam is straight; extraordinarily complicated-looking "
    "constructions are unnecessary, notwithstanding appearances.";

Runs plain(const std::string& text, double size = 10.5) {
  TextStyle style;
  style.size = size;
  return {{text, style, false}};
}

Typesetter typesetter() { return {help::fonts(), help::hyphens()}; }

std::string joined(const std::vector<TextLine>& lines) {
  std::string out;
  for (const TextLine& line : lines) {
    if (!out.empty() && out.back() != '-') out += ' ';
    if (!out.empty() && out.back() == '-') out.pop_back();
    out += line.text;
  }
  return out;
}

Atom word(double width) {
  Atom a;
  a.width = width;
  a.space = 3, a.stretch = 1.5, a.shrink = 1;
  return a;
}

}  // namespace

TEST_CASE("no line is wider than its measure at any width") {
  const Typesetter type = typesetter();
  for (const Align align : {Align::justify, Align::left, Align::center, Align::right}) {
    for (double width = 24; width < 520; width += 7.3) {
      for (const TextLine& line : type.set(plain(prose), {width, 15, align})) {
        INFO(width << ": " << line.text);
        CHECK(line.width <= width + 0.02);
        CHECK(line.left >= 0);
        CHECK(line.left + line.width <= width + 0.02);
      }
    }
  }
}

TEST_CASE("justified lines end at the measure, the last one at its natural width") {
  const std::vector<TextLine> lines = typesetter().set(plain(prose), {300, 15, Align::justify});
  REQUIRE(lines.size() > 3);
  for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
    CHECK(lines[i].width == Approx(300).margin(0.02));
    CHECK(lines[i].ratio < 2);
    CHECK(lines[i].ratio >= -1);
    CHECK_FALSE(lines[i].last);
  }
  CHECK(lines.back().last);
  CHECK(lines.back().width < 300);
}

TEST_CASE("nothing is lost or doubled when a paragraph is broken") {
  const std::string text = "one two three four five six seven eight nine ten";
  for (const double width : {30.0, 60.0, 111.0, 1000.0})
    CHECK(joined(typesetter().set(plain(text), {width, 15, Align::left})) == text);
}

TEST_CASE("words are hyphenated only where the dictionary allows") {
  const Typesetter type = typesetter();
  std::set<std::string> hyphenated;
  for (double width = 60; width < 200; width += 3) {
    for (const TextLine& line : type.set(plain("notwithstanding appearances, constructions are "
                                               "unnecessary and complicated"),
                                         {width, 15, Align::justify}))
      if (line.hyphenated) hyphenated.insert(line.text.substr(line.text.rfind(' ') + 1));
  }
  CHECK_FALSE(hyphenated.empty());
  for (const std::string& part : hyphenated) {
    INFO(part);
    const std::string head = part.substr(0, part.size() - 1);
    bool allowed = false;
    for (const std::string whole :
         {"notwithstanding", "appearances", "constructions", "unnecessary", "complicated"}) {
      for (const std::size_t p : help::hyphens()->points(whole))
        allowed = allowed || whole.substr(0, p).ends_with(head);
    }
    CHECK(allowed);
  }
}

TEST_CASE("without a dictionary words stay whole") {
  const Typesetter type(help::fonts(), std::make_shared<const Hyphens>(""));
  for (const TextLine& line : type.set(plain(prose), {150, 15, Align::justify}))
    CHECK_FALSE(line.hyphenated);
}

TEST_CASE("a number stays with its fraction and its unit") {
  const Typesetter type = typesetter();
  for (double width = 60; width < 240; width += 2.7) {
    for (const TextLine& line :
         type.set(plain("Cut strips of 2 1/2 in and of 5¼ in and squares of 12 in too"),
                  {width, 15, Align::left})) {
      INFO(line.text);
      CHECK_FALSE(line.text.starts_with("in "));
      CHECK(line.text != "in");
      CHECK_FALSE(line.text.ends_with(" 2"));
    }
  }
}

TEST_CASE("a word in two styles stays one word") {
  TextStyle bold;
  bold.font = canvas::FontId::text_bold;
  const Runs runs{{"half", {}, false}, {"way, and", bold, false}, {" on", {}, false}};
  const std::vector<TextLine> lines = typesetter().set(runs, {400, 15, Align::left});
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].text == "halfway, and on");
  for (const TextLine& line : typesetter().set(runs, {40, 15, Align::left}))
    CHECK_FALSE(line.text.starts_with("way"));
}

TEST_CASE("a hard line break ends the line") {
  Runs runs = plain("one");
  runs.push_back({"", {}, true});
  runs.push_back({"two", {}, false});
  const std::vector<TextLine> lines = typesetter().set(runs, {400, 15, Align::justify});
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].text == "one");
  CHECK(lines[0].last);
}

TEST_CASE("links cover their words on every line") {
  TextStyle style;
  style.destination = "cutting";
  const std::vector<TextLine> lines = typesetter().set(
      {{"see the chapter about the cutting of the fabrics", style, false}}, {90, 15, Align::left});
  REQUIRE(lines.size() > 2);
  for (const TextLine& line : lines) {
    bool linked = false;
    for (const canvas::Item& item : line.content.items()) {
      const auto* link = std::get_if<canvas::Link>(&item);
      linked = linked || (link != nullptr && link->destination == "cutting" &&
                          link->area.width() == Approx(line.width));
    }
    CHECK(linked);
  }
}

TEST_CASE("breaking is best for the paragraph, not line by line") {
  // Filling the first line to the brim would leave a hole in the second.
  const std::vector<Atom> atoms{word(30), word(30), word(24), word(96), word(20)};
  const LineMeasure measure{100, true, 0};
  const std::vector<BrokenLine> lines = break_lines(atoms, measure);
  double worst = 0;
  for (const BrokenLine& line : lines)
    if (!line.last) worst = std::max(worst, std::abs(100 - line.natural) / line.stretch);
  CHECK(lines.front().end == 3);
  CHECK(lines.back().end == atoms.size());
}

TEST_CASE("forced breaks and unbreakable joints are kept") {
  std::vector<Atom> atoms{word(40), word(40), word(40), word(40)};
  atoms[0].after = Atom::After::forced;
  atoms[2].after = Atom::After::none;
  const std::vector<BrokenLine> lines = break_lines(atoms, {100, true, 0});
  REQUIRE(lines.size() == 3);
  CHECK(lines[0].end == 1);
  CHECK(lines[1].end == 2);
  CHECK(lines[2].end == 4);
}

TEST_CASE("joined atoms wider than the measure still come out") {
  std::vector<Atom> atoms{word(80), word(80), word(80)};
  atoms[0].after = atoms[1].after = Atom::After::none;
  const std::vector<BrokenLine> lines = break_lines(atoms, {100, true, 0});
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].begin == 0);
  CHECK(lines[0].end == 3);
}

TEST_CASE("a river is word spaces one below another over more than three lines") {
  const auto line = [](std::vector<std::pair<double, double>> gaps) {
    TextLine l;
    l.gaps = std::move(gaps);
    return l;
  };
  std::vector<TextLine> lines{line({{10, 13}, {40, 43}}), line({{25, 28}, {41, 44}}),
                              line({{40, 44}}), line({{5, 8}, {40, 43}}), line({{20, 23}})};
  CHECK(longest_river(lines).line == 0);
  CHECK(longest_river(lines).lines == 4);
  lines[2] = line({{44, 47}});  // beside the others
  CHECK(longest_river(lines).lines == 0);
}

TEST_CASE("paragraphs are broken otherwise where a river would run through them") {
  const Typesetter type{help::fonts(), help::hyphens()};
  const TextStyle style;
  const std::vector<std::string> words{"seam", "sew", "quilt", "press", "of", "the",
                                       "star", "cut", "strip", "in",    "a",  "bundle"};
  std::uint32_t seed = 7;
  int rivers = 0;
  for (int paragraph = 0; paragraph < 300; ++paragraph) {
    std::string text;
    for (int i = 0; i < 90; ++i) {
      seed = seed * 1664525u + 1013904223u;
      text += words[(seed >> 16) % words.size()] + " ";
    }
    const auto lines = type.set({{text, style, false}}, {230, 15, Align::justify});
    rivers += longest_river(lines).lines > 0 ? 1 : 0;
    for (const TextLine& l : lines) CHECK(l.width < 230.1);
  }
  CHECK(rivers < 15);  // of 300; breaking alone leaves 31
}
