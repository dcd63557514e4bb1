#include "cutting/fillers.h"

#include <algorithm>

#include "base/text.h"
#include "cutting/wants.h"
#include "piecing/some_blocks.h"

namespace dogear {

namespace {

constexpr long long most_counted = 999;
// Many counts are tried on the leftovers, so none is sought long.
constexpr long long quick = 50;

// What one block asks of the fabric of one role.
struct RoleWants {
  std::vector<std::string> roles;  // several where a use gives them one fabric
  ClothWants wants;
};

class FillerPlanner {
 public:
  FillerPlanner(const CheckedPattern& checked, const Piecing& piecing, const Quantities& quantities,
                std::size_t size)
      : checked_(checked),
        piecing_(piecing),
        quantities_(quantities),
        size_(size),
        left_(checked.pattern) {
    for (Fabric& fabric : left_.fabrics) fabric.sources.clear();
    for (const FabricNeed& need : quantities.sizes[size].fabrics) {
      std::vector<ClothSource>& sources = left_.fabrics[need.fabric].sources;
      for (const Leftover& l : need.leftovers) {
        if (l.piece) continue;
        ClothSource s;
        s.kind = ClothSource::Kind::scrap;
        s.height = l.height;
        s.length = l.length;
        s.had = l.count;
        sources.push_back(s);
      }
    }
    for (Fabric& fabric : left_.fabrics) {
      // None left: a source that nothing fits.
      if (fabric.sources.empty()) fabric.sources.push_back(nothing());
    }
  }

  const SizeSewing& sewing() const { return piecing_.sizes[size_]; }

  // Empty when the block cannot be cut by itself.
  std::vector<RoleWants> of_one_block(std::size_t use) const {
    const SizeSewing one = some_blocks(checked_, piecing_, sewing(), {{use, 1}});
    Diagnostics quiet;
    const auto pieces = part_pieces(checked_, piecing_, quantities_.cuts, one, quiet);
    std::vector<RoleWants> out;
    if (!pieces) return out;
    std::map<FabricId, std::vector<std::string>> roles;
    for (const auto& [role, fabric] : checked_.pattern.uses[use].fabrics) {
      roles[fabric].push_back(role);
    }
    for (const auto& [fabric, names] : roles) {
      auto wants = wants_of(checked_.pattern, piecing_, quantities_.cuts, *pieces, fabric, quiet);
      if (!wants) return {};
      if (wants->demands.empty() && wants->along.empty()) continue;
      out.push_back({names, std::move(*wants)});
    }
    return out;
  }

  // Can so many be cut from what is left of a fabric?
  bool fits(const ClothWants& one, FabricId fabric, long long blocks) const {
    ClothWants wants = one;
    wants.fabric = fabric;
    wants.effort = quick;
    for (StripDemand& demand : wants.demands) demand.pieces *= blocks;
    return fits(left_, wants);
  }

  long long most(const ClothWants& one, FabricId fabric) const {
    long long low = 0;
    long long high = 1;
    while (high <= most_counted && fits(one, fabric, high)) {
      low = high;
      high *= 2;
    }
    while (high - low > 1) {
      const long long middle = (low + high) / 2;
      (fits(one, fabric, middle) ? low : high) = middle;
    }
    return low;
  }

  // Can one more block's part be cut from a fabric besides all that the size takes of it?
  bool fits_besides(const ClothWants& one, FabricId fabric) const {
    Diagnostics quiet;
    auto wants = wants_of(checked_.pattern, piecing_, quantities_.cuts, quantities_.sizes[size_],
                          fabric, quiet);
    if (!wants) return false;
    wants->demands.insert(wants->demands.end(), one.demands.begin(), one.demands.end());
    return fits(checked_.pattern, *wants);
  }

 private:
  static ClothSource nothing() {
    ClothSource s;
    s.kind = ClothSource::Kind::scrap;
    s.height = Exact(0);
    s.length = Exact(0);
    s.had = 0;
    return s;
  }

  bool fits(const Pattern& pattern, const ClothWants& wants) const {
    Diagnostics quiet;
    const auto plan = plan_cloth(pattern, piecing_, quantities_.cuts, wants, quiet);
    return plan && plan->short_by == 0;
  }

  const CheckedPattern& checked_;
  const Piecing& piecing_;
  const Quantities& quantities_;
  std::size_t size_;
  Pattern left_;
};

bool marks_fillers(const Pattern& pattern) {
  return std::any_of(pattern.blocks.begin(), pattern.blocks.end(),
                     [](const BlockDef& b) { return b.filler; });
}

// The uses that are asked about, in the order in which they are sewn.
std::vector<std::size_t> filler_uses(const Pattern& pattern, const SizeSewing& sewing) {
  const bool marked = marks_fillers(pattern);
  std::vector<std::size_t> out;
  for (const BlockSewing& block : sewing.blocks) {
    if (block.finals.empty()) continue;
    if (!marked || pattern.blocks[pattern.uses[block.use].block].filler) out.push_back(block.use);
  }
  return out;
}

// One use of each filler block, that with the most fabrics.
std::vector<std::size_t> one_of_each(const Pattern& pattern, const std::vector<std::size_t>& uses) {
  const auto fabrics = [&](std::size_t use) {
    std::vector<FabricId> all;
    for (const auto& [role, fabric] : pattern.uses[use].fabrics) {
      if (std::find(all.begin(), all.end(), fabric) == all.end()) all.push_back(fabric);
    }
    return all.size();
  };
  std::vector<std::size_t> out;
  for (const std::size_t use : uses) {
    const auto same = std::find_if(out.begin(), out.end(), [&](std::size_t o) {
      return pattern.uses[o].block == pattern.uses[use].block;
    });
    if (same == out.end()) {
      out.push_back(use);
    } else if (fabrics(use) > fabrics(*same)) {
      *same = use;
    }
  }
  return out;
}

// A fabric for each role, no fabric twice; empty when there is none.
std::vector<FabricId> choose(const std::vector<std::vector<FabricId>>& able) {
  std::vector<FabricId> chosen;
  const auto place = [&](auto&& self) -> bool {
    if (chosen.size() == able.size()) return true;
    for (const FabricId f : able[chosen.size()]) {
      if (std::find(chosen.begin(), chosen.end(), f) != chosen.end()) continue;
      chosen.push_back(f);
      if (self(self)) return true;
      chosen.pop_back();
    }
    return false;
  };
  return place(place) ? chosen : std::vector<FabricId>{};
}

void bind(FillerOffer& offer, const RoleWants& role, FabricId fabric) {
  for (const std::string& name : role.roles) offer.fabrics[name] = fabric;
}

// Does the setting hold a block of one fabric, bought by the yard, as large as the filler?
bool has_plain_block(const Pattern& pattern, const SizeDef& size, std::size_t filler,
                     const CheckedPattern& checked) {
  const auto outline = [&](std::size_t use) {
    return area(checked.parts[checked.block_parts[use]].outline);
  };
  for (const auto& row : size.cells) {
    for (const auto& cell : row) {
      const auto& fabrics = pattern.uses[cell.use].fabrics;
      const bool one_fabric =
          !fabrics.empty() && std::all_of(fabrics.begin(), fabrics.end(), [&](const auto& f) {
            return f.second == fabrics.begin()->second;
          });
      if (one_fabric && yardage_of(pattern, fabrics.begin()->second) != nullptr &&
          outline(cell.use) == outline(filler)) {
        return true;
      }
    }
  }
  return false;
}

}  // namespace

std::vector<FillerOffer> fillers_from_leftovers(const CheckedPattern& checked,
                                                const Piecing& piecing,
                                                const Quantities& quantities, std::size_t size) {
  const FillerPlanner planner(checked, piecing, quantities, size);
  std::vector<FillerOffer> out;
  for (const std::size_t use : filler_uses(checked.pattern, planner.sewing())) {
    FillerOffer offer;
    offer.use = use;
    offer.fabrics = checked.pattern.uses[use].fabrics;
    const std::vector<RoleWants> roles = planner.of_one_block(use);
    if (!roles.empty()) offer.count = most_counted;
    for (const RoleWants& role : roles) {
      offer.count = std::min(offer.count, planner.most(role.wants, role.wants.fabric));
    }
    out.push_back(std::move(offer));
  }
  return out;
}

std::vector<FillerOffer> fillers_of_any_fabric(const CheckedPattern& checked,
                                               const Piecing& piecing, const Quantities& quantities,
                                               std::size_t size) {
  const Pattern& pattern = checked.pattern;
  const FillerPlanner planner(checked, piecing, quantities, size);
  std::vector<FillerOffer> out;
  for (const std::size_t use : one_of_each(pattern, filler_uses(pattern, planner.sewing()))) {
    const std::vector<RoleWants> roles = planner.of_one_block(use);
    if (roles.empty()) continue;
    // What is left of each fabric, as the blocks of each role it could still give. The fabrics with
    // most left go together: for two roles that sews as many as any pairing.
    std::vector<std::vector<long long>> could(pattern.fabrics.size());
    std::vector<Exact> share(pattern.fabrics.size(), Exact(1));
    for (FabricId f = 0; f < pattern.fabrics.size(); ++f) {
      for (const RoleWants& role : roles) could[f].push_back(planner.most(role.wants, f));
    }
    std::map<std::vector<FabricId>, long long> chosen;
    for (;;) {
      std::vector<FabricId> now;
      for (std::size_t r = 0; r < roles.size(); ++r) {
        std::optional<FabricId> best;
        for (FabricId f = 0; f < pattern.fabrics.size(); ++f) {
          if (std::find(now.begin(), now.end(), f) != now.end()) continue;
          const Exact n = share[f] * Exact(could[f][r]);
          if (n < Exact(1)) continue;
          if (!best || n > share[*best] * Exact(could[*best][r])) best = f;
        }
        if (!best) break;
        now.push_back(*best);
      }
      if (now.size() < roles.size()) break;
      for (std::size_t r = 0; r < roles.size(); ++r) {
        share[now[r]] -= Exact::ratio(1, could[now[r]][r]);
      }
      ++chosen[now];
    }
    for (const auto& [fabrics, count] : chosen) {
      FillerOffer offer;
      offer.use = use;
      offer.count = count;
      for (std::size_t r = 0; r < roles.size(); ++r) bind(offer, roles[r], fabrics[r]);
      out.push_back(std::move(offer));
    }
  }
  return out;
}

void check_fillers(const CheckedPattern& checked, const Piecing& piecing,
                   const Quantities& quantities, Diagnostics& diagnostics) {
  const Pattern& pattern = checked.pattern;
  for (std::size_t size = 0; size < pattern.sizes.size(); ++size) {
    const SizeDef& def = pattern.sizes[size];
    if (!def.fillers_from_bundle) continue;
    const FillerPlanner planner(checked, piecing, quantities, size);
    const auto uses = filler_uses(pattern, planner.sewing());
    if (!marks_fillers(pattern) || uses.empty() || pattern.bundles.empty()) {
      Diagnostic& e =
          diagnostics.error("D507", *def.fillers_from_bundle,
                            pattern.bundles.empty() ? "there is no bundle to make fillers from"
                                                    : "this size sews no block that is a filler");
      e.hints.push_back(pattern.bundles.empty() ? "describe the bundle under `bundles`"
                                                : "write `filler: yes` in the filler's block file");
      continue;
    }
    for (const std::size_t use : one_of_each(pattern, uses)) {
      if (!has_plain_block(pattern, def, use, checked)) continue;
      const std::vector<RoleWants> roles = planner.of_one_block(use);
      std::vector<std::vector<FabricId>> able(roles.size());
      for (std::size_t r = 0; r < roles.size(); ++r) {
        // What is bought by the yard stays as it is.
        if (yardage_of(pattern, roles[r].wants.fabric) != nullptr) {
          able[r].push_back(roles[r].wants.fabric);
          continue;
        }
        for (FabricId f = 0; f < pattern.fabrics.size(); ++f) {
          if (bundle_of(pattern, f) && yardage_of(pattern, f) == nullptr &&
              planner.fits_besides(roles[r].wants, f)) {
            able[r].push_back(f);
          }
        }
      }
      const std::vector<FabricId> fabrics = roles.empty() ? std::vector<FabricId>{} : choose(able);
      if (fabrics.empty()) continue;
      const BlockDef& block = pattern.blocks[pattern.uses[use].block];
      std::vector<std::string> names;
      for (const std::string& role : block.roles) {
        for (std::size_t r = 0; r < roles.size(); ++r) {
          const auto& own = roles[r].roles;
          if (std::find(own.begin(), own.end(), role) == own.end()) continue;
          names.push_back(role + ": " + pattern.fabrics[fabrics[r]].name);
        }
      }
      Diagnostic& e = diagnostics.error(
          "D506", *def.fillers_from_bundle,
          "the bundle gives one more " + block.title + " (" + join(names, ", ") + ")");
      e.notes.push_back({def.setting_span, "a plain block of this setting could make way for it"});
      e.hints.push_back(
          "give a block these fabrics under `blocks` and put it in place of a plain one");
      break;
    }
  }
}

}  // namespace dogear
