#include "geom/regions.h"

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

namespace dogear {

namespace {

namespace bg = boost::geometry;
using Spot = bg::model::d2::point_xy<double>;
using Shape = bg::model::polygon<Spot>;
using Shapes = bg::model::multi_polygon<Shape>;

constexpr double speck = 1e-6;  // square inches: below this a region is rounding, not cloth

Shape shape_of(const Polygon& p) {
  Shape out;
  for (const Point& c : p.corners) bg::append(out.outer(), Spot(c.x.approx(), c.y.approx()));
  bg::correct(out);
  return out;
}

Region boxed(const Shape& what, std::vector<std::size_t> parts) {
  bg::model::box<Spot> box;
  bg::envelope(what, box);
  const double x = box.min_corner().x();
  const double y = box.min_corner().y();
  Region out{x, y, box.max_corner().x() - x, box.max_corner().y() - y, std::move(parts), {}};
  const auto keep = [&out](const auto& ring) {
    std::vector<Measured> corners;
    for (const Spot& s : ring) corners.push_back({s.x(), s.y()});
    if (corners.size() > 1) corners.pop_back();  // the library closes its rings
    out.rings.push_back(std::move(corners));
  };
  keep(what.outer());
  for (const auto& hole : what.inners()) keep(hole);
  return out;
}

bool boxes_meet(const Polygon& a, const Polygon& b) {
  const Box p = bounds(a);
  const Box q = bounds(b);
  return p.least.x < q.most.x && q.least.x < p.most.x && p.least.y < q.most.y &&
         q.least.y < p.most.y;
}

}  // namespace

Misfits find_misfits(const std::vector<Polygon>& parts, const std::optional<Polygon>& outline) {
  std::vector<Shape> shapes;
  Shapes all;
  for (const Polygon& p : parts) {
    shapes.push_back(shape_of(p));
    Shapes sum;
    bg::union_(all, shapes.back(), sum);
    all = std::move(sum);
  }
  const std::optional<Shape> frame = outline ? std::optional(shape_of(*outline)) : std::nullopt;
  Misfits out;
  if (!parts.empty()) {
    Box whole = bounds(parts.front());
    for (const Polygon& p : parts) {
      const Box b = bounds(p);
      whole.least = {min(whole.least.x, b.least.x), min(whole.least.y, b.least.y)};
      whole.most = {max(whole.most.x, b.most.x), max(whole.most.y, b.most.y)};
    }
    out.all = {whole.least.x.approx(),
               whole.least.y.approx(),
               whole.width().approx(),
               whole.height().approx(),
               {},
               {}};
  }
  const Region origin = frame ? boxed(*frame, {}) : out.all;
  out.left = origin.x;
  out.top = origin.y;

  Shapes gaps;
  if (frame) {
    bg::difference(*frame, all, gaps);
  } else {
    for (const Shape& s : all) {
      for (const auto& hole : s.inners()) {
        Shape gap;
        gap.outer().assign(hole.begin(), hole.end());
        bg::correct(gap);
        gaps.push_back(std::move(gap));
      }
    }
  }
  for (const Shape& gap : gaps) {
    if (bg::area(gap) < speck) continue;
    std::vector<std::size_t> beside;
    for (std::size_t i = 0; i < shapes.size(); ++i) {
      if (bg::distance(gap, shapes[i]) < speck) beside.push_back(i);
    }
    out.gaps.push_back(boxed(gap, std::move(beside)));
  }
  const auto add = [](const Shapes& found, std::vector<Region>& to,
                      const std::vector<std::size_t>& who) {
    for (const Shape& s : found) {
      if (bg::area(s) >= speck) to.push_back(boxed(s, who));
    }
  };
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    for (std::size_t j = i + 1; j < shapes.size(); ++j) {
      if (!boxes_meet(parts[i], parts[j])) continue;
      Shapes both;
      bg::intersection(shapes[i], shapes[j], both);
      add(both, out.overlaps, {i, j});
    }
    if (!frame) continue;
    Shapes beyond;
    bg::difference(shapes[i], *frame, beyond);
    add(beyond, out.outside, {i});
  }
  return out;
}

}  // namespace dogear
