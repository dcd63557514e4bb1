#include "piecing/as_used.h"

#include <algorithm>
#include <numeric>
#include <set>

namespace dogear {
namespace {

constexpr int quarter = 6, half = 12;  // of 15° turns

void turn(SewnUnit& unit, const Transform& by) {
  unit.outline = by.apply(unit.outline);
  for (Input& in : unit.inputs) in.where = in.where.then(by);
  for (Seam& seam : unit.seams) {
    seam.where = {by.apply(seam.where.a), by.apply(seam.where.b)};
    for (Point& p : seam.path) p = by.apply(p);
    if (seam.curve) seam.curve->center = by.apply(seam.curve->center);
  }
  for (MeetingPoint& p : unit.points) {
    const double x = p.x, y = p.y;
    const Point along = by.apply_direction({1, 0}), down = by.apply_direction({0, 1});
    p.x = x * along.x.approx() + y * down.x.approx() + by.shift.x.approx();
    p.y = x * along.y.approx() + y * down.y.approx() + by.shift.y.approx();
  }
}

template <typename Value>
std::vector<Value> in_order(std::vector<Value>& values, const std::vector<std::size_t>& order) {
  std::vector<Value> out;
  for (const std::size_t i : order) out.push_back(std::move(values[i]));
  return out;
}

// Where each one has gone.
std::vector<std::size_t> places(const std::vector<std::size_t>& order) {
  std::vector<std::size_t> out(order.size());
  for (std::size_t i = 0; i < order.size(); ++i) out[order[i]] = i;
  return out;
}

std::vector<std::size_t> counted(std::size_t n) {
  std::vector<std::size_t> out(n);
  std::iota(out.begin(), out.end(), std::size_t{0});
  return out;
}

// From left to right, or from top to bottom where the first seam is level; seams in that order.
void read_again(const Piecing& piecing, SewnUnit& unit) {
  const Segment& first = unit.seams.front().where;
  const bool down = first.a.y == first.b.y;
  std::vector<Exact> at;
  for (const Input& in : unit.inputs) {
    const Box box = bounds(in.where.apply(in.is_piece ? piecing.pieces[in.piece].shape
                                                      : piecing.units[in.unit].outline));
    at.push_back(down ? box.least.y + box.most.y : box.least.x + box.most.x);
  }
  std::vector<std::size_t> order = counted(at.size());
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return at[a] < at[b]; });
  const std::vector<std::size_t> place = places(order);
  unit.inputs = in_order(unit.inputs, order);
  for (Seam& seam : unit.seams) {
    seam.first = place[seam.first];
    seam.second = place[seam.second];
    if (seam.first < seam.second) continue;
    std::swap(seam.first, seam.second);
    std::swap(seam.first_has_bias, seam.second_has_bias);
    if (seam.press != Press::open)
      seam.press = seam.press == Press::to_first ? Press::to_second : Press::to_first;
  }
  order = counted(unit.seams.size());
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return unit.seams[a].second < unit.seams[b].second;
  });
  const std::vector<std::size_t> seam_place = places(order);
  unit.seams = in_order(unit.seams, order);
  for (MeetingPoint& p : unit.points) p.seam = seam_place[p.seam];
}

bool may_turn(const SewnUnit& unit) {
  if (unit.strip_set || unit.batch || unit.foundation || unit.seams.empty()) return false;
  return std::all_of(unit.seams.begin(), unit.seams.end(),
                     [](const Seam& s) { return s.kind == SeamKind::straight; });
}

std::set<UnitId> of_blocks_and_assembly(const Piecing& piecing) {
  std::set<UnitId> out;
  for (const SizeSewing& size : piecing.sizes) {
    out.insert(size.top);
    out.insert(size.assembly.begin(), size.assembly.end());
    for (const BlockSewing& block : size.blocks)
      out.insert(block.finals.begin(), block.finals.end());
  }
  return out;
}

}  // namespace

void turn_as_used(Piecing& piecing) {
  std::vector<std::set<UnitId>> users(piecing.units.size());
  for (UnitId user = 0; user < piecing.units.size(); ++user) {
    for (const Input& in : piecing.units[user].inputs)
      if (!in.is_piece) users[in.unit].insert(user);
  }
  const std::set<UnitId> kept = of_blocks_and_assembly(piecing);
  // What takes a unit is filed behind it, and lies as it will when the unit's turn comes.
  for (UnitId id = piecing.units.size(); id-- > 0;) {
    SewnUnit& unit = piecing.units[id];
    if (kept.contains(id) || !may_turn(unit)) continue;
    std::vector<Input*> uses;
    for (const UnitId user : users[id]) {
      for (Input& in : piecing.units[user].inputs)
        if (!in.is_piece && in.unit == id) uses.push_back(&in);
    }
    // Of a slanting shape the level edges are those that are measured.
    const int least = is_rectangle(tidy(unit.outline)) ? quarter : half;
    const int wanted = uses.empty() ? 0 : uses.front()->where.turn;
    const bool alike = std::all_of(uses.begin(), uses.end(), [&](const Input* in) {
      return !in->where.mirrored && in->where.turn == wanted;
    });
    if (wanted == 0 || wanted % least != 0 || !alike) continue;
    const Transform turned = Transform::turned(wanted);
    const Box box = bounds(turned.apply(unit.outline));
    const Transform by = turned.then(Transform::moved(Point{0, 0} - box.least));
    turn(unit, by);
    read_again(piecing, unit);
    const Transform back = by.inverse();
    for (Input* in : uses) in->where = back.then(in->where);
  }
}

}  // namespace dogear
