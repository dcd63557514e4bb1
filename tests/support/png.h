#pragma once
// Reads a PNG back into pixels.

#include <cairo.h>

#include <catch2/catch.hpp>
#include <cstdint>
#include <cstring>
#include <memory>
#include <string>
#include <vector>

namespace dogear::test {

struct Image {
  int width = 0, height = 0;
  std::vector<std::uint32_t> pixels;  // 0xRRGGBB
  std::uint32_t at(int x, int y) const { return pixels[static_cast<std::size_t>(y * width + x)]; }
};

struct Reader {
  const std::string& bytes;
  std::size_t at = 0;
};

inline Image decoded(const std::string& bytes) {
  Reader reader{bytes};
  const auto read = [](void* from, unsigned char* to, unsigned int n) {
    auto& r = *static_cast<Reader*>(from);
    if (r.at + n > r.bytes.size()) return CAIRO_STATUS_READ_ERROR;
    std::memcpy(to, r.bytes.data() + r.at, n);
    r.at += n;
    return CAIRO_STATUS_SUCCESS;
  };
  const std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)> surface(
      cairo_image_surface_create_from_png_stream(read, &reader), cairo_surface_destroy);
  REQUIRE(cairo_surface_status(surface.get()) == CAIRO_STATUS_SUCCESS);
  Image image{cairo_image_surface_get_width(surface.get()),
              cairo_image_surface_get_height(surface.get()),
              {}};
  const unsigned char* data = cairo_image_surface_get_data(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  for (int y = 0; y < image.height; ++y) {
    for (int x = 0; x < image.width; ++x) {
      std::uint32_t pixel = 0;
      std::memcpy(&pixel, data + y * stride + x * 4, 4);
      image.pixels.push_back(pixel & 0xFFFFFF);
    }
  }
  return image;
}

}  // namespace dogear::test
