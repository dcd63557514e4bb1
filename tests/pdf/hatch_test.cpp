// Hatches that many patches share are stored once and look as if each were drawn by itself.

#include "pdf/pdf.h"
#include "support/fonts.h"
#include "tools.h"

using namespace dogear;
using namespace dogear::canvas;

namespace {

// Three-cornered patches here and there, all of one hatch.
DisplayList patches(int kind, int from, int to) {
  DisplayList list;
  Style style;
  style.fill = Color::gray(0.95);
  style.hatch = Hatch{kind, black, 4.3, 0.5};
  for (int i = from; i < to; ++i) {
    const double x = 11.3 + 47.7 * (i % 5), y = 9.1 + 61.9 * (i / 5);
    style.even_odd = i % 2 == 0;
    list.shape(Path::polygon({{x, y}, {x + 37, y + 5.2}, {x + 14.4, y + 43.6}}), style);
  }
  return list;
}

std::string one_page(const DisplayList& list) {
  Document document;
  document.pages.push_back({260, 200, list, ""});
  return made(document);
}

}  // namespace

TEST_CASE("a stored hatch looks as if it were drawn patch by patch") {
  if (!has_tool("pdftoppm")) return;
  for (int kind = 0; kind < hatch_kinds; ++kind) {
    CAPTURE(kind);
    const std::string all = one_page(patches(kind, 0, 15));
    CHECK(all.find("/Subtype /Form") != std::string::npos);
    const auto together = PdfOnDisk(all).picture(200);
    for (int i = 0; i < 15; i += 7) {
      const std::string one = one_page(patches(kind, i, i + 1));
      CHECK(one.find("/Subtype /Form") == std::string::npos);
      const auto alone = PdfOnDisk(one).picture(200);
      int inked = 0, other = 0;
      for (int y = 0; y < alone.height; ++y) {
        for (int x = 0; x < alone.width; ++x) {
          if (alone.at(x, y) > 200) continue;
          ++inked;
          if (std::abs(alone.at(x, y) - together.at(x, y)) > 64) ++other;
        }
      }
      CHECK(inked > 50);
      CHECK(other <= inked / 50);
    }
  }
}

TEST_CASE("more patches of one hatch add little to the file") {
  const std::string bytes = one_page(patches(0, 0, 15));
  CHECK(bytes.size() < one_page(patches(0, 0, 1)).size() + 1800);
}
