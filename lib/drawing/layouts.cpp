#include "drawing/layouts.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "cutting/along.h"

namespace dogear {
namespace {

bool same(const Run& a, const Run& b) {
  const auto key = [](const Run& r) {
    return std::tie(r.kind, r.piece, r.strip_set, r.count, r.shared, r.also, r.purpose);
  };
  return key(a) == key(b) && a.x == b.x && a.y == b.y && a.height == b.height &&
         a.length == b.length;
}

bool same(const ClothLayout::Part& a, const ClothLayout::Part& b) {
  const std::vector<Run>&x = a.plan->runs, &y = b.plan->runs;
  return a.times == b.times && a.plan->height == b.plan->height &&
         std::equal(x.begin(), x.end(), y.begin(), y.end(),
                    [](const Run& p, const Run& q) { return same(p, q); });
}

bool same(const ClothLayout& a, const ClothLayout& b) {
  return a.kind == b.kind && a.source == b.source &&
         std::equal(a.parts.begin(), a.parts.end(), b.parts.begin(), b.parts.end(),
                    [](const auto& p, const auto& q) { return same(p, q); });
}

// Panels as the plan laid them, with the strips beside in the first that has room for them.
std::vector<ClothLayout> panels_of(const Pattern& pattern, FabricId fabric,
                                   const std::vector<const StripPlan*>& along,
                                   const std::vector<const StripPlan*>& beside) {
  std::vector<ClothLayout> out;
  const ClothSource* yardage = yardage_of(pattern, fabric);
  if (along.empty()) return out;
  const Exact width = yardage == nullptr ? pattern.usable_width : yardage->length;
  std::vector<ClothWants::Along> wanted;
  for (const StripPlan* plan : along) {
    const Run& run = plan->runs.front();
    wanted.push_back({run.piece, plan->height, run.length, plan->times});
  }
  for (const Panel& panel : lay_along(wanted, width)) {
    ClothLayout& layout = out.emplace_back();
    layout.kind = ClothLayout::Kind::panel;
    layout.length = panel.length;
    layout.height = width;
    layout.taken = panel.taken;
    layout.source = along.front()->source;
    for (const Panel::Column& column : panel.columns) {
      const StripPlan* plan = along[column.along];
      if (!layout.parts.empty() && layout.parts.back().plan == plan) {
        ++layout.parts.back().times;
      } else {
        layout.parts.push_back({plan, 1});
      }
    }
  }
  std::vector<Exact> used(out.size());
  for (const StripPlan* plan : beside) {
    const Exact wide(plan->usable), high = Exact(plan->height) * Exact(plan->times);
    const auto fits = [&](std::size_t p) {
      return wide <= out[p].height - out[p].taken && used[p] + high <= out[p].length;
    };
    // The panel's rest is rounded down to make the strip's length, so the tightest one is its own.
    std::size_t best = out.size();
    for (std::size_t p = 0; p < out.size(); ++p) {
      if (fits(p) && (best == out.size() || out[best].taken < out[p].taken)) best = p;
    }
    if (best == out.size()) best = out.size() - 1;
    used[best] += high;
    out[best].across.push_back({plan, plan->times});
  }
  return out;
}

}  // namespace

bool is_strip_bundle(const Pattern& pattern, const ClothSource& source) {
  return source.kind == ClothSource::Kind::bundle && !pattern.bundles[source.bundle].squares;
}

std::vector<ClothLayout> layouts_of(const Pattern& pattern, const SizeQuantities& quantities,
                                    FabricId fabric) {
  const std::vector<ClothSource>& sources = pattern.fabrics[fabric].sources;
  std::vector<const StripPlan*> along, beside;
  std::vector<ClothLayout> rest;
  std::map<std::pair<std::size_t, long long>, std::size_t> sheets;  // -> rest
  for (const StripPlan& plan : quantities.strips) {
    if (plan.fabric != fabric) continue;
    if (plan.along) {
      along.push_back(&plan);
      continue;
    }
    if (plan.beside) {
      beside.push_back(&plan);
      continue;
    }
    const auto [sheet, fresh] = sheets.try_emplace({plan.source, plan.sheet}, rest.size());
    if (plan.sheet > 0 && !fresh) {
      rest[sheet->second].parts.push_back({&plan, plan.times});
      continue;
    }
    ClothLayout layout;
    layout.source = plan.source;
    layout.length = Exact(plan.usable);
    layout.height = Exact(plan.height);
    if (plan.sheet > 0) {
      layout.kind = ClothLayout::Kind::sheet;
      layout.parts.push_back({&plan, plan.times});
      if (plan.source < sources.size()) {
        layout.length = sources[plan.source].length;
        layout.height = sources[plan.source].height.value_or(layout.height);
      }
    } else {
      layout.parts.push_back({&plan, 1});
      layout.times = plan.times;
    }
    rest.push_back(std::move(layout));
  }
  std::vector<ClothLayout> out = panels_of(pattern, fabric, along, beside);
  for (ClothLayout& layout : rest) {
    const auto equal = std::find_if(out.begin(), out.end(), [&](const ClothLayout& l) {
      return l.kind == ClothLayout::Kind::sheet && same(l, layout);
    });
    if (equal != out.end()) {
      ++equal->times;
    } else {
      out.push_back(std::move(layout));
    }
  }
  std::map<std::size_t, long long> numbered;
  for (ClothLayout& layout : out) {
    if (layout.kind != ClothLayout::Kind::sheet) continue;
    long long& last = numbered[layout.source];
    layout.first_sheet = last + 1;
    last += layout.times;
  }
  return out;
}

}  // namespace dogear
