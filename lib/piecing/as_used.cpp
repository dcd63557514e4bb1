#include "piecing/as_used.h"

#include <set>

namespace dogear {
namespace {

constexpr int quarter = 6;  // of 15° turns

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

std::set<UnitId> kept_as_written(const Piecing& piecing) {
  std::set<UnitId> out;
  for (const SizeSewing& size : piecing.sizes) {
    out.insert(size.top);
    out.insert(size.assembly.begin(), size.assembly.end());
    for (const BlockSewing& block : size.blocks)
      out.insert(block.finals.begin(), block.finals.end());
  }
  for (UnitId id = 0; id < piecing.units.size(); ++id) {
    const SewnUnit& unit = piecing.units[id];
    if (unit.strip_set || unit.batch || unit.foundation) out.insert(id);
  }
  return out;
}

}  // namespace

void turn_as_used(Piecing& piecing) {
  std::vector<std::vector<Input*>> uses(piecing.units.size());
  for (SewnUnit& unit : piecing.units) {
    for (Input& in : unit.inputs)
      if (!in.is_piece) uses[in.unit].push_back(&in);
  }
  const std::set<UnitId> kept = kept_as_written(piecing);
  // What takes a unit is filed behind it, and lies as it will when the unit's turn comes.
  for (UnitId id = piecing.units.size(); id-- > 0;) {
    if (kept.contains(id) || uses[id].empty()) continue;
    const int wanted = uses[id].front()->where.turn;
    bool alike = wanted != 0 && wanted % quarter == 0;
    for (const Input* in : uses[id])
      alike = alike && !in->where.mirrored && in->where.turn == wanted;
    if (!alike) continue;
    const Transform turned = Transform::turned(wanted);
    const Box box = bounds(turned.apply(piecing.units[id].outline));
    const Transform by = turned.then(Transform::moved(Point{0, 0} - box.least));
    turn(piecing.units[id], by);
    const Transform back = by.inverse();
    for (Input* in : uses[id]) in->where = back.then(in->where);
  }
}

}  // namespace dogear
