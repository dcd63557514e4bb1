// The key of marks explains each sign that the figures use, and no other.

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "drawing/figure.h"
#include "drawing/marks.h"
#include "drawing/sketch.h"
#include "look.h"
#include "sample.h"

using namespace dogear;

namespace {

bool is(double a, double b) { return std::abs(a - b) < 1e-6; }

double side(const canvas::Path& path, std::size_t from, std::size_t to) {
  const auto& p = path.points();
  return std::hypot(p[to].x - p[from].x, p[to].y - p[from].y);
}

// The sign that a shape is, or "": known by its line and the form of its path. Scaled figures are
// left alone.
std::string sign(const canvas::Shape& shape) {
  const canvas::Style& s = shape.style;
  const std::size_t points = shape.path.points().size();
  if (s.hatch && s.fill == canvas::white && s.hatch->kind == 4 && is(s.hatch->spacing, 5))
    return "waste";
  if (s.fill == canvas::white && s.stroke && is(s.width, 0.8) && points == 7) return "becomes";
  if (s.fill == drawing::ink && points == 3 && !s.stroke) {
    const double half = side(shape.path, 1, 2) / 2;
    const canvas::Point tip = shape.path.points()[0];
    const canvas::Point back{(shape.path.points()[1].x + shape.path.points()[2].x) / 2,
                             (shape.path.points()[1].y + shape.path.points()[2].y) / 2};
    const double ratio = half / std::hypot(tip.x - back.x, tip.y - back.y);
    if (std::abs(ratio - 0.23 / 0.58) < 0.01) return "press";
    if (std::abs(ratio - 0.5) < 0.01) return "open";
    if (std::abs(ratio - 0.52) < 0.01) return "print";
  }
  if (!s.stroke || s.fill || !(*s.stroke == drawing::ink)) return "";
  if (is(s.width, 0.7) && points == 8 && s.dash.empty()) return "grain";
  if (is(s.width, drawing::torn) && points > 2 && s.dash.empty()) return "goes on";
  if (is(s.width, 1.1) && points == 24) return "stop";
  if (is(s.width, 1.4) && !s.dash.empty() && s.dash[0] < 0.1) return "sewn";
  if (is(s.width, 0.7) && !s.dash.empty() && is(s.dash[0], 2.4)) return "cut";
  if (is(s.width, 1.3) && points == 2) return "seam";
  if (is(s.width, 0.7) && points >= 13 && points % 3 == 1 && s.dash.empty()) return "bias";
  return "";
}

std::set<std::string> signs(const canvas::DisplayList& list) {
  std::set<std::string> out;
  for (const canvas::Shape& shape : look::at(list).shapes) out.insert(sign(shape));
  out.erase("");
  return out;
}

}  // namespace

TEST_CASE("every sign of a figure is in the key, and only those") {
  for (const char* folder : {"harbor-lights", "reed-bed", "tide-star", "uferwiese"}) {
    const sample::Real& real = sample::real(folder);
    const Scene scene = real.scene();
    for (std::size_t size = 0; size < real.checked.sizes.size(); ++size) {
      const auto key = draw_figure(scene, size, "key", 1000, 1000);
      REQUIRE(key);
      const std::set<std::string> told = signs(*key->list);
      CHECK(told.size() > 4);
      std::set<std::string> used;
      for (const std::string& address : figure_addresses(scene, size)) {
        if (address == "key") continue;
        const auto figure = draw_figure(scene, size, address, 1000, 1000);
        REQUIRE(figure);
        for (const std::string& one : signs(*figure->list)) {
          INFO(folder << " " << size << " " << address << ": " << one);
          CHECK(told.contains(one));
          used.insert(one);
        }
      }
      for (const std::string& one : told) {
        INFO(folder << " " << size << ": " << one << " is in the key");
        CHECK(used.contains(one));
      }
    }
  }
}
