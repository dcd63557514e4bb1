#pragma once
// Photographs: JPEG files, whose dots stay packed as they are, and PNG files, which are unpacked.

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "canvas/display.h"

namespace dogear::canvas {

struct Raster {
  int columns = 0, rows = 0;  // dots, as they are stored
  int channels = 3;           // 1 grey, 3 red, green and blue (sRGB)
  bool jpeg = false;
  // The JPEG file without what cameras write about the taking (place, date, owner); or the dots,
  // a byte a channel, rows from the top without gaps.
  std::string bytes;
  Transform upright;  // of the unit square: how the camera was held

  bool lies_on_its_side() const { return upright.a == 0; }
  // Dots across and down as it is looked at.
  int width() const { return lies_on_its_side() ? rows : columns; }
  int height() const { return lies_on_its_side() ? columns : rows; }
};
using RasterRef = std::shared_ptr<const Raster>;

inline constexpr std::size_t largest_photo = 32u << 20;  // bytes of a file
inline constexpr int widest_photo = 20000;               // dots a side
inline constexpr long most_dots = 40'000'000;

// A JPEG or PNG file, known by its first bytes. What is transparent becomes white. Nothing, and
// `error` in plain words, where it is damaged, too large, or of a kind that cannot be printed.
RasterRef read_photo(std::string_view file, std::string& error);

std::string base64(std::string_view bytes);  // of RFC 4648

// The photograph within a page of HTML or an SVG file: "data:image/jpeg;base64,…".
std::string data_address(const Raster& raster);

}  // namespace dogear::canvas
