#pragma once
// A pattern as the page for screens, and what can be read of it.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "html/html.h"
#include "support/fonts.h"
#include "support/plan.h"
#include "support/small_pattern.h"

namespace dogear::test {

inline const Template& letter() {
  static const Template loaded = [] {
    Diagnostics d;
    auto style = load_template("letter", "en", DiskFiles(), d);
    REQUIRE(style);
    return std::move(*style);
  }();
  return loaded;
}

inline ScreenPage page_of(const Planned& p) {
  REQUIRE(p.quantities);
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts(), english_words()};
  const Pattern& pattern = p.checked->pattern;
  ScreenPage page{pattern.id, pattern.title, pattern.edition, "en", {}};
  for (std::size_t s = 0; s < pattern.sizes.size(); ++s) {
    Diagnostics d;
    auto parts = write_booklet(scene, s, letter(), d);
    INFO(print_for_people(d, Sources(), false));
    REQUIRE(parts);
    page.sizes.push_back(std::move(*parts));
  }
  return page;
}

inline std::string html_of(const Planned& p) { return to_html(page_of(p), letter(), test_fonts()); }

// A small pattern of one block and two sizes, with these words of the designer's.
inline MemoryFiles two_sizes(const std::string& welcome, const std::string& title = "Small") {
  return squares_pattern("title: " + title + "\ndesigner: Test Studio\nedition: \"3\"\n", welcome);
}

}  // namespace dogear::test
