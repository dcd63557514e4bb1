#include "canvas/font.h"

#include <algorithm>

#include "support/fonts.h"

using namespace dogear;
using namespace dogear::canvas;

namespace {
const FontSet& fonts() { return test_fonts(); }
const std::vector<FontId> all_fonts{FontId::text, FontId::text_bold, FontId::text_italic,
                                    FontId::sans, FontId::sans_bold};
}  // namespace

TEST_CASE("a missing or broken font is told, not crashed on") {
  MemoryFiles files;
  FontPaths paths{"a.ttf", "b.ttf", "c.ttf", "d.ttf", "e.ttf"};
  std::string error;
  CHECK_FALSE(FontSet::load(files, paths, error));
  for (const char* name : {"a.ttf", "b.ttf", "c.ttf", "d.ttf", "e.ttf"})
    CHECK(error.find(name) != std::string::npos);

  std::string why;
  const auto good = DiskFiles{}.read(FontPaths::debian().text, why);
  REQUIRE(good);
  for (const char* name : {"a.ttf", "b.ttf", "c.ttf", "d.ttf"}) files.content[name] = *good;
  for (const std::string& bad :
       {std::string(), std::string("not a font"), good->substr(0, 300), good->substr(4000)}) {
    files.content["e.ttf"] = bad;
    CHECK_FALSE(FontSet::load(files, paths, error));
    CHECK(error.find("e.ttf") != std::string::npos);
    CHECK(error.find("a.ttf") == std::string::npos);
  }
  files.content["e.ttf"] = *good;
  CHECK(FontSet::load(files, paths, error));
  CHECK(error.empty());
}

TEST_CASE("metrics and names are those of the fonts") {
  CHECK(fonts().postscript_name(FontId::text) == "Vollkorn-Regular");
  CHECK(fonts().postscript_name(FontId::sans_bold) == "Lato-Bold");
  for (const FontId font : all_fonts) {
    const FontMetrics& m = fonts().metrics(font);
    CHECK(m.ascent > m.cap_height);
    CHECK(m.cap_height > m.x_height);
    CHECK(m.x_height > 0.3);
    CHECK(m.descent > 0.1);
    CHECK(m.descent < 0.6);
  }
}

TEST_CASE("kerning and ligatures are at work") {
  const auto width = [](std::string_view text) { return fonts().width(FontId::text, 10, text); };
  CHECK(width("AV") < width("A") + width("V") - 0.2);
  const ShapedText office = fonts().shape(FontId::text, 10, "office");
  CHECK(office.glyphs.size() < 6);
  CHECK(office.text() == "office");
  Features loose;
  loose.ligatures = false;
  CHECK(fonts().shape(FontId::text, 10, "office", loose).glyphs.size() == 6);
}

TEST_CASE("shaping scales with size and is the same a second time") {
  const ShapedText small = fonts().shape(FontId::text, 10, "Press toward the dark fabric");
  const ShapedText large = fonts().shape(FontId::text, 20, "Press toward the dark fabric");
  CHECK(large.width == Approx(2 * small.width));
  REQUIRE(large.glyphs.size() == small.glyphs.size());
  CHECK(large.glyphs.back().x == Approx(2 * small.glyphs.back().x));
}

TEST_CASE("figures are lining, and of one width on request") {
  Features tabular;
  tabular.tabular = true;
  const auto width = [&](std::string_view text) {
    return fonts().width(FontId::text, 10, text, tabular);
  };
  CHECK(width("111") == Approx(width("888")));
  CHECK(fonts().width(FontId::text, 10, "111") < fonts().width(FontId::text, 10, "888"));
  Features old_style;
  old_style.lining = false;
  CHECK(fonts().shape(FontId::text, 10, "3").glyphs[0].id !=
        fonts().shape(FontId::text, 10, "3", old_style).glyphs[0].id);
}

TEST_CASE("fractions are set from the font's small figures") {
  for (const FontId font : all_fonts) {
    INFO(fonts().name(font));
    const ShapedText half = fonts().shape(font, 10, "2½");
    REQUIRE(half.glyphs.size() == 5);
    CHECK(half.text() == "2\u20091\u20442");
    const ShapedText plain = fonts().shape(font, 10, "2");
    CHECK(half.glyphs[0].id == plain.glyphs[0].id);
    CHECK(half.glyphs[4].id != plain.glyphs[0].id);  // the denominator's 2 is another figure
    CHECK(half.glyphs[4].advance < 0.9 * plain.glyphs[0].advance);
    CHECK(half.width > plain.width);

    const ShapedText spelled = fonts().shape(font, 10, "2 1/2");
    CHECK(spelled.width == Approx(half.width));
    CHECK(spelled.text() == half.text());

    const ShapedText sixteenths = fonts().shape(font, 10, "15/16");
    CHECK(sixteenths.text() == "15\u204416");
    REQUIRE(sixteenths.glyphs.size() == 5);
    CHECK(sixteenths.glyphs[0].id != sixteenths.glyphs[3].id);  // numerator 1, denominator 1
    double last = -1;
    for (const Glyph& glyph : sixteenths.glyphs) {
      CHECK(glyph.x > last);
      last = glyph.x;
    }
  }
  Features off;
  off.fractions = false;
  CHECK(fonts().shape(FontId::text, 10, "1/2", off).text() == "1/2");
}

TEST_CASE("text around fractions stays whole") {
  const ShapedText line = fonts().shape(FontId::text, 10, "Cut 2½ in strips, 15/16, 3⅞ in");
  CHECK(normal_fractions(line.text()) == "Cut 2 1/2 in strips, 15/16, 3 7/8 in");
  double end = 0;
  for (const Glyph& glyph : line.glyphs) end = std::max(end, glyph.x + glyph.advance);
  CHECK(end == Approx(line.width).margin(0.5));
  CHECK(fonts().shape(FontId::text, 10, "a\tb\u00A0c\nd").text() == "a b c d");
}

TEST_CASE("a font without small figures gets fractions built from its lining ones") {
  // Lato's own feature is real; a copy with its GSUB table renamed has none.
  std::string why;
  auto bytes = DiskFiles{}.read(FontPaths::debian().sans, why);
  REQUIRE(bytes);
  const std::size_t tag = bytes->find("GSUB");
  REQUIRE(tag < 400);
  bytes->replace(tag, 4, "XSUB");
  MemoryFiles files;
  files.content["plain.ttf"] = *bytes;
  std::string error;
  const auto plain = FontSet::load(
      files, {"plain.ttf", "plain.ttf", "plain.ttf", "plain.ttf", "plain.ttf"}, error);
  INFO(error);
  REQUIRE(plain);
  const ShapedText built = plain->shape(FontId::text, 10, "3⅞");
  CHECK(built.text() == "3\u20097\u20448");
  REQUIRE(built.glyphs.size() == 5);
  CHECK(built.glyphs[2].scale < 1);
  CHECK(built.glyphs[2].y < -1);  // raised
  CHECK(built.glyphs[4].scale < 1);
  CHECK(built.glyphs[4].y == 0);
}

TEST_CASE("missing characters are remembered and never output") {
  fonts().forget_missing();
  const ShapedText text = fonts().shape(FontId::text, 10, "a\U0001F600b");
  CHECK(text.text() == "ab");
  for (const Glyph& glyph : text.glyphs) CHECK(glyph.id != 0);
  fonts().shape(FontId::sans, 10, "\U0001F600 \U0001F600");
  const auto missing = fonts().missing();
  REQUIRE(missing.size() == 2);
  CHECK(missing[0].character == 0x1F600);
  CHECK(missing[0].font == FontId::text);
  CHECK(missing[0].message == "Vollkorn Regular has no character \U0001F600 (U+1F600)");
  CHECK(missing[1].font == FontId::sans);
  fonts().forget_missing();
  CHECK(fonts().missing().empty());
  fonts().shape(FontId::text, 10, "a\U0001F600b");  // kept words tell again
  CHECK(fonts().missing().size() == 1);
  fonts().forget_missing();
  CHECK(fonts().has(FontId::text, U'½'));
  CHECK_FALSE(fonts().has(FontId::text, U'\U0001F600'));
}

TEST_CASE("malformed bytes and empty texts do no harm") {
  CHECK(fonts().shape(FontId::text, 10, "").glyphs.empty());
  fonts().shape(FontId::text, 10, "\xFF\xC3(\xE2\x82");
  fonts().forget_missing();
}

TEST_CASE("lines are put together from words and stretched spaces") {
  ShapedText line = fonts().shape(FontId::text, 10, "Sew");
  const double first = line.width;
  line.append(fonts().space(FontId::text, 10, 7.0));
  line.append(fonts().shape(FontId::text, 10, "strips"));
  CHECK(line.text() == "Sew strips");
  CHECK(line.width == Approx(first + 7 + fonts().width(FontId::text, 10, "strips")));
  CHECK(fonts().space(FontId::text, 10).width == Approx(2.0));  // Vollkorn's space is 0.2 em
}
