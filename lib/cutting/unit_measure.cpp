#include "cutting/unit_measure.h"

#include <algorithm>

#include "base/length.h"
#include "base/text.h"
#include "geom/offset.h"

namespace dogear {

namespace {

bool is_sixty_triangle(const Polygon& p) {
  const auto squared = [](const Segment& s) { return dot(s.b - s.a, s.b - s.a); };
  return p.size() == 3 && squared(p.edge(0)) == squared(p.edge(1)) &&
         squared(p.edge(1)) == squared(p.edge(2));
}

}  // namespace

Exact level_edge(const Polygon& p, bool top) {
  const Box box = bounds(p);
  const Exact& y = top ? box.least.y : box.most.y;
  Exact length;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Segment e = p.edge(i);
    if (e.a.y == y && e.b.y == y) length += abs(e.b.x - e.a.x);
  }
  return length;
}

UnitMeasure unit_measure(const Pattern& pattern, const SizeQuantities& quantities, Setting setting,
                         const SewnUnit& unit) {
  using Kind = UnitMeasure::Kind;
  UnitMeasure out;
  const Polygon& outline = unit.outline;
  const Box box = bounds(outline);
  const Exact both = pattern.seam_allowance * Exact(2);
  if (is_rectangle(outline)) {
    out.kind = Kind::rectangle;
    out.width = box.width() + both;
    out.height = box.height() + both;
    return out;
  }
  if (setting == Setting::on_point && is_row(unit.name)) return out;
  const bool level_top = !level_edge(outline, true).is_zero();
  const bool level_foot = !level_edge(outline, false).is_zero();
  if (level_top && level_foot) {
    const Polygon cut = offset(outline, pattern.seam_allowance);
    const Exact above = level_edge(cut, true), below = level_edge(cut, false);
    out.kind = outline.size() != 4 || above == below ? Kind::level : Kind::trapezoid;
    out.height = bounds(cut).height();
    out.long_edge = max(above, below);
    out.short_edge = min(above, below);
    return out;
  }
  // Cut with a blunt ruler, a 60° triangle ends a quarter inch below its point.
  const auto& rulers = quantities.rulers;
  const bool blunt = std::any_of(rulers.begin(), rulers.end(),
                                 [&](std::size_t r) { return pattern.rulers[r].blunt; });
  if (blunt && is_sixty_triangle(outline) && (level_top || level_foot)) {
    out.kind = Kind::tip;
    out.height = box.height() + both;
  }
  return out;
}

BorderMeasure border_measure(const Pattern& pattern, const Piecing& piecing, const Input& strip) {
  const Box box = bounds(strip.where.apply(piecing.pieces[strip.piece].shape));
  return {box.width() < box.height(),
          max(box.width(), box.height()) + pattern.seam_allowance * Exact(2)};
}

long long joined_strips(const SizeQuantities& quantities, FabricId fabric, const PieceCut& border) {
  if (border.method != CutMethod::joined_strip) return 0;
  long long strips = 0;
  for (const StripPlan& plan : quantities.strips) {
    if (plan.fabric != fabric) continue;
    for (const Run& run : plan.runs) {
      const bool own = run.kind == Run::Kind::whole_strip && run.purpose == "border";
      if (own && run.height == border.strip) strips += run.count * plan.times;
    }
  }
  return strips > 1 ? strips : 0;
}

std::string owned_name(const Piecing& piecing, const SizeSewing& sewing, const std::string& owner,
                       UnitId unit) {
  const std::string name = slug(piecing.units[unit].name);
  std::size_t nth = 1;
  if (owner == "assembly") {
    for (const UnitId before : sewing.assembly) {
      if (before == unit) break;
      if (piecing.units[before].name == piecing.units[unit].name) ++nth;
    }
  }
  return owner + "." + name + (nth > 1 ? "-" + std::to_string(nth) : "");
}

UnitFacts::UnitFacts(const Pattern& pattern, const Piecing& piecing,
                     const SizeQuantities& quantities, const SizeSewing& sewing, Setting setting)
    : pattern_(pattern),
      piecing_(piecing),
      quantities_(quantities),
      sewing_(sewing),
      setting_(setting) {}

void UnitFacts::add(const std::string& name, std::string value) {
  const auto [at, fresh] = found_.emplace(name, value);
  if (!fresh && at->second != value) at->second.reset();
}

void UnitFacts::add(const std::string& name, const Exact& measure) {
  add(name, plain_inches(measure.round_nearest(8)));
}

void UnitFacts::add(const std::string& owner, UnitId id) {
  const SewnUnit& unit = piecing_.units[id];
  const std::string name = "measure." + owned_name(piecing_, sewing_, owner, id);
  const UnitMeasure m = unit_measure(pattern_, quantities_, setting_, unit);
  if (m.kind == UnitMeasure::Kind::rectangle) add(name + ".width", m.width);
  if (m.kind != UnitMeasure::Kind::none) add(name + ".height", m.height);
  if (m.kind == UnitMeasure::Kind::trapezoid) {
    add(name + ".long-edge", m.long_edge);
    add(name + ".short-edge", m.short_edge);
  }
  if (goes_around(unit.name)) add_border(name, unit);
  if (unit.strip_set) add_strip_set(owner, id);
}

void UnitFacts::add_border(const std::string& name, const SewnUnit& unit) {
  for (const Input& in : unit.inputs) {
    if (!in.is_piece || piecing_.pieces[in.piece].mitred) continue;
    const BorderMeasure border = border_measure(pattern_, piecing_, in);
    add(name + (border.upright ? ".top-to-bottom" : ".side-to-side"), border.length);
    const CutPiece* cut = cut_of(quantities_, in.piece);
    if (cut == nullptr) continue;
    const long long strips = joined_strips(quantities_, piecing_.pieces[in.piece].fabric, cut->cut);
    if (strips > 0) add(name + ".joined-strips", std::to_string(strips));
  }
}

void UnitFacts::add_strip_set(const std::string& owner, UnitId id) {
  const StripSet* set = strip_set_of(quantities_, id);
  if (set == nullptr) return;
  const std::string name = "measure." + owned_name(piecing_, sewing_, owner, id);
  if (const auto& upper = set->cut.upper_reading; set->cut.reading && upper && upper->num > 0)
    add(name + ".cut-from", plain_inches(*upper));
  if (set->cut.reading)
    add(name + ".cut-at", plain_inches(*set->cut.reading));
  else
    add(name + ".cut-every", plain_inches(set->cut.length));
  long long together = 0;
  for (const UnitId unit : set->units)
    if (const auto made = sewing_.make.find(unit); made != sewing_.make.end())
      together += made->second;
  if (set->units.size() > 1)
    add("make." + owned_name(piecing_, sewing_, owner, id) + ".together", std::to_string(together));
}

void UnitFacts::add_to(std::map<std::string, std::string>& facts) const {
  for (const auto& [name, value] : found_)
    if (value) facts[name] = *value;
}

}  // namespace dogear
