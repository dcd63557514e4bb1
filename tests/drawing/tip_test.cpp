// A tip that is trimmed, drawn larger.

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "drawing/tip.h"
#include "look.h"
#include "sample.h"
#include "support/legible.h"

using namespace dogear;

TEST_CASE("a tip is trimmed along the edge of what lies below it, and is gone beyond") {
  std::size_t looked = 0;
  for (const char* folder : {"harbor-lights", "tide-star"}) {
    const Scene scene = sample::real(folder).scene();
    for (const std::string& address : figure_addresses(scene, 0)) {
      if (!address.starts_with("tip/")) continue;
      CAPTURE(folder, address);
      const auto figure = draw_figure(scene, 0, address, 459, 640);
      REQUIRE(figure);
      CHECK(figure->width == Approx(drawing::tip_side + 1).margin(1));
      const auto drawn = look::at(*figure->list);
      // White ground, lower cloth and its edges, upper cloth and its edges, the tip and its edge,
      // the dashes, the stitches twice, the frame.
      const auto tip = std::find_if(
          drawn.shapes.begin(), drawn.shapes.end(),
          [](const canvas::Shape& s) { return s.style.fill == canvas::Color::gray(0.55); });
      REQUIRE(tip != drawn.shapes.end());
      const auto dashes =
          std::find_if(drawn.shapes.begin(), drawn.shapes.end(), [](const canvas::Shape& s) {
            return s.style.dash == std::vector<double>{2.4, 1.4};
          });
      REQUIRE(dashes != drawn.shapes.end());
      const canvas::Point a = dashes->path.points().front(), b = dashes->path.points().back();
      const double long_ = std::hypot(b.x - a.x, b.y - a.y);
      const auto beside = [&](canvas::Point p) {
        return ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / long_;
      };
      // The whole tip lies on one side of the dashes and touches them.
      double least = 1e9, most = -1e9;
      for (const canvas::Point p : tip->path.points()) {
        least = std::min(least, beside(p));
        most = std::max(most, beside(p));
      }
      CHECK(std::min(std::abs(least), std::abs(most)) < 0.1);
      CHECK(most - least > 2);
      // Some edge of the lower cloth runs along the dashes.
      std::size_t along = 0;
      for (const canvas::Shape& s : drawn.shapes) {
        if (!s.style.stroke || !s.style.dash.empty()) continue;
        for (const auto& [from, to] : test::edges_of(s.path)) {
          const double length = std::hypot(to.x - from.x, to.y - from.y);
          if (length > 2 && std::abs(beside(from)) < 0.15 && std::abs(beside(to)) < 0.15) ++along;
        }
      }
      CHECK(along >= 1);
      ++looked;
    }
  }
  CHECK(looked >= 2);
}

TEST_CASE("tips alike are shown once a block") {
  const Scene scene = sample::real("tide-star").scene();
  std::size_t shown = 0;
  for (const BlockSewing& block : scene.piecing.sizes[0].blocks) {
    std::vector<std::pair<Fraction, int>> tips;
    for (const UnitId unit : block.steps) {
      if (const auto tip = drawing::tip_to_show(scene, 0, unit)) {
        const std::pair one{tip->printed, tip->degrees};
        CHECK(std::find(tips.begin(), tips.end(), one) == tips.end());
        tips.push_back(one);
        ++shown;
      }
    }
  }
  CHECK(shown > 0);
}
