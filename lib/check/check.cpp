#include <algorithm>

#include "check/build.h"
#include "check/checked.h"

namespace dogear {

namespace {

constexpr long long most_patches = 100000;

// Two ways to one number: the patches' areas add up to the area of each block and top. Parts are
// made before the wholes that hold them, so one pass counts what is shared without unfolding it.
bool count_patches(const CheckedPattern& checked, Diagnostics& diagnostics) {
  std::vector<long long> patches;
  std::vector<Exact> areas;
  for (const Part& part : checked.parts) {
    long long n = part.is_patch ? 1 : 0;
    Exact sum = part.is_patch ? area(part.outline) : Exact(0);
    for (const Placed& p : part.parts) {
      n = std::min(n + patches[p.part], most_patches + 1);
      sum += areas[p.part];
    }
    if (n > most_patches) {
      diagnostics.error("D210", part.span,
                        "this has more than 100,000 patches, which is beyond any quilt");
      return false;
    }
    if (sum != area(part.outline)) {
      diagnostics.error("D209", part.span,
                        "the areas of the patches do not add up to the area of the whole");
      return false;
    }
    patches.push_back(n);
    areas.push_back(std::move(sum));
  }
  return true;
}

}  // namespace

std::optional<CheckedPattern> check_pattern(Pattern pattern, Diagnostics& diagnostics) {
  const std::size_t before = diagnostics.error_count();
  CheckedPattern checked;
  checked.pattern = std::move(pattern);
  PartBuilder builder(checked, diagnostics);
  for (std::size_t i = 0; i < checked.pattern.uses.size(); ++i) {
    if (const auto id = builder.block(i)) checked.block_parts.push_back(*id);
  }
  if (diagnostics.error_count() > before) return std::nullopt;
  for (std::size_t i = 0; i < checked.pattern.sizes.size(); ++i) {
    if (auto size = build_top(builder, checked, i, diagnostics)) {
      checked.sizes.push_back(std::move(*size));
    }
  }
  if (diagnostics.error_count() > before) return std::nullopt;
  if (!count_patches(checked, diagnostics)) return std::nullopt;
  return checked;
}

std::vector<FlatPatch> flatten(const CheckedPattern& checked, PartId part) {
  std::vector<FlatPatch> out;
  const auto walk = [&](const auto& self, PartId id, const Transform& where) -> void {
    const Part& p = checked.parts[id];
    if (p.is_patch) {
      out.push_back({id, where});
      return;
    }
    for (const Placed& child : p.parts) self(self, child.part, child.where.then(where));
  };
  walk(walk, part, Transform{});
  return out;
}

}  // namespace dogear
