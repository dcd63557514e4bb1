#include "cutting/tips.h"

#include <algorithm>
#include <cmath>

#include "geom/offset.h"

namespace dogear {

std::vector<TipTrim> trims_in(const Piecing& piecing, const SewnUnit& unit, const Exact& q) {
  std::vector<TipTrim> out;
  if (unit.foundation) return out;  // trimmed along the paper
  std::vector<Polygon> outline;
  for (const Input& in : unit.inputs) {
    outline.push_back(in.where.apply(in.is_piece ? piecing.pieces[in.piece].shape
                                                 : piecing.units[in.unit].outline));
  }
  for (std::size_t s = 0; s < unit.seams.size(); ++s) {
    const Seam& seam = unit.seams[s];
    // At a set-in corner the tips stay: the seam turns on the finished corner itself.
    if (seam.kind != SeamKind::straight && seam.kind != SeamKind::partial) continue;
    for (const bool first : {true, false}) {
      const std::size_t mine = first ? seam.first : seam.second;
      const std::size_t theirs = first ? seam.second : seam.first;
      if (!unit.inputs[mine].is_piece || seam.curve) continue;
      const Polygon& piece = outline[mine];
      const Polygon& other = outline[theirs];
      for (const Point& corner : {seam.where.a, seam.where.b}) {
        const auto at = std::find(other.corners.begin(), other.corners.end(), corner);
        if (at == other.corners.end() ||
            std::find(piece.corners.begin(), piece.corners.end(), corner) == piece.corners.end()) {
          continue;
        }
        const auto k = static_cast<std::size_t>(at - other.corners.begin());
        const Point along_seam = (corner == seam.where.a ? seam.where.b : seam.where.a) - corner;
        // The neighbour's other edge at this corner, laid face to face over the seam.
        Point edge = other.at(k + 1) - corner;
        if (cross(edge, along_seam).is_zero()) edge = other.at(k + other.size() - 1) - corner;
        const Point mirrored = reflect(corner + edge, seam.where) - corner;
        const Point u = unit_along(mirrored);
        Point normal{u.y, -u.x};
        Point along = u;
        if (dot(normal, along_seam).sign() > 0) {
          normal = Point{} - normal;
          along = Point{} - u;
        }
        // A neighbour with the sharper corner leaves nothing of this piece to trim.
        const bool wider =
            std::all_of(piece.corners.begin(), piece.corners.end(),
                        [&](const Point& c) { return cross(along, c - corner).sign() >= 0; });
        if (!wider) continue;
        const Transform back = unit.inputs[mine].where.inverse();
        out.push_back({unit.inputs[mine].piece,
                       back.apply(corner),
                       back.apply_direction(along_seam),
                       {back.apply(corner + normal * q), back.apply_direction(along)},
                       s,
                       theirs});
      }
    }
  }
  return out;
}

std::map<PieceId, std::vector<TrimLine>> tip_trims(const CheckedPattern& checked,
                                                   const Piecing& piecing) {
  // A piece that lies in several places is cut for all of them: a tip goes only where each place
  // trims it, so a triangle sewn to either side of a goose keeps both tips until then.
  struct Places {
    TrimLine line;
    std::size_t count = 0;
  };
  std::map<PieceId, std::size_t> places;
  std::map<PieceId, std::vector<Places>> trims;
  for (const SewnUnit& unit : piecing.units) {
    for (const Input& in : unit.inputs) {
      if (in.is_piece) ++places[in.piece];
    }
    for (const TipTrim& t : trims_in(piecing, unit, checked.pattern.seam_allowance)) {
      std::vector<Places>& known = trims[t.piece];
      const auto same = std::find_if(known.begin(), known.end(), [&](const Places& p) {
        return p.line.at == t.line.at && p.line.along == t.line.along;
      });
      if (same == known.end()) {
        known.push_back({t.line, 1});
      } else {
        ++same->count;
      }
    }
  }
  std::map<PieceId, std::vector<TrimLine>> out;
  for (const auto& [piece, lines] : trims) {
    for (const Places& p : lines) {
      if (p.count == places[piece]) out[piece].push_back(p.line);
    }
  }
  return out;
}

Polygon as_cut(const Polygon& shape, const PieceCut& cut, const Exact& q) {
  const Polygon full = offset(shape, q);
  const Exact slack = Exact::ratio(1, 32);
  const bool halved =
      cut.method == CutMethod::half_square || cut.method == CutMethod::quarter_square;
  if (halved || bounds(full).height() <= Exact(cut.strip) + slack) return full;
  const Box box = bounds(shape);
  auto out = clip(full, {Exact(0), box.least.y - q}, {Exact(1), Exact(0)});
  if (out) out = clip(*out, {Exact(0), box.most.y + q}, {Exact(-1), Exact(0)});
  return out.value_or(full);
}

namespace {

struct Place {
  double x = 0, y = 0;
};
Place place(const Point& p) { return {p.x.approx(), p.y.approx()}; }
double dot(const Place& a, const Place& b) { return a.x * b.x + a.y * b.y; }
double cross(const Place& a, const Place& b) { return a.x * b.y - a.y * b.x; }
Place operator-(const Place& a, const Place& b) { return {a.x - b.x, a.y - b.y}; }
Place unit(const Place& d) {
  const double length = std::sqrt(dot(d, d));
  return {d.x / length, d.y / length};
}

// How far the cut edge along the seam reaches past the trimming line; inches.
double beyond(const Polygon& finished, const Polygon& cut, const TipTrim& trim) {
  const Place corner = place(trim.corner);
  const Place outward = unit(Place{} - place(trim.along_seam));
  Place away{-outward.y, outward.x};  // from the piece over the seam
  for (const Point& p : finished.corners) {
    const double side = dot(away, place(p) - corner);
    if (std::abs(side) < 1e-6) continue;
    if (side > 0) away = {-away.x, -away.y};
    break;
  }
  double edge = -1e9;  // of the cut piece, over the seam
  for (const Point& p : cut.corners) edge = std::max(edge, dot(away, place(p) - corner));
  double reach = -1e9;
  for (const Point& p : cut.corners) {
    if (dot(away, place(p) - corner) < edge - 1e-6) continue;
    reach = std::max(reach, dot(outward, place(p) - corner));
  }
  const Place on = place(trim.line.at), along = place(trim.line.along);
  const Place start{corner.x + away.x * edge, corner.y + away.y * edge};
  const double slope = cross(outward, along);
  if (std::abs(slope) < 1e-9) return 0;
  return reach - cross(on - start, along) / slope;
}

int corner_degrees(const Polygon& p, const Point& corner) {
  const auto at = std::find(p.corners.begin(), p.corners.end(), corner);
  if (at == p.corners.end()) return 0;
  const auto k = static_cast<std::size_t>(at - p.corners.begin());
  const Place a = unit(place(p.at(k + 1)) - place(corner));
  const Place b = unit(place(p.at(k + p.size() - 1)) - place(corner));
  const double angle = std::atan2(std::abs(cross(a, b)), dot(a, b));
  return static_cast<int>(std::lround(angle * 180 / 3.14159265358979323846));
}

}  // namespace

Fraction tip_measure(double inches) {
  const Fraction eighths = Fraction::of(std::llround(inches * 8), 8);
  if (std::abs(eighths.approx() - inches) <= 1.0 / 32) return eighths;
  return Fraction::of(std::llround(inches * 16), 16);
}

std::vector<PieceTip> tips_in(const Pattern& pattern, const Piecing& piecing,
                              const SizeQuantities& quantities, UnitId id) {
  std::vector<PieceTip> out;
  const Exact& q = pattern.seam_allowance;
  for (const TipTrim& trim : trims_in(piecing, piecing.units[id], q)) {
    const CutPiece* cut = cut_of(quantities, trim.piece);
    if (cut == nullptr) continue;
    const Polygon& shape = piecing.pieces[trim.piece].shape;
    if (!is_convex(shape)) continue;
    PieceTip tip;
    tip.trim = trim;
    tip.beyond = beyond(shape, as_cut(shape, cut->cut, q), trim);
    if (tip.beyond <= 1.0 / 32) continue;
    tip.printed = tip_measure(tip.beyond);
    tip.degrees = corner_degrees(shape, trim.corner);
    out.push_back(tip);
  }
  for (PieceTip& tip : out) {
    const auto at_other_end = [&](const PieceTip& t) {
      return t.trim.seam == tip.trim.seam && t.trim.neighbour == tip.trim.neighbour &&
             t.trim.corner != tip.trim.corner && std::abs(t.beyond - tip.beyond) < 1.0 / 16;
    };
    tip.one_end = std::none_of(out.begin(), out.end(), at_other_end);
  }
  return out;
}

}  // namespace dogear
