#include "canvas/jpeg.h"

#include <cstdint>

namespace dogear::canvas {
namespace {

constexpr int start_of_image = 0xD8, end_of_image = 0xD9, start_of_scan = 0xDA;
constexpr int application = 0xE0, application_last = 0xEF, comment = 0xFE;

constexpr const char* damaged = "its JPEG data is damaged or cut off";

std::uint32_t byte(std::string_view bytes, std::size_t at) {
  return at < bytes.size() ? static_cast<unsigned char>(bytes[at]) : 0;
}
std::uint32_t two_bytes(std::string_view bytes, std::size_t at) {
  return byte(bytes, at) << 8 | byte(bytes, at + 1);
}

// The orientation (1 to 8) of an Exif segment, by TIFF 6.0; 1 where it holds none.
std::uint32_t orientation(std::string_view segment) {
  constexpr std::string_view head("Exif\0\0", 6);
  if (!segment.starts_with(head)) return 1;
  const std::string_view tiff = segment.substr(head.size());
  const bool little = tiff.starts_with("II");
  if (!little && !tiff.starts_with("MM")) return 1;
  const auto number = [&](std::size_t at, int count) {
    std::uint32_t n = 0;
    for (int i = 0; i < count; ++i)
      n = n << 8 | byte(tiff, at + static_cast<std::size_t>(little ? count - 1 - i : i));
    return n;
  };
  const std::size_t directory = number(4, 4);
  if (directory > tiff.size()) return 1;
  const std::uint32_t entries = number(directory, 2);
  for (std::uint32_t i = 0; i < entries; ++i) {
    const std::size_t entry = directory + 2 + std::size_t{12} * i;
    if (entry + 12 > tiff.size()) break;
    if (number(entry, 2) != 0x0112) continue;
    const std::uint32_t value = number(entry + 8, 2);
    return value >= 1 && value <= 8 ? value : 1;
  }
  return 1;
}

// From the unit square as stored to as looked at, y down.
Transform upright(std::uint32_t held) {
  switch (held) {
    case 2:
      return {-1, 0, 0, 1, 1, 0};
    case 3:
      return {-1, 0, 0, -1, 1, 1};
    case 4:
      return {1, 0, 0, -1, 0, 1};
    case 5:
      return {0, 1, 1, 0, 0, 0};
    case 6:
      return {0, 1, -1, 0, 1, 0};
    case 7:
      return {0, -1, -1, 0, 1, 1};
    case 8:
      return {0, -1, 1, 0, 0, 1};
    default:
      return {};
  }
}

bool is_frame(std::uint32_t marker) {
  return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

class Reader {
 public:
  Reader(std::string_view file, Raster& out, std::string& error)
      : file_(file), out_(out), error_(error) {}

  bool read() {
    out_.jpeg = true;
    out_.bytes.reserve(file_.size());
    out_.bytes.append(file_.substr(0, 2));
    std::size_t at = 2;
    while (true) {
      if (byte(file_, at) != 0xFF) return fail(damaged);
      while (byte(file_, at + 1) == 0xFF) ++at;
      const std::uint32_t marker = byte(file_, at + 1);
      const std::size_t length = two_bytes(file_, at + 2);
      if (marker < 0xC0 || marker == start_of_image || marker == end_of_image || length < 2 ||
          at + 2 + length > file_.size())
        return fail(damaged);
      const std::string_view segment = file_.substr(at + 4, length - 2);
      if (is_frame(marker)) {
        const std::string wrong = frame(marker, segment);
        if (!wrong.empty()) return fail(wrong);
      }
      if (marker == application + 1) held_ = held_ == 1 ? orientation(segment) : held_;
      if (marker == start_of_scan) return scans(at);
      if (printable(marker, segment)) out_.bytes += file_.substr(at, 2 + length);
      at += 2 + length;
    }
  }

 private:
  bool fail(const std::string& reason) {
    error_ = reason;
    return false;
  }

  // The place, date and owner of a photograph are not the reader's business.
  static bool printable(std::uint32_t marker, std::string_view segment) {
    if (marker == comment) return false;
    if (marker < application || marker > application_last) return true;
    return segment.starts_with("JFIF") || segment.starts_with("Adobe");
  }

  // What is wrong with the header of the dots, or "".
  std::string frame(std::uint32_t marker, std::string_view segment) {
    if (out_.columns != 0) return "it holds two pictures";
    if (marker > 0xC2) return "it is a JPEG of a rare kind; save it again as an ordinary one";
    if (byte(segment, 0) != 8) return "it has more than 8 bits a colour; save it again with 8";
    out_.rows = static_cast<int>(two_bytes(segment, 1));
    out_.columns = static_cast<int>(two_bytes(segment, 3));
    out_.channels = static_cast<int>(byte(segment, 5));
    if (out_.channels != 1 && out_.channels != 3)
      return "its colours are mixed for a press; save it again as RGB";
    if (segment.size() != 6 + std::size_t{3} * static_cast<std::size_t>(out_.channels))
      return damaged;
    return out_.rows == 0 || out_.columns == 0 ? "it has no dots" : "";
  }

  // From the first scan on all is dots; the file ends with them.
  bool scans(std::size_t at) {
    if (out_.columns == 0) return fail(damaged);
    const std::size_t end = file_.rfind("\xFF\xD9");
    if (end == std::string_view::npos || end < at)
      return fail("its JPEG data is cut off; copy the file again");
    out_.bytes += file_.substr(at, end + 2 - at);
    out_.upright = upright(held_);
    return true;
  }

  std::string_view file_;
  Raster& out_;
  std::string& error_;
  std::uint32_t held_ = 1;
};

}  // namespace

bool read_jpeg(std::string_view file, Raster& out, std::string& error) {
  return Reader(file, out, error).read();
}

}  // namespace dogear::canvas
