// Rows of the top are drawn large enough on small paper, too.

#include <catch2/catch.hpp>
#include <map>

#include "help.h"
#include "support/legible.h"
#include "support/pattern_files.h"
#include "support/project.h"

using namespace dogear;

namespace {

// The height of what is highest among the patches, pt.
double highest_patch(const help::Shown& shown) {
  canvas::DisplayList printed;
  printed.draw(shown.list, shown.where);
  std::vector<test::Painted> all;
  test::unfold(printed, {}, all);
  double high = 0;
  for (const test::Painted& p : all)
    if (p.shape && p.shape->style.hatch) high = std::max(high, p.shape->path.bounds().height());
  return high;
}

// The heights of the rows' figures, by what they show.
std::map<std::string, double> rows_of(const canvas::Document& document, const std::string& begin) {
  std::map<std::string, double> out;
  for (const canvas::Page& page : document.pages) {
    std::vector<help::Shown> figures;
    help::find_figures(page.content, {}, figures);
    for (const help::Shown& shown : figures)
      if (shown.alt.starts_with(begin)) out[shown.alt] = highest_patch(shown);
  }
  return out;
}

}  // namespace

TEST_CASE("rows of hexagons and rows of sashing are drawn high enough on every paper") {
  const auto harbor =
      help::compile(test::project_folder() + "/patterns/harbor-lights", DiskFiles());
  const auto tide = help::compile(test::project_folder() + "/patterns/tide-star", DiskFiles());
  for (const char* paper : {"letter", "a4", "half-letter", "a5"}) {
    for (std::size_t size = 0; size < 2; ++size) {
      const auto rows = rows_of(help::booklet_on(*harbor, size, paper), "row ");
      CHECK(rows.size() >= 6);
      for (const auto& [alt, high] : rows) {
        INFO(paper << " " << size << " " << alt);
        CHECK(high >= 18);
      }
    }
    const auto sashing = rows_of(help::booklet_on(*tide, 0, paper), "sashing row");
    CHECK(sashing.size() == 1);
    for (const auto& [alt, high] : sashing) {
      INFO(paper << " " << alt);
      CHECK(high >= 10);
    }
  }
}

TEST_CASE("a row broken over two lines says so, one that need not be is whole") {
  const auto tide = help::compile(test::project_folder() + "/patterns/tide-star", DiskFiles());
  test::PatternFiles files;  // each row five blocks wide
  files.add(test::project_folder() + "/patterns/tide-star", "p");
  std::string& pattern = files.content["p/pattern.yaml"];
  for (const char* end : {"lagoon-star, coral-star]", "coral-star, lagoon-star]"}) {
    for (std::size_t at = pattern.find(end); at != std::string::npos; at = pattern.find(end, at)) {
      const std::string begin(end, std::string(end).size() - 1);
      pattern.insert(at, begin + ", ");
      at += 2 * begin.size();
    }
  }
  const auto wide = help::compile("p", files);
  CHECK(help::words_of(help::booklet_on(*wide, 0, "half-letter")).find("the row goes on here") !=
        std::string::npos);
  CHECK(help::words_of(help::booklet_on(*tide, 0, "letter")).find("the row goes on here") ==
        std::string::npos);
}
