#include "cutting/wants.h"

#include <map>

namespace dogear {

namespace {

StripDemand demand_of(const Piecing& piecing, const CutPiece& p) {
  StripDemand demand;
  demand.piece = p.piece;
  demand.height = p.cut.strip;
  demand.first = p.cut.first;
  demand.pitch = p.cut.pitch;
  demand.square_ends = p.cut.square_ends;
  demand.per_cut = p.cut.per_cut;
  demand.pieces = p.count;
  demand.span = piecing.pieces[p.piece].span;
  return demand;
}

// Whole strips of the fabric, or one that is `length` long.
StripDemand strip_demand(const std::string& purpose, const Exact& height, const Exact& length,
                         long long count, const Span& span) {
  StripDemand demand;
  demand.kind = Run::Kind::whole_strip;
  demand.purpose = purpose;
  demand.height = height;
  demand.first = demand.pitch = length.approx();
  demand.pieces = count;
  demand.span = span;
  return demand;
}

// Strips joined end to end with straight seams, then cut to lengths, with something to spare: all
// but the last are whole.
void join_strips(const Pattern& pattern, const std::string& purpose, const Exact& height,
                 const Exact& sum, const Span& span, ClothWants& wants) {
  const Exact loss = pattern.seam_allowance * Exact(2);
  const Exact whole = longest_strip(pattern, wants.fabric);
  const Exact need = sum > whole ? sum + pattern.allowances.joined : sum;
  const Exact more = max(need - whole, Exact(0));
  const long long joins = (more / (whole - loss)).round_up(1).num;
  if (joins > 0) wants.demands.push_back(strip_demand(purpose, height, whole, joins, span));
  const Exact last = need + loss * Exact(joins) - whole * Exact(joins);
  wants.demands.push_back(strip_demand(purpose, height, Exact(last.round_up(8)), 1, span));
}

}  // namespace

std::optional<ClothWants> wants_of(const Pattern& pattern, const Piecing& piecing,
                                   const std::vector<PieceCut>& cuts, const SizeQuantities& out,
                                   FabricId fabric, Diagnostics& diagnostics) {
  ClothWants wants;
  wants.fabric = fabric;
  bool fine = true;
  struct LongStrips {
    Exact sum;
    Span span;
  };
  std::map<Exact, LongStrips> joined;  // by height
  for (const CutPiece& p : out.pieces) {
    const Piece& piece = piecing.pieces[p.piece];
    if (piece.fabric != fabric) continue;
    const bool by_the_yard = yardage_of(pattern, fabric) != nullptr;
    const bool long_piece =
        p.cut.method == CutMethod::joined_strip || p.cut.method == CutMethod::lengthwise;
    if (long_piece && !by_the_yard) {
      Diagnostic& e =
          diagnostics.error("D505", piece.span,
                            "this piece is cut " + plain_inches(p.cut.length) + " long, but " +
                                pattern.fabrics[fabric].name + " is not bought by the yard");
      e.notes.push_back(
          {pattern.fabrics[fabric].sources.back().span, "its cloth is described here"});
      e.hints.push_back("use a fabric bought by the yard");
      fine = false;
    } else if (p.cut.method == CutMethod::joined_strip) {
      LongStrips& j = joined[p.cut.strip];
      j.sum += Exact(p.cut.length) * Exact(p.count);
      j.span = piece.span;
    } else if (p.cut.method == CutMethod::lengthwise) {
      wants.along.push_back({p.piece, p.cut.strip, p.cut.length, p.count, piece.span});
    } else {
      wants.demands.push_back(demand_of(piecing, p));
    }
  }
  for (std::size_t s = 0; s < out.strip_sets.size(); ++s) {
    const StripSet& set = out.strip_sets[s];
    for (const auto& [f, height] : set.strips) {
      if (f != fabric) continue;
      std::map<Exact, long long> lengths;
      for (const Fraction& length : set.set_lengths) ++lengths[length];
      for (auto it = lengths.rbegin(); it != lengths.rend(); ++it) {
        StripDemand demand;
        demand.kind = Run::Kind::strip_set;
        demand.strip_set = s;
        demand.height = height;
        demand.first = demand.pitch = it->first.approx();
        demand.pieces = it->second;
        demand.span = piecing.units[set.unit].span;
        wants.demands.push_back(demand);
      }
    }
  }
  wants.families = join_families(piecing, cuts, wants.demands);
  for (const auto& [height, j] : joined)
    join_strips(pattern, "border", height, j.sum, j.span, wants);
  const SizeDef& def = pattern.sizes[out.size];
  if (out.binding && out.binding->fabric == fabric) {
    const Binding& b = *out.binding;
    const Exact length = b.square ? Exact(*b.square) : longest_strip(pattern, fabric);
    wants.demands.push_back(strip_demand("binding", b.square ? *b.square : b.strip, length,
                                         b.square ? b.squares : b.strips, def.binding->span));
  }
  if (out.sleeve && out.sleeve->fabric == fabric) {
    join_strips(pattern, "sleeve", out.sleeve->strip, out.sleeve->length, def.sleeve->span, wants);
  }
  if (!fine) return std::nullopt;
  return wants;
}

void report_short(const Pattern& pattern, const Piecing& piecing, const ClothPlan& plan,
                  const SizeQuantities& out, Diagnostics& diagnostics) {
  const Fabric& own = pattern.fabrics[plan.need.fabric];
  const ClothSource& last = own.sources.back();
  const bool strips =
      last.kind == ClothSource::Kind::bundle && !pattern.bundles[last.bundle].squares;
  const std::string what =
      last.kind == ClothSource::Kind::bundle ? "the bundle runs" : "the cloth runs";
  const long long had = *last.had;
  Diagnostic& e = diagnostics.error(
      "D501", own.span,
      what + " out of " + own.name + " in the size `" + pattern.sizes[out.size].id +
          "`: " + std::to_string(had + plan.short_by) + (strips ? " strips" : " pieces of cloth") +
          " are needed, " + std::to_string(had) + (had == 1 ? " is" : " are") +
          (last.kind == ClothSource::Kind::bundle ? " in it (" : " there (") +
          std::to_string(plan.short_by) + " short)");
  e.notes.push_back({last.span, last.kind == ClothSource::Kind::bundle
                                    ? "the bundle is described here"
                                    : "the cloth is described here"});
  // Name what the sheets that are not there would have held.
  std::map<std::size_t, long long> lost;
  std::map<std::size_t, bool> seen;
  for (const Strip& strip : plan.find_none) {
    for (const Run& run : strip.runs) {
      if (run.kind == Run::Kind::piece) lost[run.piece] += run.count;
      if (run.kind == Run::Kind::strip_set) seen[run.strip_set] = true;
    }
  }
  for (const auto& [piece, n] : lost) {
    e.notes.push_back({piecing.pieces[piece].span,
                       std::to_string(n) + " of " + piecing.pieces[piece].label(pattern) + " (" +
                           piecing.pieces[piece].shape_words + ") find no cloth"});
  }
  for (const auto& [set, yes] : seen) {
    e.notes.push_back(
        {piecing.units[out.strip_sets[set].unit].span, "this strip set finds no strip"});
  }
  e.hints.push_back(last.kind == ClothSource::Kind::bundle
                        ? "give a block another fabric, allow more bundles with `at most`, or "
                          "raise `each` of the bundle"
                        : "add more cloth to the fabric's `from`, such as `yardage`");
}

}  // namespace dogear
