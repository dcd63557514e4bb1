// The structure of a file against the rules of PDF/UA-1 (ISO 14289-1) and of PDF/A-1b (ISO
// 19005-1).

#include "canvas/image.h"
#include "pdf/pdf.h"
#include "support/fonts.h"
#include "support/photos.h"
#include "support/project.h"
#include "support/tagged_pdf.h"
#include "tools.h"

using namespace dogear;
using namespace dogear::canvas;

namespace {

DisplayList words(double y, const std::string& text) {
  DisplayList out;
  out.text(72, y, test_fonts().shape(FontId::text, 11, text));
  return out;
}

DisplayList part(Role role, DisplayList content) {
  DisplayList out;
  out.group(role, std::move(content));
  return out;
}

DisplayList together(std::initializer_list<DisplayList> parts) {
  DisplayList out;
  for (const DisplayList& one : parts) out.append(one);
  return out;
}

// Headings that leave out a level, a list of each kind, a table, a note, links, figures.
Document sample() {
  Document document;
  document.title = "A <tagged> book & more";
  document.author = "Test Studio";
  document.subject = "Everything at once";
  Page page;
  page.label = "1";
  DisplayList& c = page.content;
  c.group(Role::artifact, words(30, "Running line"));
  c.group(Role::heading2, words(60, "A heading that begins too low"));
  c.group(Role::heading3, words(80, "and one below"));
  DisplayList sentence = words(100, "See the cutting, which ");
  const ShapedText link = test_fonts().shape(FontId::text, 11, "stands below");
  sentence.text(72, 114, link);
  sentence.link(Rect::of(72, 104, link.width, 13), "below");
  c.group(Role::paragraph, std::move(sentence));
  for (const char* label : {"•", "1.", "A"}) {
    const DisplayList item = together(
        {part(Role::item_label, words(130, label)), part(Role::item_body, words(130, "An item"))});
    c.group(Role::list, part(Role::item, item));
  }
  const auto row = [&](Role cell, double y) {
    return part(Role::row, together({part(cell, words(y, "One")), part(cell, words(y, "Two"))}));
  };
  c.group(Role::table, together({row(Role::header_cell, 160), row(Role::cell, 175)}));
  c.group(Role::note, part(Role::paragraph, words(200, "A note.")));
  DisplayList shapes;
  shapes.fill_path(Path::rect(0, 0, 30, 30), Color{0.2, 0.3, 0.4});
  DisplayList inner;
  inner.fill_path(Path::rect(0, 0, 10, 10), Color{0.9, 0.3, 0.4});
  shapes.draw(share(std::move(inner)), Transform::move(5, 5));
  shapes.stroke_path(Path::segment({0, 0}, {30, 30}), black, 1);
  const ListRef figure = share(std::move(shapes));
  c.figure(figure, Transform::move(72, 230), "A square with a line");
  c.figure(figure, Transform::move(172, 230), "");  // decoration
  c.text(72, 300, test_fonts().shape(FontId::sans, 9, "Text in no part"));
  c.stroke_path(Path::segment({72, 310}, {300, 310}), black, 0.5);
  c.link_uri(Rect::of(400, 290, 40, 12), "https://example.org/");
  c.anchor("below", {72, 160});
  document.pages = {page, {612, 792, words(72, "The next page"), "2"}};
  return document;
}

std::size_t count(const std::string& text, const std::string& needle) {
  std::size_t n = 0;
  for (std::size_t at = 0; (at = text.find(needle, at)) != std::string::npos; ++at) ++n;
  return n;
}

}  // namespace

TEST_CASE("the structure keeps the rules of PDF/UA-1 that a program can check") {
  if (!has_tool("qpdf")) return;
  const PdfOnDisk file(made(sample()));
  CHECK(test::structure_faults(file.run("qpdf --json=2 --json-key=qpdf")).empty());
  CHECK(test::marking_faults(file.run("qpdf --qdf --object-streams=disable", "-")).empty());
}

TEST_CASE("lists say how their items are counted, headings leave out no level") {
  if (!has_tool("qpdf")) return;
  const std::string plain =
      PdfOnDisk(made(sample())).run("qpdf --qdf --object-streams=disable", "-");
  CHECK(count(plain, "/ListNumbering /Disc") == 1);
  CHECK(count(plain, "/ListNumbering /Decimal") == 1);
  CHECK(count(plain, "/ListNumbering /None") == 1);
  CHECK(count(plain, "/S /H1\n") == 1);
  CHECK(count(plain, "/S /H2\n") == 1);
  CHECK(count(plain, "/S /H3\n") == 0);
  CHECK(count(plain, "/S /Figure\n") == 1);
  CHECK(count(plain, "/ID (note-") == 1);
}

TEST_CASE("a link holds its words, and they describe it") {
  if (!has_tool("pdfinfo")) return;
  const PdfOnDisk file(made(sample()));
  const std::string text = file.run("pdfinfo -struct-text");
  const std::size_t link = text.find("Link");
  REQUIRE(link != std::string::npos);
  CHECK(text.find("stands below", link) < text.find("Object", link));
  CHECK(text.find("See the cutting") < link);
  const std::string bytes = file.run("qpdf --json=2 --json-key=qpdf");
  CHECK(bytes.find("\"/Contents\": \"u:stands below\"") != std::string::npos);
  CHECK(bytes.find("u:Text in no part") == std::string::npos);
  CHECK(bytes.find("\"/Contents\": \"u:https://example.org/\"") != std::string::npos);
}

TEST_CASE("a figure is one piece of marked content, whatever it draws") {
  if (!has_tool("pdfinfo")) return;
  const std::string text = PdfOnDisk(made(sample())).run("pdfinfo -struct-text");
  const std::size_t figure = text.find("Figure");
  REQUIRE(figure != std::string::npos);
  const std::size_t end = text.find("  P", figure);
  CHECK(count(text.substr(figure, end - figure), "\"\"") == 1);
}

TEST_CASE("the metadata says what the document information says") {
  if (!has_tool("xmllint")) return;
  const std::string bytes = made(sample(), {1764097200});
  const std::size_t begin = bytes.find("<?xpacket begin=");
  const std::size_t end = bytes.find("<?xpacket end=\"r\"?>");
  REQUIRE(begin != std::string::npos);  // not packed
  REQUIRE(end != std::string::npos);
  const PdfOnDisk xml(bytes.substr(begin, end - begin));
  const auto value = [&](const std::string& name) {
    std::string out = xml.run("xmllint --xpath \"string(//*[local-name()='" + name + "'])\"");
    out.erase(out.find_last_not_of(" \n") + 1);
    return out;
  };
  CHECK(value("title") == "A <tagged> book & more");
  CHECK(value("creator") == "Test Studio");
  CHECK(value("description") == "Everything at once");
  CHECK(value("CreatorTool") == "dogear " DOGEAR_VERSION);
  CHECK(value("CreateDate") == "2025-11-25T19:00:00Z");
  CHECK(bytes.find("(D:20251125190000Z)") != std::string::npos);
  CHECK(value("conformance") == "B");
  CHECK(count(bytes, "<pdfuaid:part>1</pdfuaid:part>") == 1);
  Document nameless = sample();
  nameless.title.clear();
  CHECK(count(made(nameless), "<pdfuaid:part>") == 0);  // PDF/UA asks for a title
}

TEST_CASE("the file is PDF/A-1b by the judgement of a validator") {
  const std::string script = test::project_folder() + "/tools/check-archive";
  if (std::system((script + " --there >/dev/null 2>&1").c_str()) != 0) {
    WARN("not checked: " + script + " needs a Java runtime and libpdfbox2-java");
    return;
  }
  Document document = sample();
  std::string error;
  const RasterRef grey = read_photo(test::grey_jpeg(4, 4), error);
  const RasterRef colour = read_photo(test::png(1, 1, {200, 30, 30, 255}), error);
  document.pages[1].content.image(grey, Rect::of(72, 100, 50, 50));
  document.pages[1].content.image(colour, Rect::of(172, 100, 50, 50));
  const PdfOnDisk file(made(document, {1764097200}));
  const std::string said = file.run(script);
  CHECK(said.find("is a valid PDF/A-1b file") != std::string::npos);
}
