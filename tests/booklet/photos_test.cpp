#include "booklet/photos.h"

#include <catch2/catch.hpp>

#include "help.h"
#include "support/photos.h"

using namespace dogear;
using booklet::photo_size;
using booklet::Photos;

namespace {

struct Set {
  Diagnostics said;
  Photos photos;
  std::optional<canvas::Document> document;
};

// The booklet with a welcome page of these words, and this file as photos/quilt.jpg.
Set set(const std::string& words, const std::string& file) {
  MemoryFiles files = help::small_pattern();
  files.content["p/prose/welcome.md"] = "# Welcome\n\n" + words + "\n";
  files.content["p/photos/quilt.jpg"] = file;
  files.content["secret.jpg"] = file;
  const auto c = help::compile("p", files);
  Set out;
  out.photos = booklet::read_photos(c->checked.pattern, files, out.said);
  out.document = set_booklet(c->scene(), 1, help::letter(), out.said, out.photos);
  CHECK((out.document.has_value() || out.said.has_errors()));
  return out;
}

std::string only_code(const Set& set) {
  REQUIRE(set.said.all().size() == 1);
  return set.said.all()[0].code;
}

const canvas::Image* find_image(const canvas::DisplayList& list, canvas::Transform& place,
                                std::string& alt) {
  for (const canvas::Item& item : list.items()) {
    if (const auto* image = std::get_if<canvas::Image>(&item)) {
      place = image->transform.then(place);
      return image;
    }
    const canvas::DisplayList* inner = nullptr;
    canvas::Transform by;
    std::string words = alt;
    if (const auto* group = std::get_if<canvas::Group>(&item)) {
      inner = group->list.get();
      by = group->transform;
      words = group->alt;
    } else if (const auto* form = std::get_if<canvas::Form>(&item)) {
      inner = form->list.get();
      by = form->transform;
    }
    if (inner == nullptr) continue;
    canvas::Transform there = by.then(place);
    if (const canvas::Image* found = find_image(*inner, there, words)) {
      place = there;
      alt = words;
      return found;
    }
  }
  return nullptr;
}

canvas::RasterRef raster(int columns, int rows) {
  auto out = std::make_shared<canvas::Raster>();
  out->columns = columns;
  out->rows = rows;
  return out;
}

}  // namespace

TEST_CASE("a photograph is printed as finely as its dots allow") {
  // 300 dots to the inch are what printers ask for in photographs (common practice).
  const auto fine = photo_size(*raster(1200, 900), 468, 300);
  CHECK(fine.width == Approx(288));  // 4 in
  CHECK(fine.height == Approx(216));
  CHECK(fine.dots == Approx(300));
  const auto large = photo_size(*raster(6000, 3000), 468, 300);
  CHECK(large.width == Approx(468));  // the whole room
  CHECK(large.dots == Approx(6000 / 6.5));
  const auto tall = photo_size(*raster(3000, 6000), 468, 300);
  CHECK(tall.height == Approx(300));
  CHECK(tall.width == Approx(150));
  const auto small = photo_size(*raster(600, 300), 468, 300);
  CHECK(small.width == Approx(234));  // enlarged to half the room
  CHECK(small.dots == Approx(600 / 3.25));
  const auto tiny = photo_size(*raster(300, 300), 468, 300);
  CHECK(tiny.width == Approx(144));  // 2 in: no coarser than 150
  CHECK(tiny.dots == Approx(150));
}

TEST_CASE("a photograph stands in the booklet with its words") {
  const Set made = set("![The quilt on a porch](photos/quilt.jpg)", test::grey_jpeg(150, 100));
  REQUIRE(made.document);
  CHECK(made.said.all().empty());
  bool found = false;
  for (const canvas::Page& page : made.document->pages) {
    canvas::Transform place;
    std::string alt;
    const canvas::Image* image = find_image(page.content, place, alt);
    if (image == nullptr) continue;
    found = true;
    CHECK(image->raster == made.photos.at("photos/quilt.jpg"));
    CHECK(alt == "The quilt on a porch");
    const canvas::Rect area = place.apply(canvas::Rect{0, 0, 1, 1});
    CHECK(area.width() == Approx(1200 / 300.0 * 72));
    CHECK(area.height() == Approx(800 / 300.0 * 72));
    CHECK(area.left >= help::letter().left - 0.01);
    CHECK(area.right <= help::letter().page_width - help::letter().right + 0.01);
  }
  CHECK(found);
}

TEST_CASE("a coarse photograph is told with the dots it needs") {
  const Set made = set("![The quilt](photos/quilt.jpg)", test::grey_jpeg(40, 30));
  CHECK(made.document);
  CHECK(only_code(made) == "D480");
  const Diagnostic& d = made.said.all()[0];
  CHECK(d.severity == Severity::warning);
  CHECK(d.span.line == 3);
  CHECK(d.message == "the photograph `photos/quilt.jpg` is printed with 150 dots to the inch");
  CHECK(d.hints.at(0) == "it has 320 × 240 dots; for this place it needs 640 × 480");
}

TEST_CASE("photographs that cannot be printed are errors at their place") {
  const std::string good = test::grey_jpeg(150, 100);
  CHECK(only_code(set("![a](photos/none.jpg)", good)) == "D403");
  CHECK(only_code(set("![a](photos/quilt.jpg)", good.substr(0, 40))) == "D403");
  CHECK(only_code(set("![](photos/quilt.jpg)", good)) == "D408");
  CHECK(only_code(set("![a](photos/{{size.width}}.jpg)", good)) == "D403");
  for (const char* outside :
       {"../secret.jpg", "photos/../../secret.jpg", "/etc/quilt.jpg", "./photos/quilt.jpg",
        "https://example.org/quilt.jpg", "photos//quilt.jpg"}) {
    CAPTURE(outside);
    const Set made = set("![a](" + std::string(outside) + ")", good);
    CHECK(only_code(made) == "D403");
    CHECK(made.said.all()[0].message.find("does not lie in the pattern's folder") !=
          std::string::npos);
  }
}
