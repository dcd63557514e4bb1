#include "cutting/strip_sets.h"

#include <algorithm>

#include "cutting/cloth.h"
#include "cutting/cut_shape.h"
#include "cutting/lines.h"
#include "cutting/reach.h"
#include "cutting/strips.h"
#include "model/shapes.h"

namespace dogear {

namespace {

Polygon turned_half(const Polygon& p) { return at_origin(Transform::turned(12).apply(p)); }

}  // namespace

std::vector<StripSet> plan_strip_sets(const Piecing& piecing, const SizeSewing& sewing,
                                      const Pattern& pattern, Diagnostics& diagnostics) {
  struct Need {
    StripSet set;
    long long one_way = 0, other_way = 0;
    Span span;
  };
  std::map<std::vector<std::pair<FabricId, Exact>>, std::map<Polygon, Need>> needs;
  const Exact q = pattern.seam_allowance;
  for (const auto& [id, count] : sewing.make) {
    const SewnUnit& unit = piecing.units[id];
    if (!unit.strip_set) continue;
    std::vector<std::pair<FabricId, Exact>> strips;
    for (const Input& in : unit.inputs) {
      const Piece& piece = piecing.pieces[in.piece];
      strips.emplace_back(piece.fabric, bounds(piece.shape).height());
    }
    const auto reversed = std::vector(strips.rbegin(), strips.rend());
    const bool flip = reversed < strips;
    const Polygon shape = flip ? turned_half(unit.outline) : unit.outline;
    const auto& order = flip ? reversed : strips;
    // Shapes that are each other's half turn are cut from one set with the ruler up and down.
    const Polygon other = turned_half(shape);
    auto& by_shape = needs[order];
    const bool second = by_shape.contains(other) && !by_shape.contains(shape);
    Need& need = by_shape[second ? other : shape];
    if (need.set.units.empty()) {
      need.set.unit = id;
      need.span = unit.span;
      for (const auto& [fabric, width] : order) {
        need.set.strips.emplace_back(fabric,
                                     printed_line(width + q * Exact(2), straight_step(pattern)));
      }
    }
    need.set.units.push_back(id);
    need.set.need += count;
    (second ? need.other_way : need.one_way) += count;
  }
  std::vector<StripSet> out;
  for (auto& [order, by_shape] : needs) {
    for (auto& [shape, need] : by_shape) {
      std::string why_not;
      auto cut = plan_cut_with_rulers(shape, pattern, {}, why_not, true);
      const bool across = cut && cut->per_cut == 1;
      if (!across || cut->rulers.empty()) {
        Diagnostic& e = diagnostics.error("D502", need.span,
                                          "no described ruler can cut this shape from a strip set" +
                                              (why_not.empty() ? why_not : ": " + why_not));
        if (cut) add_nearest_rulers(e, pattern, *cut, piecing);
        e.hints.push_back("describe another ruler under `rulers`, or change the finished measure");
        continue;
      }
      if (cut->method == CutMethod::angled) cut->method = CutMethod::from_strip_set;
      StripSet& set = need.set;
      set.cut = *cut;
      // Cuts alternate, so a set of n gives one more of the first way when n is odd.
      std::optional<Exact> usable;
      for (const auto& [fabric, width] : set.strips) {
        const Exact length = longest_strip(pattern, fabric);
        usable = usable ? min(*usable, length) : length;
      }
      StripDemand demand;
      demand.first = cut->first;
      demand.pitch = cut->pitch;
      const Exact ends = pattern.allowances.set_ends;
      const long long most = demand.cuts_in(max(*usable - ends, Exact(0)).approx());
      if (most == 0) {
        Diagnostic& e = diagnostics.error("D503", need.span,
                                          "this shape is longer than the strips it is cut from");
        e.hints.push_back("piece it from two parts, or cut the bands one by one: `bands`");
        if (demand.cuts_in(usable->approx()) > 0)
          e.hints.push_back(strip_ends_hint(ends, "strip set ends"));
        continue;
      }
      // Where a half turn changes neither the shape nor the order of the strips, all cuts are
      // alike.
      const auto back = std::vector(order.rbegin(), order.rend());
      const bool alike = shape == turned_half(shape) || order == back;
      long long one = std::max(need.one_way, need.other_way);
      long long other = std::min(need.one_way, need.other_way);
      if (alike) {
        one += other;
        other = 0;
      }
      long long made = 0;
      while (one > 0 || other > 0) {
        long long n = 0;
        long long a = 0;
        long long b = 0;
        while (n < most && (a < one || b < other)) {
          ++n;
          (n % 2 == 1 || alike ? a : b) += 1;
        }
        one -= std::min(a, one);
        other -= std::min(b, other);
        if (one < other) std::swap(one, other);
        made += n;
        set.set_lengths.push_back((Exact(demand.run_length(n)) + ends).round_up(8));
      }
      std::sort(set.set_lengths.begin(), set.set_lengths.end(),
                [](const Fraction& l, const Fraction& r) { return l.approx() > r.approx(); });
      set.sets = static_cast<long long>(set.set_lengths.size());
      set.extra = made - set.need;
      out.push_back(set);
    }
  }
  // In the order in which the blocks use them.
  const auto first_block = [&](const StripSet& set) {
    const auto uses = [&](const BlockSewing& block) {
      return std::any_of(set.units.begin(), set.units.end(), [&](UnitId unit) {
        return std::find(block.steps.begin(), block.steps.end(), unit) != block.steps.end();
      });
    };
    return std::find_if(sewing.blocks.begin(), sewing.blocks.end(), uses);
  };
  std::stable_sort(out.begin(), out.end(), [&](const StripSet& a, const StripSet& b) {
    return first_block(a) < first_block(b);
  });
  return out;
}

}  // namespace dogear
