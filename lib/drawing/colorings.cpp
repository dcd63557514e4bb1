// The quilt in other colours, and in lines alone with boxes for the reader's own.

#include <algorithm>
#include <cmath>

#include "drawing/figures.h"
#include "drawing/labels.h"

namespace dogear::drawing {
namespace {

// What is drawn of a pattern whose fabrics are others.
std::optional<Figure> with_fabrics(const Scene& scene,
                                   const std::function<void(FabricId, Fabric&)>& change,
                                   const std::function<std::optional<Figure>(const Scene&)>& draw) {
  CheckedPattern checked = scene.checked;
  std::vector<Fabric>& fabrics = checked.pattern.fabrics;
  for (FabricId f = 0; f < fabrics.size(); ++f) change(f, fabrics[f]);
  return draw({checked, scene.piecing, scene.quantities, scene.fonts, scene.words});
}

std::optional<Figure> in_coloring(const Scene& scene, std::size_t n,
                                  const std::function<std::optional<Figure>(const Scene&)>& draw) {
  const std::vector<Coloring>& colorings = scene.checked.pattern.colorings;
  if (n < 1 || n > colorings.size()) return {};
  const Coloring& coloring = colorings[n - 1];
  auto figure = with_fabrics(
      scene,
      [&](FabricId f, Fabric& fabric) {
        const auto other = coloring.fabrics.find(f);
        if (other == coloring.fabrics.end()) return;
        fabric.name = other->second.name;
        fabric.colour = other->second.colour;
      },
      draw);
  if (figure) figure->alt += scene.words("drawn coloring", {{"name", coloring.name}});
  return figure;
}

}  // namespace

std::optional<Figure> coloring_quilt_figure(const Scene& scene, std::size_t size, std::size_t n,
                                            Room room) {
  return in_coloring(scene, n, [&](const Scene& s) { return quilt_figure(s, size, true, room); });
}

std::optional<Figure> coloring_fabrics_figure(const Scene& scene, std::size_t size, std::size_t n,
                                              Room room) {
  return in_coloring(scene, n, [&](const Scene& s) { return fabrics_figure(s, size, room); });
}

std::optional<Figure> line_quilt_figure(const Scene& scene, std::size_t size, Room room) {
  auto figure = with_fabrics(
      scene, [](FabricId, Fabric& fabric) { fabric.colour = "#ffffff"; },
      [&](const Scene& s) { return quilt_figure(s, size, false, room); });
  if (figure) figure->alt += scene.words("drawn in lines");
  return figure;
}

std::optional<Figure> blank_fabrics_figure(const Scene& scene, std::size_t size, Room room) {
  constexpr double box_width = 30, box_height = 20, line = 78, gap = 14, row = 30, words = 9;
  std::vector<int> numbers;
  for (const FabricId id : fabrics_used(scene, size))
    numbers.push_back(scene.checked.pattern.fabrics.at(id).number);
  if (numbers.empty()) return {};
  constexpr double number_width = 16;
  constexpr double column = number_width + box_width + 6 + line + gap;
  const auto most = static_cast<std::size_t>(std::max(1.0, (room.width + gap) / column));
  const std::size_t rows = (numbers.size() + most - 1) / most;
  const auto draw = [&](double) {
    canvas::DisplayList list;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      const double x = static_cast<double>(i / rows) * column;
      const double y = static_cast<double>(i % rows) * row;
      write(list, scene.fonts, x, y + box_height / 2 + words * 0.36, words,
            std::to_string(numbers[i]), canvas::FontId::sans_bold);
      const double left = x + number_width;
      list.stroke_path(canvas::Path::rect(left, y, box_width, box_height), ink, 0.7);
      const double from = left + box_width + 6;
      list.stroke_path(canvas::Path::segment({from, y + box_height}, {from + line, y + box_height}),
                       pale, edge);
    }
    return finish(std::move(list),
                  scene.words("drawn boxes", {{"n", std::to_string(numbers.size())}}));
  };
  return fitted(room, 1, 1, draw);
}

}  // namespace dogear::drawing
