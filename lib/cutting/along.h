#pragma once
// Strips cut along the length of the cloth, side by side.

#include <vector>

#include "cutting/cloth.h"

namespace dogear {

// A length of cloth and the strips side by side in it; what is left beside them is cut across.
struct Panel {
  Exact length;
  struct Column {
    std::size_t along = 0;  // ClothWants::along
    Exact width, length;
  };
  std::vector<Column> columns;
  Exact taken;  // across the cloth
};

// First fit, longest first: each panel is as long as its first strip.
std::vector<Panel> lay_along(const std::vector<ClothWants::Along>& along, const Exact& width);

}  // namespace dogear
