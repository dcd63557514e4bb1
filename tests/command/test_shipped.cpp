// The patterns that come with the project: their booklets are sound PDFs that say what the ledger
// says, and their ledgers are up to date.

#include <catch2/catch.hpp>
#include <map>
#include <sstream>

#include "base/length.h"
#include "base/text.h"
#include "canvas/font.h"
#include "support.h"
#include "support/tagged_pdf.h"

using namespace dogear::test;

namespace {

std::vector<std::string> lines(const std::string& text) {
  std::vector<std::string> all;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) all.push_back(line);
  return all;
}

long long page_count(const std::string& pdfinfo) {
  for (const std::string& line : lines(pdfinfo)) {
    if (dogear::starts_with(line, "Pages:")) return std::stoll(line.substr(6));
  }
  return 0;
}

// One blank around each word, no punctuation, every fraction spelled plainly.
std::string plain_text(const std::string& text) {
  std::string spelled = dogear::canvas::normal_fractions(text);
  for (char& c : spelled) {
    if (std::string_view(".,;:()").find(c) != std::string_view::npos) c = ' ';
  }
  std::istringstream in(spelled);
  std::string words = " ", word;
  while (in >> word) words += word + ' ';
  return words;
}

// "2 of 2 1/2 x 9 3/8 in" as the booklet says it; empty for what it sums up as smaller pieces.
std::string leftover_printed(const std::string& item) {
  const std::size_t by = item.find(" x ");
  if (by == std::string::npos) return item;
  const std::size_t of = item.find(" of ");
  const std::size_t from = of == std::string::npos ? 0 : of + 4;
  dogear::LengthError error;
  const auto height = dogear::parse_number(item.substr(from, by - from), error);
  const auto length = dogear::parse_number(item.substr(by + 3, item.size() - by - 6), error);
  if (!height || !length) return item;
  if (height->approx() < 1.5 || length->approx() < 1.5) return "";
  const std::string count = of == std::string::npos ? "" : item.substr(0, of) + " pieces of ";
  return count + item.substr(from, by - from) + " × " + item.substr(by + 3);
}

// What the booklet says where the ledger says this; nothing for sums that no booklet prints.
std::vector<std::string> as_printed(const std::string& name, const std::string& value) {
  if (name == "pieces.count" || dogear::starts_with(name, "press.")) return {};
  if (dogear::starts_with(name, "make.") && value == "1") return {};
  if (name.ends_with(".extra") && value == "0") return {};
  // The cloth that is bought is printed, and which months sew the top and finish it by their steps.
  if (name.ends_with(".cut-length") || value == "yes") return {};
  // Of prose's own use: a hexagon sewn in halves never lies there in one piece.
  if (name.ends_with(".unfinished-height")) return {};
  if (dogear::starts_with(name, "make.")) return {plain_text("Make " + value)};
  if (!name.ends_with(".left-over")) return {plain_text(value)};
  // The largest are printed one by one.
  std::vector<std::string> printed;
  for (std::size_t at = 0; at < value.size() && printed.size() < 3;) {
    const std::size_t end = std::min(value.find("; ", at), value.size());
    const std::string item = leftover_printed(value.substr(at, end - at));
    if (!item.empty()) printed.push_back(plain_text(item));
    at = end + 2;
  }
  return printed;
}

void replace_all(std::string& text, const std::string& from, const std::string& to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
    text.replace(at, from.size(), to);
}

// The same as a German booklet prints it.
std::string in_german(std::string words) {
  if (dogear::starts_with(words, " Make ")) return " " + words.substr(6) + "Stück ";
  replace_all(words, " in ", "\u2033 ");
  replace_all(words, " pieces of ", " Stück zu je ");
  return words;
}

}  // namespace

TEST_CASE("there are patterns to look at") { CHECK_FALSE(shipped_patterns().empty()); }

TEST_CASE("the ledgers of the patterns are up to date") {
  for (const fs::path& pattern : shipped_patterns()) {
    CAPTURE(pattern);
    INFO("where the change is meant, renew the ledgers: tools/renew-ledgers");
    CHECK(fs::exists(pattern / "quantities.txt"));
    const Result result = run({"check", pattern.string()}, project);
    CHECK(result.code == 0);
    CHECK(result.err == "");
  }
}

TEST_CASE("the booklets of the patterns are sound") {
  const Folder folder;
  for (const fs::path& shipped : shipped_patterns()) {
    const fs::path pattern = folder / shipped.filename().string();
    copy_folder(shipped, pattern);
    REQUIRE(run({"quantities", pattern.string(), "--ledger"}, project).code == 0);
    const Result built = run({"build", pattern.string(), "-o", "."}, folder.path());
    CAPTURE(pattern, built.err);
    REQUIRE(built.code == 0);
    const bool german = has(read(pattern / "pattern.yaml"), "\nlanguage: de\n");
    for (const std::string& size : lines(run({"sizes", pattern.string()}, project).out)) {
      const std::string pdf = pattern.filename().string() + '-' + size + ".pdf";
      CAPTURE(pdf);
      REQUIRE(fs::exists(folder / pdf));
      const Result check = shell("qpdf --check " + pdf, folder.path());
      CHECK(check.code == 0);
      CHECK(check.err == "");

      const std::string json = shell("qpdf --json=2 --json-key=qpdf " + pdf, folder.path()).out;
      CHECK(structure_faults(json) == std::vector<std::string>{});
      const std::string plain = "qpdf --qdf --object-streams=disable " + pdf + " -";
      CHECK(marking_faults(shell(plain, folder.path()).out) == std::vector<std::string>{});

      const long long pages = page_count(shell("pdfinfo " + pdf, folder.path()).out);
      CHECK(pages >= 6);
      CHECK(pages <= 60);

      const std::string text = plain_text(shell("pdftotext " + pdf + " -", folder.path()).out);
      for (const std::string& line : lines(read(pattern / "quantities.txt"))) {
        const std::size_t is = line.find(" = ");
        if (is == std::string::npos || !dogear::starts_with(line, size + ' ')) continue;
        const std::size_t name = size.size() + 1;
        CAPTURE(line);
        // One block is not planned by the month.
        if (dogear::starts_with(line.substr(name), "month.") && !has(text, "January")) continue;
        for (const std::string& words :
             as_printed(line.substr(name, is - name), line.substr(is + 3))) {
          const std::string said = german ? in_german(words) : words;
          CAPTURE(said);
          CHECK(has(text, said));
        }
      }
    }
  }
}
