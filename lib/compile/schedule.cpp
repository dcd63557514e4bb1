#include "compile/schedule.h"

#include "base/text.h"
#include "compile/list_words.h"
#include "cutting/sew_along.h"

namespace dogear {

namespace {

using list_words::inches;
using list_words::yards;

List month_list(const Plan& plan, std::size_t size, const SewAlong& along) {
  const Pattern& pattern = plan.pattern();
  const SizeQuantities& q = plan.quantities.sizes[size];
  List list{"schedule", {"month", "make", "what", "with"}, {}};
  for (const MonthPlan& month : along.months) {
    const Instalment& part = pattern.schedule[month.month];
    const std::size_t before = list.rows.size();
    for (const BlockCount& block : month.blocks) {
      list.rows.push_back({part.title, block.blocks, pattern.uses[block.use].title, ""});
    }
    if (part.assembly) list.rows.push_back({part.title, 1LL, "quilt top", "all blocks"});
    if (part.finishing) {
      std::vector<std::string> with;
      if (q.backing) with.push_back("backing");
      if (q.batting) with.push_back("batting");
      if (q.binding) with.push_back("binding");
      if (q.sleeve) with.push_back("hanging sleeve");
      if (!with.empty()) list.rows.push_back({part.title, "", "finishing", join(with, ", ")});
    }
    if (list.rows.size() == before) {
      list.rows.push_back({part.title, "", "nothing for this size", ""});
    }
  }
  return list;
}

List cloth_list(const Pattern& pattern, const SewAlong& along) {
  List list{"cloth over all months",
            {"fabric", "cut at once", "cut by month", "yardage at once", "yardage cut by month",
             "yardage bought by month", "sheets at once", "sheets by month", "sheets there"},
            {}};
  const auto count = [](long long n) { return n == 0 ? Cell("") : Cell(n); };
  const auto length = [](const Exact& e) { return e.is_zero() ? "" : inches(e.round_up(16)); };
  const auto bought = [](const std::optional<Fraction>& y) { return y ? yards(*y) : ""; };
  for (const ClothByMonth& cloth : along.cloth) {
    list.rows.push_back({pattern.fabrics[cloth.fabric].name, length(cloth.inches_at_once),
                         length(cloth.inches_by_month), bought(cloth.at_once),
                         bought(cloth.cut_by_month), bought(cloth.bought_by_month),
                         count(cloth.sheets_at_once), count(cloth.sheets_by_month),
                         count(cloth.sheets_had)});
  }
  return list;
}

}  // namespace

std::optional<std::vector<List>> schedule_lists(const Plan& plan, std::size_t size,
                                                Diagnostics& diagnostics) {
  const Pattern& pattern = plan.pattern();
  if (pattern.schedule.empty()) return std::vector<List>{};
  const auto along = plan_sew_along(plan.checked, plan.piecing, plan.quantities, size, diagnostics);
  if (!along) return std::nullopt;
  std::vector<List> lists{month_list(plan, size, *along)};
  const std::size_t first = lists.size();
  for (const MonthPlan& month : along->months) {
    const std::vector<List> parts = part_lists(plan, month.cut);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if (lists.size() <= first + i) {
        List joined{parts[i].name, {"month"}, {}};
        joined.columns.insert(joined.columns.end(), parts[i].columns.begin(),
                              parts[i].columns.end());
        lists.push_back(std::move(joined));
      }
      for (std::vector<Cell> row : parts[i].rows) {
        row.insert(row.begin(), pattern.schedule[month.month].title);
        lists[first + i].rows.push_back(std::move(row));
      }
    }
  }
  lists.push_back(cloth_list(pattern, *along));
  return lists;
}

}  // namespace dogear
