#include <catch2/catch.hpp>
#include <cmath>

#include "base/text.h"

using namespace dogear;

TEST_CASE("strict UTF-8 is told from what only looks like it") {
  CHECK(is_utf8(""));
  CHECK(is_utf8("plain, ½, ″, 針, 🪡"));
  CHECK(bad_utf8("ab\xFF") == 2u);
  CHECK(bad_utf8("\xC3") == 0u);              // cut off
  CHECK(bad_utf8("é\xC0\xAF") == 2u);         // overlong
  CHECK(bad_utf8("\xE0\x80\xAF") == 0u);      // overlong
  CHECK(bad_utf8("\xED\xA0\x80") == 0u);      // surrogate
  CHECK(bad_utf8("\xF4\x90\x80\x80") == 0u);  // beyond U+10FFFF
  CHECK(bad_utf8("\x80") == 0u);              // continuation alone
}

TEST_CASE("code points go both ways") {
  const std::string text = "a½″針🪡";
  const std::u32string points = code_points(text);
  REQUIRE(points.size() == 5);
  CHECK(points[1] == U'½');
  CHECK(points[4] == U'\U0001FAA1');
  CHECK(utf8(points) == text);
  CHECK(code_points("a\xFFz") == U"a\uFFFDz");
  CHECK(utf8(char32_t{0xD800}) == "\uFFFD");
}

TEST_CASE("words are cut and joined") {
  CHECK(trim(" \t a b\r\n") == "a b");
  CHECK(trim(" \n").empty());
  CHECK(split("a,,b", ',') == std::vector<std::string>{"a", "", "b"});
  CHECK(split("", ',') == std::vector<std::string>{""});
  CHECK(join({"a", "b", "c"}, ", ") == "a, b, c");
  CHECK(join({}, ", ").empty());
  CHECK(lower("Navy ÉTÉ") == "navy ÉtÉ");
}

TEST_CASE("a slug is fit for a file name") {
  CHECK(slug("Harbor Lights") == "harbor-lights");
  CHECK(slug("  Nan's 2nd -- Porch!") == "nans-2nd-porch");
  CHECK(slug("½").empty());
  CHECK(slug("../../etc/passwd") == "etc-passwd");
}

TEST_CASE("the nearest name is offered for a typing error, and only then") {
  const std::vector<std::string> keys{"fabric", "fabrics", "binding", "backing", "block"};
  CHECK(nearest("fabirc", keys) == "fabric");
  CHECK(nearest("fabrics ", keys) == "fabrics");
  CHECK(nearest("Bindng", keys) == "binding");
  CHECK(nearest("blokc", keys) == "block");
  CHECK(nearest("ruler", keys).empty());
  CHECK(nearest("x", {"y", "z"}).empty());
  CHECK(nearest("", keys).empty());
  CHECK(nearest("crème", {"creme", "cream"}) == "creme");
  CHECK(nearest(std::string(100'000, 'f'), keys).empty());
}

TEST_CASE("edit distance counts a swap of neighbours once") {
  CHECK(edit_distance("ab", "ba") == 1);
  CHECK(edit_distance("", "abc") == 3);
  CHECK(edit_distance("é", "e") == 1);
  CHECK(edit_distance("unit", "unit") == 0);
}

TEST_CASE("decimals have no trailing zeros and no negative nothing") {
  CHECK(decimal(2.5, 3) == "2.5");
  CHECK(decimal(100, 2) == "100");
  CHECK(decimal(0.1 + 0.2, 4) == "0.3");
  CHECK(decimal(-0.0001, 2) == "0");
  CHECK(decimal(-1.25, 1) == "-1.2");
  CHECK(decimal(1234567.891, 2) == "1234567.89");
  CHECK(decimal(2.6, 0) == "3");
  CHECK(decimal(10, 0) == "10");
}
