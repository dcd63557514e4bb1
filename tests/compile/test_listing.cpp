// The picture and the text that a shop shows.

#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "compile/element_markdown.h"
#include "compile/listing.h"
#include "support/fonts.h"
#include "support/png.h"
#include "support/project.h"

using namespace dogear;

namespace {

std::vector<Output> listing_of(const std::string& pattern) {
  const DiskFiles files;
  Session session(files);
  Options options;
  options.form = Form::listing;
  const auto booklets =
      compile(test::project_folder() + "/patterns/" + pattern, options, test_fonts(), session);
  REQUIRE(booklets);
  REQUIRE(booklets->outputs.size() == 2);
  return booklets->outputs;
}

}  // namespace

TEST_CASE("the cover shows the quilt in the colours of its fabrics") {
  const test::Image image = test::decoded(listing_of("tide-star")[1].bytes);
  CHECK(image.width == 1600);
  CHECK(image.height == 2071);  // as letter paper: 1600 × 11 / 8½, rounded
  std::map<std::uint32_t, std::size_t> count;
  for (const std::uint32_t p : image.pixels) ++count[p];
  const std::size_t all = image.pixels.size();
  CHECK(count[0xFFFFFF] > all / 4);
  CHECK(count[0xFFFFFF] < all * 3 / 4);
  // Coral, shell, lagoon and sand, as patterns/tide-star/pattern.yaml names them.
  for (const std::uint32_t fabric : {0xF2E6D8, 0xD9694F, 0x2F7F8F, 0xD8C08C}) {
    INFO(fabric);
    CHECK(count[fabric] > all / 100);
  }
}

TEST_CASE("text for Markdown shows as it is written") {
  CHECK(markdown_text("a | b * c_d [e] <f> #1") == "a \\| b \\* c\\_d \\[e\\] \\<f\\> \\#1");
  booklet::Element table;
  table.kind = booklet::Element::Kind::table;
  booklet::TextStyle bold;
  bold.font = canvas::FontId::text_bold;
  table.align = "llr";
  table.head = {{}, {{{"Name", {}, false}}, {}}, {{{"Yards", {}, false}}, {}}};
  table.rows = {
      {{}, {{{"A|B", bold, false}, {" (x)", {}, false}}, {}}, {{{"½ yd", {}, false}}, {}}}};
  CHECK(as_markdown({table}, 1) ==
        "| Name | Yards |\n| --- | ---: |\n| **A\\|B** (x) | ½ yd |\n\n");
}
