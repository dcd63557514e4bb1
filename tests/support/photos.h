#pragma once
// Photographs for tests: JPEG files written here dot by dot, PNG files by libpng.

#include <png.h>

#include <cstdint>
#include <string>
#include <vector>

namespace dogear::test {

inline std::string segment(int marker, const std::string& content) {
  const std::size_t length = content.size() + 2;
  return std::string("\xFF") + static_cast<char>(marker) + static_cast<char>(length >> 8) +
         static_cast<char>(length & 0xFF) + content;
}

// An Exif segment (TIFF 6.0, least byte first) that says how the camera was held, and a place.
inline std::string exif(int orientation) {
  std::string content("Exif\0\0II\x2A\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0", 24);
  content += static_cast<char>(orientation);
  content += std::string(7, '\0') + "Taken at 12 Any Street";
  return segment(0xE1, content);
}

// A grey JPEG of so many squares of 8 × 8 dots, all of a middle grey (128) but the first, which is
// lighter (190). Each square is one number in a Huffman code of two words; ITU-T T.81, annex F.
inline std::string grey_jpeg(int across, int down, const std::string& more_segments = {}) {
  const auto sides = [](int n) {
    return std::string{static_cast<char>(n >> 8), static_cast<char>(n & 0xFF)};
  };
  std::string out = "\xFF\xD8" + segment(0xE0, std::string("JFIF\0\1\1\1\0\x48\0\x48\0\0", 14));
  out += more_segments;
  out += segment(0xDB, std::string(1, '\0') + std::string(64, '\x10'));
  out += segment(0xC0, "\x08" + sides(8 * down) + sides(8 * across) + std::string("\1\1\x11\0", 4));
  // Steps: "0" none, "10" five bits follow. Within a square: "0" nothing more.
  out += segment(0xC4, std::string("\0\1\1", 3) + std::string(14, '\0') + std::string("\0\5", 2));
  out += segment(0xC4, std::string("\x10\1", 2) + std::string(15, '\0') + std::string("\0", 1));
  out += segment(0xDA, std::string("\1\1\0\0\x3F\0", 6));
  std::string bits = "10111110";              // the first: 31 steps of two up
  if (across * down > 1) bits += "10000000";  // the second: as many down
  for (int i = 2; i < across * down; ++i) bits += "00";
  while (bits.size() % 8 != 0) bits += '1';
  for (std::size_t at = 0; at < bits.size(); at += 8) {
    int value = 0;
    for (std::size_t i = 0; i < 8; ++i) value = value * 2 + (bits[at + i] == '1' ? 1 : 0);
    out += static_cast<char>(value);
    if (value == 0xFF) out += '\0';
  }
  return out + "\xFF\xD9";
}

// The same with a head that speaks of three colours; its dots stay those of one.
inline std::string coloured(std::string jpeg) {
  const std::size_t at = jpeg.find("\xFF\xC0");
  const std::string sides = jpeg.substr(at + 5, 4);
  return jpeg.replace(
      at, 13, segment(0xC0, "\x08" + sides + std::string("\3\1\x11\0\2\x11\0\3\x11\0", 10)));
}

// Dots of red, green, blue and (in `alpha` files) how much they cover, four bytes each.
inline std::string png(int columns, int rows, const std::vector<std::uint8_t>& rgba,
                       std::uint32_t format = PNG_FORMAT_RGBA) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(columns);
  image.height = static_cast<png_uint_32>(rows);
  image.format = format;
  std::string out(PNG_IMAGE_PNG_SIZE_MAX(image), '\0');
  png_alloc_size_t size = out.size();
  png_image_write_to_memory(&image, out.data(), &size, 0, rgba.data(), 0, nullptr);
  out.resize(size);
  return out;
}

}  // namespace dogear::test
