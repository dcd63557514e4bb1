// Every figure can be read at the size at which the booklets print it.

#include <catch2/catch.hpp>
#include <functional>
#include <set>

#include "help.h"
#include "support/legible.h"
#include "support/project.h"

using namespace dogear;

namespace {

void check_figures(const canvas::Document& document, const std::string& where) {
  std::size_t looked = 0;
  std::set<std::pair<const canvas::DisplayList*, double>> seen;
  for (const canvas::Page& page : document.pages) {
    std::vector<help::Shown> figures;
    help::find_figures(page.content, {}, figures);
    for (const help::Shown& shown : figures) {
      if (!seen.emplace(shown.list.get(), shown.where.a).second) continue;
      ++looked;
      canvas::DisplayList printed;
      printed.draw(shown.list, shown.where);
      test::Reading how;
      if (shown.alt.find(", layout:") != std::string::npos) how.own_seams = 0.45;
      // One name for a run of pieces that are too small for theirs lies over their cuts.
      if (shown.alt.starts_with("Cutting ") || shown.alt.starts_with("Zuschnitt "))
        how.own_seams = 0.55;
      for (const std::string& fault : test::faults(printed, how)) {
        INFO(where << " page " << page.label << " {" << shown.alt << "} " << fault);
        CHECK(fault.empty());
      }
    }
  }
  CHECK(looked > 5);
}

}  // namespace

TEST_CASE("figures are legible as the booklets print them, of demos also on small paper") {
  for (const std::string folder :
       {"patterns/harbor-lights", "patterns/reed-bed", "patterns/tide-star", "patterns/uferwiese",
        "tests/patterns/base/path", "tests/patterns/base/measured",
        "tests/patterns/base/methods"}) {
    const auto c = help::compile(test::project_folder() + "/" + folder, DiskFiles());
    // Not sheets of templates, whose joining marks stand where the sheets meet.
    std::vector<std::string> papers{"letter"};
    if (folder.starts_with("patterns/"))
      papers.emplace_back(folder == "patterns/harbor-lights" ? "a5" : "half-letter");
    for (const std::string& paper : papers) {
      for (std::size_t size = 0; size < c->checked.sizes.size(); ++size) {
        check_figures(help::booklet_on(*c, size, paper),
                      folder + " " + std::to_string(size) + " on " + paper);
      }
    }
  }
}
