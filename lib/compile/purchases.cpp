#include "compile/purchases.h"

#include "base/text.h"
#include "compile/list_words.h"

namespace dogear {

Purchases purchases(const Plan& plan, std::size_t size) {
  const Pattern& pattern = plan.pattern();
  const SizeQuantities& q = plan.quantities.sizes[size];
  Purchases out;
  for (const BundleUse& b : q.bundles) out.bundles.push_back({b.bundle, b.bought});
  for (const FabricNeed& need : q.fabrics) {
    const Fabric& fabric = pattern.fabrics[need.fabric];
    for (const SourceUse& use : need.sources) {
      const ClothSource& source = fabric.sources[use.source];
      if (source.kind == ClothSource::Kind::bundle || source.kind == ClothSource::Kind::yardage) {
        continue;
      }
      ClothPurchase sheets;
      sheets.fabric = need.fabric;
      sheets.kind = source.kind;
      sheets.sheets = use.used;
      sheets.length = source.length;
      sheets.height = source.height.value_or(Exact(0));
      sheets.uses = need.uses;
      if (use.used > 0) out.cloth.push_back(std::move(sheets));
    }
    if (!need.yards) continue;
    ClothPurchase yardage;
    yardage.fabric = need.fabric;
    yardage.yards = *need.yards;
    yardage.centimetres = need.centimetres.value_or(0);
    yardage.length = fabric.width.value_or(pattern.usable_width);
    yardage.uses = need.uses;
    out.cloth.push_back(std::move(yardage));
  }
  return out;
}

std::string cloth_measure(const ClothPurchase& cloth) {
  const Fraction length = cloth.length.round_down(8);
  if (cloth.kind == ClothSource::Kind::yardage) return list_words::inches(length);
  return list_words::by(cloth.height.round_down(8), length);
}

std::string amount(const ClothPurchase& cloth) {
  switch (cloth.kind) {
    case ClothSource::Kind::fat_quarter:
      return list_words::count(cloth.sheets, "fat quarter", "fat quarters");
    case ClothSource::Kind::fat_eighth:
      return list_words::count(cloth.sheets, "fat eighth", "fat eighths");
    case ClothSource::Kind::scrap:
      return list_words::count(cloth.sheets, "scrap", "scraps");
    case ClothSource::Kind::bundle:
    case ClothSource::Kind::yardage:
      break;
  }
  return list_words::yards(cloth.yards);
}

std::string bundle_words(const Pattern& pattern, std::size_t index) {
  const Bundle& bundle = pattern.bundles[index];
  std::vector<std::string> names;
  for (const FabricId fabric : bundle.fabrics) names.push_back(pattern.fabrics[fabric].name);
  const std::string last = names.empty() ? "" : names.back();
  if (!names.empty()) names.pop_back();
  return list_words::count(bundle.each, bundle.squares ? "square" : "strip",
                           bundle.squares ? "squares" : "strips") +
         " each of " + join(names, ", ") + (names.empty() ? "" : " and ") + last;
}

}  // namespace dogear
