#include "pdf/image.h"

#include <algorithm>
#include <array>
#include <cstdlib>

namespace dogear::pdf {
namespace {

using canvas::Raster;

int paeth(int left, int up, int corner) {
  const int guess = left + up - corner;
  const int by_left = std::abs(guess - left);
  const int by_up = std::abs(guess - up);
  const int by_corner = std::abs(guess - corner);
  if (by_left <= by_up && by_left <= by_corner) return left;
  return by_up <= by_corner ? up : corner;
}

// Each dot less what its neighbours let expect, by the way of the PNG standard that leaves the
// least of each row: this packs far better.
std::string differences(const Raster& raster) {
  const auto channels = static_cast<std::size_t>(raster.channels);
  const std::size_t width = static_cast<std::size_t>(raster.columns) * channels;
  const auto dot = [&](std::size_t row, std::size_t at) {
    return static_cast<int>(static_cast<unsigned char>(raster.bytes[row * width + at]));
  };
  std::string out;
  out.reserve((width + 1) * static_cast<std::size_t>(raster.rows));
  std::array<std::string, 5> ways;
  for (std::size_t row = 0; row < static_cast<std::size_t>(raster.rows); ++row) {
    std::size_t best = 0;
    long least = -1;
    for (const std::size_t way : {0u, 1u, 2u, 4u}) {
      std::string& line = ways[way];
      line.assign(1, static_cast<char>(way));
      long sum = 0;
      for (std::size_t at = 0; at < width; ++at) {
        const int left = at >= channels ? dot(row, at - channels) : 0;
        const int up = row > 0 ? dot(row - 1, at) : 0;
        const int corner = row > 0 && at >= channels ? dot(row - 1, at - channels) : 0;
        const int expected = way == 0   ? 0
                             : way == 1 ? left
                             : way == 2 ? up
                                        : paeth(left, up, corner);
        const auto rest = static_cast<signed char>(dot(row, at) - expected);
        line += static_cast<char>(rest);
        sum += std::abs(static_cast<int>(rest));
      }
      if (least >= 0 && sum >= least) continue;
      least = sum;
      best = way;
    }
    out += ways[best];
  }
  return out;
}

}  // namespace

HPDF_Dict write_image(Objects& objects, const Raster& raster) {
  const HPDF_Dict out =
      raster.jpeg ? objects.plain_stream(raster.bytes) : objects.stream(differences(raster));
  if (raster.jpeg) {
    out->filter = HPDF_STREAM_FILTER_DCT_DECODE;
  } else {
    const HPDF_Dict parameters = objects.dict();
    objects.set_number(parameters, "Predictor", 15);
    objects.set_number(parameters, "Colors", raster.channels);
    objects.set_number(parameters, "Columns", raster.columns);
    const HPDF_Array of_filters = objects.array();
    objects.push(of_filters, parameters);
    objects.set(out, "DecodeParms", of_filters);
  }
  objects.set_name(out, "Type", "XObject");
  objects.set_name(out, "Subtype", "Image");
  objects.set_number(out, "Width", raster.columns);
  objects.set_number(out, "Height", raster.rows);
  objects.set_name(out, "ColorSpace", raster.channels == 1 ? "DeviceGray" : "DeviceRGB");
  objects.set_number(out, "BitsPerComponent", 8);
  return out;
}

}  // namespace dogear::pdf
