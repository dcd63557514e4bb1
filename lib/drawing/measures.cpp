#include "drawing/measures.h"

#include <algorithm>

#include "drawing/marks.h"

namespace dogear::drawing {
namespace {

constexpr double size = 7;     // pt, words
constexpr double away = 5.2;   // pt from the edge to the line
constexpr double level = 7.8;  // pt from one line of words to the next
constexpr int most_levels = 3;
constexpr double stub = 4;  // pt of line that must show beside the words

}  // namespace

void put_measures(canvas::DisplayList& list, Labels& labels, double y, bool below,
                  std::vector<Measured> measures, double left, double right) {
  std::stable_sort(measures.begin(), measures.end(),
                   [](const Measured& a, const Measured& b) { return a.from < b.from; });
  LabelStyle style;
  style.font = canvas::FontId::sans;
  style.largest = style.smallest = size;
  const double side = below ? 1 : -1;
  const auto line = [&](Spot a, Spot b) {
    measure_line(list, a, b);
    labels.keep_off(Rect{a.x, a.y - 0.3, b.x, b.y + 0.3});
  };
  for (const Measured& m : measures) {
    const double middle = (m.from + m.to) / 2;
    const Spot a{m.from + 0.4, y + side * away}, b{m.to - 0.4, y + side * away};
    const auto fitting = std::find_if(m.words.begin(), m.words.end(), [&](const std::string& w) {
      const Rect plate = labels.measure(w, size, style);
      return plate.width() + 2 * stub <= m.to - m.from &&
             labels.is_free(Rect::of(middle - plate.width() / 2, a.y - plate.height() / 2,
                                     plate.width(), plate.height()));
    });
    if (fitting != m.words.end()) {
      line(a, b);
      labels.put_at({middle, a.y}, *fitting, size, style);
      continue;
    }
    if (m.words.empty() || b.x - a.x < 1) continue;
    const Rect plate = labels.measure(m.words.back(), size, style);
    const double half = plate.width() / 2;
    if (plate.width() > right - left) continue;
    const double x = std::clamp(middle, left + half, right - half);
    for (int n = 1; n <= most_levels; ++n) {
      const Spot at{x, a.y + side * level * n};
      const Rect there =
          Rect::of(at.x - half, at.y - plate.height() / 2, plate.width(), plate.height());
      if (!labels.is_free(there)) continue;
      line(a, b);
      labels.put_at(at, m.words.back(), size, style);
      break;
    }
  }
}

}  // namespace dogear::drawing
