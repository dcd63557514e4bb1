#include <algorithm>
#include <cmath>
#include <set>

#include "base/parallel.h"
#include "cutting/batches.h"
#include "cutting/border_cut.h"
#include "cutting/cloth.h"
#include "cutting/cut_shape.h"
#include "cutting/fillers.h"
#include "cutting/finish.h"
#include "cutting/hands.h"
#include "cutting/one_way.h"
#include "cutting/reach.h"
#include "cutting/rounding.h"
#include "cutting/strip_sets.h"
#include "cutting/wants.h"
#include "diag/merge.h"

namespace dogear {

namespace {

class CuttingPlanner {
 public:
  CuttingPlanner(const CheckedPattern& checked, const Piecing& piecing, Diagnostics& d)
      : checked_(checked), pattern_(checked.pattern), piecing_(piecing), d_(d) {}

  CuttingPlanner(const CheckedPattern& checked, const Piecing& piecing,
                 const std::vector<PieceCut>& cuts, Diagnostics& d)
      : CuttingPlanner(checked, piecing, d) {
    cuts_ = cuts;
  }

  // What a part of a size takes, nothing finished.
  std::optional<SizeQuantities> plan_part(const SizeSewing& sewing) {
    const std::size_t before = d_.error_count();
    SizeQuantities out;
    out.size = sewing.size;
    plan_pieces(sewing, out);
    for (const FabricId fabric : fabrics_in_use(sewing, out)) plan_fabric(fabric, sewing, out);
    count_bundles(out);
    if (d_.error_count() > before) return std::nullopt;
    return out;
  }

  std::optional<SizeQuantities> pieces_of_part(const SizeSewing& sewing) {
    const std::size_t before = d_.error_count();
    SizeQuantities out;
    out.size = sewing.size;
    plan_pieces(sewing, out);
    if (d_.error_count() > before) return std::nullopt;
    return out;
  }

  std::optional<Quantities> plan() {
    const std::size_t before = d_.error_count();
    const auto trims = tip_trims(checked_, piecing_);
    for (PieceId i = 0; i < piecing_.pieces.size(); ++i) {
      const auto t = trims.find(i);
      cuts_.push_back(cut_of(i, t == trims.end() ? std::vector<TrimLine>{} : t->second));
    }
    tell_uncut();
    if (d_.error_count() > before) return std::nullopt;
    check_rounding(checked_, piecing_, cuts_, d_);
    check_reach(pattern_, piecing_, cuts_, d_);
    Quantities out;
    // Each size by itself; what is said is told in their order.
    out.sizes.resize(piecing_.sizes.size());
    std::vector<Diagnostics> said(piecing_.sizes.size());
    in_parallel(piecing_.sizes.size(), [&](std::size_t i) {
      out.sizes[i] =
          CuttingPlanner(checked_, piecing_, cuts_, said[i]).plan_size(piecing_.sizes[i]);
    });
    for (const Diagnostics& of_size : said) add_all(of_size, d_);
    out.cuts = cuts_;
    if (d_.error_count() > before) return std::nullopt;
    check_fillers(checked_, piecing_, out, d_);
    if (d_.error_count() > before) return std::nullopt;
    return out;
  }

 private:
  PieceCut cut_of(PieceId id, const std::vector<TrimLine>& trims) {
    const Piece& piece = piecing_.pieces[id];
    if (piece.along || piece.mitred) return plan_border_cut(piece, pattern_, d_);
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
      const auto alike = std::find_if(uncut_.begin(), uncut_.end(),
                                      [&](const Uncut& u) { return u.why_not == why_not; });
      if (alike == uncut_.end())
        uncut_.push_back({why_not, *cut, {id}});
      else
        alike->pieces.push_back(id);
    }
    const ClothSource* yardage = yardage_of(pattern_, piece.fabric);
    if (yardage != nullptr && cut->method == CutMethod::joined_strip &&
        Exact(cut->length) <= strip_length(pattern_, *yardage)) {
      cut->method = CutMethod::rectangle;
    }
    if (yardage != nullptr && cut->method == CutMethod::rectangle &&
        Exact(cut->length) > strip_length(pattern_, *yardage)) {
      cut->method = CutMethod::joined_strip;
    }
    if (piece.directional) cut_one_way(*cut);
    return *cut;
  }

  // One message for all pieces that lack the same line of a ruler.
  void tell_uncut() {
    constexpr std::size_t most_named = 4;
    for (const auto& [why_not, cut, pieces] : uncut_) {
      std::vector<std::string> names;
      for (const PieceId id : pieces) {
        const Piece& piece = piecing_.pieces[id];
        const std::string name =
            "the " + piece.shape_words + " of " + pattern_.fabrics[piece.fabric].name;
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
      }
      if (names.size() > most_named) {
        const std::size_t more = names.size() - most_named;
        names.resize(most_named);
        names.push_back(std::to_string(more) + " more");
      }
      Diagnostic& e = d_.error("D502", piecing_.pieces[pieces.front()].span,
                               "no described ruler can cut " + join(names, ", ") + ": " + why_not);
      add_nearest_rulers(e, pattern_, cut, piecing_, pieces.front());
      e.hints.push_back(
          "describe another ruler under `rulers` (`lowest` and `highest` are its lines), or change "
          "the finished measure");
    }
  }

  void plan_pieces(const SizeSewing& sewing, SizeQuantities& out) {
    out.batches = plan_batches(checked_, piecing_, sewing, d_);
    for (const auto& [unit, count] : sewing.make) {
      if (piecing_.units[unit].foundation && count > 0) out.papers.emplace_back(unit, count);
    }
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
  }

  SizeQuantities plan_size(const SizeSewing& sewing) {
    SizeQuantities out;
    out.size = sewing.size;
    const CheckedSize& size = checked_.sizes[sewing.size];
    const SizeDef& def = pattern_.sizes[sewing.size];
    out.finished_width = size.width.round_nearest(8);
    out.finished_height = size.height.round_nearest(8);
    plan_pieces(sewing, out);
    if (def.binding) {
      // Ends are squared before they are joined on the diagonal only where they are squares.
      const FabricId fabric = def.binding->fabric;
      const Exact whole = Exact(pattern_.fabrics[fabric].sources.back().length.round_down(8));
      out.binding = plan_binding(*def.binding, size.width, size.height,
                                 def.binding->bias ? longest_strip(pattern_, fabric) : whole,
                                 pattern_.seam_allowance);
    }
    if (def.sleeve) out.sleeve = plan_sleeve(*def.sleeve, size.width, pattern_.seam_allowance);
    if (def.backing) {
      out.backing = plan_backing(*def.backing, size.width, size.height, pattern_.allowances);
    }
    if (def.batting) out.batting = plan_batting(*def.batting, size.width, size.height);
    for (const FabricId fabric : fabrics_in_use(sewing, out)) plan_fabric(fabric, sewing, out);
    plan_layers(pattern_, piecing_, out, d_);
    add_untouched(out);
    count_bundles(out);
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
    if (out.sleeve) add(out.sleeve->fabric);
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
      const bool filler = pattern_.blocks[pattern_.uses[block.use].block].filler;
      for (const UnitId unit : block.steps) {
        if (holds(unit)) add(filler ? "fillers" : "blocks");
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
    if (out.sleeve && out.sleeve->fabric == fabric) add("hanging sleeve");
    return uses;
  }

  void plan_fabric(FabricId fabric, const SizeSewing& sewing, SizeQuantities& out) {
    const auto wants = wants_of(pattern_, piecing_, cuts_, out, fabric, d_);
    if (!wants) return;
    auto plan = plan_cloth(pattern_, piecing_, cuts_, *wants, d_);
    if (!plan) return;
    if (plan->short_by > 0) report_short(pattern_, piecing_, *plan, out, d_);
    plan->need.uses = uses_of(fabric, sewing, out);
    for (StripPlan& strip : plan->strips) out.strips.push_back(std::move(strip));
    out.fabrics.push_back(std::move(plan->need));
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
        const Bundle& bundle = pattern_.bundles[b];
        need.bundle_strips_had = bundle.each;
        need.leftovers.push_back({Leftover::From::whole_sheet,
                                  bundle.strip.round_down(8),
                                  bundle.length.round_down(8),
                                  bundle.each,
                                  0,
                                  {}});
        out.fabrics.push_back(std::move(need));
      }
    }
  }

  // As many bundles as the fabric needs that needs most of them.
  void count_bundles(SizeQuantities& out) const {
    for (std::size_t b = 0; b < pattern_.bundles.size(); ++b) {
      const Bundle& bundle = pattern_.bundles[b];
      BundleUse use;
      use.bundle = b;
      use.bought = 0;
      for (const FabricNeed& need : out.fabrics) {
        for (const SourceUse& s : need.sources) {
          const ClothSource& source = pattern_.fabrics[need.fabric].sources[s.source];
          if (source.kind != ClothSource::Kind::bundle || source.bundle != b) continue;
          use.sheets_used += s.used;
          use.bought = std::max(use.bought, (s.used + bundle.each - 1) / bundle.each);
        }
      }
      use.sheets_had = use.bought * bundle.each * static_cast<long long>(bundle.fabrics.size());
      if (use.bought > 0) out.bundles.push_back(use);
      // Whole sheets are left of the bundles that are bought, not of those that could be.
      for (FabricNeed& need : out.fabrics) keep_bought(need, b, use.bought * bundle.each);
    }
  }

  void keep_bought(FabricNeed& need, std::size_t bundle, long long had) const {
    const std::vector<ClothSource>& sources = pattern_.fabrics[need.fabric].sources;
    const auto of_bundle = [&](std::size_t s) {
      return sources[s].kind == ClothSource::Kind::bundle && sources[s].bundle == bundle;
    };
    long long left = had;
    for (SourceUse& use : need.sources) {
      if (!of_bundle(use.source)) continue;
      use.had = had;
      need.bundle_strips_had = had;
      left -= use.used;
    }
    for (Leftover& l : need.leftovers) {
      if (l.from == Leftover::From::whole_sheet && of_bundle(l.source)) l.count = left;
    }
    std::erase_if(need.leftovers, [](const Leftover& l) { return l.count <= 0; });
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
  struct Uncut {
    std::string why_not;
    PieceCut first;
    std::vector<PieceId> pieces;
  };
  std::vector<Uncut> uncut_;  // for want of a ruler
};

}  // namespace

std::optional<SizeQuantities> plan_part(const CheckedPattern& checked, const Piecing& piecing,
                                        const std::vector<PieceCut>& cuts, const SizeSewing& part,
                                        Diagnostics& diagnostics) {
  return CuttingPlanner(checked, piecing, cuts, diagnostics).plan_part(part);
}

std::optional<SizeQuantities> part_pieces(const CheckedPattern& checked, const Piecing& piecing,
                                          const std::vector<PieceCut>& cuts, const SizeSewing& part,
                                          Diagnostics& diagnostics) {
  return CuttingPlanner(checked, piecing, cuts, diagnostics).pieces_of_part(part);
}

std::optional<Quantities> plan_cutting(const CheckedPattern& checked, const Piecing& piecing,
                                       Diagnostics& diagnostics) {
  return CuttingPlanner(checked, piecing, diagnostics).plan();
}

}  // namespace dogear
