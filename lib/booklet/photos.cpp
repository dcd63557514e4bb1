#include "booklet/photos.h"

#include <algorithm>

#include "base/text.h"
#include "source/markdown.h"

namespace dogear::booklet {
namespace {

// A path that stays in the folder: plain names with slashes between.
bool stays_inside(const std::string& address) {
  if (address.find_first_of("\\:") != std::string::npos) return false;
  const std::vector<std::string> parts = split(address, '/');
  return std::none_of(parts.begin(), parts.end(), [](const std::string& part) {
    return part.empty() || part == "." || part == "..";
  });
}

struct Reader {
  const Pattern& pattern;
  const Files& files;
  Diagnostics& diagnostics;
  Photos found{};

  void blocks(const std::vector<Block>& all) {
    for (const Block& b : all) {
      inlines(b.inlines);
      blocks(b.children);
    }
  }

  void inlines(const std::vector<Inline>& all) {
    for (const Inline& in : all) {
      if (in.kind == Inline::Kind::image && is_photo(in.address)) photo(in);
      inlines(in.children);
    }
  }

  void photo(const Inline& in) {
    if (trim(in.text).empty())
      diagnostics.error("D408", in.span, "the photograph has no words that stand for it")
          .hints.push_back("say in the square brackets what it shows: ![The quilt on a porch](" +
                           in.address + ")");
    if (found.contains(in.address)) return;
    canvas::RasterRef& kept = found[in.address];
    if (in.address.find("{{") != std::string::npos) {
      diagnostics.error("D403", in.span, "the address of a photograph takes no tags");
      return;
    }
    if (!stays_inside(in.address)) {
      diagnostics
          .error("D403", in.span, "`" + in.address + "` does not lie in the pattern's folder")
          .hints.push_back("copy the file there and name it from there: photos/quilt.jpg");
      return;
    }
    std::string reason;
    const auto file = files.read(pattern.folder + "/" + in.address, reason);
    if (file) kept = canvas::read_photo(*file, reason);
    if (kept) return;
    diagnostics.error("D403", in.span,
                      "the photograph `" + in.address + "` cannot be printed: " + reason);
  }
};

}  // namespace

bool is_photo(std::string_view address) {
  std::string end(address.substr(address.size() - std::min<std::size_t>(address.size(), 5)));
  for (char& c : end)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return end.ends_with(".jpg") || end.ends_with(".jpeg") || end.ends_with(".png");
}

Photos read_photos(const Pattern& pattern, const Files& files, Diagnostics& diagnostics) {
  const FencedFiles inside(files, pattern.folder);
  Reader reader{pattern, inside, diagnostics};
  for (const auto& [path, prose] : pattern.prose) {
    Diagnostics told_elsewhere;
    if (const auto source = read_markdown(prose.path, prose.text, told_elsewhere))
      reader.blocks(source->blocks);
  }
  return std::move(reader.found);
}

PhotoSize photo_size(const canvas::Raster& raster, double width, double height) {
  const double columns = raster.width(), rows = raster.height();
  const auto at = [&](double dots) { return columns / dots * 72; };
  double wide = std::max(at(good_dots), std::min(width / 2, at(least_dots)));
  wide = std::min({wide, width, height * columns / rows});
  return {wide, wide * rows / columns, columns / wide * 72};
}

}  // namespace dogear::booklet
