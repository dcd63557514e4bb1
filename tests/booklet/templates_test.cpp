// The section of templates, and what the rest of a booklet says of pieces cut round one.

#include <algorithm>
#include <catch2/catch.hpp>

#include "canvas/font.h"
#include "help.h"
#include "support/project.h"

using namespace dogear;

namespace {

std::string words_in(const std::string& folder, std::size_t size = 0) {
  DiskFiles files;
  const auto c = help::compile(test::project_folder() + folder, files);
  Diagnostics d;
  const auto document = set_booklet(c->scene(), size, help::letter(), d);
  REQUIRE(document);
  std::string text = canvas::normal_fractions(help::words_of(*document));
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text;
}

}  // namespace

TEST_CASE("a booklet with curved pieces prints their templates and how the curve is sewn") {
  const std::string text = words_in("/tests/patterns/base/path");
  for (const char* said :
       {"Templates", "Print these pages at 100%",
        "The squares measure exactly 1 in (25.4 mm) and 5 cm", "Cut 4 of B1 (Cream).",
        "Cut 4 of A2 (Ink).", "from the template, one every", "Curved seam: mark the middle",
        "Card or clear plastic"}) {
    INFO(said);
    CHECK(text.find(said) != std::string::npos);
  }
  CHECK(text.find("is larger than a page") == std::string::npos);
}

TEST_CASE("a template larger than the page is printed on sheets that are joined") {
  // An octagon of 12 in and its seam allowances on paper 8 1/2 in wide.
  const std::string text = words_in("/tests/patterns/base/measured");
  for (const char* said :
       {"Template B2 is larger than a page: print its 6 sheets", "Print these pages at 100%",
        "B2, sheet 1 of 6. Cut 2 of B2 (Ink).", "B2, sheet 6 of 6."}) {
    INFO(said);
    CHECK(text.find(said) != std::string::npos);
  }
}

TEST_CASE("a booklet that rulers serve for has no templates") {
  const std::string text = words_in("/patterns/tide-star");
  CHECK(text.find("Templates") == std::string::npos);
  CHECK(text.find("Card or clear plastic") == std::string::npos);
}
