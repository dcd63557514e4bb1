#include "check/build.h"
#include "check/checked.h"

namespace dogear {

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
  // Two ways to one number: the patches' areas add up to the top's.
  for (const CheckedSize& size : checked.sizes) {
    Exact sum = 0;
    for (const FlatPatch& p : flatten(checked, size.top))
      sum += area(checked.parts[p.patch].outline);
    if (sum != size.width * size.height) {
      diagnostics.error("D209", checked.pattern.sizes[size.size].span,
                        "the areas of the patches do not add up to the area of the top");
    }
  }
  if (diagnostics.error_count() > before) return std::nullopt;
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
