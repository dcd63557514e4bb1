#include "piecing/press_points.h"

#include <algorithm>
#include <cmath>

namespace dogear {

namespace {

constexpr double near = 1e-4;  // inches; corners of patches lie much farther apart

double dot(const Spot& a, const Spot& b) { return a.x * b.x + a.y * b.y; }
double cross(const Spot& a, const Spot& b) { return a.x * b.y - a.y * b.x; }
Spot operator-(const Spot& a, const Spot& b) { return {a.x - b.x, a.y - b.y}; }
Spot spot(const Point& p) { return {p.x.approx(), p.y.approx()}; }

Spot unit_vector(const Spot& d) {
  const double length = std::sqrt(dot(d, d));
  return {d.x / length, d.y / length};
}

// A transform in doubles.
struct Motion {
  Spot right, down, shift;
  explicit Motion(const Transform& t)
      : right(spot(t.apply_direction({Exact(1), Exact(0)}))),
        down(spot(t.apply_direction({Exact(0), Exact(1)}))),
        shift(spot(t.shift)) {}
  Spot turn(const Spot& d) const {
    return {right.x * d.x + down.x * d.y, right.y * d.x + down.y * d.y};
  }
  Spot apply(const Spot& p) const {
    const Spot t = turn(p);
    return {t.x + shift.x, t.y + shift.y};
  }
};

struct Line {
  Spot from, along;
  double length = 0;
  explicit Line(const Segment& s) : from(spot(s.a)) {
    const Spot d = spot(s.b) - from;
    length = std::sqrt(dot(d, d));
    along = unit_vector(d);
  }
  double at(const Spot& p) const { return dot(p - from, along); }
  Spot end() const { return {from.x + along.x * length, from.y + along.y * length}; }
  bool holds_inside(const Spot& p) const {
    const double t = at(p);
    return std::abs(cross(along, p - from)) < near && t > near && t < length - near;
  }
};

Spot middle(const Polygon& p, const Motion& m) {
  Spot sum;
  for (const Point& c : p.corners) {
    sum.x += c.x.approx();
    sum.y += c.y.approx();
  }
  const auto n = static_cast<double>(p.size());
  return m.apply({sum.x / n, sum.y / n});
}

class CrossingFinder {
 public:
  explicit CrossingFinder(const Piecing& piecing) : piecing_(piecing) {}

  std::vector<std::vector<SeamCrossing>> find() {
    std::vector<std::vector<SeamCrossing>> out;
    for (UnitId id = 0; id < piecing_.units.size(); ++id) out.push_back(crossings_of(id));
    return out;
  }

 private:
  struct Found {
    double along = 0;
    bool first = true;
    Spot along_leg;
    SeamEnd end;
  };

  std::vector<SeamCrossing> crossings_of(UnitId id) {
    const SewnUnit& unit = piecing_.units[id];
    std::vector<std::vector<Line>> legs;  // of each seam: one, or more where it is set in
    std::vector<std::vector<std::size_t>> seams_of(unit.inputs.size());
    for (std::size_t s = 0; s < unit.seams.size(); ++s) {
      legs.push_back(legs_of(unit.seams[s]));
      seams_of[unit.seams[s].first].push_back(s);
      seams_of[unit.seams[s].second].push_back(s);
    }
    std::vector<std::vector<Found>> on_seam(unit.seams.size());
    std::vector<SeamEnd> rim;  // ends that stay on the outline of this unit
    std::vector<Spot> middles;
    for (std::size_t i = 0; i < unit.inputs.size(); ++i) {
      const Input& in = unit.inputs[i];
      const Motion m(in.where);
      middles.push_back(middle(
          in.is_piece ? piecing_.pieces[in.piece].shape : piecing_.units[in.unit].outline, m));
      if (in.is_piece) continue;
      for (SeamEnd end : rims_[in.unit]) {
        end.at = m.apply(end.at);
        end.across = m.turn(end.across);
        end.into = m.turn(end.into);
        ++end.depth;
        bool hit = false;
        for (const std::size_t seam : seams_of[i]) {
          double before = 0;
          for (const Line& leg : legs[seam]) {
            if (!hit && leg.holds_inside(end.at)) {
              end.way = dot(end.into, leg.along);
              on_seam[seam].push_back(
                  {before + leg.at(end.at), unit.seams[seam].first == i, leg.along, end});
              hit = true;
            }
            before += leg.length;
          }
        }
        if (!hit) rim.push_back(end);
      }
    }
    for (std::size_t s = 0; s < unit.seams.size(); ++s) {
      const Spot towards = middles[unit.seams[s].second] - middles[unit.seams[s].first];
      for (const bool start : {true, false}) {
        const Line& leg = start ? legs[s].front() : legs[s].back();
        SeamEnd end;
        end.unit = id;
        end.seam = s;
        end.across = {-leg.along.y, leg.along.x};
        if (dot(end.across, towards) < 0) end.across = {leg.along.y, -leg.along.x};
        end.at = start ? leg.from : leg.end();
        end.into = start ? leg.along : Spot{-leg.along.x, -leg.along.y};
        rim.push_back(end);
      }
    }
    rims_.push_back(std::move(rim));
    std::vector<SeamCrossing> out;
    for (std::size_t s = 0; s < unit.seams.size(); ++s) gather(s, on_seam[s], out);
    return out;
  }

  static std::vector<Line> legs_of(const Seam& seam) {
    std::vector<Line> out;
    if (seam.kind != SeamKind::set_in) return {Line(seam.where)};
    for (std::size_t i = 1; i < seam.path.size(); ++i) {
      out.emplace_back(Segment{seam.path[i - 1], seam.path[i]});
    }
    return out.empty() ? std::vector<Line>{Line(seam.where)} : out;
  }

  static void gather(std::size_t seam, std::vector<Found>& found, std::vector<SeamCrossing>& out) {
    std::stable_sort(found.begin(), found.end(),
                     [](const Found& a, const Found& b) { return a.along < b.along; });
    const std::size_t start = out.size();
    double last = -1;
    for (Found& f : found) {
      if (last < 0 || f.along > last + near) {
        out.emplace_back();
        out.back().seam = seam;
        out.back().at = f.end.at;
        out.back().along = f.along_leg;
      }
      last = f.along;
      (f.first ? out.back().first : out.back().second).push_back(f.end);
    }
    const auto by_way = [](const SeamEnd& a, const SeamEnd& b) { return a.way < b.way; };
    for (std::size_t i = start; i < out.size(); ++i) {
      std::stable_sort(out[i].first.begin(), out[i].first.end(), by_way);
      std::stable_sort(out[i].second.begin(), out[i].second.end(), by_way);
    }
  }

  const Piecing& piecing_;
  std::vector<std::vector<SeamEnd>> rims_;
};

}  // namespace

std::vector<std::vector<SeamCrossing>> find_crossings(const Piecing& piecing) {
  return CrossingFinder(piecing).find();
}

std::vector<std::pair<std::size_t, std::size_t>> matched(const SeamCrossing& c) {
  std::vector<std::pair<std::size_t, std::size_t>> out;
  if (c.first.size() == c.second.size()) {
    for (std::size_t i = 0; i < c.first.size(); ++i) out.emplace_back(i, i);
    return out;
  }
  for (std::size_t i = 0; i < c.first.size(); ++i) {
    for (std::size_t k = 0; k < c.second.size(); ++k) {
      const Spot &a = c.first[i].into, &b = c.second[k].into;
      if (std::abs(a.x + b.x) < near && std::abs(a.y + b.y) < near) out.emplace_back(i, k);
    }
  }
  return out;
}

}  // namespace dogear
