#include <catch2/catch.hpp>

#include "diag/print.h"

using namespace dogear;

namespace {

std::string printed(const char* source, const Span& span, const char* message = "wrong") {
  Sources sources;
  sources.add("f", source);
  Diagnostics d;
  d.error("D101", span, message);
  return print_for_people(d, sources, false);
}

}  // namespace

TEST_CASE("a message shows its line, its caret, its notes and its hints") {
  Sources sources;
  sources.add("pattern.yaml", "title: x\nfabric: a\nunit: 2 in\nfabric: b\n");
  Diagnostics d;
  Diagnostic& e = d.error("D005", {"pattern.yaml", 4, 1, 4, 7}, "the key fabric is written twice");
  const Span first{"pattern.yaml", 2, 1, 2, 7};
  e.notes.push_back({first, "it is written here for the first time"});
  e.hints.push_back("keep one of the two");
  d.warning("D207", {"pattern.yaml", 3, 7, 3, 11}, "this is narrow");
  CHECK(print_for_people(d, sources, false) ==
        "pattern.yaml:4:1: error: the key fabric is written twice [D005]\n"
        "    4 | fabric: b\n"
        "      | ^~~~~~\n"
        "pattern.yaml:2:1: note: it is written here for the first time\n"
        "    2 | fabric: a\n"
        "      | ^~~~~~\n"
        "  hint: keep one of the two\n"
        "pattern.yaml:3:7: warning: this is narrow [D207]\n"
        "    3 | unit: 2 in\n"
        "      |       ^~~~\n");
}

TEST_CASE("colour comes only when asked for") {
  Sources sources;
  sources.add("f", "abc\n");
  Diagnostics d;
  d.error("D101", {"f", 1, 2, 1, 3}, "wrong");
  CHECK(print_for_people(d, sources, false).find('\x1b') == std::string::npos);
  CHECK(print_for_people(d, sources, true) ==
        "\x1b[1mf:1:2:\x1b[0m \x1b[1;31merror:\x1b[0m wrong [D101]\n"
        "\x1b[2m    1 |\x1b[0m abc\n"
        "\x1b[2m      |\x1b[0m  \x1b[1;31m^\x1b[0m\n");
}

TEST_CASE("a message without a place, without a line, without a source") {
  CHECK(printed("abc", {}) == "error: wrong [D101]\n");
  CHECK(printed("abc", {"f", 0, 0, 0, 0}) == "f: error: wrong [D101]\n");
  CHECK(printed("abc", {"g", 3, 4, 3, 5}) == "g:3:4: error: wrong [D101]\n");
}

TEST_CASE("the caret stands right under tabs and behind characters of many bytes") {
  CHECK(printed("\tab: ½ in", {"f", 1, 6, 1, 10}) ==
        "f:1:6: error: wrong [D101]\n"
        "    1 | \tab: ½ in\n"
        "      | \t    ^~~~\n");
  CHECK(printed("é ½ x", {"f", 1, 5, 1, 6}) ==
        "f:1:5: error: wrong [D101]\n"
        "    1 | é ½ x\n"
        "      |     ^\n");
}

TEST_CASE("a span over several lines is underlined to the end of its first") {
  CHECK(printed("ab cd\nef\n", {"f", 1, 4, 2, 2}) ==
        "f:1:4: error: wrong [D101]\n"
        "    1 | ab cd\n"
        "      |    ^~\n");
}

TEST_CASE("a span beyond the text is survived") {
  CHECK(printed("ab", {"f", 1, 3, 1, 3}) ==
        "f:1:3: error: wrong [D101]\n    1 | ab\n      |   ^\n");
  CHECK(printed("ab", {"f", 9, 90, 9, 95}) == "f:9:90: error: wrong [D101]\n    9 |\n      | ^\n");
  CHECK(printed("ab", {"f", 1, 0, 0, 0}) == "f:1:0: error: wrong [D101]\n    1 | ab\n      | ^\n");
}

TEST_CASE("nothing in a source steers the terminal") {
  const std::string out = printed("a\x1b[31mb\u202Ec\xFF", {"f", 1, 2, 1, 3}, "bad\x1b[2Jx\ny");
  CHECK(out ==
        "f:1:2: error: bad?[2Jx y [D101]\n"
        "    1 | a?[31mb?c\uFFFD\n"
        "      |  ^\n");
}

TEST_CASE("of a very long line only the surroundings are shown") {
  std::string source(5000, 'x');
  source[3000] = 'Y';
  const std::string out = printed(source.c_str(), {"f", 1, 3001, 1, 3002});
  CHECK(out.size() < 500);
  CHECK(out.find("| …xxx") != std::string::npos);
  CHECK(out.find("xxx…\n") != std::string::npos);
  const std::size_t line = out.find("    1 | ");
  const std::size_t caret_line = out.find("      | ");
  const std::size_t y = code_points(out.substr(line, out.find('Y') - line)).size();
  CHECK(y == out.find('^') - caret_line);
}
