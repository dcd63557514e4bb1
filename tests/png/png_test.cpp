#include "png/png.h"

#include "canvas/image.h"

#include <catch2/catch.hpp>
#include <map>

#include "support/fonts.h"
#include "support/png.h"

using namespace dogear;
using namespace dogear::canvas;
using namespace dogear::test;

namespace {

std::string png(const DisplayList& list, double width, double height, int pixels) {
  std::string reason;
  const auto bytes = to_png(list, width, height, pixels, test_fonts(), reason);
  INFO(reason);
  REQUIRE(bytes);
  return *bytes;
}

}  // namespace

TEST_CASE("a drawing with a photograph is refused, for photographs are not painted") {
  DisplayList list;
  list.image(std::make_shared<canvas::Raster>(), {});
  std::string reason;
  CHECK_FALSE(to_png(list, 10, 10, 10, test_fonts(), reason));
  CHECK(reason.find("photograph") != std::string::npos);
}

TEST_CASE("a drawing has its size, colours and places") {
  DisplayList part;
  part.fill_path(Path::rect(0, 0, 10, 10), {0, 0, 1});
  const ListRef shared = share(std::move(part));
  DisplayList list;
  list.fill_path(Path::rect(10, 10, 30, 20), {1, 0, 0});
  list.draw(shared, Transform::scale(2).then(Transform::move(60, 10)));
  list.draw_clipped(shared, Transform::move(90, 10), Path::rect(90, 10, 5, 10));
  list.stroke_path(Path::segment({0, 45}, {100, 45}), {0, 1, 0}, 4);
  const test::Image image = decoded(png(list, 100, 50, 200));
  CHECK(image.width == 200);
  CHECK(image.height == 100);
  CHECK(image.at(2, 2) == 0xFFFFFF);
  CHECK(image.at(50, 40) == 0xFF0000);
  CHECK(image.at(121, 21) == 0x0000FF);
  CHECK(image.at(158, 58) == 0x0000FF);
  CHECK(image.at(162, 30) == 0xFFFFFF);
  CHECK(image.at(185, 30) == 0x0000FF);
  CHECK(image.at(195, 30) == 0xFFFFFF);  // clipped away
  CHECK(image.at(100, 90) == 0x00FF00);
}

TEST_CASE("words and hatches are painted") {
  DisplayList list;
  list.text(10, 40, test_fonts().shape(FontId::sans_bold, 40, "Quilt"), {0, 0, 0});
  const test::Image words = decoded(png(list, 120, 50, 240));
  int dark = 0;
  for (const std::uint32_t p : words.pixels) dark += p == 0 ? 1 : 0;
  CHECK(dark > 800);
  CHECK(dark < 8000);

  DisplayList hatched;
  Style style = Style::filled({1, 1, 0});
  style.hatch = Hatch{2, {0, 0, 1}, 10, 2};
  hatched.shape(Path::rect(0, 0, 50, 50), style);
  const test::Image hatch = decoded(png(hatched, 50, 50, 100));
  std::map<std::uint32_t, int> count;
  for (const std::uint32_t p : hatch.pixels) ++count[p];
  CHECK(count[0xFFFF00] > 7000);
  CHECK(count[0x0000FF] > 1500);
}

TEST_CASE("the same drawing gives the same bytes, and one out of reach gives none") {
  DisplayList list;
  list.text(10, 40, test_fonts().shape(FontId::text, 20, "½ in"), {0.5, 0, 0});
  list.fill_path(Path::circle({50, 50}, 20), {0, 0.5, 0});
  CHECK(png(list, 100, 100, 333) == png(list, 100, 100, 333));
  std::string reason;
  CHECK_FALSE(to_png(list, 0, 100, 100, test_fonts(), reason));
  CHECK_FALSE(to_png(list, 1, 1000, 1000, test_fonts(), reason));
  CHECK_FALSE(reason.empty());
}
