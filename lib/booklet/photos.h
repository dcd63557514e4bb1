#pragma once
// The designer's photographs: Markdown images whose address is a file of the pattern's folder.

#include <map>
#include <string>
#include <string_view>

#include "base/files.h"
#include "canvas/image.h"
#include "diag/diagnostics.h"
#include "model/pattern.h"

namespace dogear::booklet {

// By the address that the prose gives, "photos/quilt.jpg"; null where an error has said why not.
using Photos = std::map<std::string, canvas::RasterRef>;

// Whether an image's address ends like a photograph's file: .jpg, .jpeg or .png.
bool is_photo(std::string_view address);

// Every photograph of the prose. Errors, each at its image: D403 (it lies outside of the folder, is
// not there, is damaged or of a kind that cannot be printed), D408 (no words stand for it).
Photos read_photos(const Pattern& pattern, const Files& files, Diagnostics& diagnostics);

// How large it is printed, in points: with 300 dots to the inch within this room; where that is
// less than half the room's width it grows to the half, though to no fewer than 150 to the inch.
struct PhotoSize {
  double width = 0, height = 0;
  double dots = 0;  // to the inch
};
PhotoSize photo_size(const canvas::Raster& raster, double width, double height);
inline constexpr double good_dots = 300, coarse_dots = 200, least_dots = 150;  // to the inch

}  // namespace dogear::booklet
