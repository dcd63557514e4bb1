#include "cutting/along.h"

#include <algorithm>

namespace dogear {

std::vector<Panel> lay_along(const std::vector<ClothWants::Along>& along, const Exact& width) {
  std::vector<Panel::Column> columns;
  for (std::size_t i = 0; i < along.size(); ++i) {
    for (long long k = 0; k < along[i].count; ++k) {
      columns.push_back({i, Exact(along[i].width), Exact(along[i].length)});
    }
  }
  std::stable_sort(columns.begin(), columns.end(),
                   [](const Panel::Column& a, const Panel::Column& b) {
                     return a.length != b.length ? a.length > b.length : a.width > b.width;
                   });
  std::vector<Panel> panels;
  for (const Panel::Column& column : columns) {
    auto panel = std::find_if(panels.begin(), panels.end(),
                              [&](const Panel& p) { return p.taken + column.width <= width; });
    if (panel == panels.end()) {
      panels.push_back({column.length, {}, Exact(0)});
      panel = panels.end() - 1;
    }
    panel->taken += column.width;
    panel->columns.push_back(column);
  }
  return panels;
}

}  // namespace dogear
