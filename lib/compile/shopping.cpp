#include "compile/shopping.h"

#include <algorithm>

#include "base/text.h"
#include "compile/list_words.h"
#include "compile/purchases.h"
#include "cutting/notions.h"

namespace dogear {

namespace {

using list_words::by;
using list_words::centimetres;
using list_words::inches;
using list_words::yards;

List bundle_list(const Pattern& pattern, const Purchases& bought) {
  List list{"bundles", {"count", "bundle", "holds"}, {}, true};
  for (const BundlePurchase& b : bought.bundles) {
    list.rows.push_back({b.count, pattern.bundles[b.bundle].name, bundle_words(pattern, b.bundle)});
  }
  return list;
}

List cloth_list(const Pattern& pattern, const Purchases& bought) {
  List list{"cloth", {"buy", "metric", "fabric", "measuring", "for"}, {}, true};
  for (const ClothPurchase& cloth : bought.cloth) {
    if (cloth.kind == ClothSource::Kind::scrap) continue;  // the quilter's own
    const bool yardage = cloth.kind == ClothSource::Kind::yardage;
    list.rows.push_back({amount(cloth), yardage ? centimetres(cloth.centimetres) : "",
                         pattern.fabrics[cloth.fabric].name, cloth_measure(cloth),
                         join(cloth.uses, ", ")});
  }
  return list;
}

List batting_list(const SizeQuantities& q) {
  List list{"batting", {"buy", "at least"}, {}, true};
  if (q.batting) {
    list.rows.push_back({q.batting->package.empty() ? "by the length" : q.batting->package,
                         by(q.batting->width, q.batting->height)});
  }
  return list;
}

List ruler_list(const Pattern& pattern, const SizeQuantities& q) {
  List list{"rulers", {"ruler"}, {}, true};
  for (const std::size_t r : q.rulers) list.rows.push_back({pattern.rulers[r].name});
  return list;
}

// What the work itself asks for, besides machine and iron.
List notion_list(const Plan& plan, const SizeQuantities& q) {
  List list{"notions", {"notion", "for"}, {}, true};
  const auto add = [&](const char* what, const std::string& why) {
    list.rows.push_back({what, why});
  };
  const auto templated = [](const CutPiece& p) { return p.cut.method == CutMethod::templated; };
  add("thread to match", "");
  add("rotary cutter and mat", "cutting");
  add("pins or clips", "sewing");
  if (std::any_of(q.pieces.begin(), q.pieces.end(), templated)) {
    add("template sheets and a marking pen", "pieces cut round templates");
  }
  const Notions asked = notions_of(q);
  if (asked.marking_pencil) add("marking pencil", "lines to sew on or to cut at");
  long long papers = 0;
  for (const auto& [unit, made] : plan.piecing.sizes[q.size].make) {
    if (plan.piecing.units[unit].foundation) papers += made;
  }
  if (papers > 0) {
    add("foundation paper", "paper foundations, " + std::to_string(papers) + " to print");
  }
  if (asked.basting) add("basting pins, thread or spray", "the layers");
  if (asked.hand_needle) add("hand sewing needle", q.binding ? "the binding" : "the sleeve");
  return list;
}

}  // namespace

List backing_list(const Plan& plan, std::size_t size) {
  List list{"backing", {"buy", "metric", "cloth", "measuring", "made as"}, {}, true};
  const auto& backing = plan.quantities.sizes[size].backing;
  if (!backing) return list;
  const auto panels = [](long long n, const std::string& seams) {
    return n == 1 ? std::string("one piece, no seam")
                  : std::to_string(n) + " panels" + (seams.empty() ? "" : ", " + seams);
  };
  const auto& def = plan.pattern().sizes[size].backing;
  const Exact width = def ? def->width : plan.pattern().usable_width;
  list.rows.push_back(
      {yards(backing->yards), centimetres(backing->centimetres), backing->name,
       inches(width.round_down(8)),
       panels(backing->panels, backing->seams_vertical ? "seams up and down" : "seams across")});
  if (backing->wide) {
    list.rows.push_back({yards(backing->wide_yards), centimetres(backing->wide_centimetres),
                         backing->name + ", or instead wide cloth", inches(*backing->wide),
                         panels(backing->wide_panels, "")});
  }
  return list;
}

std::vector<List> shopping_lists(const Plan& plan, std::size_t size) {
  const Pattern& pattern = plan.pattern();
  const SizeQuantities& q = plan.quantities.sizes[size];
  const Purchases bought = purchases(plan, size);
  std::vector<List> all{bundle_list(pattern, bought), cloth_list(pattern, bought),
                        backing_list(plan, size),     batting_list(q),
                        ruler_list(pattern, q),       notion_list(plan, q)};
  std::erase_if(all, [](const List& list) { return list.rows.empty(); });
  return all;
}

}  // namespace dogear
