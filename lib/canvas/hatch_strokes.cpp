#include "canvas/hatch_strokes.h"

#include <algorithm>
#include <cmath>

namespace dogear::canvas {
namespace {

// cos 35° and sin 35°, the slope of slanting lines.
constexpr double cosine = 0.81915204428899178968;
constexpr double sine = 0.57357643635104609611;
constexpr double speck = 0.01;  // pt, a dash that is all round ends

class Strokes {
 public:
  Strokes(const Hatch& hatch, const Rect& area) : line_(hatch.line), area_(area) {}

  std::vector<HatchStroke> all;

  // Lines across the unit vector (x, y) at each shift + i * every along it: one stroke along it, as
  // wide as the box, with a dash for each line.
  void lines(double x, double y, double every, double shift = 0, double second = 0) {
    double low = INFINITY, high = -INFINITY, left = INFINITY, right = -INFINITY;
    for (const Point p : {Point{area_.left, area_.top}, Point{area_.right, area_.top},
                          Point{area_.right, area_.bottom}, Point{area_.left, area_.bottom}}) {
      const double along = p.x * x + p.y * y, across = p.y * x - p.x * y;
      low = std::min(low, along);
      high = std::max(high, along);
      left = std::min(left, across);
      right = std::max(right, across);
    }
    const double from = std::floor((low - shift) / every - 1) * every + shift - line_ / 2;
    const double middle = (left + right) / 2;
    const auto at = [&](double along) {
      return Point{along * x - middle * y, along * y + middle * x};
    };
    HatchStroke stroke;
    stroke.path = Path::segment(at(from), at(high + line_));
    stroke.width = right - left;
    stroke.dash = {line_, every - line_};
    if (second > 0) stroke.dash = {line_, second - line_, line_, every - second - line_};
    all.push_back(std::move(stroke));
  }
  void level(double every, double shift = 0) { lines(0, 1, every, shift); }
  void upright(double every, double shift = 0) { lines(1, 0, every, shift); }
  void rising(double every, double second = 0) { lines(sine, cosine, every, 0, second); }
  void falling(double every) { lines(-sine, cosine, every); }

  // Marks centred on a lattice of which odd rows are shifted by half a step: level rows of dashes.
  HatchStroke rows(double dx, double dy, double length) const {
    HatchStroke stroke;
    for (long row = first(area_.top, dy); static_cast<double>(row) * dy <= area_.bottom + dy;
         ++row) {
      const double shift = row % 2 == 0 ? 0 : dx / 2;
      const double from =
          static_cast<double>(first(area_.left - shift, dx)) * dx + shift - length / 2;
      const double y = static_cast<double>(row) * dy;
      stroke.path.move(from, y).line(area_.right + dx, y);
    }
    stroke.width = line_;
    stroke.dash = {length, dx - length};
    return stroke;
  }
  void dots(double dx, double dy, double size, bool ground = false) {
    HatchStroke stroke = rows(dx, dy, speck);
    stroke.width = size;
    stroke.round = true;
    stroke.ground = ground;
    all.push_back(std::move(stroke));
  }
  // The same lattice seen as upright columns.
  HatchStroke columns(double dx, double dy, double length) const {
    HatchStroke stroke;
    for (long c = first(area_.left, dx / 2); static_cast<double>(c) * dx / 2 <= area_.right + dx;
         ++c) {
      const double shift = c % 2 == 0 ? 0 : dy;
      const double from =
          static_cast<double>(first(area_.top - shift, 2 * dy)) * 2 * dy + shift - length / 2;
      const double x = static_cast<double>(c) * dx / 2;
      stroke.path.move(x, from).line(x, area_.bottom + 2 * dy);
    }
    stroke.width = line_;
    stroke.dash = {length, 2 * dy - length};
    return stroke;
  }

 private:
  // The last step that lies before `from` by a whole step at least.
  static long first(double from, double step) {
    return static_cast<long>(std::floor(from / step)) - 1;
  }

  double line_;
  Rect area_;
};

}  // namespace

std::vector<HatchStroke> hatch_strokes(const Hatch& hatch, const Rect& area) {
  const bool sound = std::isfinite(area.left) && std::isfinite(area.top) &&
                     std::isfinite(area.right) && std::isfinite(area.bottom) &&
                     std::isfinite(hatch.spacing) && std::isfinite(hatch.line);
  if (area.empty() || !sound) return {};
  // As hatch_marks.
  const double finest = std::sqrt((area.width() + 1) * (area.height() + 1) / 1e5);
  const double s = std::max({hatch.spacing, 0.5, finest});
  Strokes strokes(hatch, area);
  switch (((hatch.kind % hatch_kinds) + hatch_kinds) % hatch_kinds) {
    case 0:
      strokes.rising(s);
      break;
    case 1:
      strokes.dots(s * 1.2, s * 0.6 * 1.2, std::max(hatch.line * 2.6, s * 0.3));
      break;
    case 2:
      strokes.level(s);
      break;
    case 3:
      strokes.rising(s * 1.3);
      strokes.falling(s * 1.3);
      break;
    case 4:
      strokes.falling(s);
      break;
    case 5:
      strokes.all.push_back(strokes.rows(s * 1.7, s * 0.85, s * 0.72));
      strokes.all.push_back(strokes.columns(s * 1.7, s * 0.85, s * 0.72));
      break;
    case 7:
      strokes.upright(s);
      break;
    case 8:
      strokes.dots(s * 1.8, s * 0.9, s * 0.84 + hatch.line);
      strokes.dots(s * 1.8, s * 0.9, s * 0.84 - hatch.line, true);
      break;
    case 9:
      strokes.level(s, s / 2);
      strokes.upright(s, s / 2);
      break;
    case 10:
      strokes.all.push_back(strokes.rows(s * 2, s * 0.75, s * 1.1));
      break;
    case 11:
      strokes.rising(s * 2, s * 0.5);
      break;
    default: {
      const HatchMarks marks = hatch_marks(hatch, area);
      strokes.all.push_back({marks.lines, hatch.line, {}, false, false});
    }
  }
  return strokes.all;
}

}  // namespace dogear::canvas
