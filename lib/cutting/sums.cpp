// How rounding adds up
//
// A printed measure lies on a line of a ruler; the exact one may not. The piece then finishes
// larger by printed - exact in that measure, and the seams cannot take it up unless they are sewn
// wider than the allowance. We carry this as a stretch: a matrix S that says by how much a short
// way d inside the piece grows, S d. For a square or rectangle S is diagonal; for a parallelogram
// it keeps both directions of its edges. Seen along a line of direction u the way grows by u.Su an
// inch.
//
// Across a top. A line from left to right crosses patches; each adds (u.Su) x (its chord). The
// chord of a convex patch is a piecewise linear function of the line's height, so the sum is one
// as well, and its extremes lie at heights where some patch has a corner. We sweep those heights
// in order, keeping the sum as a + b y: n log n in the patches.
//
// Along a seam. The two edges that are sewn to each other have stretches of their own; going along
// the seam, the difference of what both have grown by is piecewise linear, and where it reaches
// farthest apart, two points that should meet lie that far from each other. Rows of a top are
// sewn to each other, so this is what tells a row that comes out longer than its neighbour. Each
// unit hands on only the outer edges that grow at all, so a top of exact cuts costs nothing.

#include "cutting/sums.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace dogear {

namespace {

constexpr double hair = 1e-6;  // in; nothing in a quilt is that near to anything it does not touch

struct Spot {
  double x = 0, y = 0;
};

// A Transform in doubles.
struct Motion {
  explicit Motion(const Transform& t) {
    const Point x = t.apply_direction({Exact(1), Exact(0)});
    const Point y = t.apply_direction({Exact(0), Exact(1)});
    xx = x.x.approx(), xy = x.y.approx(), yx = y.x.approx(), yy = y.y.approx();
    dx = t.shift.x.approx(), dy = t.shift.y.approx();
  }
  Spot apply(double x, double y) const { return {x * xx + y * yx + dx, x * xy + y * yy + dy}; }
  // A direction seen from within.
  Spot back(double x, double y) const { return {x * xx + y * xy, x * yx + y * yy}; }
  double xx = 1, xy = 0, yx = 0, yy = 1, dx = 0, dy = 0;
};

std::vector<Spot> spots(const Polygon& p) {
  std::vector<Spot> out;
  for (const Point& c : p.corners) out.push_back({c.x.approx(), c.y.approx()});
  return out;
}

// From `y` on, the sum grows by a + b y, and `n` patches more lie on the line.
struct Event {
  double y = 0, a = 0, b = 0;
  int n = 0;
};

// The events of a convex patch, turned so that lines run along x.
void add_events(const std::vector<Spot>& patch, double per_inch, std::vector<Event>& events) {
  std::vector<double> heights;
  for (const Spot& s : patch) heights.push_back(s.y);
  std::sort(heights.begin(), heights.end());
  for (std::size_t i = 0; i + 1 < heights.size(); ++i) {
    const double from = heights[i];
    const double to = heights[i + 1];
    if (to - from < hair) continue;
    std::array<double, 2> least{1e18, 1e18}, most{-1e18, -1e18};
    for (std::size_t k = 0; k < patch.size(); ++k) {
      const Spot& p = patch[k];
      const Spot& q = patch[(k + 1) % patch.size()];
      if (std::min(p.y, q.y) > from + hair / 2 || std::max(p.y, q.y) < to - hair / 2) continue;
      const double slope = (q.x - p.x) / (q.y - p.y);
      for (const int end : {0, 1}) {
        const double x = p.x + slope * ((end == 0 ? from : to) - p.y);
        least[end] = std::min(least[end], x);
        most[end] = std::max(most[end], x);
      }
    }
    const double b = per_inch * ((most[1] - least[1]) - (most[0] - least[0])) / (to - from);
    const double a = per_inch * (most[0] - least[0]) - b * from;
    events.push_back({from, a, b, 1});
    events.push_back({to, -a, -b, -1});
  }
}

// Where p lies along the line from a in direction (ux, uy), if it is on it.
std::optional<double> on_line(double px, double py, double ax, double ay, double ux, double uy) {
  const double x = px - ax;
  const double y = py - ay;
  if (std::abs(x * uy - y * ux) > hair) return std::nullopt;
  return x * ux + y * uy;
}

}  // namespace

double Stretch::along(double x, double y) const {
  return x * (xx * x + xy * y) + y * (yx * x + yy * y);
}

Stretch& Stretch::operator+=(const Stretch& o) {
  xx += o.xx, xy += o.xy, yx += o.yx, yy += o.yy;
  return *this;
}

Stretch stretch_of(const Polygon& shape, const PieceCut& cut, const CutMeasure& measure) {
  const Box box = bounds(shape);
  const double width = box.width().approx();
  const double height = box.height().approx();
  const bool strip = measure.what == CutMeasure::What::strip;
  const bool length = measure.what == CutMeasure::What::length;
  Stretch s;
  if (measure.eased || (!strip && !length)) return s;
  if (cut.method == CutMethod::rectangle || cut.method == CutMethod::joined_strip) {
    (strip ? s.yy : s.xx) = 1 / (strip ? height : width);
  } else if (cut.method == CutMethod::half_angled || cut.method == CutMethod::from_strip_set) {
    if (strip) s.yy = 1 / height;
  } else if (cut.method == CutMethod::angled && shape.size() == 3) {
    if (strip) s.xx = s.yy = 1 / height;
  } else if (cut.method == CutMethod::angled && cut.parallel) {
    // A parallelogram: its level edge is measured by `length`, its slanted one by `strip`, both
    // square across.
    double level = 0, x = 0, y = height;
    for (std::size_t i = 0; i < shape.size(); ++i) {
      const Point d = shape.at(i + 1) - shape.at(i);
      if (d.y.is_zero()) {
        level = std::abs(d.x.approx());
      } else {
        x = d.x.approx() * (d.y.sign() > 0 ? 1 : -1);
      }
    }
    const double slanted = std::hypot(x, y);
    const double sine = y / slanted;
    if (strip) {
      const double k = 1 / (sine * slanted) / y;
      s.xy = k * x, s.yy = k * y;
    } else {
      const double k = 1 / (sine * level);
      s.xx = k, s.xy = -k * x / y;
    }
  } else if (cut.method == CutMethod::angled && strip) {
    s.yy = 1 / height;
  }
  return s;
}

LineSum greatest_sum(const Piecing& piecing, const std::vector<PlacedPiece>& patches,
                     const std::map<PieceId, Stretch>& stretches, bool rows) {
  std::vector<Event> events;
  std::map<PieceId, std::vector<Spot>> corners;
  for (const PlacedPiece& patch : patches) {
    const auto stretch = stretches.find(patch.piece);
    if (stretch == stretches.end() || stretch->second.none()) continue;
    auto& shape = corners[patch.piece];
    if (shape.empty()) shape = spots(piecing.pieces[patch.piece].shape);
    const Motion motion(patch.where);
    const Spot u = motion.back(rows ? 1 : 0, rows ? 0 : 1);
    std::vector<Spot> lying;
    for (const Spot& s : shape) {
      const Spot p = motion.apply(s.x, s.y);
      lying.push_back(rows ? p : Spot{p.y, p.x});
    }
    add_events(lying, stretch->second.along(u.x, u.y), events);
  }
  std::stable_sort(events.begin(), events.end(),
                   [](const Event& a, const Event& b) { return a.y < b.y; });
  LineSum greatest;
  double a = 0, b = 0;
  long long n = 0;
  for (std::size_t i = 0; i < events.size(); ++i) {
    a += events[i].a, b += events[i].b, n += events[i].n;
    if (i + 1 == events.size() || events[i + 1].y - events[i].y < hair) continue;
    for (const double y : {events[i].y, events[i + 1].y}) {
      const double sum = a + b * y;
      if (std::abs(sum) > std::abs(greatest.inches) + 1e-9) greatest = {sum, n};
    }
  }
  return greatest;
}

std::vector<SeamSums::Run> SeamSums::placed(const Input& input) {
  const Motion motion(input.where);
  std::vector<Run> out;
  if (input.is_piece) {
    const auto stretch = stretches_.find(input.piece);
    if (stretch == stretches_.end() || stretch->second.none()) return out;
    const std::vector<Spot> shape = spots(piecing_.pieces[input.piece].shape);
    for (std::size_t i = 0; i < shape.size(); ++i) {
      const Spot& p = shape[i];
      const Spot& q = shape[(i + 1) % shape.size()];
      const double length = std::hypot(q.x - p.x, q.y - p.y);
      const double grows = stretch->second.along((q.x - p.x) / length, (q.y - p.y) / length);
      if (std::abs(grows) < 1e-12) continue;
      const Spot a = motion.apply(p.x, p.y);
      const Spot b = motion.apply(q.x, q.y);
      out.push_back({a.x, a.y, b.x, b.y, grows, input.piece});
    }
    return out;
  }
  out = edges_of(input.unit);
  for (Run& r : out) {
    const Spot a = motion.apply(r.ax, r.ay);
    const Spot b = motion.apply(r.bx, r.by);
    r.ax = a.x, r.ay = a.y, r.bx = b.x, r.by = b.y;
  }
  return out;
}

const std::vector<SeamSums::Run>& SeamSums::edges_of(UnitId unit) {
  const auto known = memo_.find(unit);
  if (known != memo_.end()) return known->second;
  std::vector<Run> inner;
  for (const Input& in : piecing_.units[unit].inputs) {
    const std::vector<Run> more = placed(in);
    inner.insert(inner.end(), more.begin(), more.end());
  }
  // Only what lies on the unit's own outline is sewn to anything later.
  std::vector<Run> outer;
  const std::vector<Spot> outline = spots(piecing_.units[unit].outline);
  for (std::size_t i = 0; i < outline.size() && !inner.empty(); ++i) {
    const Spot& p = outline[i];
    const Spot& q = outline[(i + 1) % outline.size()];
    const double length = std::hypot(q.x - p.x, q.y - p.y);
    const double ux = (q.x - p.x) / length;
    const double uy = (q.y - p.y) / length;
    for (const Run& r : inner) {
      const auto a = on_line(r.ax, r.ay, p.x, p.y, ux, uy);
      const auto b = on_line(r.bx, r.by, p.x, p.y, ux, uy);
      if (!a || !b) continue;
      const double from = std::max(0.0, std::min(*a, *b));
      const double to = std::min(length, std::max(*a, *b));
      if (to - from < hair) continue;
      outer.push_back(
          {p.x + ux * from, p.y + uy * from, p.x + ux * to, p.y + uy * to, r.per_inch, r.piece});
    }
  }
  return memo_.emplace(unit, std::move(outer)).first->second;
}

SeamSums::Miss SeamSums::miss(UnitId unit, const Seam& seam) {
  Miss worst;
  // A set-in seam turns: each of its legs is matched by itself.
  std::vector<Point> path = seam.path;
  if (path.size() < 3) path = {seam.where.a, seam.where.b};
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    Miss leg = miss_along(unit, seam, {path[i], path[i + 1]});
    if (leg.inches > worst.inches) worst = std::move(leg);
  }
  return worst;
}

SeamSums::Miss SeamSums::miss_along(UnitId unit, const Seam& seam, const Segment& where) {
  const double ax = where.a.x.approx();
  const double ay = where.a.y.approx();
  const double bx = where.b.x.approx();
  const double by = where.b.y.approx();
  const double length = std::hypot(bx - ax, by - ay);
  Miss out;
  if (length < hair) return out;
  struct Change {
    double at, per_inch;
  };
  std::vector<Change> changes;
  for (const bool first : {true, false}) {
    const auto& inputs = piecing_.units[unit].inputs;
    for (const Run& r : placed(inputs[first ? seam.first : seam.second])) {
      const auto a = on_line(r.ax, r.ay, ax, ay, (bx - ax) / length, (by - ay) / length);
      const auto b = on_line(r.bx, r.by, ax, ay, (bx - ax) / length, (by - ay) / length);
      if (!a || !b) continue;
      const double from = std::max(0.0, std::min(*a, *b));
      const double to = std::min(length, std::max(*a, *b));
      if (to - from < hair) continue;
      const double k = first ? r.per_inch : -r.per_inch;
      changes.push_back({from, k});
      changes.push_back({to, -k});
      out.pieces.insert(r.piece);
    }
  }
  std::stable_sort(changes.begin(), changes.end(),
                   [](const Change& a, const Change& b) { return a.at < b.at; });
  double at = 0, apart = 0, slope = 0, least = 0, most = 0;
  for (const Change& c : changes) {
    apart += slope * (c.at - at);
    at = c.at;
    slope += c.per_inch;
    least = std::min(least, apart);
    most = std::max(most, apart);
  }
  out.inches = most - least;
  return out;
}

}  // namespace dogear
