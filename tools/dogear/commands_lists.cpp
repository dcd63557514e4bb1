// Lists for one purpose each: `dogear quantities` with --shopping, --kit, ...

#include <iostream>

#include "compile/kits.h"
#include "compile/leftover_lists.h"
#include "compile/schedule.h"
#include "compile/shopping.h"
#include "compile/step_outs.h"
#include "invocation.h"

namespace dogear {

namespace {

using Sizes = std::vector<std::size_t>;

std::vector<ListGroup> each_size(const Plan& plan, const Sizes& sizes,
                                 std::vector<List> (*lists)(const Plan&, std::size_t)) {
  std::vector<ListGroup> groups;
  for (const std::size_t size : sizes) groups.push_back({size, "", lists(plan, size)});
  return groups;
}

// Of lists that are planned on their own, and so may fail.
std::optional<std::vector<ListGroup>> each_planned(
    const Plan& plan, const Sizes& sizes, Diagnostics& diagnostics,
    std::optional<std::vector<List>> (*lists)(const Plan&, std::size_t, Diagnostics&)) {
  std::vector<ListGroup> groups;
  for (const std::size_t size : sizes) {
    auto found = lists(plan, size, diagnostics);
    if (!found) return std::nullopt;
    groups.push_back({size, "", std::move(*found)});
  }
  return groups;
}

}  // namespace

int run_list(const Arguments& arguments) {
  Invocation run(arguments);
  Diagnostics& diagnostics = run.session().diagnostics;
  const auto plan = make_plan(arguments.folder, run.session());
  if (!plan) return run.end();
  const auto sizes = find_sizes(plan->pattern(), arguments.size, diagnostics);
  if (!sizes) return run.end();
  std::optional<std::vector<ListGroup>> groups;
  if (arguments.list == "shopping") {
    groups = each_size(*plan, *sizes, shopping_lists);
  } else if (arguments.list == "leftovers") {
    groups = each_size(*plan, *sizes, leftover_lists);
  } else if (arguments.list == "step-outs") {
    groups = each_planned(*plan, *sizes, diagnostics, step_out_lists);
  } else if (arguments.list == "schedule") {
    if (plan->pattern().schedule.empty()) {
      std::cerr
          << "dogear: this pattern has no schedule; give its pattern.yaml the key `schedule`\n";
      return wrong_usage;
    }
    groups = each_planned(*plan, *sizes, diagnostics, schedule_lists);
  } else if (arguments.list == "kit") {
    std::string wrong;
    std::optional<std::vector<KitOrder>> orders;
    if (!arguments.size.empty() && arguments.kits.find('=') != std::string::npos) {
      wrong = "sizes are named with --kit or with --size, not with both";
    } else {
      orders = read_kit_orders(plan->pattern(), *sizes, arguments.kits, wrong);
    }
    if (!orders) {
      std::cerr << "dogear: " << wrong << '\n';
      return wrong_usage;
    }
    groups = kit_lists(*plan, *orders, diagnostics);
  }
  if (groups) {
    run.print(print_lists(plan->pattern(), *groups,
                          list_format(arguments.as).value_or(ListFormat::text)));
  }
  return run.end();
}

}  // namespace dogear
