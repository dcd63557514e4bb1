// Every figure can be read at the size at which the booklets print it.

#include <catch2/catch.hpp>
#include <functional>
#include <set>

#include "help.h"
#include "support/legible.h"
#include "support/project.h"

using namespace dogear;

TEST_CASE("figures are legible as the booklets print them") {
  for (const std::string folder : {"patterns/harbor-lights", "patterns/reed-bed",
                                   "patterns/tide-star", "tests/patterns/base/path",
                                   "tests/patterns/base/measured", "tests/patterns/base/methods"}) {
    DiskFiles files;
    const auto c = help::compile(test::project_folder() + "/" + folder, files);
    for (std::size_t size = 0; size < c->checked.sizes.size(); ++size) {
      Diagnostics d;
      const auto document = set_booklet(c->scene(), size, help::letter(), d);
      REQUIRE(document);
      std::size_t looked = 0;
      std::set<std::pair<const canvas::DisplayList*, double>> seen;
      for (const canvas::Page& page : document->pages) {
        std::vector<help::Shown> figures;
        help::find_figures(page.content, {}, figures);
        for (const help::Shown& shown : figures) {
          if (!seen.emplace(shown.list.get(), shown.where.a).second) continue;
          ++looked;
          canvas::DisplayList printed;
          printed.draw(shown.list, shown.where);
          test::Reading how;
          if (shown.alt.find(", layout:") != std::string::npos) how.own_seams = 0.45;
          for (const std::string& fault : test::faults(printed, how)) {
            INFO(folder << " " << size << " page " << page.label << " {" << shown.alt << "} "
                        << fault);
            CHECK(fault.empty());
          }
        }
      }
      CHECK(looked > 5);
    }
  }
}
