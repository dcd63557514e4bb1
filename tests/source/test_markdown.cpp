#include <fmt/format.h>

#include "helpers.h"
#include "source/markdown.h"

using namespace dogear;

namespace {

struct ReadProse {
  Sources sources;
  Diagnostics diagnostics;
  std::optional<Markdown> markdown;
  explicit ReadProse(const std::string& text) {
    sources.add("f", text);
    markdown = read_markdown("f", text, diagnostics);
    INFO(print_for_people(diagnostics, sources, false));
    CHECK(markdown.has_value() != diagnostics.has_errors());
  }
  const std::vector<Block>& blocks() const {
    REQUIRE(markdown.has_value());
    return markdown->blocks;
  }
  std::string at(const Span& span) const { return covered(sources, span); }

  // Each leaf as text=source, so that a test shows what was read and where.
  std::string leaves(const std::vector<Inline>& inlines) const {
    std::string out;
    for (const Inline& i : inlines) {
      if (!i.children.empty()) {
        out += fmt::format("({})", leaves(i.children));
      } else if (i.kind == Inline::Kind::soft_break) {
        out += "/";
      } else if (i.kind == Inline::Kind::line_break) {
        out += "//";
      } else {
        out += fmt::format("[{}={}]", i.text, at(i.span));
      }
    }
    return out;
  }
};

std::string code_of(const std::string& text) {
  const ReadProse read(text);
  return read.diagnostics.all().empty() ? "" : read.diagnostics.all()[0].code;
}

}  // namespace

TEST_CASE("headings, paragraphs and their pieces") {
  const ReadProse r(
      "# Harbor *Lights*\n\nCut **two** `strips`\\\nof [navy](shop) ![Row](figure:row)\n");
  REQUIRE(r.blocks().size() == 2);
  CHECK(r.blocks()[0].kind == Block::Kind::heading);
  CHECK(r.blocks()[0].level == 1);
  CHECK(r.leaves(r.blocks()[0].inlines) == "[Harbor =Harbor ]([Lights=Lights])");
  const std::vector<Inline>& text = r.blocks()[1].inlines;
  CHECK(r.leaves(text) ==
        "[Cut =Cut ]([two=two])[ = ][strips=`strips`]//[of =of ]([navy=navy])[ = ]"
        "[Row=![Row](figure:row)]");
  CHECK(text[1].kind == Inline::Kind::strong);
  CHECK(r.at(text[1].span) == "**two**");
  CHECK(text[6].kind == Inline::Kind::link);
  CHECK(text[6].address == "shop");
  CHECK(r.at(text[6].span) == "[navy](shop)");
  CHECK(text[8].kind == Inline::Kind::image);
  CHECK(text[8].address == "figure:row");
}

TEST_CASE("columns count code points, also behind indents, quotes and hard breaks") {
  const ReadProse r(
      "½ é *x*\n   ″in *y* \\\n   z *w*\n\n> > a\n  > > *b* `c\n> > d` e\nlazy *f*\n");
  const std::vector<Inline>& first = r.blocks()[0].inlines;
  CHECK(first[1].span == Span{"f", 1, 5, 1, 8});
  CHECK(r.leaves(first) == "[½ é =½ é ]([x=x])/[″in =″in ]([y=y])[ = ]//[z =z ]([w=w])");
  const Block& inner = r.blocks()[1].children[0].children[0];
  CHECK(r.leaves(inner.inlines) ==
        "[a=a]/([b=b])[ = ][c d=`c\n> > d`][ e= e]/[lazy =lazy ]([f=f])");
}

TEST_CASE("quotes curl, code does not, escapes and entities are found in the source") {
  const ReadProse r("\"A\" -- it's... `\"b\" -- c` \\* &amp; R&D; z\n\n    \"d\"\n");
  CHECK(r.leaves(r.blocks()[0].inlines) ==
        "[“A” – it’s… =\"A\" -- it's... ][\"b\" -- c=`\"b\" -- c`]"
        "[ * & R&D; z= \\* &amp; R&D; z]");
  CHECK(r.blocks()[1].kind == Block::Kind::code);
  CHECK(r.blocks()[1].text == "\"d\"\n");
}

TEST_CASE("tags survive whatever they hold") {
  const ReadProse r(
      "Cut {{a_b_c.d}} and *{{x--y}}* \"{{q \"z\"}}\" {{a*b*c}} {{<br>}} {{#s}}k{{/s}}\n\n"
      "| {{a|b}} | c |\n|---|---|\n| `{{d-e}}` | ![{{f}}](figure:{{g_h_i}}) |\n");
  CHECK(r.leaves(r.blocks()[0].inlines) ==
        "[Cut {{a_b_c.d}} and =Cut {{a_b_c.d}} and ]([{{x--y}}={{x--y}}])"
        "[ “{{q \"z\"}}” {{a*b*c}} {{<br>}} {{#s}}k{{/s}}"
        "= \"{{q \"z\"}}\" {{a*b*c}} {{<br>}} {{#s}}k{{/s}}]");
  const Block& table = r.blocks()[1];
  REQUIRE(table.children.size() == 2);
  CHECK(table.children[0].children[0].inlines[0].text == "{{a|b}}");
  CHECK(table.children[1].children[0].inlines[0].text == "{{d-e}}");
  const Inline& image = table.children[1].children[1].inlines[0];
  CHECK(image.text == "{{f}}");
  CHECK(image.address == "figure:{{g_h_i}}");
}

TEST_CASE("tables know their head, alignment and cells") {
  const ReadProse r(
      "| Fabric é | Cut | n | x |\n|:---|--:|:-:|---|\n| a \\| *b* | `c\\|d` | e |\n"
      "\nafter\n");
  REQUIRE(r.blocks().size() == 2);
  const Block& table = r.blocks()[0];
  CHECK(table.kind == Block::Kind::table);
  CHECK(table.align == "lrc-");
  REQUIRE(table.children.size() == 2);
  CHECK(table.children[0].head);
  CHECK_FALSE(table.children[1].head);
  CHECK(r.at(table.children[0].children[0].span) == "Fabric é");
  CHECK(table.children[0].children[1].span == Span{"f", 1, 14, 1, 17});
  const std::vector<Block>& row = table.children[1].children;
  REQUIRE(row.size() == 4);
  CHECK(r.leaves(row[0].inlines) == "[a | =a \\| ]([b=b])");
  CHECK(r.leaves(row[1].inlines) == "[c|d=`c\\|d`]");
  CHECK(row[3].inlines.empty());
}

TEST_CASE("lists, quotes and rules") {
  const ReadProse r("3. one\n4. two\n   - deep *x*\n\n***\n\n> said\n");
  REQUIRE(r.blocks().size() == 3);
  const Block& list = r.blocks()[0];
  CHECK(list.kind == Block::Kind::ordered_list);
  CHECK(list.level == 3);
  REQUIRE(list.children.size() == 2);
  CHECK(list.children[0].kind == Block::Kind::item);
  const Block& bullets = list.children[1].children[1];
  CHECK(bullets.kind == Block::Kind::bullet_list);
  CHECK(r.at(bullets.span) == "- deep *x*");
  CHECK(r.leaves(bullets.children[0].children[0].inlines) == "[deep =deep ]([x=x])");
  CHECK(r.blocks()[1].kind == Block::Kind::rule);
  CHECK(r.at(r.blocks()[1].span) == "***");
  CHECK(r.blocks()[2].kind == Block::Kind::quote);
  CHECK(r.at(r.blocks()[2].span) == "> said");
}

TEST_CASE("links of every form are covered whole") {
  const ReadProse r(
      "[a](<b c> \"t )\") [d][e] [e] <http://x.y> [](z) [f](g(h)i)\n\n[e]: http://e\n");
  std::string covers;
  for (const Inline& i : r.blocks()[0].inlines) {
    if (i.kind == Inline::Kind::link) covers += r.at(i.span) + "->" + i.address + "; ";
  }
  CHECK(covers ==
        "[a](<b c> \"t )\")->b c; [d][e]->http://e; [e]->http://e; "
        "<http://x.y>->http://x.y; [](z)->z; [f](g(h)i)->g(h)i; ");
}

TEST_CASE("raw HTML is an error at each place") {
  const ReadProse r("<div>\nx\n</div>\n\na <br> é <!-- c -->\n\n1 < 2 and 3 > 2, &lt;b>\n");
  REQUIRE(r.diagnostics.all().size() == 3);
  for (const Diagnostic& d : r.diagnostics.all()) CHECK(d.code == "D010");
  CHECK(r.diagnostics.all()[0].span.line == 1);
  CHECK(r.at(r.diagnostics.all()[1].span) == "<br>");
  CHECK(r.at(r.diagnostics.all()[2].span) == "<!-- c -->");
  CHECK(ReadProse("1 < 2, `<b>`, &lt;b>\n").markdown.has_value());
}

TEST_CASE("what is not text is refused") {
  CHECK(code_of("a \xFF b") == "D002");
  CHECK(code_of("a \x01 b") == "D002");
  CHECK(code_of(std::string("a\0b", 3)) == "D002");
  CHECK(code_of(std::string((1 << 20) + 1, '\n')) == "D006");
}

TEST_CASE("tables whose empty cells would fill the memory are refused") {
  const std::string wide = repeated("|a", 1000) + "\n" + repeated("|-", 1000) + "\n";
  CHECK(code_of(wide + repeated("a\n", 1000)) == "D006");
  CHECK(code_of(repeated(">|a", 1) + repeated("|a", 999) + "\n>" + repeated("|-", 1000) + "\n" +
                repeated("> a\n", 1000)) == "D006");
  CHECK(code_of("- x\n\n  " + repeated("|a", 1000) + "\n  " + repeated("|-", 1000) + "\n" +
                repeated("  a\n", 1000)) == "D006");
  CHECK(code_of(repeated("a|b\n-|-\nc|d\n\n", 2000)) == "D006");
  CHECK(code_of(repeated("a|b\n-|-\nc|d\n\n", 1000)).empty());
  CHECK(code_of(repeated("---\n", 1000)).empty());
}

TEST_CASE("nesting is bounded, in blocks and in lines") {
  CHECK(code_of(repeated(">", 31) + "a") == "D006");
  CHECK(code_of(repeated("> ", 30) + "a").empty());
  CHECK(code_of(repeated("- ", 5000) + "a") == "D006");
  CHECK(code_of(repeated("1. ", 3000) + "a") == "D006");
  std::string stairs;
  for (std::size_t i = 0; i < 40; ++i) stairs += std::string(2 * i, ' ') + "- a\n";
  CHECK(code_of(stairs) == "D006");
  CHECK(code_of(repeated("*a **a ", 40) + "b" + repeated("** a* ", 40)) == "D006");
  CHECK(code_of(repeated("![", 40) + "a" + repeated("](b)", 40)) == "D006");
}

TEST_CASE("what makes the parser slow is refused before it runs") {
  CHECK(code_of(std::string(10'001, 'x')) == "D006");
  CHECK(code_of(repeated("a' b\n", 100'000)) == "D006");
  CHECK(code_of(repeated("-|-|-\n-|-\n", 90'000)) == "D006");
}

TEST_CASE("a byte order mark counts in no column") {
  const ReadProse r("\xEF\xBB\xBF# a\r\n\r\nb *c*\r\n");
  CHECK(r.blocks()[0].span == Span{"f", 1, 1, 1, 4});
  CHECK(r.leaves(r.blocks()[1].inlines) == "[b =b ]([c=c])");
}
