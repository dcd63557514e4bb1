#include "canvas/impose.h"

#include <algorithm>

namespace dogear::canvas {
namespace {

constexpr double mark_gap = 3;  // pt between what may be inked and a mark
constexpr double mark_line = 0.25;

// Where to trim, at the corners, and where to fold, in the middle.
DisplayList marks(double width, double height, const Imposition& how) {
  DisplayList out;
  const double near = how.bleed + mark_gap;
  const double far = how.bleed + how.room;
  const auto line = [&](Point from, Point to, std::vector<double> dash = {}) {
    out.stroke_path(Path::segment(from, to), black, mark_line, std::move(dash));
  };
  for (const double x : {0.0, width}) {
    line({x, -far}, {x, -near});
    line({x, height + near}, {x, height + far});
  }
  for (const double y : {0.0, height}) {
    line({-far, y}, {-near, y});
    line({width + near, y}, {width + far, y});
  }
  line({width / 2, -far}, {width / 2, -near}, {2, 1});
  line({width / 2, height + near}, {width / 2, height + far}, {2, 1});
  return out;
}

}  // namespace

std::vector<SheetSide> sheet_sides(std::size_t pages) {
  const std::size_t all = (pages + 3) / 4 * 4;
  const auto page = [&](std::size_t place) -> std::optional<std::size_t> {
    if (place + 1 == all && pages > 1) return pages - 1;
    const std::size_t before_back = pages > 1 ? pages - 1 : pages;
    return place < before_back ? std::optional(place) : std::nullopt;
  };
  std::vector<SheetSide> out;
  for (std::size_t first = 0; first < all / 2; first += 2) {
    const std::size_t last = all - 1 - first;
    out.push_back({page(last), page(first)});
    out.push_back({page(first + 1), page(last - 1)});
  }
  return out;
}

std::optional<Document> impose(const Document& document, const Imposition& how,
                               std::string& error) {
  error.clear();
  Document out;
  out.title = document.title;
  out.author = document.author;
  out.subject = document.subject;
  out.language = document.language;
  out.id = document.id + "/imposed";
  if (document.pages.empty()) return out;
  const double width = document.pages[0].width, height = document.pages[0].height;
  for (const Page& page : document.pages)
    if (page.width != width || page.height != height) {
      error = "pages of different sizes cannot be laid on one sheet";
      return {};
    }
  const std::vector<SheetSide> sides = sheet_sides(document.pages.size());
  for (std::size_t i = 0; i < sides.size(); ++i) {
    const double creep = how.paper * static_cast<double>(i / 2);
    Page side;
    side.width = 2 * width;
    side.height = height;
    const auto put = [&](std::optional<std::size_t> page, double x, double shift) {
      if (!page) return;
      const double outside = x == 0 ? -how.bleed : width;
      const Path half = Path::rect(outside, -how.bleed, width + how.bleed, height + 2 * how.bleed);
      side.content.draw_clipped(share(document.pages[*page].content), Transform::move(x + shift, 0),
                                half);
    };
    put(sides[i].left, 0, creep);
    put(sides[i].right, width, -creep);
    if (how.room > mark_gap) side.content.append(marks(2 * width, height, how));
    out.pages.push_back(std::move(side));
  }
  return out;
}

}  // namespace dogear::canvas
