#include "canvas/grey.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "canvas/image.h"

namespace dogear::canvas {
namespace {

class Turner {
 public:
  std::set<const Raster*> left;

  DisplayList list(const DisplayList& from) {
    DisplayList out;
    for (Item item : from.items()) {
      std::visit([&](auto& it) { turn(it); }, item);
      out.add(std::move(item));
    }
    return out;
  }

 private:
  static void turn(std::optional<Color>& color) {
    if (color) color = in_grey(*color);
  }
  void turn(Shape& shape) {
    turn(shape.style.fill);
    turn(shape.style.stroke);
    if (shape.style.hatch) shape.style.hatch->color = in_grey(shape.style.hatch->color);
  }
  void turn(GlyphRun& run) { run.color = in_grey(run.color); }
  void turn(Form& form) { turn(form.list); }
  void turn(Group& group) { turn(group.list); }
  void turn(Link&) {}
  void turn(Anchor&) {}

  void turn(ListRef& ref) {
    if (!ref) return;
    const auto known = lists_.find(ref.get());
    if (known == lists_.end()) {
      const DisplayList* key = ref.get();
      ref = share(list(*ref));
      lists_[key] = ref;
    } else {
      ref = known->second;
    }
  }

  void turn(Image& image) {
    if (!image.raster || image.raster->channels == 1) return;
    if (image.raster->jpeg) {
      left.insert(image.raster.get());
      return;
    }
    RasterRef& known = rasters_[image.raster.get()];
    if (!known) known = std::make_shared<const Raster>(grey_dots(*image.raster));
    image.raster = known;
  }

  static Raster grey_dots(const Raster& raster) {
    Raster out = raster;
    out.channels = 1;
    out.bytes.clear();
    out.bytes.reserve(raster.bytes.size() / 3);
    std::map<std::array<unsigned char, 3>, char> known;
    for (std::size_t at = 0; at + 2 < raster.bytes.size(); at += 3) {
      const std::array<unsigned char, 3> dot{static_cast<unsigned char>(raster.bytes[at]),
                                             static_cast<unsigned char>(raster.bytes[at + 1]),
                                             static_cast<unsigned char>(raster.bytes[at + 2])};
      const auto [value, fresh] = known.try_emplace(dot);
      if (fresh) {
        const double v = in_grey(Color{dot[0] / 255.0, dot[1] / 255.0, dot[2] / 255.0}).r;
        value->second = static_cast<char>(static_cast<unsigned char>(std::lround(v * 255)));
      }
      out.bytes += value->second;
    }
    return out;
  }

  std::map<const DisplayList*, ListRef> lists_;  // looked up only, never walked in order
  std::map<const Raster*, RasterRef> rasters_;
};

}  // namespace

Color in_grey(const Color& color) {
  if (color.r == color.g && color.g == color.b) return color;
  const double light = color.luminance();
  const double v = light <= 0.0031308 ? light * 12.92 : 1.055 * std::pow(light, 1 / 2.4) - 0.055;
  return Color::gray(std::round(std::clamp(v, 0.0, 1.0) * 1e4) / 1e4);
}

Document in_grey(const Document& document, std::size_t& left) {
  Turner turner;
  Document out = document;
  for (Page& page : out.pages) page.content = turner.list(page.content);
  left = turner.left.size();
  return out;
}

}  // namespace dogear::canvas
