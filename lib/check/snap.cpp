// Measured corners, brought exactly to what they meet.
//
// A corner typed as a length lies near the exact point that is meant. Where it comes within 1/1000
// in of a corner or an edge of its exact neighbours, of the outline to be filled, or of a corner
// snapped before, it is moved there; the fit that follows is then exact as ever. What lies a little
// further off is a fault of measuring and is told as such.

#include <cmath>

#include "base/text.h"
#include "check/build.h"
#include "model/shapes.h"

namespace dogear {

namespace {

constexpr double tolerance = 0.001;  // inches
constexpr double nearly = 1.0 / 8;   // inches: beyond this another point is meant

double apart(const Point& a, const Point& b) {
  const double x = (a.x - b.x).approx();
  const double y = (a.y - b.y).approx();
  return std::sqrt(x * x + y * y);
}

struct Nearest {
  Point at;
  double away = 1e9;
};

void try_point(Nearest& best, const Point& p, const Point& candidate) {
  const double d = apart(p, candidate);
  if (d < best.away) best = {candidate, d};
}

void try_edge(Nearest& best, const Point& p, const Segment& edge) {
  const Point d = edge.b - edge.a;
  const Exact along = dot(p - edge.a, d);
  if (along.sign() < 0 || along > dot(d, d)) return;
  try_point(best, p, edge.a + d * (along / dot(d, d)));
}

}  // namespace

bool PartBuilder::snap(std::vector<Placed>& placed, const std::optional<Polygon>& outline,
                       const std::vector<Span>& spans) {
  std::vector<Polygon> exact;  // what does not move; snapped parts join it
  if (outline) exact.push_back(*outline);
  bool any = false;
  for (const Placed& p : placed) {
    const bool measured = checked_.parts[p.part].measured;
    any = any || measured;
    if (!measured) exact.push_back(placed_outline(p));
  }
  if (!any) return true;
  std::map<PartId, PartId> snapped;
  for (std::size_t i = 0; i < placed.size(); ++i) {
    const PartId own = placed[i].part;
    if (!checked_.parts[own].measured) continue;
    Polygon here = placed_outline(placed[i]);
    for (Point& c : here.corners) {
      Nearest corner, edge;
      for (const Polygon& p : exact) {
        for (const Point& candidate : p.corners) try_point(corner, c, candidate);
        for (std::size_t k = 0; k < p.size(); ++k) try_edge(edge, c, p.edge(k));
      }
      // An edge counts only where no corner is meant.
      const Nearest& best = corner.away < nearly ? corner : edge;
      if (best.away <= tolerance) {
        c = best.at;
      } else if (best.away < nearly) {
        diagnostics_
            .error("D211", spans[i],
                   "a measured corner of `" + checked_.parts[own].name + "` lies " +
                       decimal(best.away, 4) +
                       " in from where it would meet its neighbour; up to " +
                       decimal(tolerance, 3) + " in is taken for rounding")
            .hints.push_back("measure that corner again, or write it in grid steps");
        return false;
      }
    }
    exact.push_back(here);
    const Polygon back = placed[i].where.inverse().apply(here);
    const Point least = bounds(back).least;
    const Polygon shape = at_origin(back);
    const auto [slot, fresh] = snapped.try_emplace(own, checked_.parts.size());
    if (fresh) {
      Part part = checked_.parts[own];
      part.outline = shape;
      part.measured = false;
      checked_.parts.push_back(std::move(part));
    } else if (checked_.parts[slot->second].outline != shape) {
      diagnostics_
          .error("D212", spans[i],
                 "`" + checked_.parts[own].name +
                     "` is measured, and would have to be of another exact shape here than where "
                     "it was used before")
          .hints.push_back(
              "write its corners in grid steps, or make a unit of its own for this place");
      return false;
    }
    placed[i] = {slot->second, Transform::moved(least).then(placed[i].where)};
  }
  return true;
}

}  // namespace dogear
