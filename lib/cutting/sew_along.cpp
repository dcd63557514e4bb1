#include "cutting/sew_along.h"

#include <algorithm>
#include <map>
#include <set>

#include "cutting/cloth.h"
#include "cutting/finish.h"
#include "cutting/wants.h"

namespace dogear {

namespace {

constexpr long long plenty = 100000;  // sheets
// Parts of a yard that a month's plan counts in: all months together are bought at once as a rule,
// so that each strip spared counts, even where that month's own cloth is rounded up past it.
constexpr long long fine_parts = 288;

// Sheets taken of each source of a fabric.
using Taken = std::map<std::pair<FabricId, std::size_t>, long long>;

class SewAlongPlanner {
 public:
  SewAlongPlanner(const CheckedPattern& checked, const Piecing& piecing,
                  const Quantities& quantities, std::size_t size, Diagnostics& d)
      : checked_(checked),
        pattern_(checked.pattern),
        piecing_(piecing),
        quantities_(quantities),
        sewing_(piecing.sizes[size]),
        whole_(quantities.sizes[size]),
        d_(d) {}

  std::optional<SewAlong> plan() {
    const std::size_t before = d_.error_count();
    // Of a last source in sheets there are always more; the caller is told how many were used.
    for (Fabric& fabric : checked_.pattern.fabrics) {
      if (fabric.sources.back().had) fabric.sources.back().had = plenty;
    }
    checked_.pattern.allowances.yard_parts = fine_parts;
    for (std::size_t m = 0; m < pattern_.schedule.size(); ++m) {
      if (!plan_month(m)) return std::nullopt;
      for (FabricNeed& need : out_.months.back().cut.fabrics) {
        if (need.yards) need.yards = Exact(*need.yards).round_up(pattern_.allowances.yard_parts);
      }
    }
    add_up();
    count_cloth();
    if (d_.error_count() > before) return std::nullopt;
    return std::move(out_);
  }

 private:
  bool plan_month(std::size_t m) {
    const Instalment& month = pattern_.schedule[m];
    MonthPlan plan;
    plan.month = m;
    for (const BlockSewing& block : sewing_.blocks) {
      const auto& uses = month.uses;
      if (std::find(uses.begin(), uses.end(), block.use) == uses.end()) continue;
      plan.blocks.push_back({block.use, block.blocks});
    }
    plan.sewing = some_blocks(checked_, piecing_, sewing_, plan.blocks);
    if (month.assembly) add_assembly(plan.sewing);
    auto cut = plan_part(checked_, piecing_, quantities_.cuts, plan.sewing, d_);
    if (!cut) return false;
    plan.cut = std::move(*cut);
    if (month.finishing && !add_finishing(plan.cut)) return false;
    take(plan.cut);
    out_.months.push_back(std::move(plan));
    return true;
  }

  // What is sewn straight into the top; the blocks are made by then.
  void add_assembly(SizeSewing& part) const {
    part.assembly = sewing_.assembly;
    part.top = sewing_.top;
    for (const UnitId unit : sewing_.assembly) {
      const long long n = sewing_.make.at(unit);
      part.make[unit] += n;
      for (const Input& in : piecing_.units[unit].inputs) {
        if (in.is_piece) part.pieces[in.piece] += n;
      }
    }
  }

  // Binding and sleeve share cloth with what else is cut in that month.
  bool add_finishing(SizeQuantities& part) {
    part.binding = whole_.binding;
    part.sleeve = whole_.sleeve;
    part.backing = whole_.backing;
    part.batting = whole_.batting;
    std::vector<FabricId> fabrics;
    for (const FabricNeed& need : part.fabrics) fabrics.push_back(need.fabric);
    const auto add = [&](FabricId fabric) {
      if (std::find(fabrics.begin(), fabrics.end(), fabric) == fabrics.end()) {
        fabrics.push_back(fabric);
      }
    };
    if (part.binding) add(part.binding->fabric);
    if (part.sleeve) add(part.sleeve->fabric);
    std::map<FabricId, std::vector<std::string>> uses;
    for (const FabricNeed& need : part.fabrics) uses[need.fabric] = need.uses;
    if (part.binding) uses[part.binding->fabric].push_back("binding");
    if (part.sleeve) uses[part.sleeve->fabric].push_back("hanging sleeve");
    part.fabrics.clear();
    part.strips.clear();
    for (const FabricId fabric : fabrics) {
      const auto wants = wants_of(checked_.pattern, piecing_, quantities_.cuts, part, fabric, d_);
      if (!wants) return false;
      auto cloth = plan_cloth(checked_.pattern, piecing_, quantities_.cuts, *wants, d_);
      if (!cloth) return false;
      cloth->need.uses = uses[fabric];
      for (StripPlan& strip : cloth->strips) part.strips.push_back(std::move(strip));
      part.fabrics.push_back(std::move(cloth->need));
    }
    return true;
  }

  // Sheets opened in a month are gone in the next ones.
  void take(const SizeQuantities& cut) {
    for (const FabricNeed& need : cut.fabrics) {
      for (const SourceUse& use : need.sources) {
        taken_[{need.fabric, use.source}] += use.used;
        ClothSource& source = checked_.pattern.fabrics[need.fabric].sources[use.source];
        if (source.had) source.had = std::max(*source.had - use.used, 0LL);
      }
    }
  }

  // The months' pieces are the size's pieces.
  void add_up() {
    std::map<PieceId, long long> sum;
    for (const MonthPlan& month : out_.months) {
      for (const auto& [piece, n] : month.sewing.pieces) sum[piece] += n;
    }
    bool all = std::any_of(pattern_.schedule.begin(), pattern_.schedule.end(),
                           [](const Instalment& m) { return m.assembly; });
    for (const auto& [piece, n] : sewing_.pieces) {
      if (all && sum[piece] != n) {
        d_.error("D504", pattern_.schedule_span,
                 "the months do not add up to the pieces of `" + pattern_.sizes[sewing_.size].id +
                     "`; please report this");
        all = false;
      }
    }
  }

  void count_cloth() {
    for (const FabricNeed& need : whole_.fabrics) {
      const Fabric& fabric = pattern_.fabrics[need.fabric];
      ClothByMonth cloth;
      cloth.fabric = need.fabric;
      for (const SourceUse& use : need.sources) {
        if (fabric.sources[use.source].height) cloth.sheets_at_once += use.used;
      }
      for (std::size_t s = 0; s < fabric.sources.size(); ++s) {
        if (!fabric.sources[s].height) continue;
        cloth.sheets_by_month += taken_[{need.fabric, s}];
        cloth.sheets_had += fabric.sources[s].had.value_or(0);
      }
      cloth.inches_at_once = need.length;
      cloth.at_once = need.yards;
      Exact tallest = 0, sum = 0;
      const long long parts = pattern_.allowances.yard_parts;
      for (const MonthPlan& month : out_.months) {
        for (const FabricNeed& part : month.cut.fabrics) {
          if (part.fabric != need.fabric) continue;
          sum += part.length;
          if (!part.yards) continue;
          const Exact bought =
              Exact(cloth.bought_by_month.value_or(Fraction{})) + Exact(*part.yards);
          cloth.bought_by_month = bought.round_up(parts);
        }
        for (const StripPlan& strip : month.cut.strips) {
          if (strip.fabric == need.fabric && !strip.along) {
            tallest = max(tallest, Exact(strip.height));
          }
        }
      }
      cloth.inches_by_month = sum;
      if (sum.sign() > 0) {
        cloth.cut_by_month =
            yards_up(with_allowances(pattern_.allowances, sum, tallest).all, parts);
      }
      out_.cloth.push_back(cloth);
    }
  }

  CheckedPattern checked_;  // in which sheets are used up
  const Pattern& pattern_;  // as it is written
  const Piecing& piecing_;
  const Quantities& quantities_;
  const SizeSewing& sewing_;
  const SizeQuantities& whole_;
  Diagnostics& d_;
  Taken taken_;
  SewAlong out_;
};

}  // namespace

std::optional<SewAlong> plan_sew_along(const CheckedPattern& checked, const Piecing& piecing,
                                       const Quantities& quantities, std::size_t size,
                                       Diagnostics& diagnostics) {
  return SewAlongPlanner(checked, piecing, quantities, size, diagnostics).plan();
}

bool has_work(const Instalment& month, const SizeSewing& sewing, const SizeQuantities& quantities) {
  const auto& q = quantities;
  if (month.assembly || (month.finishing && (q.backing || q.batting || q.binding || q.sleeve)))
    return true;
  return std::any_of(sewing.blocks.begin(), sewing.blocks.end(), [&](const BlockSewing& block) {
    return std::find(month.uses.begin(), month.uses.end(), block.use) != month.uses.end();
  });
}

void add_month_facts(const Pattern& pattern, const SizeSewing& sewing,
                     const SizeQuantities& quantities, std::map<std::string, std::string>& facts) {
  for (std::size_t m = 0; m < pattern.schedule.size(); ++m) {
    const Instalment& month = pattern.schedule[m];
    if (!has_work(month, sewing, quantities)) continue;
    const std::string name = "month." + std::to_string(m + 1) + ".";
    facts[name + "title"] = month.title;
    for (const BlockSewing& block : sewing.blocks) {
      const auto& uses = month.uses;
      if (std::find(uses.begin(), uses.end(), block.use) == uses.end()) continue;
      facts[name + pattern.uses[block.use].id + ".count"] = std::to_string(block.blocks);
    }
    if (month.assembly) facts[name + "assembly"] = "yes";
    if (month.finishing) facts[name + "finishing"] = "yes";
  }
}

void check_sew_along(const CheckedPattern& checked, const Piecing& piecing,
                     const Quantities& quantities, Diagnostics& diagnostics) {
  const Pattern& pattern = checked.pattern;
  if (pattern.schedule.empty()) return;
  for (std::size_t size = 0; size < pattern.sizes.size(); ++size) {
    const auto plan = plan_sew_along(checked, piecing, quantities, size, diagnostics);
    if (!plan) continue;
    for (const ClothByMonth& cloth : plan->cloth) {
      const Fabric& fabric = pattern.fabrics[cloth.fabric];
      if (!fabric.sources.back().had || cloth.sheets_by_month <= cloth.sheets_had) continue;
      const ClothSource& last = fabric.sources.back();
      const bool strips =
          last.kind == ClothSource::Kind::bundle && !pattern.bundles[last.bundle].squares;
      const auto count = [&](long long n) {
        return std::to_string(n) + (strips ? " strip" : " sheet") + (n == 1 ? "" : "s");
      };
      Diagnostic& w = diagnostics.warning(
          "D676", pattern.schedule_span,
          "cut month by month, " + fabric.name + " runs out in the size `" +
              pattern.sizes[size].id + "`: it takes " + count(cloth.sheets_by_month) +
              ", and there is no more than " + count(cloth.sheets_had));
      w.notes.push_back({fabric.sources.back().span, "the cloth is described here"});
      w.hints.push_back(
          "make the blocks that share this fabric in one month, or have all of it "
          "cut at once");
    }
  }
}

}  // namespace dogear
