#include <fmt/format.h>

#include "helpers.h"
#include "source/load.h"
#include "source/node.h"

using namespace dogear;

namespace {

struct Read {
  Sources sources;
  Diagnostics diagnostics;
  std::optional<Node> node;
  explicit Read(const std::string& text) {
    sources.add("f", text);
    node = read_yaml("f", text, diagnostics);
    INFO(print_for_people(diagnostics, sources, false));
    CHECK(node.has_value() != diagnostics.has_errors());
  }
  const Node& operator[](const char* key) const {
    REQUIRE(node.has_value());
    const Entry* entry = node->find(key);
    REQUIRE(entry != nullptr);
    return entry->node();
  }
  std::string at(const Span& span) const { return covered(sources, span); }
};

// Code of the only error and the source it points at: "D003 'x'".
std::string refused(const std::string& text) {
  const Read read(text);
  REQUIRE(read.diagnostics.all().size() == 1);
  const Diagnostic& d = read.diagnostics.all()[0];
  if (d.span.line == 0) return d.code + " file";
  return fmt::format("{} '{}'", d.code, read.at(d.span));
}

std::string all_of(const std::string& text) {
  const Read read(text);
  return print_for_people(read.diagnostics, read.sources, false);
}

bool says(const std::string& text, const char* part) {
  return all_of(text).find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("scalars stay text, whatever they look like") {
  const Read r(
      "whole: 012\nyes: yes\nlength: 2 1/2 in\nquoted: \"#1b2a49\"\nsingle: 'it''s'\n"
      "colon: http://x\nhash: a#b\ndate: 2020-01-01\n");
  CHECK(r["whole"].text == "012");
  CHECK(r["yes"].text == "yes");
  CHECK(r["length"].text == "2 1/2 in");
  CHECK_FALSE(r["length"].quoted);
  CHECK(r["quoted"].text == "#1b2a49");
  CHECK(r["quoted"].quoted);
  CHECK(r["single"].text == "it's");
  CHECK(r["single"].quoted);
  CHECK(r["colon"].text == "http://x");
  CHECK(r["hash"].text == "a#b");
}

TEST_CASE("nothing, in its four spellings, is null; in quotes it is text") {
  const Read r("a:\nb: ~\nc: null\nd: Null\ne: \"\"\nf: \"null\"\ng: nullify\n");
  for (const char* key : {"a", "b", "c", "d"}) CHECK(r[key].kind == Node::Kind::null);
  CHECK(r["e"].kind == Node::Kind::scalar);
  CHECK(r["f"].text == "null");
  CHECK(r["g"].text == "nullify");
  CHECK(r.at(r["a"].span) == "a");
  CHECK(r.at(r["b"].span) == "~");
  CHECK(r.at(r["c"].span) == "null");
  CHECK(std::string(r["a"].kind_name()) == "nothing");
}

TEST_CASE("an empty file is nothing, not an error") {
  for (const char* text : {"", "\n\n", "# only a comment\n", "---\n"}) {
    const Read r(text);
    REQUIRE(r.node.has_value());
    CHECK(r.node->kind == Node::Kind::null);
  }
}

TEST_CASE("spans end at the last character in the source") {
  const Read r(
      "é: ½ yard of ″navy″  # comment\n"
      "long: one\n   two three\n"
      "quoted: \"a \\\" b\"  \n"
      "single: 'it''s' # c\n"
      "block: |\n  first\n\n  second\n\n"
      "folded: >-\n  x\n  y\n"
      "flow: {row: [ray, \"plain\" , ] , n: 2}  # c\n"
      "list:\n  - a b\n  - c\n"
      "map:\n  k: v w\n");
  CHECK(r.at(r["é"].span) == "½ yard of ″navy″");
  CHECK(r["é"].span == Span{"f", 1, 4, 1, 20});
  CHECK(r.at(r["long"].span) == "one\n   two three");
  CHECK(r["long"].text == "one two three");
  CHECK(r.at(r["quoted"].span) == "\"a \\\" b\"");
  CHECK(r.at(r["single"].span) == "'it''s'");
  CHECK(r.at(r["block"].span) == "|\n  first\n\n  second");
  CHECK(r["block"].text == "first\n\nsecond\n");
  CHECK(r.at(r["folded"].span) == ">-\n  x\n  y");
  CHECK(r.at(r["flow"].span) == "{row: [ray, \"plain\" , ] , n: 2}");
  CHECK(r.at(r["flow"].find("row")->node().span) == "[ray, \"plain\" , ]");
  CHECK(r.at(r["flow"].find("n")->key_span) == "n");
  CHECK(r.at(r["list"].span) == "- a b\n  - c");
  CHECK(r.at(r["list"].items[0].span) == "a b");
  CHECK(r.at(r["map"].span) == "k: v w");
  CHECK(r["map"].span.line == 19);
  CHECK(r.node->find("missing") == nullptr);
}

TEST_CASE("entries keep the order of the source") {
  const Read r("b: 1\na: 2\nc: 3\n");
  std::string keys;
  for (const Entry& e : r.node->entries) keys += e.key;
  CHECK(keys == "bac");
}

TEST_CASE("Windows line ends and a byte order mark change nothing") {
  const Read r(
      "\xEF\xBB\xBF"
      "a: x\r\nb: |\r\n  q\r\nc: [1,\r\n  2]\r\n");
  CHECK(r["a"].span == Span{"f", 1, 4, 1, 5});
  CHECK(r.node->entries[0].key_span.column == 1);
  CHECK(r["b"].text == "q\n");
  CHECK(r["c"].items.size() == 2);
  CHECK(r["c"].items[1].span == Span{"f", 5, 3, 5, 4});
}

TEST_CASE("empty items of a list are nothing, at their dash") {
  const Read r("- \n- ~\n-\n- - \n  - x\n");
  REQUIRE(r.node.has_value());
  REQUIRE(r.node->items.size() == 4);
  CHECK(r.node->items[0].span == Span{"f", 1, 1, 1, 2});
  CHECK(r.at(r.node->items[1].span) == "~");
  CHECK(r.node->items[2].span == Span{"f", 3, 1, 3, 2});
  CHECK(r.node->items[3].items[0].span == Span{"f", 4, 3, 4, 4});
}

TEST_CASE("what is not UTF-8 text is refused at its first bad byte") {
  const Read r("é: a\nb: \xFFx\n");
  REQUIRE(r.diagnostics.all().size() == 1);
  CHECK(r.diagnostics.all()[0].code == "D002");
  CHECK(r.diagnostics.all()[0].span.line == 2);
  CHECK(r.diagnostics.all()[0].span.column == 4);
  CHECK(refused(std::string("a: b\0c", 6)).substr(0, 4) == "D002");
  CHECK(refused("a: b\x04\nc: d").substr(0, 4) == "D002");
  CHECK(refused("a: b\rc: d").substr(0, 4) == "D002");
  CHECK(refused(std::string("\xFF\xFE"
                            "a\0",
                            4))
            .substr(0, 4) == "D002");
}

TEST_CASE("broken YAML says where, in plain words") {
  CHECK(refused("a: 1\nb") == "D003 'b'");
  CHECK(refused("a: 1\nb\nc: 2\n") == "D003 'b'");
  CHECK(refused("a: 1\nunit:3 in\nc: 2\n") == "D003 'unit:'");
  CHECK(refused("a: 1\nhttp://x\nc: 2\n") == "D003 ':'");
  CHECK(refused("a: \"x") == "D003 '\"'");
  CHECK(refused("a: 'x\nb: c\n") == "D003 '''");
  CHECK(refused("a: x: y\n") == "D003 ':'");
  CHECK(refused("a:\n\tb: 1\n") == "D003 '\t'");
  CHECK(refused("a: b\n\tc: d\n") == "D003 '\t'");
  CHECK(refused("a: [1, 2\n") == "D003 '['");
  CHECK(refused("a: {b: c\nd: e\n") == "D003 '{'");
  CHECK(refused("a: ]\n") == "D003 ']'");
  CHECK(refused("a: [b}\n") == "D003 '}'");
  CHECK(refused("a: [1, 2] 3\n") == "D003 '3'");
  CHECK(refused("a: \"x\" y\n") == "D003 'y'");
  CHECK(refused("a: - b\n") == "D003 '-'");
  CHECK(refused("a: > x\n") == "D003 'x'");
  CHECK(refused("a: @x\n") == "D003 '@'");
  CHECK(refused("a: \"\\q\"\n") == "D003 '\\q'");
  CHECK(refused("- a\nb: c\n") == "D003 'b: c'");
  CHECK(refused("a:\n  - x\n - y\n") == "D003 '-'");
  CHECK(refused(": v\n") == "D003 ':'");
  CHECK(refused("[a]: b\n") == "D003 '[a]'");
  CHECK(refused("{a, b: 1}\n") == "D003 'a'");
  CHECK(refused("? a\n: b\n") == "D003 'a'");
  CHECK(refused("null: 1\n") == "D003 'null'");
  CHECK(says("a:\n\tb: 1\n", "hint: a tab cannot indent; use blanks"));
  CHECK(says("unit:3 in\nroles: 1\n", "hint: write `unit: 3 in`"));
  CHECK(says("a: x: y\n", "hint: a text with a colon or # needs quotes"));
  CHECK(says("{a, b: 1}\n", "hint: a list is written in square brackets"));
  CHECK(says("a: \"one\nb: \"two\"\n", "f:1:4: note: the text in quotes began here"));
}

TEST_CASE("a colour without quotes is not lost in silence") {
  CHECK(refused("colour: #1b2a49\nb: 1\n") == "D003 '#1b2a49'");
  CHECK(refused("l:\n  - #fff\n  - x\n") == "D003 '#fff'");
  CHECK(refused("m: {colour: #1b2a49, b: 1}\n") == "D003 '#1b2a49'");
  CHECK(refused("m: [\"#fff\", #1b2a49]\n") == "D003 '#1b2a49'");
  CHECK(says("colour: #1b2a49\n", "put it in quotes: \"#1b2a49\""));
  const Read comment("a: # added later\n  b: 1  # fff\nc: x #fff\n");
  CHECK(comment["a"].kind == Node::Kind::map);
  CHECK(comment["c"].text == "x");
}

TEST_CASE("aliases, anchors and tags are refused") {
  CHECK(refused("a: &k x\n") == "D004 '&k'");
  CHECK(refused("a: *k\n") == "D004 '*'");
  CHECK(refused("a: !t x\n") == "D004 '!t'");
  CHECK(refused("a: ! x\n") == "D004 '!'");
  CHECK(refused("a: !!str\n") == "D004 '!!str'");
  CHECK(refused("a: &k\n") == "D004 '&k'");
  CHECK(refused("a: &k [x]\n") == "D004 '&k'");
  CHECK(refused("a: !m {x: y}\n") == "D004 '!m'");
  const Read both("a: &k x\nb: *k\n");
  CHECK(both.diagnostics.error_count() == 2);
  CHECK(both.at(both.diagnostics.all()[1].span) == "*k");
}

TEST_CASE("an alias bomb is refused without being walked") {
  std::string text = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n";
  for (int i = 1; i < 40; ++i) {
    const std::string eight = repeated(fmt::format("*a{}, ", i - 1), 8);
    text += fmt::format("a{0}: &a{0} [{1}*a{2}]\n", i, eight, i - 1);
  }
  const Read r(text);
  CHECK(r.diagnostics.has_errors());
  CHECK(r.diagnostics.error_count() <= 100);
  CHECK(r.diagnostics.all()[0].code == "D004");
  const Read cycle("a: &a [*a]\n");
  CHECK(cycle.diagnostics.all()[0].code == "D004");
}

TEST_CASE("a key written twice points at both places") {
  const Read r("é: 1\nb: 2\né: 3\n");
  REQUIRE(r.diagnostics.all().size() == 1);
  const Diagnostic& d = r.diagnostics.all()[0];
  CHECK(d.code == "D005");
  CHECK(d.span == Span{"f", 3, 1, 3, 2});
  REQUIRE(d.notes.size() == 1);
  CHECK(d.notes[0].span == Span{"f", 1, 1, 1, 2});
  CHECK(refused("m: {a: 1, 'a': 2}\n") == "D005 ''a''");
  CHECK(Read("a: {k: 1}\nb: {k: 1}\n").node.has_value());
}

TEST_CASE("size and depth are bounded") {
  CHECK(refused("a: " + std::string(1 << 20, 'x')) == "D006 file");
  CHECK(refused(std::string(100'000, '[')).substr(0, 4) == "D006");
  CHECK(refused(repeated("- ", 100'000) + "a").substr(0, 4) == "D006");
  CHECK(refused(repeated("{a: ", 41) + repeated("}", 41)).substr(0, 4) == "D006");
  CHECK(Read(repeated("[", 40) + repeated("]", 40)).node.has_value());
}

TEST_CASE("a second document is refused where it begins") {
  CHECK(refused("a: 1\n---\nb: 2\n") == "D007 '---'");
  CHECK(refused("a: 1\n...\nb: 2\n") == "D007 '...'");
  CHECK(Read("---\na: 1\n...\n").node.has_value());
}

TEST_CASE("all errors of a file are told, up to a hundred") {
  const Read three("a: 1\na: 2\nb: !x y\nc: #1b2a49\n");
  CHECK(three.diagnostics.error_count() == 3);
  CHECK(Read(repeated("a: 1\n", 5000)).diagnostics.error_count() == 100);
}

TEST_CASE("a long line costs no more than many short ones") {
  const Read r("[" + repeated("½, ", 200'000) + "x]");
  REQUIRE(r.node.has_value());
  CHECK(r.node->items.size() == 200'001);
  CHECK(r.node->items.back().span == Span{"f", 1, 600'002, 1, 600'003});
}

TEST_CASE("loading remembers the text and says what cannot be read") {
  MemoryFiles files;
  files.content["a.yaml"] = "a: 1\n";
  Sources sources;
  Diagnostics diagnostics;
  CHECK(load(files, "a.yaml", {}, sources, diagnostics) == "a: 1\n");
  CHECK(sources.line("a.yaml", 1) == "a: 1");
  CHECK_FALSE(diagnostics.has_errors());
  CHECK_FALSE(load(files, "b.yaml", {}, sources, diagnostics));
  const Span asked{"a.yaml", 1, 4, 1, 5};
  CHECK_FALSE(load(files, "c.yaml", asked, sources, diagnostics));
  REQUIRE(diagnostics.all().size() == 2);
  CHECK(diagnostics.all()[0].code == "D001");
  CHECK(diagnostics.all()[0].span.file == "b.yaml");
  CHECK(diagnostics.all()[1].span == asked);
}
