#pragma once
// Figures of the booklet, each found by an address such as "block/lantern" or "step/lantern/2".

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "canvas/display.h"
#include "canvas/font.h"
#include "cutting/quantities.h"

namespace dogear {

struct Figure {
  canvas::ListRef list;  // origin at the top left of the figure's box
  double width = 0;      // pt
  double height = 0;     // pt
  std::string alt;       // what it shows, in words
};

// All that a figure or a page may need to know.
struct Scene {
  const CheckedPattern& checked;
  const Piecing& piecing;
  const Quantities& quantities;
  const canvas::FontSet& fonts;
};

// Every address that names a figure of this size, in the booklet's order.
std::vector<std::string> figure_addresses(const Scene& scene, std::size_t size);

// Draws a figure no wider and no higher than given; nothing when no such figure is known.
std::optional<Figure> draw_figure(const Scene& scene, std::size_t size, const std::string& address,
                                  double max_width, double max_height);

}  // namespace dogear
