#include "check/build.h"

#include <algorithm>

#include "base/length.h"
#include "check/picture.h"
#include "check/words.h"
#include "model/shapes.h"

namespace dogear {

namespace {

// The part of a convex polygon between two heights, exactly.
Polygon slice(const Polygon& p, const Exact& top, const Exact& bottom) {
  const auto clip = [](const Polygon& in, const Exact& y, int keep) {
    Polygon out;
    for (std::size_t i = 0; i < in.size(); ++i) {
      const Point& a = in.at(i);
      const Point& b = in.at(i + 1);
      const int sa = (a.y - y).sign() * keep;
      const int sb = (b.y - y).sign() * keep;
      if (sa >= 0) out.corners.push_back(a);
      if (sa * sb < 0) {
        const Exact t = (y - a.y) / (b.y - a.y);
        out.corners.push_back({a.x + (b.x - a.x) * t, y});
      }
    }
    return out;
  };
  return tidy(clip(clip(p, top, 1), bottom, -1));
}

// The edge with which a part meets the next one of its row (over the whole height) or stack (along
// its top or bottom). Clockwise, right edges run down, left ones up, bottom ones left, top ones
// right.
std::optional<Segment> facing_edge(const Polygon& p, bool row, bool far) {
  const Box box = bounds(p);
  for (std::size_t k = 0; k < p.size(); ++k) {
    const Segment e = p.edge(k);
    if (row) {
      const Exact rise = far ? e.b.y - e.a.y : e.a.y - e.b.y;
      if (rise == box.height()) return e;
    } else {
      const Exact& y = far ? box.most.y : box.least.y;
      if (e.a.y == y && e.b.y == y) return e;
    }
  }
  return std::nullopt;
}

}  // namespace

PartId PartBuilder::patch(const Polygon& outline, FabricId fabric, const Span& span) {
  Part part;
  part.outline = at_origin(outline);
  part.shape_words = name_shape(part.outline);
  part.span = span;
  part.is_patch = true;
  part.fabric = fabric;
  part.directional = checked_.pattern.fabrics[fabric].directional;
  checked_.parts.push_back(std::move(part));
  return checked_.parts.size() - 1;
}

PartId PartBuilder::border_patch(const Polygon& outline, const BorderDef& border, bool along) {
  const PartId id = patch(outline, border.fabric, border.span);
  Part& part = checked_.parts[id];
  part.along = along;
  part.border = true;
  part.mitred = border.mitred;
  if (border.mitred) part.shape_words = "border strip";
  return id;
}

Placed PartBuilder::turned_to_origin(PartId id, int turn) const {
  Transform t = Transform::turned(turn);
  const Box box = bounds(t.apply(checked_.parts[id].outline));
  return {id, t.then(Transform::moved(Point{} - box.least))};
}

PartId PartBuilder::mirrored(PartId id) {
  if (const auto known = mirrors_.find(id); known != mirrors_.end()) return known->second;
  const auto flip = [this](PartId part) {
    Transform t;
    t.mirrored = true;
    t.shift.x = bounds(checked_.parts[part].outline).width();
    return t;
  };
  Part out = checked_.parts[id];
  const Transform over = flip(id);
  out.outline = tidy(over.apply(out.outline));
  if (out.is_patch && out.outline == checked_.parts[id].outline) return mirrors_[id] = id;
  for (Placed& p : out.parts) {
    const PartId own = p.part;
    p.part = mirrored(own);
    p.where = flip(own).inverse().then(p.where).then(over);
  }
  for (Meeting& m : out.meetings) {
    m.where = {over.apply(m.where.b), over.apply(m.where.a)};
    if (m.curve) m.curve->center = over.apply(m.curve->center);
  }
  if (!out.name.empty()) out.name = "reversed " + out.name;
  out.grain = (24 - out.grain) % 24;
  checked_.parts.push_back(std::move(out));
  const PartId made = checked_.parts.size() - 1;
  mirrors_[made] = id;
  return mirrors_[id] = made;
}

std::optional<PartId> PartBuilder::whole(const Whole& what, std::vector<Placed> parts,
                                         const std::vector<Span>& part_spans) {
  std::vector<Polygon> outlines;
  outlines.reserve(parts.size());
  for (const Placed& p : parts) outlines.push_back(placed_outline(p));
  Part part;
  if (what.must_fill) {
    Fit found = fit(outlines, *what.must_fill);
    if (!found.fits()) {
      report_misfit(what, parts, part_spans, outlines);
      return std::nullopt;
    }
    part.outline = *what.must_fill;
    part.meetings = std::move(found.meetings);
  } else {
    Joined joined = join(outlines);
    if (!joined.outline) {
      report_misfit(what, parts, part_spans, outlines);
      return std::nullopt;
    }
    part.outline = std::move(*joined.outline);
    part.meetings = std::move(joined.fit.meetings);
  }
  const Point shift = Point{} - bounds(part.outline).least;
  const Transform move = Transform::moved(shift);
  part.outline = tidy(move.apply(part.outline));
  for (Placed& p : parts) p.where = p.where.then(move);
  for (Meeting& m : part.meetings) {
    m.where = {m.where.a + shift, m.where.b + shift};
    if (m.curve) m.curve->center = m.curve->center + shift;
  }
  part.name = what.name;
  part.shape_words = what.words.empty() ? name_shape(part.outline) : what.words;
  part.span = what.span;
  part.parts = std::move(parts);
  checked_.parts.push_back(std::move(part));
  return checked_.parts.size() - 1;
}

std::optional<PartId> PartBuilder::make_bands(const UnitDef& unit, const BlockUse& use) {
  const Polygon& shape = *unit.shape;
  const Box box = bounds(shape);
  Exact sum = 0;
  for (const BandSpec& b : unit.bands) sum += b.width;
  if (sum != box.height()) {
    Diagnostic& d = diagnostics_.error(
        "D204", unit.bands.empty() ? unit.span : unit.bands.back().span,
        "the strips of `" + unit.name + "` finish " + about_inches(sum) +
            " wide together, but its shape is " + about_inches(box.height()) + " high");
    d.notes.push_back({unit.shape_span, "the shape is written here"});
    d.hints.push_back("strips run across the shape from its top (or tip) to its base");
    std::vector<std::string> roles;
    std::vector<Exact> widths;
    for (const BandSpec& b : unit.bands) {
      roles.push_back(b.role);
      widths.push_back(b.width);
    }
    d.picture = strips_picture(shape, unit.name, roles, widths);
    return std::nullopt;
  }
  if (!shape.arcs.empty()) {
    diagnostics_.error("D121", unit.shape_span, "strips cannot cross a curved shape")
        .hints.push_back("piece a straight-edged shape of strips, or give the curve one fabric");
    return std::nullopt;
  }
  if (!is_convex(shape)) {
    diagnostics_.error("D112", unit.shape_span,
                       "strips can only cross a shape without inner corners");
    return std::nullopt;
  }
  std::vector<Placed> parts;
  std::vector<Span> spans;
  Exact y = box.least.y;
  for (const BandSpec& b : unit.bands) {
    const Polygon band = slice(shape, y, y + b.width);
    const Box at = bounds(band);
    parts.push_back({patch(band, use.fabrics.at(b.role), b.span), Transform::moved(at.least)});
    spans.push_back(b.span);
    y += b.width;
  }
  if (parts.size() == 1) return parts.front().part;
  const auto id = whole({unit.name, unit.shape_words, unit.span, shape, unit.shape_span, {}},
                        std::move(parts), spans);
  if (id) checked_.parts[*id].strip_set = unit.how == Composition::strip_set;
  return id;
}

// Names the ways to turn a part in which it meets the one before it; its mirror image is named only
// where no turn will do.
void PartBuilder::hint_turns(Diagnostic& d, const std::string& name, PartId part,
                             const Polygon& before, bool row) {
  const auto old_edge = facing_edge(before, row, true);
  std::string ways;
  for (const bool flipped : {false, true}) {
    if (!ways.empty()) break;
    for (int turn = 0; turn < 24 && old_edge; ++turn) {
      const Polygon here = placed_outline(turned_to_origin(flipped ? mirrored(part) : part, turn));
      const auto edge = facing_edge(here, row, false);
      if (!edge || (old_edge->b - old_edge->a) != (edge->a - edge->b)) continue;
      if (row && bounds(before).height() != bounds(here).height()) continue;
      if (!ways.empty()) ways += " or ";
      ways += "`" + name;
      if (turn == 12) ways += " turned";
      if (turn != 0 && turn != 12) ways += " turned " + std::to_string(turn * 15);
      ways += flipped ? " flipped`" : "`";
    }
  }
  d.hints.push_back(ways.empty() ? "no way of turning or flipping `" + name + "` fits here"
                                 : ways + " would fit");
}

// Sets each part of a row against the one before it, or each part of a stack below the one above.
std::optional<std::vector<Placed>> PartBuilder::set_side_by_side(const UnitDef& unit,
                                                                 const Units& units) {
  const bool row = unit.how == Composition::row;
  std::vector<Placed> out;
  Polygon before;
  for (std::size_t i = 0; i < unit.parts.size(); ++i) {
    const PartRef& ref = unit.parts[i];
    const auto found = units.find(ref.unit);
    if (found == units.end()) return std::nullopt;
    Placed next = placed_at_origin(found->second, ref);
    Polygon here = placed_outline(next);
    if (!out.empty()) {
      const auto old_edge = facing_edge(before, row, true);
      const auto new_edge = facing_edge(here, row, false);
      const auto across = [row](const Polygon& p, const std::optional<Segment>& e) {
        if (row) return bounds(p).height();
        return e ? abs(e->b.x - e->a.x) : Exact(0);
      };
      const Exact old_size = across(before, old_edge);
      const Exact new_size = across(here, new_edge);
      const PartRef& last = unit.parts[i - 1];
      if (old_size != new_size) {
        const std::string measure = row ? " high" : " wide where they meet";
        Diagnostic& d = diagnostics_.error(
            "D203", ref.span,
            "`" + ref.unit + "` is " + about_inches(new_size) + measure + ", but `" + last.unit +
                "` " + (row ? "beside" : "above") + " it is " + about_inches(old_size));
        d.notes.push_back({last.span, "it must meet this one along a whole edge"});
        hint_turns(d, ref.unit, found->second, before, row);
        d.picture = neighbours_picture(last.unit, before, ref.unit, here, row);
        return std::nullopt;
      }
      if (!old_edge || !new_edge || (old_edge->b - old_edge->a) != (new_edge->a - new_edge->b)) {
        Diagnostic& d = diagnostics_.error("D203", ref.span,
                                           "the facing edges of `" + last.unit + "` and `" +
                                               ref.unit + "` do not lie along each other");
        d.notes.push_back({last.span, "the edge of this part slants another way"});
        hint_turns(d, ref.unit, found->second, before, row);
        d.picture = neighbours_picture(last.unit, before, ref.unit, here, row);
        return std::nullopt;
      }
      const Point shift = old_edge->a - new_edge->b;
      next.where = next.where.then(Transform::moved(shift));
      here = placed_outline(next);
    }
    before = here;
    out.push_back(next);
  }
  return out;
}

namespace {

// How far a rectangle that stands on a point turns to lie on the strip; 0 for all else.
int turn_onto_strip(const Polygon& shape) {
  if (shape.size() != 4 || dot(shape.at(1) - shape.at(0), Point{Exact(1), Exact(0)}).is_zero()) {
    return 0;
  }
  for (int turn = 1; turn < 6; ++turn) {
    const Polygon turned = Transform::turned(turn).apply(shape);
    const Box box = bounds(turned);
    if (area(turned) == box.width() * box.height()) return turn;
  }
  return 0;
}

}  // namespace

// A shape with a grain of its own is cut turned: the patch lies along its grain, and a whole of
// that one patch turns it back. A rectangle on its point is cut along its own edges.
PartId PartBuilder::plain_patch(const UnitDef& unit, FabricId fabric) {
  const Polygon& shape = *unit.shape;
  // A measured shape stays as it is written until its corners are snapped.
  const int turn = unit.grain      ? (24 - *unit.grain) % 24
                   : unit.measured ? 0
                                   : turn_onto_strip(shape);
  const PartId cut = patch(Transform::turned(turn).apply(shape), fabric, unit.span);
  checked_.parts[cut].name = unit.name;
  checked_.parts[cut].measured = unit.measured;
  checked_.parts[cut].grain = (24 - turn) % 24;
  if (turn == 0) return cut;
  Part whole;
  whole.name = unit.name;
  whole.outline = shape;
  whole.shape_words = unit.shape_words;
  whole.span = unit.span;
  whole.parts = {turned_to_origin(cut, 24 - turn)};
  checked_.parts.push_back(std::move(whole));
  return checked_.parts.size() - 1;
}

std::optional<PartId> PartBuilder::make(const UnitDef& unit, const BlockUse& use,
                                        const Units& units, const std::string& title) {
  if (unit.how == Composition::fabric) {
    return plain_patch(unit, use.fabrics.at(unit.role));
  }
  if (unit.how == Composition::ready_made) return make_ready_made(unit, use, title);
  if (unit.how == Composition::bands || unit.how == Composition::strip_set) {
    return make_bands(unit, use);
  }
  std::vector<Placed> placed;
  if (unit.how == Composition::place) {
    for (const PartRef& ref : unit.parts) {
      const auto found = units.find(ref.unit);
      if (found == units.end()) return std::nullopt;
      Placed next = placed_at_origin(found->second, ref);
      const Polygon p = placed_outline(next);
      Point corner = p.corners.front();
      for (const Point& c : p.corners) {
        if (c.y < corner.y || (c.y == corner.y && c.x < corner.x)) corner = c;
      }
      next.where = next.where.then(Transform::moved(*ref.at - corner));
      placed.push_back(next);
    }
  } else {
    auto row = set_side_by_side(unit, units);
    if (!row) return std::nullopt;
    placed = std::move(*row);
  }
  std::vector<Span> spans;
  for (const PartRef& ref : unit.parts) spans.push_back(ref.span);
  const BlockDef& def = checked_.pattern.blocks[use.block];
  const std::string called = &unit == &def.whole ? def.title : "";
  Whole what{title, unit.shape_words, unit.span, unit.shape, unit.shape_span, called};
  if (unit.shape && !placed.empty()) {
    // Rows and stacks grow from their first part; the shape is laid over the box they fill. Placed
    // parts keep to the grid, and so does the shape.
    if (unit.how == Composition::place) {
      what.must_fill = Transform::moved(unit.shape_at).apply(*unit.shape);
    } else {
      Point least = bounds(placed_outline(placed.front())).least;
      for (const Placed& p : placed) {
        const Point l = bounds(placed_outline(p)).least;
        least = {min(least.x, l.x), min(least.y, l.y)};
      }
      what.must_fill = Transform::moved(least).apply(*unit.shape);
    }
  }
  if (!snap(placed, what.must_fill, spans)) return std::nullopt;
  const auto id = whole(what, std::move(placed), spans);
  if (id) {
    checked_.parts[*id].sewing = unit.sewing;
    checked_.parts[*id].part_spans = std::move(spans);
  }
  return id;
}

void PartBuilder::wish_press(const UnitDef& unit, const BlockUse& use, PartId id) {
  if (!unit.press || checked_.parts[id].is_patch) return;
  PressWish wish{unit.press->how, 0, unit.press->role, unit.press->span};
  if (!wish.role.empty()) wish.fabric = use.fabrics.at(wish.role);
  checked_.parts[id].press = std::move(wish);
}

std::optional<PartId> PartBuilder::block(std::size_t index) {
  const BlockUse& use = checked_.pattern.uses[index];
  const BlockDef& def = checked_.pattern.blocks[use.block];
  Units units;
  bool complete = true;
  for (const UnitDef& unit : def.units) {
    if (const auto id = make(unit, use, units, unit.name)) {
      wish_press(unit, use, *id);
      wish_foundation(unit, *id);
      units[unit.name] = *id;
    } else {
      complete = false;
    }
  }
  if (!complete) return std::nullopt;
  const auto whole = make(def.whole, use, units, use.title);
  if (whole) {
    wish_press(def.whole, use, *whole);
    wish_foundation(def.whole, *whole);
  }
  return whole;
}

}  // namespace dogear
