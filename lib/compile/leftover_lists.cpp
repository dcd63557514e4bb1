#include "compile/leftover_lists.h"

#include <algorithm>

#include "base/text.h"
#include "compile/list_words.h"
#include "cutting/fillers.h"

namespace dogear {

namespace {

using list_words::inches;

std::string sheet_words(const Pattern& pattern, const FabricNeed& need, std::size_t index) {
  const auto& sources = pattern.fabrics[need.fabric].sources;
  if (index >= sources.size()) return "cloth";
  switch (sources[index].kind) {
    case ClothSource::Kind::bundle:
      return pattern.bundles[sources[index].bundle].squares ? "square of the bundle"
                                                            : "strip of the bundle";
    case ClothSource::Kind::fat_quarter:
      return "fat quarter";
    case ClothSource::Kind::fat_eighth:
      return "fat eighth";
    case ClothSource::Kind::scrap:
      return "scrap";
    case ClothSource::Kind::yardage:
      break;
  }
  return "yardage";
}

std::string what(const Plan& plan, const FabricNeed& need, const Leftover& left) {
  const std::string cloth = sheet_words(plan.pattern(), need, left.source);
  switch (left.from) {
    case Leftover::From::strip:
      return "end of a strip";
    case Leftover::From::whole_sheet:
      return "whole " + cloth;
    case Leftover::From::sheet:
      return "rest of a " + cloth;
    case Leftover::From::cloth:
      return "bought by rounding up";
    case Leftover::From::squares:
      return "spare " +
             (left.piece ? plan.piecing.pieces[*left.piece].label(plan.pattern())
                         : std::string("pieces")) +
             ", ready cut";
  }
  return "";
}

List left_list(const Plan& plan, const SizeQuantities& q) {
  List list{"leftovers", {"fabric", "what", "height", "length", "count"}, {}};
  for (const FabricNeed& need : q.fabrics) {
    for (const Leftover& left : need.leftovers) {
      const bool measured = left.from != Leftover::From::squares;
      list.rows.push_back({plan.pattern().fabrics[need.fabric].name, what(plan, need, left),
                           measured ? inches(left.height) : "", measured ? inches(left.length) : "",
                           left.count});
    }
  }
  return list;
}

List filler_list(const Plan& plan, const std::string& name, const std::vector<FillerOffer>& all,
                 bool by_file) {
  const Pattern& pattern = plan.pattern();
  List list{name, {"block", "fabrics", "how many"}, {}};
  for (const FillerOffer& offer : all) {
    std::vector<std::string> fabrics;
    for (const auto& [role, fabric] : offer.fabrics) {
      fabrics.push_back(role + " " + pattern.fabrics[fabric].name);
    }
    const BlockUse& use = pattern.uses[offer.use];
    list.rows.push_back(
        {by_file ? pattern.blocks[use.block].title : use.title, join(fabrics, ", "), offer.count});
  }
  return list;
}

}  // namespace

std::vector<List> leftover_lists(const Plan& plan, std::size_t size) {
  std::vector<List> all{left_list(plan, plan.quantities.sizes[size])};
  if (size < plan.piecing.sizes.size()) {
    all.push_back(filler_list(
        plan, "fillers from leftovers",
        fillers_from_leftovers(plan.checked, plan.piecing, plan.quantities, size), false));
    all.push_back(filler_list(
        plan, "fillers of any fabric",
        fillers_of_any_fabric(plan.checked, plan.piecing, plan.quantities, size), true));
  }
  std::erase_if(all, [](const List& list) { return list.rows.empty(); });
  return all;
}

}  // namespace dogear
