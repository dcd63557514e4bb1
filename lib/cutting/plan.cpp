#include <algorithm>
#include <cmath>
#include <set>

#include "cutting/batches.h"
#include "cutting/cut_shape.h"
#include "cutting/finish.h"
#include "cutting/hands.h"
#include "cutting/one_way.h"
#include "cutting/reach.h"
#include "cutting/rounding.h"
#include "cutting/strip_sets.h"
#include "cutting/strips.h"

namespace dogear {

namespace {

class CuttingPlanner {
 public:
  CuttingPlanner(const CheckedPattern& checked, const Piecing& piecing, Diagnostics& d)
      : checked_(checked), pattern_(checked.pattern), piecing_(piecing), d_(d) {}

  std::optional<Quantities> plan() {
    const std::size_t before = d_.error_count();
    const auto trims = tip_trims(checked_, piecing_);
    for (PieceId i = 0; i < piecing_.pieces.size(); ++i) {
      const auto t = trims.find(i);
      cuts_.push_back(cut_of(i, t == trims.end() ? std::vector<TrimLine>{} : t->second));
    }
    if (d_.error_count() > before) return std::nullopt;
    check_rounding(checked_, piecing_, cuts_, d_);
    check_reach(pattern_, piecing_, cuts_, d_);
    Quantities out;
    for (const SizeSewing& sewing : piecing_.sizes) out.sizes.push_back(plan_size(sewing));
    if (d_.error_count() > before) return std::nullopt;
    return out;
  }

 private:
  PieceCut cut_of(PieceId id, const std::vector<TrimLine>& trims) {
    const Piece& piece = piecing_.pieces[id];
    const std::string name =
        "the " + piece.shape_words + " of " + pattern_.fabrics[piece.fabric].name;
    std::string why_not;
    auto cut = plan_cut_with_rulers(piece.shape, pattern_, trims, why_not);
    if (piece.in_strip_set || piece.made_of) return cut.value_or(PieceCut{});
    if (!cut) {
      d_.error("D502", piece.span,
               name + " is too narrow somewhere to be cut with seam allowances all round");
      return {};
    }
    if (cut->rulers.empty() && cut->method != CutMethod::joined_strip &&
        cut->method != CutMethod::templated) {
      Diagnostic& e =
          d_.error("D502", piece.span, "no described ruler can cut " + name + ": " + why_not);
      add_nearest_rulers(e, pattern_, *cut, piecing_, id);
      e.hints.push_back("describe another ruler under `rulers`, or change the finished measure");
    }
    if (piece.directional) cut_one_way(*cut);
    return *cut;
  }

  SizeQuantities plan_size(const SizeSewing& sewing) {
    SizeQuantities out;
    out.size = sewing.size;
    const CheckedSize& size = checked_.sizes[sewing.size];
    const SizeDef& def = pattern_.sizes[sewing.size];
    out.finished_width = size.width.round_nearest(8);
    out.finished_height = size.height.round_nearest(8);
    out.batches = plan_batches(checked_, piecing_, sewing, d_);
    for (const auto& [id, count] : pieces_to_cut(piecing_, sewing, out.batches)) {
      out.pieces.push_back({id, cuts_[id], count});
    }
    std::stable_sort(out.pieces.begin(), out.pieces.end(),
                     [&](const CutPiece& a, const CutPiece& b) {
                       const double ha = a.cut.strip.approx();
                       const double hb = b.cut.strip.approx();
                       if (ha != hb) return ha > hb;
                       const std::string& la = piecing_.pieces[a.piece].letter;
                       const std::string& lb = piecing_.pieces[b.piece].letter;
                       if (la != lb)
                         return la.size() != lb.size() ? la.size() < lb.size() : la < lb;
                       const FabricId fa = piecing_.pieces[a.piece].fabric;
                       const FabricId fb = piecing_.pieces[b.piece].fabric;
                       if (fa != fb) return fa < fb;
                       return piecing_.pieces[a.piece].reversed < piecing_.pieces[b.piece].reversed;
                     });
    out.strip_sets = plan_strip_sets(piecing_, sewing, pattern_, d_);
    if (def.binding) {
      out.binding = plan_binding(*def.binding, size.width, size.height, pattern_.usable_width);
    }
    if (def.backing) out.backing = plan_backing(*def.backing, size.width, size.height);
    if (def.batting) out.batting = plan_batting(*def.batting, size.width, size.height);
    for (const FabricId fabric : fabrics_in_use(sewing, out)) plan_fabric(fabric, sewing, out);
    plan_layers(pattern_, piecing_, out, d_);
    add_untouched(out);
    choose_rulers(out);
    return out;
  }

  // In order of use: blocks as they are sewn, then the assembly, then the binding.
  std::vector<FabricId> fabrics_in_use(const SizeSewing& sewing, const SizeQuantities& out) const {
    std::vector<FabricId> order;
    const auto add = [&](FabricId f) {
      if (std::find(order.begin(), order.end(), f) == order.end()) order.push_back(f);
    };
    const auto visit = [&](UnitId unit) {
      for (const Input& in : piecing_.units[unit].inputs) {
        if (in.is_piece) add(piecing_.pieces[in.piece].fabric);
      }
    };
    for (const BlockSewing& block : sewing.blocks) {
      for (const UnitId unit : block.steps) visit(unit);
    }
    for (const UnitId unit : sewing.assembly) visit(unit);
    if (out.binding) add(out.binding->fabric);
    return order;
  }

  // What a piece sewn straight into the top is there for.
  static std::string assembly_use(const std::string& unit, const Piece& piece, const SizeDef& def) {
    if (unit.find("border") != std::string::npos) return "border";
    const bool rectangle = piece.shape_words == "rectangle" || piece.shape_words == "square";
    if (!def.sashing || !rectangle) return "background";
    const bool stone = piece.shape_words == "square" && def.sashing->cornerstones == piece.fabric;
    return stone ? "cornerstones" : "sashing";
  }

  // What the fabric is for, as printed in parentheses.
  std::vector<std::string> uses_of(FabricId fabric, const SizeSewing& sewing,
                                   const SizeQuantities& out) const {
    std::vector<std::string> uses;
    const auto add = [&](const std::string& use) {
      if (std::find(uses.begin(), uses.end(), use) == uses.end()) uses.push_back(use);
    };
    const auto holds = [&](UnitId unit) {
      const auto& in = piecing_.units[unit].inputs;
      return std::any_of(in.begin(), in.end(), [&](const Input& i) {
        return i.is_piece && piecing_.pieces[i.piece].fabric == fabric;
      });
    };
    for (const BlockSewing& block : sewing.blocks) {
      for (const UnitId unit : block.steps) {
        if (holds(unit)) add(piecing_.units[unit].strip_set ? "fillers" : "blocks");
      }
    }
    const SizeDef& def = pattern_.sizes[sewing.size];
    for (const UnitId unit : sewing.assembly) {
      for (const Input& in : piecing_.units[unit].inputs) {
        if (in.is_piece && piecing_.pieces[in.piece].fabric == fabric) {
          add(assembly_use(piecing_.units[unit].name, piecing_.pieces[in.piece], def));
        }
      }
    }
    if (out.binding && out.binding->fabric == fabric) add("binding");
    return uses;
  }

  void plan_fabric(FabricId fabric, const SizeSewing& sewing, SizeQuantities& out) {
    FabricNeed need;
    const std::size_t first_strip = out.strips.size();
    need.fabric = fabric;
    need.uses = uses_of(fabric, sewing, out);
    const auto bundle = bundle_of(pattern_, fabric);
    std::vector<StripDemand> demands;
    std::map<Exact, Exact> joined;  // height -> summed lengths
    for (const CutPiece& p : out.pieces) {
      const Piece& piece = piecing_.pieces[p.piece];
      if (piece.fabric != fabric) continue;
      const Exact height = p.cut.strip;
      if (p.cut.method == CutMethod::joined_strip && bundle) {
        Diagnostic& e =
            d_.error("D505", piece.span,
                     "this piece is cut " + plain_inches(p.cut.length) + " long, but " +
                         pattern_.fabrics[fabric].name + " comes in strips of a bundle");
        e.notes.push_back({pattern_.bundles[*bundle].span, "the bundle is described here"});
        e.hints.push_back("use a fabric bought by the yard");
        continue;
      }
      if (p.cut.method == CutMethod::joined_strip) {
        joined[height] += Exact(p.cut.length) * Exact(p.count);
        need.piece_area += p.cut.length.approx() * height.approx() * static_cast<double>(p.count);
        continue;
      }
      StripDemand demand;
      demand.piece = p.piece;
      demand.height = height;
      demand.first = p.cut.first;
      demand.pitch = p.cut.pitch;
      demand.square_ends = p.cut.square_ends;
      demand.per_cut = p.cut.per_cut;
      demand.pieces = p.count;
      demand.span = piece.span;
      need.piece_area += area(p.cut.cut_shape).approx() * static_cast<double>(p.count);
      if (demand.first >
          (bundle ? pattern_.bundles[*bundle].length : pattern_.usable_width).approx()) {
        Diagnostic& e = d_.error("D503", piece.span,
                                 "this piece is cut " + plain_inches(p.cut.length) +
                                     " long, more than the cloth is wide");
        e.notes.push_back(bundle
                              ? Note{pattern_.bundles[*bundle].span, "the strips are these"}
                              : Note{pattern_.usable_width_span, "the cloth is as wide as this"});
        e.hints.push_back("piece it from two parts that are each shorter than the cloth is wide");
        continue;
      }
      demands.push_back(demand);
    }
    for (std::size_t s = 0; s < out.strip_sets.size(); ++s) {
      const StripSet& set = out.strip_sets[s];
      for (const auto& [f, height] : set.strips) {
        if (f != fabric) continue;
        for (const Fraction& length : set.set_lengths) {
          StripDemand demand;
          demand.kind = Run::Kind::strip_set;
          demand.strip_set = s;
          demand.height = height;
          demand.first = demand.pitch = length.approx();
          demand.pieces = 1;
          demand.span = piecing_.units[set.unit].span;
          need.piece_area += length.approx() * height.approx();
          demands.push_back(demand);
        }
      }
    }
    const std::vector<CutFamily> families = join_families(piecing_, cuts_, demands);
    if (bundle) {
      from_bundle(fabric, *bundle, demands, families, need, out);
    } else {
      from_yardage(fabric, demands, families, need, out);
    }
    for (const auto& [height, sum] : joined) join_strips(fabric, height, sum, need, out);
    if (out.binding && out.binding->fabric == fabric) {
      StripPlan plan = long_strip(fabric, out.binding->strip, out.binding->strips, "binding");
      const double cloth =
          plan.height.approx() * plan.usable.approx() * static_cast<double>(plan.times);
      need.cloth_area += cloth;
      need.piece_area += cloth;
      need.length += Exact(plan.height) * Exact(plan.times);
      out.strips.push_back(std::move(plan));
    }
    if (need.length.sign() > 0) {
      need.yards = yards_up(need.length);
      need.centimetres = centimetres_up(need.length);
    }
    // Long joined strips are cut first, then the widest; binding comes last.
    const auto rank = [](const StripPlan& p) {
      return p.purpose == "border" ? 0 : p.purpose == "binding" ? 2 : 1;
    };
    std::stable_sort(out.strips.begin() + static_cast<std::ptrdiff_t>(first_strip),
                     out.strips.end(), [&](const StripPlan& a, const StripPlan& b) {
                       if (rank(a) != rank(b)) return rank(a) < rank(b);
                       return a.height.approx() > b.height.approx();
                     });
    balance(need, fabric, out);
    out.fabrics.push_back(std::move(need));
  }

  void from_bundle(FabricId fabric, std::size_t index, const std::vector<StripDemand>& all,
                   const std::vector<CutFamily>& families, FabricNeed& need, SizeQuantities& out) {
    const Bundle& bundle = pattern_.bundles[index];
    std::vector<StripDemand> demands;
    for (const StripDemand& demand : all) {
      if (demand.height <= bundle.strip) {
        demands.push_back(demand);
        continue;
      }
      Diagnostic& e =
          d_.error("D505", demand.span,
                   "this needs a strip of " + plain_inches(demand.height.round_up(16)) + ", but " +
                       pattern_.fabrics[fabric].name + " comes in strips of " +
                       plain_inches(bundle.strip.round_nearest(16)));
      e.notes.push_back({bundle.span, "the bundle is described here"});
      e.hints.push_back("use a fabric bought by the yard, or piece the shape from narrower strips");
    }
    std::vector<Strip> strips = lay_on_strips(demands, bundle.length, bundle.strip);
    hand_out(families, strips);
    need.bundle_strips = static_cast<long long>(strips.size());
    need.bundle_strips_had = bundle.each;
    if (need.bundle_strips > bundle.each) report_short(fabric, bundle, strips, out);
    add_plans(gather(strips, fabric, index), need, out);
  }

  void report_short(FabricId fabric, const Bundle& bundle, const std::vector<Strip>& strips,
                    const SizeQuantities& out) {
    const auto short_by = static_cast<long long>(strips.size()) - bundle.each;
    Diagnostic& e = d_.error("D501", pattern_.fabrics[fabric].span,
                             "the bundle runs out of " + pattern_.fabrics[fabric].name +
                                 " in the size `" + pattern_.sizes[out.size].id +
                                 "`: " + std::to_string(strips.size()) + " strips are needed, " +
                                 std::to_string(bundle.each) + (bundle.each == 1 ? " is" : " are") +
                                 " in it (" + std::to_string(short_by) + " short)");
    e.notes.push_back({bundle.span, "the bundle is described here"});
    // Name what the strips beyond the bundle would have held.
    std::map<std::size_t, long long> lost;
    std::map<std::size_t, bool> seen;
    for (std::size_t s = static_cast<std::size_t>(bundle.each); s < strips.size(); ++s) {
      for (const Run& run : strips[s].runs) {
        if (run.kind == Run::Kind::piece) lost[run.piece] += run.count;
        if (run.kind == Run::Kind::strip_set) seen[run.strip_set] = true;
      }
    }
    for (const auto& [piece, n] : lost) {
      e.notes.push_back({piecing_.pieces[piece].span,
                         std::to_string(n) + " of " + piecing_.pieces[piece].label(pattern_) +
                             " (" + piecing_.pieces[piece].shape_words + ") find no cloth"});
    }
    for (const auto& [set, yes] : seen) {
      e.notes.push_back(
          {piecing_.units[out.strip_sets[set].unit].span, "this strip set finds no strip"});
    }
    e.hints.push_back("give a block another fabric, or raise `each` of the bundle");
  }

  void from_yardage(FabricId fabric, const std::vector<StripDemand>& demands,
                    const std::vector<CutFamily>& families, FabricNeed& need, SizeQuantities& out) {
    std::vector<Strip> strips = lay_on_strips(demands, pattern_.usable_width, std::nullopt);
    hand_out(families, strips);
    for (const Strip& s : strips) need.length += s.height;
    add_plans(gather(strips, fabric, std::nullopt), need, out);
  }

  void add_plans(std::vector<StripPlan> plans, FabricNeed& need, SizeQuantities& out) const {
    for (StripPlan& plan : plans) {
      const auto times = static_cast<double>(plan.times);
      const double h = plan.height.approx();
      need.cloth_area += h * plan.usable.approx() * times;
      double used = 0;
      for (const Run& run : plan.runs) {
        used += run.length.approx();
        if (run.kind == Run::Kind::leftover) {
          need.leftover_area += run.length.approx() * run.height.approx() * times;
          continue;
        }
        // Waste of a run: what is cut down, and what lies between its pieces.
        need.waste_area += run.length.approx() * (h - run.height.approx()) * times;
        double pieces = run.length.approx() * run.height.approx();
        if (run.kind == Run::Kind::piece) {
          pieces = area(cuts_[run.piece].cut_shape).approx() * static_cast<double>(run.count);
          for (const auto& [piece, n] : run.also) {
            pieces += area(cuts_[piece].cut_shape).approx() * static_cast<double>(n);
          }
        }
        need.waste_area += (run.length.approx() * run.height.approx() - pieces) * times;
      }
      need.waste_area += (plan.usable.approx() - used) * h * times;
      out.strips.push_back(std::move(plan));
    }
  }

  StripPlan long_strip(FabricId fabric, const Fraction& height, long long times,
                       const std::string& purpose) const {
    StripPlan plan;
    plan.fabric = fabric;
    plan.height = height;
    plan.usable = pattern_.usable_width.round_down(8);
    Run run;
    run.kind = Run::Kind::whole_strip;
    run.height = height;
    run.length = plan.usable;
    run.count = 1;
    plan.runs.push_back(run);
    plan.times = times;
    plan.purpose = purpose;
    return plan;
  }

  // Borders: strips joined end to end with straight seams, then cut to length.
  void join_strips(FabricId fabric, const Exact& height, const Exact& sum, FabricNeed& need,
                   SizeQuantities& out) {
    const Exact loss = pattern_.seam_allowance * Exact(2);
    const Exact each = pattern_.usable_width - loss;
    long long strips = (sum - loss) / each <= Exact(1) ? 1 : ((sum - loss) / each).round_up(1).num;
    StripPlan plan = long_strip(fabric, *height.as_fraction(), strips, "border");
    const double cloth =
        height.approx() * pattern_.usable_width.approx() * static_cast<double>(strips);
    const double joins = static_cast<double>(strips - 1) * loss.approx() * height.approx();
    need.cloth_area += cloth;
    need.waste_area += joins;
    need.leftover_area += cloth - joins - sum.approx() * height.approx();
    need.length += height * Exact(strips);
    out.strips.push_back(std::move(plan));
  }

  void balance(const FabricNeed& need, FabricId fabric, const SizeQuantities& out) {
    const double sum = need.piece_area + need.leftover_area + need.waste_area;
    const double tolerance = 1e-6 * (1 + need.cloth_area);
    long long cut = 0;
    long long sewn = 0;
    for (const StripPlan& plan : out.strips) {
      if (plan.fabric != fabric) continue;
      for (const Run& run : plan.runs) {
        if (run.kind != Run::Kind::piece) continue;
        cut += run.count * plan.times;
        for (const auto& other : run.also) cut += other.second * plan.times;
      }
    }
    for (const CutPiece& p : out.pieces) {
      if (piecing_.pieces[p.piece].fabric == fabric && p.cut.method != CutMethod::joined_strip) {
        sewn += p.count;
      }
    }
    if (d_.has_errors()) return;
    if (std::abs(sum - need.cloth_area) > tolerance || cut != sewn ||
        need.waste_area < -tolerance || need.leftover_area < -tolerance) {
      d_.error("D504", pattern_.fabrics[fabric].span,
               "cloth, pieces, leftovers and waste of " + pattern_.fabrics[fabric].name +
                   " do not add up; please report this");
    }
  }

  // The other fabrics of a bundle that this size opens: bought with it, all left over.
  void add_untouched(SizeQuantities& out) const {
    std::set<std::size_t> opened;
    std::set<FabricId> known;
    for (const FabricNeed& need : out.fabrics) {
      known.insert(need.fabric);
      const auto bundle = bundle_of(pattern_, need.fabric);
      if (bundle && need.bundle_strips > 0) opened.insert(*bundle);
    }
    for (const std::size_t b : opened) {
      for (const FabricId fabric : pattern_.bundles[b].fabrics) {
        if (known.contains(fabric)) continue;
        FabricNeed need;
        need.fabric = fabric;
        need.bundle_strips_had = pattern_.bundles[b].each;
        out.fabrics.push_back(std::move(need));
      }
    }
  }

  // The fewest rulers that make every cut, the first described first.
  void choose_rulers(SizeQuantities& out) const {
    std::vector<std::vector<std::size_t>> wanted;
    for (const CutPiece& p : out.pieces) {
      if (!p.cut.rulers.empty()) wanted.push_back(p.cut.rulers);
    }
    for (const StripSet& s : out.strip_sets) {
      if (!s.cut.rulers.empty()) wanted.push_back(s.cut.rulers);
    }
    const std::size_t n = pattern_.rulers.size();
    // Strips themselves are cut with a straight ruler.
    std::vector<std::size_t> straight;
    for (std::size_t i = 0; i < n; ++i) {
      if (pattern_.rulers[i].angle == 90) straight.push_back(i);
    }
    if (!straight.empty()) wanted.push_back(straight);
    while (!wanted.empty()) {
      std::vector<std::size_t> votes(n, 0);
      for (const auto& w : wanted) {
        for (const std::size_t r : w) ++votes[r];
      }
      const auto best =
          static_cast<std::size_t>(std::max_element(votes.begin(), votes.end()) - votes.begin());
      out.rulers.push_back(best);
      std::erase_if(wanted,
                    [&](const auto& w) { return std::find(w.begin(), w.end(), best) != w.end(); });
    }
    std::sort(out.rulers.begin(), out.rulers.end());
  }

  const CheckedPattern& checked_;
  const Pattern& pattern_;
  const Piecing& piecing_;
  Diagnostics& d_;
  std::vector<PieceCut> cuts_;
};

}  // namespace

std::optional<Quantities> plan_cutting(const CheckedPattern& checked, const Piecing& piecing,
                                       Diagnostics& diagnostics) {
  return CuttingPlanner(checked, piecing, diagnostics).plan();
}

}  // namespace dogear
