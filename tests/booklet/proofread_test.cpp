// The technical edit of the words: reading, judging, counting. Whole messages stand in
// tests/patterns/cases.

#include "booklet/proofread.h"

#include <catch2/catch.hpp>

#include "booklet/proofread_claims.h"
#include "booklet/proofread_edit.h"
#include "help.h"

using namespace dogear;
using namespace dogear::editing;

namespace {

Passage passage(const std::string& text) {
  Passage p;
  p.text = text;
  p.tag.assign(text.size(), -1);
  for (std::size_t i = 0; i < text.size(); ++i) p.from.push_back(i);
  return p;
}

// Numbers of a text as "value" or "value spelling".
std::vector<std::string> numbers(const std::string& text) {
  const Passage p = passage(text);
  std::vector<std::string> out;
  for (const Sentence& s : sentences(p, Names())) {
    for (const Token& t : s) {
      if (!t.is_number()) continue;
      out.push_back(std::to_string(t.value.num) +
                    (t.value.den == 1 ? "" : "/" + std::to_string(t.value.den)));
    }
  }
  return out;
}

using Strings = std::vector<std::string>;

// The codes that words in the welcome of the small pattern give, in both sizes.
Strings codes(const std::string& words, const std::string& section = "") {
  MemoryFiles files = help::small_pattern();
  files.content["p/prose/welcome.md"] = "# Welcome\n\n" + words + "\n";
  if (!section.empty()) files.content["p/prose/blocks/check.md"] = section;
  const auto compiled = help::compile("p", files);
  Diagnostics d;
  proofread(compiled->scene(), {0, 1}, help::letter().words, files, d);
  Strings out;
  for (const Diagnostic& each : d.all()) out.push_back(each.code);
  return out;
}

}  // namespace

TEST_CASE("numbers are read in every spelling of the trade") {
  CHECK(numbers("2½ in, 2 1/2 in, 2-1/2\", ⅝ yd and 15/16") ==
        Strings{"5/2", "5/2", "5/2", "5/8", "15/16"});
  CHECK(numbers("two strips, Twelve blocks, 1,200 pieces, 2.5 in") ==
        Strings{"2", "12", "1200", "5/2"});
  CHECK(numbers("A3, the 3rd, the 1920s, 60°, 50%, 10:30, 1.2.3 and 3D are words").empty());
  CHECK(numbers("one of them, none, tent, often").empty());
}

TEST_CASE("sentences end where they should") {
  const auto count = [](const std::string& text) {
    return sentences(passage(text), Names()).size();
  };
  CHECK(count("Cut 2 in. wide strips. Sew them.") == 2);
  CHECK(count("Cut 5; sew 6! Press? Yes") == 4);
  CHECK(count("Version 1.5 of it") == 1);
  CHECK(count("") == 0);
}

TEST_CASE("an inch is known in its spellings, a preposition is none") {
  const auto unit = [](const std::string& text) {
    const Passage p = passage(text);
    const auto all = sentences(p, Names());
    return inch_unit(all.at(0), 1);
  };
  CHECK(unit("12 in wide") == 1);
  CHECK(unit("12\" wide") == 1);
  CHECK(unit("12-inch block") == 2);
  CHECK(unit("12 inches") == 1);
  CHECK(unit("12 in all") == 0);
  CHECK(unit("12 in the same way") == 0);
  CHECK(unit("12 \"blocks\"") == 0);
  CHECK(unit("12 blocks") == 0);
}

TEST_CASE("names are found longest first, in the plural as well") {
  Names names;
  names.add("Coral", {NameKind::fabric, 1}, true);
  names.add("Coral Star", {NameKind::block, 2}, true);
  names.add("ray", {NameKind::unit, 3}, false);
  const auto found = [&](const std::string& text) {
    Strings out;
    for (const Sentence& s : sentences(passage(text), names))
      for (const Token& t : s)
        if (t.kind == Token::Kind::name) out.push_back(t.lower);
    return out;
  };
  CHECK(found("Two Coral Stars of Coral") == Strings{"coral stars", "coral"});
  CHECK(found("coral reefs, rays and a Ray") == Strings{"rays", "ray"});
  CHECK(found("Corals and Coral's, but no Corally") == Strings{"corals", "coral's"});
}

TEST_CASE("a place in the words is a place in the file") {
  const std::string text =
      "# Größe\n\nIt is {{size.width}} *wide*, & \\*so* \"on\", {{#one}}5 here{{/one}} 7\n";
  const Source source("w.md", "p/w.md", text);
  REQUIRE(source.readable());
  const auto read = [&](const std::string& size) {
    return source.passages(size, {{"size.width", "4 1/2 in"}}).at(1);
  };
  const Passage one = read("one"), four = read("four");
  CHECK(one.text.find("It is 4½ in wide, & *so* ") == 0);
  CHECK(one.text.find("5 here") != std::string::npos);
  CHECK(four.text.find("5 here") == std::string::npos);
  const std::size_t at = four.text.find('7');
  REQUIRE(at != std::string::npos);
  const Span span = source.span(four, at, at + 1);
  const auto [line, column] = help::place_of(text, "7\n");
  CHECK(span.line == line);
  CHECK(span.column == column);
  const std::size_t tag = four.text.find("4½");
  const Span of_tag = source.span(four, tag, tag + 3);
  CHECK(of_tag.column == help::place_of(text, "{{size").second);
  CHECK(of_tag.end_column == of_tag.column + 14);
}

TEST_CASE("words on strips, blocks, sizes and cloth are compared with what is computed") {
  // Four blocks of two red and two sand squares; the larger size is 8 in square.
  CHECK(codes("{{#four}}Cut 8 squares of Red.{{/four}}") == Strings{"D450"});
  CHECK(codes("{{#four}}Cut 9 squares of Red.{{/four}}") == Strings{"D420"});
  CHECK(codes("Cut 8 squares of Red.") == Strings{"D421"});
  CHECK(codes("{{#four}}The quilt has four blocks.{{/four}}") == Strings{"D450"});
  CHECK(codes("{{#four}}The quilt has five blocks.{{/four}}") == Strings{"D420"});
  CHECK(codes("{{#four}}The quilt finishes 8 in × 9 in.{{/four}}") == Strings{"D450", "D423"});
  CHECK(codes("The quilt has {{blocks.count}} blocks.").empty());
}

TEST_CASE("a number that is part of something else is not judged") {
  for (const char* words : {"Cut 9 squares of Red for each block.",
                            "From every strip of Red cut 9 squares.",
                            "Sew 9 squares of Red to a Sand one.",
                            "Cut about 9 squares of Red.",
                            "Cut 3 or 9 squares of Red.",
                            "Cut another 9 squares of Red.",
                            "Cut 9 more squares of Red.",
                            "For one block, cut 9 squares of Red.",
                            "If you wish, cut 9 blocks.",
                            "In step 1 the 9 squares of Red meet.",
                            "Red is cut into 9 squares.",
                            "Buy 9 yd of Red if it is cheap.",
                            "It cost $9 a yard, in 1999, at 9 o'clock.",
                            "Nine squares of Red were lost.",
                            "Each row has 9 blocks.",
                            "Lay out 9 blocks.",
                            "A 9 in ruler is enough.",
                            "A quilt of 9 in × 9 in would be small.",
                            "Make 9 friends.",
                            "Make 9."}) {
    CAPTURE(words);
    CHECK(codes(words).empty());
  }
}

TEST_CASE("the words of a block say how many to make") {
  CHECK(codes("Hello.", "{{#four}}Make 8.{{/four}}") == Strings{"D450"});
  CHECK(codes("Hello.", "{{#four}}Make 7.{{/four}}") == Strings{"D420"});
  CHECK(codes("Hello.", "Make 7 in all.") == Strings{"D420"});
  CHECK(codes("Hello.", "Make 7 paper cranes first.").empty());
}

TEST_CASE("steps are counted from the blocks up as from the top down") {
  const auto compiled = help::compile("p", help::small_pattern());
  for (std::size_t size = 0; size < 2; ++size) {
    const auto need = made_for_blocks(compiled->scene(), size);
    for (const BlockSewing& block : compiled->piecing.sizes[size].blocks)
      for (const UnitId unit : block.steps)
        CHECK(need.at(unit) == compiled->piecing.sizes[size].make.at(unit));
  }
  // A count that is off by one is told.
  const UnitId unit = compiled->piecing.sizes[1].blocks[0].steps[0];
  ++compiled->piecing.sizes[1].make[unit];
  Diagnostics d;
  const MemoryFiles files = help::small_pattern();
  proofread(compiled->scene(), {1}, help::letter().words, files, d);
  REQUIRE(d.all().size() == 1);
  CHECK(d.all()[0].code == "D440");
}

TEST_CASE("a long prose of sound counts is read without a word") {
  MemoryFiles files = help::small_pattern();
  std::string text = "# Welcome\n\n";
  for (int i = 0; i < 400; ++i)
    text += "Cut " + std::to_string(i % 9 + 2) +
            " squares for each block, 2½ in wide, and press them in step 1 as Red as can be.\n\n";
  files.content["p/prose/welcome.md"] = text;
  const auto compiled = help::compile("p", files);
  Diagnostics d;
  proofread(compiled->scene(), {0, 1}, help::letter().words, files, d);
  CHECK(d.all().empty());
}
