#include "booklet/tags.h"

#include <catch2/catch.hpp>

#include "help.h"

using namespace dogear;

namespace {

TagValues values() {
  TagValues v;
  v.values = {{"size.width", "60 3/4 in"}, {"fabric.ink.cloth", "1 1/8 yd"}, {"odd", "a*b_c"}};
  v.elsewhere = {{"block.star.count", {"wall"}}};
  v.sizes = {"lap", "wall"};
  v.size = "lap";
  return v;
}

std::string expanded(const std::string& text) {
  Diagnostics d;
  const auto out = expand_tags("w.md", text, values(), d);
  REQUIRE(out);
  CHECK(d.all().empty());
  return *out;
}

}  // namespace

TEST_CASE("values enter with real fractions") {
  CHECK(expanded("It is {{size.width}} wide.") == "It is 60¾ in wide.");
  CHECK(expanded("{{ fabric.ink.cloth }}") == "1⅛ yd");
  CHECK(pretty_fractions("2 15/16 in × 3 1/2 in") == "2\u200915⁄16 in × 3½ in");
  CHECK(pretty_fractions("12 blocks") == "12 blocks");
}

TEST_CASE("values are words, not Markdown") { CHECK(expanded("{{odd}}") == "a\\*b\\_c"); }

TEST_CASE("sections are for the size at hand") {
  CHECK(expanded("{{#lap}}A{{/lap}}{{#wall}}B{{/wall}}{{^wall}}C{{/wall}}") == "AC");
  CHECK(expanded("{{#lap}}{{size.width}}{{/lap}}") == "60¾ in");
  CHECK(expanded("{{#wall}}{{block.star.count}} stars{{/wall}}x") == "x");
}

TEST_CASE("an unknown tag is an error at its place, with the nearest name") {
  const std::string text = "# Größe\n\nIt is ½ of {{size.widht}} wide.\n";
  Diagnostics d;
  CHECK_FALSE(expand_tags("w.md", text, values(), d));
  REQUIRE(d.all().size() == 1);
  const Diagnostic& e = d.all()[0];
  CHECK(e.code == "D401");
  CHECK(e.span.file == "w.md");
  const auto [line, column] = help::place_of(text, "{{size");
  CHECK(e.span.line == line);
  CHECK(e.span.column == column);
  CHECK(e.span.end_column == column + 14);
  REQUIRE(e.hints.size() == 1);
  CHECK(e.hints[0] == "did you mean `size.width`?");
}

TEST_CASE("a section of no size is an error with the nearest size") {
  Diagnostics d;
  CHECK_FALSE(expand_tags("w.md", "a {{#lapp}}x{{/lapp}}", values(), d));
  REQUIRE(d.all().size() == 1);
  CHECK(d.all()[0].code == "D401");
  CHECK(d.all()[0].span.column == 3);
  CHECK(d.all()[0].hints.at(0) == "did you mean `lap`?");
}

TEST_CASE("a value that only another size has is an error where this size would show it") {
  Diagnostics d;
  CHECK_FALSE(expand_tags("w.md", "{{block.star.count}}", values(), d));
  REQUIRE(d.all().size() == 1);
  CHECK(d.all()[0].code == "D401");
  CHECK(d.all()[0].message.find("`lap`") != std::string::npos);
}

TEST_CASE("all errors of a text are told at once") {
  Diagnostics d;
  CHECK_FALSE(expand_tags("w.md", "{{one}} {{two}}\n{{three}}", values(), d));
  CHECK(d.error_count() == 3);
}

TEST_CASE("a section left open is an error") {
  Diagnostics d;
  CHECK_FALSE(expand_tags("w.md", "{{#lap}} open", values(), d));
  CHECK(d.error_count() >= 1);
}
