#include "canvas/image.h"

#include <png.h>

#include <cstdint>
#include <cstring>

#include "canvas/jpeg.h"

namespace dogear::canvas {
namespace {

bool fits(std::uint32_t columns, std::uint32_t rows, std::string& error) {
  if (columns == 0 || rows == 0)
    error = "it has no dots";
  else if (columns > widest_photo || rows > widest_photo ||
           static_cast<long>(columns) * static_cast<long>(rows) > most_dots)
    error = "it has " + std::to_string(columns) + " × " + std::to_string(rows) +
            " dots, more than a booklet needs; make it smaller";
  return error.empty();
}

// Frees what libpng holds, on every way out.
struct Png {
  png_image image{};
  Png() { image.version = PNG_IMAGE_VERSION; }
  ~Png() { png_image_free(&image); }
  Png(const Png&) = delete;
  Png& operator=(const Png&) = delete;
};

RasterRef read_png(std::string_view file, std::string& error) {
  Png png;
  const auto damaged = [&] {
    error = std::string("its PNG data is damaged: ") + png.image.message;
    return nullptr;
  };
  if (png_image_begin_read_from_memory(&png.image, file.data(), file.size()) == 0) return damaged();
  if (!fits(png.image.width, png.image.height, error)) return nullptr;
  const bool coloured = (png.image.format & PNG_FORMAT_FLAG_COLOR) != 0;
  png.image.format = coloured ? PNG_FORMAT_RGB : PNG_FORMAT_GRAY;
  const auto raster = std::make_shared<Raster>();
  Raster& out = *raster;
  out.columns = static_cast<int>(png.image.width);
  out.rows = static_cast<int>(png.image.height);
  out.channels = coloured ? 3 : 1;
  out.bytes.resize(PNG_IMAGE_SIZE(png.image));
  const png_color white_paper{255, 255, 255};
  if (png_image_finish_read(&png.image, &white_paper, out.bytes.data(), 0, nullptr) == 0)
    return damaged();
  return raster;
}

std::string png_file(const Raster& raster) {
  Png png;
  png.image.width = static_cast<png_uint_32>(raster.columns);
  png.image.height = static_cast<png_uint_32>(raster.rows);
  png.image.format = raster.channels == 1 ? PNG_FORMAT_GRAY : PNG_FORMAT_RGB;
  std::string out(PNG_IMAGE_PNG_SIZE_MAX(png.image), '\0');
  png_alloc_size_t size = out.size();
  if (png_image_write_to_memory(&png.image, out.data(), &size, 0, raster.bytes.data(), 0,
                                nullptr) == 0)
    return {};
  out.resize(size);
  return out;
}

}  // namespace

std::string base64(std::string_view bytes) {
  static constexpr char digits[] =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t at = 0; at < bytes.size(); at += 3) {
    std::uint32_t three = 0;
    for (std::size_t i = 0; i < 3; ++i)
      three = three << 8 | (at + i < bytes.size() ? static_cast<unsigned char>(bytes[at + i]) : 0u);
    for (std::size_t i = 0; i < 4; ++i)
      out += at + i <= bytes.size() ? digits[three >> (18 - 6 * i) & 63] : '=';
  }
  return out;
}

RasterRef read_photo(std::string_view file, std::string& error) {
  error.clear();
  if (file.size() > largest_photo) {
    error = "it is larger than " + std::to_string(largest_photo >> 20) + " MB; make it smaller";
    return nullptr;
  }
  if (file.starts_with("\x89PNG")) return read_png(file, error);
  if (!file.starts_with("\xFF\xD8")) {
    error = "it is neither a JPEG nor a PNG file, whatever its name says";
    return nullptr;
  }
  const auto found = std::make_shared<Raster>();
  if (!read_jpeg(file, *found, error) || !fits(static_cast<std::uint32_t>(found->columns),
                                               static_cast<std::uint32_t>(found->rows), error))
    return nullptr;
  return found;
}

std::string data_address(const Raster& raster) {
  return raster.jpeg ? "data:image/jpeg;base64," + base64(raster.bytes)
                     : "data:image/png;base64," + base64(png_file(raster));
}

void DisplayList::image(RasterRef raster, const Rect& area) {
  if (!raster) return;
  const Transform place = raster->upright.then(Transform::scale(area.width(), area.height()))
                              .then(Transform::move(area.left, area.top));
  items_.emplace_back(std::in_place_type<Image>, Image{std::move(raster), place});
}

}  // namespace dogear::canvas
