#include "canvas/hatch.h"

#include <algorithm>
#include <cmath>

namespace dogear::canvas {
namespace {

// tan 35° and 1 / cos 35°.
constexpr double slope = 0.70020753820970977946;
constexpr double stretch = 1.22077458876145616750;

// Draws marks on a lattice anchored at the origin, so that neighbours run on.
class Marker {
 public:
  Marker(const Rect& area, double spacing) : area_(area), s_(spacing) {}

  Path lines, dots;

  void horizontal(double shift = 0) {
    each(area_.top - shift, area_.bottom - shift, s_, [&](long i) {
      const double y = static_cast<double>(i) * s_ + shift;
      line(area_.left, y, area_.right, y);
    });
  }
  void vertical(double shift = 0) {
    each(area_.left - shift, area_.right - shift, s_, [&](long i) {
      const double x = static_cast<double>(i) * s_ + shift;
      line(x, area_.top, x, area_.bottom);
    });
  }
  // Lines y = k - slope x, rising to the right on a page whose y grows downwards. At 35° they run
  // along no seam of a square or a 60° grid.
  void rising(double every, double shift = 0) { slanted(every, shift, 1); }
  void falling(double every, double shift = 0) { slanted(every, shift, -1); }
  // Calls f(x, y) at each point of a lattice, odd rows shifted by half a step.
  template <typename F>
  void lattice(double dx, double dy, F f) {
    each(area_.top - dy, area_.bottom + dy, dy, [&](long row) {
      const double shift = row % 2 == 0 ? 0 : dx / 2;
      each(area_.left - dx - shift, area_.right + dx - shift, dx, [&](long column) {
        f(static_cast<double>(column) * dx + shift, static_cast<double>(row) * dy);
      });
    });
  }
  void slanted(double every, double shift, double way) {
    const double step = every * stretch;
    const double by = shift * stretch;
    const double low = std::min(way * area_.left, way * area_.right);
    const double high = std::max(way * area_.left, way * area_.right);
    each(area_.top + slope * low - by, area_.bottom + slope * high - by, step, [&](long i) {
      const double k = static_cast<double>(i) * step + by;
      const auto y_at = [&](double x) { return k - way * slope * x; };
      const auto x_at = [&](double y) { return way * (k - y) / slope; };
      const double x0 = std::max(area_.left, std::min(x_at(area_.top), x_at(area_.bottom)));
      const double x1 = std::min(area_.right, std::max(x_at(area_.top), x_at(area_.bottom)));
      if (x1 > x0) line(x0, y_at(x0), x1, y_at(x1));
    });
  }
  void line(double x0, double y0, double x1, double y1) { lines.move(x0, y0).line(x1, y1); }
  void dot(double x, double y) { dots.move(x, y).line(x + 0.01, y); }
  // Rows of a repeated little figure: `half` is half the length of one tooth.
  void teeth(double half, double rise, double row_step, bool curved) {
    each(area_.top - rise, area_.bottom + rise, row_step, [&](long row) {
      const double y = static_cast<double>(row) * row_step;
      const auto first = static_cast<long>(std::floor(area_.left / (2 * half)));
      double x = static_cast<double>(first) * 2 * half;
      lines.move(x, y);
      for (; x < area_.right; x += 2 * half) {
        if (curved) {
          const double c = half * 0.37;
          lines.cubic({x + c, y - rise}, {x + half - c, y - rise}, {x + half, y});
          lines.cubic({x + half + c, y + rise}, {x + 2 * half - c, y + rise}, {x + 2 * half, y});
        } else {
          lines.line(x + half, y - rise).line(x + 2 * half, y);
        }
      }
    });
  }

 private:
  template <typename F>
  static void each(double from, double to, double step, F f) {
    const auto last = static_cast<long>(std::floor(to / step));
    for (auto i = static_cast<long>(std::ceil(from / step)); i <= last; ++i) f(i);
  }

  Rect area_;
  double s_;
};

constexpr double least_spacing = 0.5;  // pt; print shows none finer

// Never more than about a hundred thousand marks.
double finest(const Rect& area) {
  return std::sqrt((area.width() + 1) * (area.height() + 1) / 1e5);
}

int kind_of(const Hatch& hatch) { return ((hatch.kind % hatch_kinds) + hatch_kinds) % hatch_kinds; }

}  // namespace

bool keeps_spacing(const Hatch& hatch, const Rect& area) {
  return finest(area) <= std::max(hatch.spacing, least_spacing);
}

Point hatch_period(const Hatch& hatch) {
  constexpr double any = 8;  // steps, where every distance will do
  const double s = std::max(hatch.spacing, least_spacing);
  const auto slanted = [&](double every) {
    return Point{every * stretch / slope, every * stretch};
  };
  switch (kind_of(hatch)) {
    case 0:
    case 4:
      return slanted(s);
    case 1:
      return {s * 1.2, 2 * (s * 0.6 * 1.2)};
    case 2:
      return {s * any, s};
    case 3:
      return slanted(s * 1.3);
    case 7:
      return {s, s * any};
    case 5:
      return {s * 1.7, 2 * (s * 0.85)};
    case 6:
      return {2 * (s * 0.8), s * 1.15};
    case 8:
      return {s * 1.8, 2 * (s * 0.9)};
    case 10:
      return {s * 2, 2 * (s * 0.75)};
    case 11:
      return slanted(s * 2);
    default:
      return {s, s};
  }
}

std::string_view hatch_name(int kind) {
  static constexpr std::array<std::string_view, hatch_kinds> names{
      "rising lines",  "dots",           "level lines", "crossed slanting lines",
      "falling lines", "little crosses", "zigzags",     "upright lines",
      "rings",         "square grid",    "dashes",      "paired slanting lines"};
  return names[static_cast<std::size_t>(((kind % hatch_kinds) + hatch_kinds) % hatch_kinds)];
}

HatchMarks hatch_marks(const Hatch& hatch, const Rect& area) {
  HatchMarks marks;
  const bool sound = std::isfinite(area.left) && std::isfinite(area.top) &&
                     std::isfinite(area.right) && std::isfinite(area.bottom) &&
                     std::isfinite(hatch.spacing) && std::isfinite(hatch.line);
  if (area.empty() || !sound) return marks;
  const double s = std::max({hatch.spacing, least_spacing, finest(area)});
  Marker m(area, s);
  switch (kind_of(hatch)) {
    case 0:
      m.rising(s);
      break;
    case 1:
      marks.dot = std::max(hatch.line * 2.6, s * 0.3);
      m.lattice(s * 1.2, s * 0.6 * 1.2, [&](double x, double y) { m.dot(x, y); });
      break;
    case 2:
      m.horizontal();
      break;
    case 3:
      m.rising(s * 1.3);
      m.falling(s * 1.3);
      break;
    case 4:
      m.falling(s);
      break;
    case 5: {
      const double arm = s * 0.36;
      m.lattice(s * 1.7, s * 0.85, [&](double x, double y) {
        m.line(x - arm, y, x + arm, y);
        m.line(x, y - arm, x, y + arm);
      });
      break;
    }
    case 6:
      m.teeth(s * 0.8, s * 0.8, s * 1.15, false);
      break;
    case 7:
      m.vertical();
      break;
    case 8:
      m.lattice(s * 1.8, s * 0.9, [&](double x, double y) {
        m.lines.append(Path::circle({x, y}, s * 0.42));
      });
      break;
    case 9:
      m.horizontal(s / 2);
      m.vertical(s / 2);
      break;
    case 10:
      m.lattice(s * 2, s * 0.75,
                [&](double x, double y) { m.line(x - s * 0.55, y, x + s * 0.55, y); });
      break;
    default:
      m.rising(s * 2);
      m.rising(s * 2, s * 0.5);
      break;
  }
  marks.lines = std::move(m.lines);
  marks.dots = std::move(m.dots);
  return marks;
}

}  // namespace dogear::canvas
