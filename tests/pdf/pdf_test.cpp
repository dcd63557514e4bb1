#include "pdf/pdf.h"

#include <chrono>
#include <cmath>
#include <nlohmann/json.hpp>

#include "canvas/image.h"
#include "support/fonts.h"
#include "support/photos.h"
#include "tools.h"

using namespace dogear;
using namespace dogear::canvas;

namespace {

const FontSet& fonts() { return test_fonts(); }

Document booklet() {
  DisplayList unit;
  Style style;
  style.fill = Color::parse("#c04030");
  style.hatch = Hatch{1, white, 4, 0.4};
  style.stroke = black;
  unit.shape(Path::polygon({{0, 0}, {40, 0}, {0, 40}}), style);
  unit.text(4, 12, fonts().shape(FontId::sans_bold, 8, "A"), white);
  const ListRef form = share(std::move(unit));

  Document document;
  document.title = "Häfen & Lichter 2½";
  document.author = "Test Studio";
  document.subject = "A test";
  for (int i = 0; i < 3; ++i) {
    Page page;
    page.label = i == 0 ? "i" : std::to_string(i);
    page.content.anchor("page" + std::to_string(i), {0, 72});
    DisplayList paragraph;
    paragraph.text(72, 100,
                   fonts().shape(FontId::text, 11, "Cut 2½ in strips, 15/16, 3⅞ and 12 1/2 in."));
    paragraph.text(72, 116, fonts().shape(FontId::sans, 11, "Office AV: 7⅛ × 1/16, é ﬁne"));
    page.content.group(Role::paragraph, std::move(paragraph));
    for (int k = 0; k < 4; ++k)
      page.content.figure(
          form, Transform::turn_about(90 * k, {20, 20}).then(Transform::move(72 + 50 * k, 200)),
          "Unit A, turned");
    page.content.text(300, 400, fonts().shape(FontId::text_italic, 12, "turned"), black, 45);
    document.pages.push_back(std::move(page));
  }
  document.pages[0].content.link(Rect::of(72, 90, 50, 12), "page2");
  document.pages[1].content.link_uri(Rect::of(72, 90, 50, 12), "https://example.org/a(b)");
  document.outline = {{"Cover", 1, "page0"}, {"Cutting", 1, "page1"}, {"Strips ½", 2, "page2"}};
  return document;
}

std::string refused(const Document& document) {
  std::string error;
  CHECK_FALSE(to_pdf(document, fonts(), error));
  CHECK_FALSE(error.empty());
  return error;
}

Document with(const DisplayList& list) {
  Document document;
  document.pages.push_back({300, 300, list, ""});
  return document;
}

}  // namespace

TEST_CASE("the file passes qpdf's check") {
  if (!has_tool("qpdf")) return;
  const PdfOnDisk file(made(booklet()));
  CHECK(file.run("qpdf --check").find("No syntax or stream encoding errors") != std::string::npos);
}

TEST_CASE("text comes out of the file as it went in, fractions apart from whole numbers") {
  if (!has_tool("pdftotext")) return;
  const std::string text = PdfOnDisk(made(booklet())).run("pdftotext -layout", "-");
  CHECK(text.find("21/2") == std::string::npos);
  CHECK(text.find("37/8") == std::string::npos);
  const std::string plain = normal_fractions(text);
  CHECK(plain.find("Cut 2 1/2 in strips, 15/16, 3 7/8 and 12 1/2 in.") != std::string::npos);
  CHECK(plain.find("Office AV: 7 1/8 × 1/16, é") != std::string::npos);
}

TEST_CASE("every character of the fonts' roles can be told apart by its text") {
  if (!has_tool("pdftotext")) return;
  DisplayList list;
  const std::string line = "q̃ é ö “quoted” × ′ ″ → ≈ 0123456789 AVATAR ffl Qu";
  for (int i = 0; i < font_count; ++i)
    list.text(10, 30 + 20 * i, fonts().shape(static_cast<FontId>(i), 9, line));
  REQUIRE(fonts().missing().empty());
  const std::string text = PdfOnDisk(made(with(list))).run("pdftotext -layout", "-");
  std::size_t lines = 0;
  for (std::size_t at = text.find(line); at != std::string::npos; at = text.find(line, at + 1))
    ++lines;
  INFO(text);
  CHECK(lines == font_count);
}

TEST_CASE("same document, same bytes; another document, another identifier") {
  const std::string first = made(booklet(), {1700000000});
  CHECK(first == made(booklet(), {1700000000}));
  CHECK(first.find("D:20231114221320Z") != std::string::npos);
  CHECK(made(booklet()).find("CreationDate") == std::string::npos);
  const auto id = [](const std::string& pdf) { return pdf.substr(pdf.rfind("/ID"), 60); };
  Document other = booklet();
  other.pages[0].content.text(80, 500, fonts().shape(FontId::text, 9, "more"));
  CHECK(id(made(other)) != id(first));
  other = booklet();
  other.id = "second printing";
  CHECK(id(made(other)) != id(first));
}

TEST_CASE("outline, links, labels, forms and fonts stand in the file") {
  if (!has_tool("qpdf")) return;
  const PdfOnDisk file(made(booklet()));
  const auto json = nlohmann::json::parse(file.run("qpdf --json=1"));
  REQUIRE(json["outlines"].size() == 2);
  CHECK(json["outlines"][0]["title"] == "Cover");
  CHECK(json["outlines"][0]["destpageposfrom1"] == 1);
  REQUIRE(json["outlines"][1]["kids"].size() == 1);
  CHECK(json["outlines"][1]["kids"][0]["title"] == "Strips ½");
  CHECK(json["outlines"][1]["kids"][0]["destpageposfrom1"] == 3);
  REQUIRE(json["pagelabels"].size() == 3);
  CHECK(json["pagelabels"][0]["label"]["/P"] == "i");

  int links = 0, forms = 0, fonts_found = 0, figures = 0;
  std::string uri;
  for (const auto& [name, dict] : json["objects"].items()) {
    if (!dict.is_object()) continue;
    const auto is = [&](const char* key, const char* value) {
      return dict.contains(key) && dict[key] == value;
    };
    links += is("/Subtype", "/Link") ? 1 : 0;
    forms += is("/Subtype", "/Form") ? 1 : 0;
    fonts_found += is("/Subtype", "/Type0") ? 1 : 0;
    figures += is("/S", "/Figure") && is("/Alt", "Unit A, turned") ? 1 : 0;
    if (is("/Subtype", "/Link") && dict.contains("/A")) uri = dict["/A"]["/URI"];
  }
  CHECK(links == 2);
  CHECK(uri == "https://example.org/a(b)");
  CHECK(fonts_found == 4);
  CHECK(figures == 12);
  CHECK(forms == 1);
}

TEST_CASE("the structure can be listened to") {
  if (!has_tool("pdfinfo")) return;
  const PdfOnDisk file(made(booklet()));
  const std::string tree = file.run("pdfinfo -struct-text");
  CHECK(tree.find("Figure") != std::string::npos);
  CHECK(tree.find("Cut 2") != std::string::npos);
  CHECK(tree.find("turned") != std::string::npos);
  const std::string info = file.run("pdfinfo");
  CHECK(info.find("Tagged:          yes") != std::string::npos);
  CHECK(info.find("Häfen & Lichter 2½") != std::string::npos);
  CHECK(info.find("Creator:         dogear " DOGEAR_VERSION) != std::string::npos);
}

TEST_CASE("lines of a paragraph do not run together for who listens") {
  if (!has_tool("pdfinfo")) return;
  DisplayList paragraph;
  const auto line = [&](double x, double y, FontId font, const std::string& words) {
    const ShapedText shaped = fonts().shape(font, 10, words);
    paragraph.text(x, y, shaped);
    return x + shaped.width;
  };
  line(20, 20, FontId::text, "Sew the strips");
  const double bold = line(20, 34, FontId::text, "along the ");
  line(line(bold, 34, FontId::text_bold, "long"), 34, FontId::text, "est edge; press to-");
  line(20, 48, FontId::text, "ward dark");
  DisplayList list;
  list.group(Role::paragraph, paragraph);
  const PdfOnDisk file(made(with(list)));
  std::string read;
  for (const char c : file.run("pdfinfo -struct-text"))
    if (c != '"' && c != '\n') read += c;
  INFO(read);
  CHECK(read.find("strips along the ") != std::string::npos);
  CHECK(read.find("to-ward dark") != std::string::npos);
  CHECK(file.run("pdftotext -layout", "-").find("along the longest edge; press to") !=
        std::string::npos);
}

TEST_CASE("a glyph that a font lacks stops the file") {
  fonts().forget_missing();
  DisplayList list;
  list.text(10, 30, fonts().shape(FontId::text, 9, "ab \U0001F9F5"));
  CHECK(refused(with(list)) == "Vollkorn Regular has no character \U0001F9F5 (U+1F9F5)");
  fonts().forget_missing();

  DisplayList zero;
  ShapedText text = fonts().shape(FontId::text, 9, "abc");
  text.glyphs[1].id = 0;
  zero.text(10, 30, text);
  CHECK(refused(with(zero)).find("abc") != std::string::npos);
  text.glyphs[1].id = 60000;
  DisplayList beyond;
  beyond.text(10, 30, text);
  CHECK(refused(with(beyond)).find("abc") != std::string::npos);
}

TEST_CASE("faults are collected, not written") {
  DisplayList list;
  list.stroke_path(Path::segment({0, 0}, {std::nan(""), 5}), black, 1);
  list.fill_path(Path::rect(0, 0, 1e6, 5), black);
  list.link(Rect::of(0, 0, 5, 5), "nowhere");
  list.link_uri(Rect::of(0, 0, 5, 5), "javascript:alert(1)");
  list.anchor("twice", {0, 0});
  list.anchor("twice", {5, 5});
  Document document = with(list);
  document.outline = {{"Lost", 1, "gone"}};
  const std::string error = refused(document);
  for (const char* part :
       {"page 1 has a coordinate", "“nowhere”", "javascript", "“twice”", "“Lost”"})
    CHECK(error.find(part) != std::string::npos);

  CHECK(refused(Document{}).find("no pages") != std::string::npos);
  Document vast;
  vast.pages.push_back({20000, 300, {}, ""});
  CHECK(refused(vast).find("page 1") != std::string::npos);
  DisplayList hidden;
  hidden.fill_path(Path::rect(0, 0, std::nan(""), 5), black);
  DisplayList outer;
  const ListRef form = share(hidden);
  outer.draw(form);
  outer.draw(form);
  CHECK(refused(with(outer)).find("figure has a coordinate") != std::string::npos);
}

TEST_CASE("odd but lawful documents are written") {
  if (!has_tool("qpdf")) return;
  Document document;
  document.pages.push_back({300, 300, {}, ""});
  document.outline = {};
  DisplayList chain;
  chain.fill_path(Path::circle({50, 50}, 5), black);
  chain.link(Rect::of(0, 0, 5, 5), "end");
  for (int i = 0; i < 20; ++i) {
    DisplayList next;
    next.draw(share(chain), Transform::turn_about(5, {150, 150}));
    chain = next;
  }
  chain.anchor("end", {10, 10});
  document.pages.push_back({300, 300, chain, ""});
  document.outline = {{"Deep first", 4, "end"}, {"Up", 2, "end"}, {"Down", 9, "end"}};
  const PdfOnDisk file(made(document));
  CHECK(file.run("qpdf --check").find("No syntax") != std::string::npos);
  CHECK(nlohmann::json::parse(file.run("qpdf --json=1"))["outlines"].size() == 2);
}

TEST_CASE("links inside figures land where the figure is drawn") {
  if (!has_tool("qpdf")) return;
  DisplayList part;
  part.link_uri(Rect::of(0, 0, 10, 10), "https://example.org/x");
  const ListRef form = share(part);
  DisplayList list;
  list.draw(form, Transform::move(100, 50));
  list.draw(form, Transform::scale(2).then(Transform::move(200, 50)));
  const auto json = nlohmann::json::parse(PdfOnDisk(made(with(list))).run("qpdf --json=1"));
  std::vector<std::string> boxes;
  for (const auto& [name, object] : json["objects"].items())
    if (object.is_object() && object.contains("/Rect")) boxes.push_back(object["/Rect"].dump());
  std::sort(boxes.begin(), boxes.end());
  REQUIRE(boxes.size() == 2);
  CHECK(boxes[0] == "[100,240,110,250]");
  CHECK(boxes[1] == "[200,230,220,250]");
}

TEST_CASE("a booklet of 24 pages and 3000 shapes is written at once") {
  Document document;
  const std::string prose = "Sew one light and one medium strip along the long edge, 2½ in wide.";
  for (int p = 0; p < 24; ++p) {
    Page page;
    for (int i = 0; i < 125; ++i) {
      Style style;
      style.fill = Color{0.2 + i * 0.005, 0.5, 0.6};
      style.stroke = black;
      if (i % 3 == 0) style.hatch = Hatch{i, black, 4, 0.4};
      const double x = 40 + (i % 12) * 42, y = 40 + (i / 12) * 30;
      page.content.shape(Path::polygon({{x, y}, {x + 40, y + 3}, {x + 20, y + 28}}), style);
    }
    for (int i = 0; i < 25; ++i)
      page.content.text(40, 400 + i * 14,
                        fonts().shape(static_cast<FontId>(i % font_count), 9, prose));
    document.pages.push_back(std::move(page));
  }
  const auto begin = std::chrono::steady_clock::now();
  const std::string pdf = made(document);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  CHECK(pdf.size() < 600'000);
  CHECK(took.count() < 1.5);  // some tens of milliseconds; wide margin for sanitizers
}

namespace {

RasterRef photo(const std::string& file) {
  std::string error;
  return read_photo(file, error);
}

}  // namespace

TEST_CASE("a photograph is stored once, as it is packed, and stands as the camera was held") {
  if (!has_tool("pdftoppm") || !has_tool("pdfimages")) return;
  for (const int held : {1, 6, 8}) {
    CAPTURE(held);
    const RasterRef raster = photo(test::grey_jpeg(2, 1, test::exif(held)));
    REQUIRE(raster);
    DisplayList list;
    const bool turned = raster->lies_on_its_side();
    list.image(raster, turned ? Rect::of(10, 10, 40, 80) : Rect::of(10, 10, 80, 40));
    list.image(raster, Rect::of(150, 10, 80, 80));
    const std::string bytes = made(with(list));
    CHECK(bytes.find(raster->bytes) != std::string::npos);
    const PdfOnDisk file(bytes);
    CHECK(file.run("qpdf --check").find("No syntax") != std::string::npos);
    const PdfOnDisk::Picture page = file.picture(72);
    // The first square of the file is light, the second darker.
    const auto light = [&](int x, int y) { return std::abs(page.at(x, y) - 190) < 6; };
    if (held == 1) CHECK((light(20, 30) && !light(80, 30)));
    if (held == 6) CHECK((light(30, 20) && !light(30, 80)));  // turned clockwise: on top
    if (held == 8) CHECK((light(30, 80) && !light(30, 20)));
    const std::string images = file.run("pdfimages -list");
    CHECK(images.find("16     8  gray") != std::string::npos);
    CHECK(images.find("jpeg") != std::string::npos);
    std::size_t objects = 0;
    for (std::size_t at = 0; (at = bytes.find("/Subtype /Image", at)) != std::string::npos; ++at)
      ++objects;
    CHECK(objects == 1);
  }
}

TEST_CASE("the dots of a PNG come out as they went in, packed well") {
  if (!has_tool("pdfimages")) return;
  std::vector<std::uint8_t> dots;
  for (int y = 0; y < 64; ++y)
    for (int x = 0; x < 64; ++x)
      for (const int v : {x * 4, y * 4, (x + y) * 2, 255})
        dots.push_back(static_cast<std::uint8_t>(v));
  DisplayList list;
  list.image(photo(test::png(64, 64, dots)), Rect::of(0, 0, 64, 64));
  const std::string bytes = made(with(list));
  const PdfOnDisk file(bytes);
  file.run("pdfimages -png", file.path() + "-out");
  std::ifstream in(file.path() + "-out-000.png", std::ios::binary);
  const RasterRef back = photo({std::istreambuf_iterator<char>(in), {}});
  REQUIRE(back);
  REQUIRE(back->columns == 64);
  CHECK((back->bytes == photo(test::png(64, 64, dots))->bytes));
  CHECK(bytes.size() < 64 * 64 * 2);
}
