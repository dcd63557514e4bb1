// The pressing plan. A unit is pressed one way wherever it is used, and is seen turned where it is
// turned; so every seam of every unit is one unknown with two ways, and each crossing pulls the two
// seams that meet there apart, by as often as it is sewn. What the designer wrote is fixed; seams
// through a point where six or more patches meet are pressed open (common practice). What crossings
// leave free goes away from bulk, then towards the darker cloth.
//
// Where a row lies next to an equal one, its own seams can only nest when every second of them is
// pressed the other way; such rows alternate, and their crossings are read so.
#include "piecing/press.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numeric>
#include <set>

#include "piecing/press_layers.h"
#include "piecing/press_parity.h"
#include "piecing/press_points.h"
#include "piecing/press_wish.h"

namespace dogear {

namespace {

constexpr std::size_t many_points = 6;

// Rough brightness of "#rrggbb" (common practice: press towards the darker cloth).
int brightness(const std::string& colour) {
  const auto channel = [&](std::size_t at) {
    int v = 0;
    std::from_chars(colour.data() + at, colour.data() + at + 2, v, 16);
    return v;
  };
  return colour.size() == 7 ? 3 * channel(1) + 6 * channel(3) + channel(5) : 0;
}

class PressPlan {
 public:
  PressPlan(const CheckedPattern& checked, Piecing& piecing, Diagnostics& d)
      : checked_(checked),
        piecing_(piecing),
        crossings_(find_crossings(piecing)),
        wished_(wished_presses(piecing, d)) {}

  void run() {
    std::size_t n = 0;
    for (const SewnUnit& unit : piecing_.units) {
      start_.push_back(n);
      n += unit.seams.size();
    }
    open_.assign(n, false);
    problem_.fixed.assign(n, 0);
    problem_.liking.assign(n, 0);
    count_makes();
    find_alternates();
    for (UnitId id = 0; id < piecing_.units.size(); ++id) {
      settle_known(id);
      like(id);
    }
    for (UnitId id = 0; id < piecing_.units.size(); ++id) pull(id);
    way_ = settle(problem_);
    for (UnitId id = 0; id < piecing_.units.size(); ++id) {
      std::vector<Seam>& seams = piecing_.units[id].seams;
      for (std::size_t s = 0; s < seams.size(); ++s) {
        seams[s].press = open_[start_[id] + s]      ? Press::open
                         : way_[start_[id] + s] > 0 ? Press::to_second
                                                    : Press::to_first;
      }
    }
    for (UnitId id = 0; id < piecing_.units.size(); ++id) tell_points(id);
  }

 private:
  std::size_t index(const SeamEnd& e) const { return start_[e.unit] + e.seam; }

  void count_makes() {
    makes_.assign(piecing_.units.size(), 0);
    for (const SizeSewing& size : piecing_.sizes) {
      for (const auto& [unit, n] : size.make) makes_[unit] += static_cast<double>(n);
    }
  }

  const Input& part_of(UnitId id, std::size_t seam, bool first) const {
    const SewnUnit& unit = piecing_.units[id];
    return unit.inputs[first ? unit.seams[seam].first : unit.seams[seam].second];
  }

  void find_alternates() {
    std::vector<std::set<UnitId>> users(piecing_.units.size());
    for (UnitId id = 0; id < piecing_.units.size(); ++id) {
      for (const Input& in : piecing_.units[id].inputs) {
        if (!in.is_piece) users[in.unit].insert(id);
      }
    }
    for (UnitId id = 0; id < piecing_.units.size(); ++id) {
      for (const SeamCrossing& c : crossings_[id]) {
        const Input& a = part_of(id, c.seam, true);
        const Input& b = part_of(id, c.seam, false);
        if (a.is_piece || b.is_piece || a.unit != b.unit || a.where.turn != b.where.turn) continue;
        if (users[a.unit].size() > 1 || piecing_.units[a.unit].wish) continue;
        for (const auto& [i, k] : matched(c)) {
          const bool own = c.first[i].depth == 1 && c.second[k].depth == 1;
          if (own && index(c.first[i]) == index(c.second[k])) {
            piecing_.units[a.unit].alternate = true;
          }
        }
      }
    }
  }

  // +1 where the seam pressed to its second part lies on along the crossing's seam, -1 where back.
  int sense(UnitId id, const SeamCrossing& c, const SeamEnd& end, bool first) const {
    const double on = end.across.x * c.along.x + end.across.y * c.along.y;
    const SewnUnit& unit = piecing_.units[id];
    const std::size_t place = first ? unit.seams[c.seam].first : unit.seams[c.seam].second;
    const bool other_way = end.depth == 1 && piecing_.units[end.unit].alternate && place % 2 == 1;
    return (on < 0) != other_way ? -1 : 1;
  }

  void settle_known(UnitId id) {
    const SewnUnit& unit = piecing_.units[id];
    for (std::size_t s = 0; s < unit.seams.size(); ++s) {
      const auto& wish = wished_[id][s];
      if (!wish) continue;
      if (*wish == Press::open) open_[start_[id] + s] = true;
      problem_.fixed[start_[id] + s] = *wish == Press::to_first ? -1 : 1;
    }
    settle_mitres(id);
    if (unit.strip_set && !unit.wish) settle_strip_set(id);
    if (unit.batch) settle_batch(id);
    if (unit.foundation) settle_foundation(id);
    for (const SeamCrossing& c : crossings_[id]) {
      if (c.patches() >= many_points && !wished_[id][c.seam] && !unit.foundation)
        open_[start_[id] + c.seam] = true;
    }
  }

  // Out towards the mitred borders, their corners open (common practice).
  void settle_mitres(UnitId id) {
    const SewnUnit& unit = piecing_.units[id];
    for (std::size_t s = 0; s < unit.seams.size(); ++s) {
      const Seam& seam = unit.seams[s];
      if (seam.kind == SeamKind::mitre) open_[start_[id] + s] = true;
      if (seam.kind != SeamKind::stopped) continue;
      const Input& second = unit.inputs[seam.second];
      const bool outward = second.is_piece && piecing_.pieces[second.piece].mitred;
      problem_.fixed[start_[id] + s] = outward ? 1 : -1;
    }
  }

  // All shapes of a set share its seams, whichever way they are cut: towards the darker end. A set
  // that is the same from both ends is pressed towards the darker of its two fabrics, so that it
  // nests with its counterpart, as in a nine patch.
  void settle_strip_set(UnitId id) {
    const SewnUnit& unit = piecing_.units[id];
    const bool first = shade(unit.inputs.front()) < shade(unit.inputs.back());
    const bool two = takes_turns(piecing_, unit);
    for (std::size_t s = 0; s < unit.seams.size(); ++s) {
      const Seam& seam = unit.seams[s];
      const bool to_first =
          two ? shade(unit.inputs[seam.first]) < shade(unit.inputs[seam.second]) : first;
      problem_.fixed[start_[id] + s] = to_first ? -1 : 1;
    }
  }

  // Away from the goose or the square, out to the corners.
  void settle_batch(UnitId id) {
    const ReadyMade kind = piecing_.units[id].batch->kind;
    if (kind != ReadyMade::flying_geese && kind != ReadyMade::cornered) return;
    for (std::size_t s = 0; s < piecing_.units[id].seams.size(); ++s) {
      problem_.fixed[start_[id] + s] = 1;
    }
  }

  // The patch that is sewn on is flipped over its seam, and lies flat on the paper.
  void settle_foundation(UnitId id) {
    for (std::size_t s = 0; s < piecing_.units[id].seams.size(); ++s) {
      problem_.fixed[start_[id] + s] = 1;
    }
  }

  int shade(const Input& in) const {
    return brightness(checked_.pattern.fabrics[piecing_.pieces[in.piece].fabric].colour);
  }

  void like(UnitId id) {
    const SewnUnit& unit = piecing_.units[id];
    // Seams that end on each side of a seam: what makes a side thick.
    std::vector<std::array<std::size_t, 2>> ends(unit.seams.size(), {0, 0});
    for (const SeamCrossing& c : crossings_[id]) {
      ends[c.seam][0] += c.first.size();
      ends[c.seam][1] += c.second.size();
    }
    for (std::size_t s = 0; s < unit.seams.size(); ++s) {
      const Input& a = unit.inputs[unit.seams[s].first];
      const Input& b = unit.inputs[unit.seams[s].second];
      const auto [bulk_a, bulk_b] = ends[s];
      double to_second = 0;
      if (bulk_a != bulk_b) {
        to_second = bulk_a > bulk_b ? 2 : -2;
      } else if (a.is_piece != b.is_piece) {
        to_second = b.is_piece ? 2 : -2;
      } else if (a.is_piece && unit.name == "sashing row") {
        // Towards the sashing, away from the cornerstones, as the rows do.
        const bool first =
            area(piecing_.pieces[a.piece].shape) > area(piecing_.pieces[b.piece].shape);
        to_second = first ? -1 : 1;
      } else if (a.is_piece) {
        to_second = shade(a) <= shade(b) ? -1 : 1;
      } else {
        // Towards the middle one of three, so that no point is pressed over.
        const bool inward = unit.inputs.size() == 3 && unit.seams[s].first == 1;
        to_second = inward ? -0.5 : 0.5;
      }
      problem_.liking[start_[id] + s] = to_second * std::max(1.0, makes_[id]);
    }
  }

  void pull(UnitId id) {
    const double weight = std::max(1.0, makes_[id]);
    for (const SeamCrossing& c : crossings_[id]) {
      for (const auto& [i, k] : matched(c)) {
        const SeamEnd &a = c.first[i], &b = c.second[k];
        if (open_[index(a)] || open_[index(b)]) continue;
        const bool alike = sense(id, c, a, true) != sense(id, c, b, false);
        problem_.pulls.push_back({index(a), index(b), alike, weight});
      }
      // Several seams of one part that meet in the point lie round it one after the other.
      for (const bool first : {true, false}) {
        const auto& side = first ? c.first : c.second;
        for (std::size_t i = 1; i < side.size() && c.first.size() == c.second.size(); ++i) {
          if (open_[index(side[i - 1])] || open_[index(side[i])]) continue;
          const bool alike = sense(id, c, side[i - 1], first) == sense(id, c, side[i], first);
          problem_.pulls.push_back({index(side[i - 1]), index(side[i]), alike, weight / 4});
        }
      }
    }
  }

  WaysAtPoint ways(UnitId id, const SeamCrossing& c, bool first) const {
    WaysAtPoint out;
    for (const SeamEnd& e : first ? c.first : c.second) {
      out.push_back(open_[index(e)] ? 0 : sense(id, c, e, first) * way_[index(e)]);
    }
    return out;
  }

  void tell_points(UnitId id) {
    SewnUnit& unit = piecing_.units[id];
    for (const SeamCrossing& c : crossings_[id]) {
      const WaysAtPoint first = ways(id, c, true);
      const WaysAtPoint second = ways(id, c, false);
      MeetingPoint point;
      point.seam = c.seam;
      point.x = c.at.x;
      point.y = c.at.y;
      point.patches = static_cast<int>(c.patches());
      point.layers = layers_beside(first, second, unit.seams[c.seam].press).most();
      const auto pairs = matched(c);
      point.crosses = !pairs.empty();
      point.nests = point.crosses && std::all_of(pairs.begin(), pairs.end(), [&](const auto& p) {
                      return first[p.first] * second[p.second] < 0;
                    });
      unit.points.push_back(point);
    }
  }

  const CheckedPattern& checked_;
  Piecing& piecing_;
  std::vector<std::vector<SeamCrossing>> crossings_;
  std::vector<std::vector<std::optional<Press>>> wished_;
  std::vector<std::size_t> start_;  // of each unit's seams among all
  std::vector<bool> open_;
  std::vector<double> makes_;
  ParityProblem problem_;
  std::vector<int> way_;
};

}  // namespace

bool takes_turns(const Piecing& piecing, const SewnUnit& unit) {
  const auto& in = unit.inputs;
  if (in.size() < 3 || in.size() % 2 == 0 || unit.seams.size() + 1 != in.size()) return false;
  const auto fabric = [&](std::size_t i) { return piecing.pieces[in[i].piece].fabric; };
  for (std::size_t i = 0; i < in.size(); ++i)
    if (!in[i].is_piece || fabric(i) != fabric(i % 2)) return false;
  return fabric(0) != fabric(1);
}

void plan_pressing(const CheckedPattern& checked, Piecing& piecing, Diagnostics& diagnostics) {
  PressPlan(checked, piecing, diagnostics).run();
}

}  // namespace dogear
