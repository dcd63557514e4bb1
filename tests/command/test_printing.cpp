// Files for a print shop, read back through other programs.

#include <catch2/catch.hpp>
#include <map>
#include <regex>

#include "support.h"
#include "support/photos.h"

using namespace dogear::test;

namespace {

struct Word {
  int page = 0;
  double left = 0, right = 0, top = 0;
};

// Where each word of a file stands, by its text.
std::multimap<std::string, Word> words_of(const std::string& pdf, const fs::path& folder) {
  const std::string html = shell("pdftotext -bbox " + pdf + " -", folder).out;
  std::multimap<std::string, Word> out;
  const std::regex line(
      "<page |<word xMin=\"([0-9.]+)\" yMin=\"([0-9.]+)\" xMax=\"([0-9.]+)\"[^>]*>([^<]*)</word>");
  int page = 0;
  for (auto it = std::sregex_iterator(html.begin(), html.end(), line); it != std::sregex_iterator();
       ++it) {
    const std::smatch& m = *it;
    if (!m[1].matched) {
      ++page;
      continue;
    }
    out.emplace(m[4].str(), Word{page, std::stod(m[1]), std::stod(m[3]), std::stod(m[2])});
  }
  return out;
}

int pages_of(const std::string& pdf, const fs::path& folder) {
  const std::string info = shell("pdfinfo " + pdf, folder).out;
  return std::stoi(info.substr(info.find("Pages:") + 6));
}

// Page numbers stand at the foot: by number, the sheet and where on it.
std::map<int, Word> numbers(const std::string& pdf, const fs::path& folder, double below) {
  std::map<int, Word> out;
  for (const auto& [text, word] : words_of(pdf, folder))
    if (word.top > below && text.find_first_not_of("0123456789") == std::string::npos)
      out[std::stoi(text)] = word;
  return out;
}

}  // namespace

TEST_CASE("an imposed booklet has its pages where folding wants them") {
  const StarFolder here;
  const fs::path& at = here.folder.path();
  REQUIRE(here.dogear({"build", "star", "--imposed", "--paper-thickness", "0.01 in"}).code == 0);
  const std::string size = shell("ls star-*-imposed.pdf | head -1", at).out;
  const std::string imposed = size.substr(0, size.find('\n'));
  const std::string plain = imposed.substr(0, imposed.find("-imposed")) + ".pdf";
  CHECK(shell("qpdf --check " + imposed, at).code == 0);
  const int pages = pages_of(plain, at);
  const int all = (pages + 3) / 4 * 4;
  CHECK(pages_of(imposed, at) == all / 2);
  CHECK(has(shell("pdfinfo " + imposed, at).out, "1224 x 792"));

  const std::map<int, Word> before = numbers(plain, at, 720);
  const std::map<int, Word> after = numbers(imposed, at, 720);
  REQUIRE(before.size() >= 3);
  CHECK(after.size() == before.size());
  for (const auto& [number, word] : after) {
    CAPTURE(number);
    REQUIRE(before.contains(number));
    // The sheet from outside, and the side, by folding `all` pages; the last page is the back.
    const int place = number == pages ? all : number;
    const int sheet = (std::min(place, all + 1 - place) - 1) / 2;
    const bool first_half = place <= all / 2;
    const bool right = place % 2 == 1;
    CHECK(word.page == 2 * sheet + ((first_half == right) ? 1 : 2));
    const double creep = sheet * 0.72;
    const double expected = before.at(number).left + (right ? 612 - creep : creep);
    CHECK(word.left == Approx(expected).margin(0.05));
  }
}

TEST_CASE("an imposed file has no structure and no links, and says so in no metadata") {
  const StarFolder here;
  const fs::path& at = here.folder.path();
  REQUIRE(here.dogear({"build", "star", "--imposed"}).code == 0);
  const std::string file = shell("ls star-*-imposed.pdf | head -1", at).out;
  const std::string imposed = file.substr(0, file.find('\n'));
  CHECK(has(shell("pdfinfo " + imposed, at).out, "Tagged:          no"));
  const std::string bytes = read(here.folder / imposed);
  CHECK_FALSE(has(bytes, "/Annots"));
  CHECK_FALSE(has(bytes, "pdfuaid:part"));
  CHECK(has(bytes, "pdfaid:part"));
}

TEST_CASE("bleed stands in the boxes of the file, with marks round imposed sheets") {
  const StarFolder here;
  const fs::path& at = here.folder.path();
  REQUIRE(here.dogear({"build", "star", "--imposed", "--bleed", "1/8 in"}).code == 0);
  const std::string file = shell("ls star-*-imposed.pdf | head -1", at).out;
  const std::string imposed = file.substr(0, file.find('\n'));
  const std::string plain = imposed.substr(0, imposed.find("-imposed")) + ".pdf";
  const auto box = [&](const std::string& pdf, const std::string& name) {
    const std::string info = shell("pdfinfo -box " + pdf, at).out;
    const std::size_t from = info.find(name);
    const std::string line = info.substr(from, info.find('\n', from) - from);
    return std::regex_replace(line.substr(name.size()), std::regex(" +"), " ");
  };
  CHECK(box(plain, "MediaBox:") == " -9.00 -9.00 621.00 801.00");
  CHECK(box(plain, "BleedBox:") == " -9.00 -9.00 621.00 801.00");
  CHECK(box(plain, "TrimBox:") == " 0.00 0.00 612.00 792.00");
  CHECK(box(imposed, "MediaBox:") == " -27.00 -27.00 1251.00 819.00");
  CHECK(box(imposed, "BleedBox:") == " -9.00 -9.00 1233.00 801.00");
  CHECK(box(imposed, "TrimBox:") == " 0.00 0.00 1224.00 792.00");
  const std::string content =
      shell("qpdf --qdf --object-streams=disable " + imposed + " -", at).out;
  CHECK(has(content, "612 -27 m\n612 -12 l\nS"));    // the fold, above
  CHECK(has(content, "1224 804 m\n1224 819 l\nS"));  // a corner
}

TEST_CASE("a grey booklet paints nothing in colour") {
  const StarFolder here;
  const fs::path& at = here.folder.path();
  const Result built = here.dogear({"build", "star", "--grey"});
  REQUIRE(built.code == 0);
  CHECK(has(built.out, "-grey.pdf"));
  const std::string file = shell("ls star-*-grey.pdf | head -1", at).out;
  const std::string grey = file.substr(0, file.find('\n'));
  const std::string content = shell("qpdf --qdf --object-streams=disable " + grey + " -", at).out;
  CHECK_FALSE(has(content, " rg\n"));
  CHECK_FALSE(has(content, " RG\n"));
  CHECK(has(content, " g\n"));
}

TEST_CASE("printing options that make no sense are told") {
  const StarFolder here;
  CHECK(here.dogear({"build", "star", "--bleed", "1/8"}).code == 2);
  CHECK(here.dogear({"build", "star", "--bleed", "2 in"}).code == 2);
  CHECK(here.dogear({"build", "star", "--imposed", "--paper-thickness", "1 in"}).code == 2);
  CHECK(here.dogear({"build", "star", "--paper-thickness", "0.1 mm"}).code == 2);
}

TEST_CASE("a photograph comes into the PDF and the list of what it depends on") {
  const StarFolder here;
  const std::string jpeg = coloured(grey_jpeg(150, 100));
  write(here.pattern / "photos" / "quilt.jpg", jpeg);
  change(here.pattern / "prose" / "welcome.md", "![The finished quilt](figure:quilt)",
         "![The finished quilt](photos/quilt.jpg)");
  const Result built = here.dogear({"build", "star", "--depfile", "star.d"});
  CHECK(built.code == 0);
  CHECK(built.err == "");
  CHECK(has(read(here.folder / "star.d"), "star/photos/quilt.jpg"));
  const std::string file = shell("ls star-*.pdf | head -1", here.folder.path()).out;
  CHECK(has(read(here.folder / file.substr(0, file.find('\n'))), jpeg));
  // Its dots are not unpacked, so they stay as they are, and that is told.
  const Result grey = here.dogear({"build", "star", "--grey"});
  CHECK(grey.code == 0);
  CHECK(has(grey.err, "D681"));
}
