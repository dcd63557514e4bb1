#include "canvas/image.h"

#include <catch2/catch.hpp>

#include "canvas/svg.h"
#include "support/fonts.h"
#include "support/photos.h"

using namespace dogear::canvas;
using namespace dogear::test;

namespace {

RasterRef read(const std::string& file) {
  std::string error;
  const RasterRef raster = read_photo(file, error);
  INFO(error);
  REQUIRE(raster);
  CHECK(error.empty());
  return raster;
}

std::string refused(const std::string& file) {
  std::string error;
  CHECK_FALSE(read_photo(file, error));
  CHECK_FALSE(error.empty());
  return error;
}

bool says(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a JPEG keeps its dots as they are packed and loses what the camera wrote") {
  const std::string plain = grey_jpeg(3, 2);
  const RasterRef raster = read(plain);
  CHECK(raster->jpeg);
  CHECK(raster->columns == 24);
  CHECK(raster->rows == 16);
  CHECK(raster->channels == 1);
  CHECK(raster->bytes == plain);
  const RasterRef marked = read(grey_jpeg(3, 2, exif(1) + segment(0xFE, "a comment")));
  CHECK(marked->bytes == plain);
}

TEST_CASE("a coloured JPEG has three channels") {
  CHECK(read(coloured(grey_jpeg(3, 2)))->channels == 3);
  CHECK(read(coloured(grey_jpeg(3, 2)))->columns == 24);
}

TEST_CASE("a photograph stands as the camera was held") {
  for (int held = 1; held <= 8; ++held) {
    CAPTURE(held);
    const RasterRef raster = read(grey_jpeg(3, 2, exif(held)));
    CHECK(raster->width() == (held <= 4 ? 24 : 16));
    CHECK(raster->height() == (held <= 4 ? 16 : 24));
    CHECK(raster->upright.apply(Rect{0, 0, 1, 1}) == Rect{0, 0, 1, 1});
  }
  // Exif 2.3, tag 0112: in 6 the row that is stored first is the right side of the picture.
  const RasterRef six = read(grey_jpeg(3, 2, exif(6)));
  CHECK(six->upright.apply(Point{0, 0}) == Point{1, 0});
  CHECK(six->upright.apply(Point{1, 0}) == Point{1, 1});
  // In 8 it is the left side, and the column stored first is the bottom.
  const RasterRef eight = read(grey_jpeg(3, 2, exif(8)));
  CHECK(eight->upright.apply(Point{0, 0}) == Point{0, 1});
  CHECK(eight->upright.apply(Point{1, 0}) == Point{0, 0});
}

TEST_CASE("a PNG is unpacked and lies on white") {
  const RasterRef raster = read(png(2, 1, {255, 0, 0, 255, /* half covered */ 0, 0, 0, 0}));
  CHECK_FALSE(raster->jpeg);
  CHECK(raster->channels == 3);
  REQUIRE(raster->bytes.size() == 6);
  CHECK(raster->bytes == std::string("\xFF\0\0\xFF\xFF\xFF", 6));
  const RasterRef grey = read(png(3, 1, {0, 90, 255}, PNG_FORMAT_GRAY));
  CHECK(grey->channels == 1);
  CHECK(grey->bytes == std::string("\0\x5A\xFF", 3));
}

TEST_CASE("what cannot be printed says why") {
  CHECK(says(refused(""), "neither a JPEG nor a PNG"));
  CHECK(says(refused("GIF89a"), "neither a JPEG nor a PNG"));
  CHECK(says(refused(std::string(largest_photo + 1, ' ')), "larger than 32 MB"));
  const std::string jpeg = grey_jpeg(3, 2);
  std::string other = jpeg;
  other[other.find("\xFF\xC0") + 1] = '\xC3';  // packed without loss
  CHECK(says(refused(other), "rare kind"));
  other = jpeg;
  other[other.find("\xFF\xC0") + 4] = 12;
  CHECK(says(refused(other), "more than 8 bits"));
  other = jpeg;
  other[other.find("\xFF\xC0") + 9] = 4;
  CHECK(says(refused(other), "save it again as RGB"));
  other = jpeg;
  other.replace(other.find("\xFF\xC0") + 5, 4, "\x7F\xFF\x7F\xFF");
  CHECK(says(refused(other), "32767 × 32767 dots"));
  const std::string picture = png(2, 2, std::vector<std::uint8_t>(16, 200));
  other = picture;
  other.replace(16, 8, std::string("\0\0\x7F\xFF\0\0\x7F\xFF", 8));
  CHECK_FALSE(refused(other).empty());
}

TEST_CASE("a file cut off anywhere is refused, never read past its end") {
  const std::string jpeg = grey_jpeg(3, 2, exif(6));
  for (std::size_t n = 0; n < jpeg.size(); ++n) refused(jpeg.substr(0, n));
  const std::string picture = png(4, 4, std::vector<std::uint8_t>(64, 77));
  for (std::size_t n = 0; n + 12 < picture.size(); ++n) refused(picture.substr(0, n));
}

TEST_CASE("a file with any byte changed is read or refused") {
  for (const std::string& good :
       {grey_jpeg(3, 2, exif(6)), png(4, 4, std::vector<std::uint8_t>(64, 77))}) {
    for (std::size_t at = 0; at < good.size(); ++at) {
      for (const char change : {'\x00', '\x7F', '\xFF'}) {
        std::string other = good;
        other[at] = change;
        std::string error;
        const RasterRef raster = read_photo(other, error);
        CHECK((raster != nullptr) == error.empty());
        if (raster && !raster->jpeg)
          CHECK(raster->bytes.size() ==
                static_cast<std::size_t>(raster->columns * raster->rows * raster->channels));
      }
    }
  }
}

TEST_CASE("an SVG picture holds its photographs") {
  DisplayList list;
  list.image(read(grey_jpeg(2, 1, exif(6))), Rect::of(10, 20, 50, 100));
  CHECK(list.bounds() == Rect::of(10, 20, 50, 100));
  const std::string svg = to_svg(list, 100, 200, test_fonts());
  CHECK(says(svg, "transform=\"matrix(0 100 -50 0 60 20)\""));
  CHECK(says(svg, "href=\"data:image/jpeg;base64,/9j/4AAQSkZJRgABAQE"));
  DisplayList other;
  other.image(read(png(1, 1, {1, 2, 3, 255})), Rect::of(0, 0, 9, 9));
  CHECK(says(to_svg(other, 9, 9, test_fonts()), "href=\"data:image/png;base64,iVBORw0KGgo"));
}

TEST_CASE("bytes are spelled in base 64 as RFC 4648 says") {
  // Its section 10: "f", "fo", "foo" with their padding.
  Raster raster;
  raster.jpeg = true;
  const auto spelled = [&](const std::string& bytes) {
    raster.bytes = bytes;
    return data_address(raster).substr(23);
  };
  CHECK(spelled("f") == "Zg==");
  CHECK(spelled("fo") == "Zm8=");
  CHECK(spelled("foo") == "Zm9v");
  CHECK(spelled("foobar") == "Zm9vYmFy");
}
