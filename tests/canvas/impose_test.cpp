#include "canvas/impose.h"

#include <catch2/catch.hpp>

#include "canvas/grey.h"
#include "canvas/image.h"
#include "support/photos.h"

using namespace dogear::canvas;
using Sides = std::vector<std::pair<int, int>>;

namespace {

// Page numbers from 1, 0 for a blank page.
Sides sides(std::size_t pages) {
  Sides out;
  const auto number = [](std::optional<std::size_t> page) {
    return page ? static_cast<int>(*page) + 1 : 0;
  };
  for (const SheetSide& side : sheet_sides(pages))
    out.emplace_back(number(side.left), number(side.right));
  return out;
}

}  // namespace

TEST_CASE("pages lie on sheets as a stapled booklet wants them") {
  // Eight pages: "8 1", "2 7", "6 3", "4 5" (common practice).
  CHECK(sides(8) == Sides{{8, 1}, {2, 7}, {6, 3}, {4, 5}});
  CHECK(sides(4) == Sides{{4, 1}, {2, 3}});
  CHECK(sides(0).empty());
}

TEST_CASE("blank pages come before the back") {
  CHECK(sides(7) == Sides{{7, 1}, {2, 0}, {6, 3}, {4, 5}});
  CHECK(sides(6) == Sides{{6, 1}, {2, 0}, {0, 3}, {4, 5}});
  CHECK(sides(5) == Sides{{5, 1}, {2, 0}, {0, 3}, {4, 0}});
  CHECK(sides(1) == Sides{{0, 1}, {0, 0}});
}

TEST_CASE("folded sheets show the pages in order") {
  for (std::size_t pages = 2; pages <= 60; ++pages) {
    CAPTURE(pages);
    const std::vector<SheetSide> all = sheet_sides(pages);
    REQUIRE(all.size() % 2 == 0);
    // From the front: the right halves of fronts and left halves of backs, sheet by sheet; then
    // from the middle outward the others.
    std::vector<std::optional<std::size_t>> read;
    for (std::size_t i = 0; i < all.size(); i += 2) {
      read.push_back(all[i].right);
      read.push_back(all[i + 1].left);
    }
    for (std::size_t i = all.size(); i > 0; i -= 2) {
      read.push_back(all[i - 1].right);
      read.push_back(all[i - 2].left);
    }
    CHECK(read.size() == (pages + 3) / 4 * 4);
    CHECK(read.back() == pages - 1);
    for (std::size_t i = 0; i + 1 < read.size(); ++i)
      CHECK(read[i] == (i + 1 < pages ? std::optional(i) : std::nullopt));
  }
}

TEST_CASE("pages of different sizes are not laid on one sheet") {
  Document document;
  document.pages = {{100, 200, {}, "1"}, {100, 201, {}, "2"}};
  std::string error;
  CHECK_FALSE(impose(document, {}, error));
  CHECK(error == "pages of different sizes cannot be laid on one sheet");
}

TEST_CASE("pages of inner sheets move toward the fold by the paper around them") {
  Document document;
  for (int i = 0; i < 12; ++i) document.pages.push_back({100, 200, {}, ""});
  std::string error;
  const auto sheets = impose(document, {0, 0, 0.3}, error);
  REQUIRE(sheets);
  REQUIRE(sheets->pages.size() == 6);
  for (std::size_t i = 0; i < 6; ++i) {
    const auto& items = sheets->pages[i].content.items();
    REQUIRE(items.size() == 2);
    const double moved = 0.3 * static_cast<double>(i / 2);
    CHECK(std::get<Form>(items[0]).transform.e == Approx(moved));
    CHECK(std::get<Form>(items[1]).transform.e == Approx(100 - moved));
  }
}

TEST_CASE("grey keeps luminance and contrast") {
  const Color red = *Color::parse("#c04030"), blue = *Color::parse("#203a80");
  for (const Color& color : {red, blue, white, black}) {
    const Color grey = in_grey(color);
    CHECK(grey.r == grey.g);
    CHECK(grey.g == grey.b);
    CHECK(grey.luminance() == Approx(color.luminance()).margin(1e-4));
  }
  CHECK(contrast(in_grey(red), in_grey(blue)) == Approx(contrast(red, blue)).margin(0.01));
}

TEST_CASE("a document in grey is grey in all its parts and keeps what is shared") {
  Style style = Style::filled(*Color::parse("#c04030"));
  style.stroke = *Color::parse("#203a80");
  style.hatch = Hatch{2, *Color::parse("#40a030"), 4, 0.4};
  DisplayList inner;
  inner.shape(Path::rect(0, 0, 9, 9), style);
  const ListRef shared = share(std::move(inner));
  std::string error;
  const RasterRef dots = read_photo(dogear::test::png(1, 1, {255, 0, 0, 255}), error);
  const auto packed = std::make_shared<Raster>();
  packed->columns = packed->rows = 8;
  packed->jpeg = true;
  Document document;
  document.pages.resize(2);
  for (Page& page : document.pages) {
    page.content.draw(shared);
    page.content.figure(shared, {}, "A square");
    page.content.image(dots, Rect::of(0, 0, 1, 1));
    page.content.image(packed, Rect::of(0, 0, 1, 1));
  }
  std::size_t left = 0;
  const Document grey = in_grey(document, left);
  CHECK(left == 1);
  REQUIRE(grey.pages.size() == 2);
  const auto form = [&](std::size_t page) {
    return std::get<Form>(grey.pages[page].content.items()[0]).list;
  };
  CHECK(form(0) == form(1));
  CHECK(std::get<Group>(grey.pages[1].content.items()[1]).list == form(0));
  const Style& turned = std::get<Shape>(form(0)->items()[0]).style;
  for (const Color& color : {*turned.fill, *turned.stroke, turned.hatch->color})
    CHECK((color.r == color.g && color.g == color.b));
  const Raster& raster = *std::get<Image>(grey.pages[0].content.items()[2]).raster;
  CHECK(raster.channels == 1);
  // Red has the luminance 0.2126, as the grey 127 of 255.
  CHECK(raster.bytes == std::string(1, '\x7F'));
}
