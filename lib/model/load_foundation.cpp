#include <algorithm>

#include "model/load.h"
#include "model/reader.h"

namespace dogear {

namespace {

void read_order(const Node& node, FoundationWish& wish, Diagnostics& d) {
  for (const Node& item : node.items) {
    const auto number = read_whole(item, 1, 999, d);
    if (number) wish.order.push_back({static_cast<std::size_t>(*number - 1), item.span});
  }
  if (node.items.empty()) {
    d.error("D332", node.span, "this order of sewing names no part")
        .hints.push_back("write `foundation: yes`, and the order is found");
  }
}

// Each part once, and no other.
void check_order(const UnitDef& unit, std::size_t parts, Diagnostics& d) {
  const auto& order = unit.foundation->order;
  for (std::size_t i = 0; i < order.size(); ++i) {
    const std::string number = std::to_string(order[i].number + 1);
    if (order[i].number >= parts) {
      Diagnostic& e = d.error(
          "D332", order[i].span,
          "`" + unit.name + "` has no part " + number + ": it has " + std::to_string(parts));
      e.notes.push_back({unit.span, "its parts are counted from 1 as they are written here"});
      return;
    }
    const auto before = std::find_if(order.begin(), order.begin() + static_cast<long>(i),
                                     [&](const auto& p) { return p.number == order[i].number; });
    if (before == order.begin() + static_cast<long>(i)) continue;
    d.error("D332", order[i].span, "part " + number + " is sewn on twice")
        .notes.push_back({before->span, "the first time here"});
    return;
  }
  for (std::size_t n = 0; n < parts && !order.empty(); ++n) {
    if (std::any_of(order.begin(), order.end(), [&](const auto& p) { return p.number == n; }))
      continue;
    Diagnostic& e = d.error("D332", unit.foundation->span,
                            "this order never sews on part " + std::to_string(n + 1));
    if (n < unit.parts.size()) e.notes.push_back({unit.parts[n].span, "that part is this one"});
    if (n < unit.bands.size()) e.notes.push_back({unit.bands[n].span, "that part is this one"});
    return;
  }
}

}  // namespace

void read_foundation(MapReader& map, UnitDef& unit, Diagnostics& d) {
  const Node* node = map.may("foundation");
  const Node* allowance = map.may("foundation allowance");
  const bool is_list = node != nullptr && node->kind == Node::Kind::list;
  if (node != nullptr && (is_list || map.yes("foundation"))) {
    unit.foundation.emplace();
    unit.foundation->span = node->span;
  }
  if (allowance != nullptr) {
    const Exact inches = map.length("foundation allowance", Exact(0));
    if (unit.foundation) {
      unit.foundation->allowance = inches;
    } else {
      d.error("D336", allowance->span,
              "`foundation allowance` has no meaning here: `" + unit.name +
                  "` is not pieced on a foundation")
          .hints.push_back("add `foundation: yes`, or leave it out");
    }
  }
  if (!unit.foundation) return;
  if (unit.how == Composition::fabric) {
    d.error("D333", node->span,
            "`" + unit.name + "` is one patch: there is nothing to sew on a foundation")
        .hints.push_back("put `foundation` on the unit or block that is made of it and others");
    unit.foundation.reset();
    return;
  }
  if (!is_list) return;
  if (unit.how == Composition::ready_made) {
    d.error("D332", node->span, "a ready-made unit has no parts that are written down")
        .hints.push_back("write `foundation: yes`, and the order is found");
    return;
  }
  read_order(*node, *unit.foundation, d);
  check_order(unit, std::max(unit.parts.size(), unit.bands.size()), d);
}

}  // namespace dogear
