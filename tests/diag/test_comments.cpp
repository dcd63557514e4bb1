// Comments are found in the text of a source, wherever a # or <!-- is one and nowhere else.

#include <catch2/catch.hpp>
#include <cstdint>

#include "diag/comments.h"

using namespace dogear;

namespace {

// "2:5 alone words" for each.
std::vector<std::string> spelled(const std::vector<Comment>& comments) {
  std::vector<std::string> out;
  for (const Comment& c : comments) {
    out.push_back(std::to_string(c.span.line) + ':' + std::to_string(c.span.column) +
                  (c.on_top  ? " top "
                   : c.alone ? " alone "
                             : " ") +
                  c.text);
  }
  return out;
}

std::vector<std::string> yaml(const std::string& text) { return spelled(yaml_comments("f", text)); }
std::vector<std::string> markdown(const std::string& text) {
  return spelled(markdown_comments("f", text));
}

using Found = std::vector<std::string>;

}  // namespace

TEST_CASE("a # begins a comment behind a blank and nowhere else") {
  CHECK(yaml("# one\n\n  # two\na: 1 # three\n# four\nb: x#y\r\nc: é  #  five \r\n") ==
        Found{"1:3 top one", "3:5 top two", "4:8 three", "5:3 alone four", "7:10 five"});
  CHECK(yaml("a: \"#1b2a49\" # c\nb: '#x' #d\nc: [ #e\n  1]\nd: it's # f\ne: 'it''s # no' # g\n") ==
        Found{"1:16 c", "2:10 d", "3:7 e", "5:11 f", "6:19 g"});
  CHECK(yaml("a: {b: \"x # \\\" y\", c: 'z'} # e\n") == Found{"1:30 e"});
  CHECK(yaml("#") == Found{"1:2 top "});
  CHECK(yaml("") == Found{});
  CHECK(yaml("\n\n") == Found{});
}

TEST_CASE("a quote over several lines holds no comment") {
  CHECK(yaml("a: \"one\n  # two\n  three\" # four\nb: 1 # five\n") ==
        Found{"3:12 four", "4:8 five"});
  CHECK(yaml("a: 'never closed\n# x\nb: 1 # y\n") == Found{});
  CHECK(yaml("say: he said \"# no\n") == Found{});  // the # has a quote before it, no blank
}

TEST_CASE("a block of text holds no comment, and ends where its lines do") {
  CHECK(yaml("a: | # yes\n  # no\n\n  no # no\nb: 1 # too\n") == Found{"1:8 yes", "5:8 too"});
  CHECK(yaml("- k: >-\n    # no\n  # yes\n- >\n # no\n- x # yes\n") ==
        Found{"3:5 alone yes", "6:7 yes"});
  CHECK(yaml("a: b | c # yes\nd: e # yes\n") == Found{"1:12 yes", "2:8 yes"});
}

TEST_CASE("comments of Markdown stand outside code") {
  CHECK(markdown("<!-- one -->\n\nText <!-- two --> and `<!-- no -->`.\n\n  <!-- three -->\n") ==
        Found{"1:6 top one", "3:11 two", "5:8 alone three"});
  CHECK(markdown("```\n<!-- no -->\n```\n<!-- yes -->\n~~~~\n<!-- no -->\n~~~\n~~~~\n") ==
        Found{"4:6 alone yes"});
  CHECK(markdown("``a ` <!-- no -->`` ` <!-- yes -->\n") == Found{"1:28 yes"});
  CHECK(markdown("<!-- open\n<!-- within -->\n<!-- yes -->\n<!-- never closed") ==
        Found{"3:6 alone yes"});
  CHECK(markdown("<!---->\n<!--") == Found{"1:5 top "});
}

TEST_CASE("what is written to accept a warning is told from a sentence") {
  for (const std::string text :
       {"accept D551: so", "accept", "accept:", "accept: D551 so", "Accept D551", "accept d5",
        "accept 551: so", "accept D151, D152"}) {
    CAPTURE(text);
    CHECK(is_acceptance(text));
  }
  for (const std::string text : {"", "accept the default: it is good", "accepted D551: so",
                                 "we accept D551: so", "accept 5 strips of it", "acceptance"}) {
    CAPTURE(text);
    CHECK_FALSE(is_acceptance(text));
  }
  CHECK(is_acceptance_markup(" <!-- accept D401: so -->\n"));
  for (const std::string text :
       {"<!-- accept D401: so --> <b>", "<!-- note -->", "<b>", "<!-->",
        "<!-- accept D401:\nso -->", "<!-- accept D401: a --><!-- b -->"}) {
    CAPTURE(text);
    CHECK_FALSE(is_acceptance_markup(text));
  }
}

TEST_CASE("no text breaks the finding of comments") {
  const std::string signs = "#'\"\\|>-:[]{},` \t\r\n<!--->~a\xC3\xA9\xFF";
  std::uint32_t state = 12345;
  const auto next = [&state](std::size_t below) {
    state = state * 1664525u + 1013904223u;
    return (state >> 8) % below;
  };
  for (int round = 0; round < 3000; ++round) {
    std::string text;
    for (std::size_t length = next(80); length > 0; --length) text += signs[next(signs.size())];
    const auto lines = split(text, '\n');
    for (const auto& found : {yaml_comments("f", text), markdown_comments("f", text)}) {
      for (const Comment& c : found) {
        REQUIRE(c.span.line >= 1);
        REQUIRE(c.span.line <= lines.size());
        REQUIRE(lines[c.span.line - 1].find(c.text) != std::string::npos);
        REQUIRE(c.span.end_column <= code_points(lines[c.span.line - 1]).size() + 2);
      }
    }
  }
  const std::string many(1 << 20, '#');
  CHECK(yaml_comments("f", many).size() == 1);
  std::string ticks;
  for (std::size_t run = 1; run < 1400; ++run) ticks += std::string(run, '`') + 'a';
  CHECK(markdown_comments("f", ticks).empty());
}
