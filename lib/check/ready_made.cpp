// Ready-made units: the patches they show, and what a batch of them is cut from.

#include <algorithm>
#include <array>

#include "base/length.h"
#include "check/build.h"
#include "model/shapes.h"

namespace dogear {

namespace {

Polygon half_square(const Exact& leg) {
  return {{{Exact(0), Exact(0)}, {leg, leg}, {Exact(0), leg}}};
}

Polygon quarter_square(const Exact& base) {
  const Exact half = base / Exact(2);
  return {{{half, Exact(0)}, {base, half}, {Exact(0), half}}};
}

// How far a half-square triangle with its right angle at the bottom left is turned to have it in a
// corner: 0 top left, then clockwise.
constexpr std::array<int, 4> corner_turns{6, 12, 18, 0};

Point corner_least(int at, const Exact& leg, const Box& box) {
  return {at == 1 || at == 2 ? box.most.x - leg : box.least.x,
          at >= 2 ? box.most.y - leg : box.least.y};
}

// What is left of a rectangle once its corners are cut off.
Polygon without_corners(const Box& box, const std::vector<StitchedCorner>& corners) {
  std::array<Exact, 4> legs;
  for (const StitchedCorner& c : corners) legs[static_cast<std::size_t>(c.at)] = c.leg;
  const Exact& w = box.most.x;
  const Exact& h = box.most.y;
  Polygon p;
  for (const Point& next : std::vector<Point>{{Exact(0), legs[0]},
                                              {legs[0], Exact(0)},
                                              {w - legs[1], Exact(0)},
                                              {w, legs[1]},
                                              {w, h - legs[2]},
                                              {w - legs[2], h},
                                              {legs[3], h},
                                              {Exact(0), h - legs[3]}}) {
    if (p.corners.empty() || p.corners.back() != next) p.corners.push_back(next);
  }
  if (p.corners.front() == p.corners.back()) p.corners.pop_back();
  return tidy(p);
}

// Squares that are trimmed after sewing are cut to the next eighth.
Exact up(const Exact& e) { return e.round_up(8); }

// common practice: F + 7/8 and F + 1 1/4 at a seam allowance of 1/4; exactly q(2 + √2) and
// q(2 + 2√2) more than the finished leg, or the finished long edge.
Exact half_extra(const Exact& q) { return q * (Exact(2) + Exact::sqrt2()); }
Exact quarter_extra(const Exact& q) { return q * (Exact(2) + Exact::sqrt2() * Exact(2)); }

Batch::Cut square(FabricId fabric, const Exact& side, int count) {
  return {fabric, side, side, count};
}

}  // namespace

// The corners must leave room for each other.
bool PartBuilder::corners_fit(const UnitDef& unit) {
  const Polygon& shape = *unit.shape;
  const Box box = bounds(shape);
  if (!is_rectangle(shape)) {
    diagnostics_
        .error("D147", unit.shape_span, "corners are stitched on to a square or a rectangle only")
        .hints.push_back("write `square 2` or `rectangle 2 x 4`, or `place` triangles around it");
    return false;
  }
  const auto& corners = unit.ready->corners;
  for (const StitchedCorner& c : corners) {
    const Exact room = min(box.width(), box.height());
    if (c.leg <= room) continue;
    Diagnostic& e = diagnostics_.error(
        "D143", c.span,
        "the corner at the " + std::string(corner_words(c.at)) + " reaches " + about_inches(c.leg) +
            " along each side, but one side is " + about_inches(room) + " long");
    e.notes.push_back({unit.shape_span, "the shape is written here"});
    e.hints.push_back("corners are counted in grid steps, as shapes are");
    return false;
  }
  for (std::size_t i = 0; i < corners.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      const StitchedCorner& a = corners[k];
      const StitchedCorner& b = corners[i];
      const int apart = b.at - a.at;
      const bool level = apart != 2 && (a.at + b.at == 1 || a.at + b.at == 5);
      const Exact room = apart == 2 ? box.width() + box.height()
                         : level    ? box.width()
                                    : box.height();
      const Exact both = a.leg + b.leg;
      if (both < room || (both == room && apart != 2)) continue;
      Diagnostic& e =
          apart == 2
              ? diagnostics_.error("D144", b.span,
                                   "these two corners leave nothing of the shape between them")
              : diagnostics_.error("D144", b.span,
                                   "two corners reach " + about_inches(both) +
                                       " along one side together, but it is " + about_inches(room) +
                                       " long: they overlap");
      e.notes.push_back({a.span, "the other corner is this one"});
      e.hints.push_back("two corners on one side are at most as long as that side together");
      return false;
    }
  }
  return true;
}

// Squares that are cut apart show a print in every direction, however they are laid.
void PartBuilder::warn_of_prints(const UnitDef& unit, const BlockUse& use) {
  const bool stitched = unit.ready->method == Method::stitched_corners;
  if (!stitched && !is_trimmed(unit.ready->method)) return;
  // The base below stitched corners lies as it is cut; they are flipped over their diagonal.
  std::vector<std::string> roles = unit.ready->roles;
  if (stitched) roles.erase(roles.begin());
  for (const StitchedCorner& corner : unit.ready->corners) roles.push_back(corner.role);
  for (const std::string& role : roles) {
    const Fabric& fabric = checked_.pattern.fabrics[use.fabrics.at(role)];
    if (!fabric.directional) continue;
    const std::string words =
        "made " + std::string(stitched ? "with " : "") +
        std::string(method_words(unit.ready->method)) + ", `" + unit.name +
        "` does not keep the direction of " + fabric.name +
        (stitched ? ": a corner is flipped over its diagonal, and the print lies on its side"
                  : ": its squares are cut apart, and the print lies several ways");
    const auto& said = diagnostics_.all();
    if (std::any_of(said.begin(), said.end(), [&](const Diagnostic& d) {
          return d.code == "D516" && d.message == words && d.span.line == unit.span.line &&
                 d.span.file == unit.span.file;
        })) {
      continue;
    }
    Diagnostic& e = diagnostics_.warning("D516", unit.span, words);
    e.notes.push_back({fabric.span, "this is a directional print"});
    e.hints.push_back("make it one at a time, or choose another fabric for it");
  }
}

// What a batch is cut from, where the patches are not cut one by one.
std::optional<Batch> PartBuilder::batch_of(const UnitDef& unit, const BlockUse& use) const {
  const ReadyMadeDef& ready = *unit.ready;
  if (ready.method == Method::one_at_a_time) return std::nullopt;
  const Exact& q = checked_.pattern.seam_allowance;
  const Box box = bounds(*unit.shape);
  const Exact w = box.width();
  const Exact h = box.height();
  const auto fabric = [&](std::size_t i) { return use.fabrics.at(ready.roles[i]); };
  Batch out;
  out.kind = ready.kind;
  out.method = ready.method;
  out.oversize = ready.oversize;
  switch (ready.method) {
    case Method::one_at_a_time:
      break;
    case Method::two_at_a_time: {
      const bool halves = ready.kind == ReadyMade::half_square;
      const Exact side = up(w + (halves ? half_extra(q) : quarter_extra(q)) + ready.oversize);
      out.yield = 2;
      out.cuts = {square(fabric(0), side, 1), square(fabric(1), side, 1)};
      out.from = {0, 1};
      if (!halves) out.from = {0, 1, 0, 1};
      break;
    }
    case Method::eight_at_a_time: {
      // Four squares of the other method side by side.
      const Exact side = up((w + half_extra(q) + ready.oversize) * Exact(2));
      out.yield = 8;
      out.cuts = {square(fabric(0), side, 1), square(fabric(1), side, 1)};
      out.from = {0, 1};
      break;
    }
    case Method::four_at_a_time:
      out.yield = 4;
      out.cuts = {square(fabric(0), up(w + quarter_extra(q) + ready.oversize), 1),
                  square(fabric(1), up(h + half_extra(q) + ready.oversize), 4)};
      out.from = {0, 1, 1};
      break;
    case Method::stitched_corners: {
      const Exact both = q * Exact(2);
      out.yield = 1;
      out.cuts = {{fabric(0), w + both, h + both, 1}};
      out.from = {0};
      const auto stitch = [&](FabricId f, const Exact& leg) {
        std::size_t i = 1;
        while (i < out.cuts.size() &&
               (out.cuts[i].fabric != f || out.cuts[i].width != leg + both)) {
          ++i;
        }
        if (i == out.cuts.size()) out.cuts.push_back(square(f, leg + both, 0));
        ++out.cuts[i].count;
        out.from.push_back(i);
      };
      if (ready.kind == ReadyMade::flying_geese) {
        stitch(fabric(1), h);
        stitch(fabric(1), h);
      }
      for (const StitchedCorner& c : ready.corners) stitch(use.fabrics.at(c.role), c.leg);
      break;
    }
  }
  return out;
}

std::optional<PartId> PartBuilder::make_ready_made(const UnitDef& unit, const BlockUse& use,
                                                   const std::string& title) {
  const ReadyMadeDef& ready = *unit.ready;
  if (ready.kind == ReadyMade::cornered && !corners_fit(unit)) return std::nullopt;
  const Box box = bounds(*unit.shape);
  const Exact w = box.width();
  const Exact h = box.height();
  const Exact half = w / Exact(2);
  std::vector<Placed> parts;
  // Patches are cut as they lie in the unit, upright; only a center on its point is turned.
  const auto put = [&](const Polygon& shape, const std::string& role, int turn, const Point& at) {
    const Polygon there = at_origin(Transform::turned(turn).apply(shape));
    parts.push_back({patch(there, use.fabrics.at(role), unit.span), Transform::moved(at)});
  };
  const auto corner = [&](int at, const Exact& leg, const std::string& role) {
    put(half_square(leg), role, corner_turns[static_cast<std::size_t>(at)],
        corner_least(at, leg, box));
  };
  const Point origin;
  switch (ready.kind) {
    case ReadyMade::half_square:
      corner(3, w, ready.roles[0]);
      corner(1, w, ready.roles[1]);
      break;
    case ReadyMade::quarter_square: {
      // Clockwise from the top; two fabrics lie opposite, of three the second lies at both sides.
      const std::size_t n = ready.roles.size();
      const std::array<std::size_t, 4> order{0, 1, n == 2 ? 0u : 2u, n == 4 ? 3u : 1u};
      const std::array<Point, 4> at{origin, Point{half, Exact(0)}, Point{Exact(0), half}, origin};
      for (std::size_t i = 0; i < 4; ++i) {
        put(quarter_square(w), ready.roles[order[i]], static_cast<int>(12 + 6 * i) % 24, at[i]);
      }
      break;
    }
    case ReadyMade::flying_geese:
      put(quarter_square(w), ready.roles[0], 0, origin);
      corner(0, h, ready.roles[1]);
      corner(1, h, ready.roles[1]);
      break;
    case ReadyMade::square_in_square: {
      const Exact side = half * Exact::sqrt2();
      const PartId center = patch(rectangle(side, side), use.fabrics.at(ready.roles[0]), unit.span);
      parts.push_back(turned_to_origin(center, 3));
      for (const int at : {0, 1, 2, 3}) corner(at, half, ready.roles[1]);
      break;
    }
    case ReadyMade::cornered:
      put(without_corners(box, ready.corners), ready.roles[0], 0, origin);
      for (const StitchedCorner& c : ready.corners) corner(c.at, c.leg, c.role);
      break;
  }
  const std::vector<Span> spans(parts.size(), unit.span);
  const BlockDef& def = checked_.pattern.blocks[use.block];
  const std::string called = &unit == &def.whole ? def.title : "";
  const auto id = whole({title, unit.shape_words, unit.span, unit.shape, unit.shape_span, called},
                        std::move(parts), spans);
  if (!id) return id;
  checked_.parts[*id].batch = batch_of(unit, use);
  warn_of_prints(unit, use);
  return id;
}

}  // namespace dogear
