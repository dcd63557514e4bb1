#include "compile/step_outs.h"

#include <algorithm>
#include <functional>

#include "rows.h"
#include "whole_plan.h"

using namespace dogear;
using namespace dogear::test;

namespace {

std::vector<List> lists_of(const Plan& plan, std::size_t size) {
  Diagnostics d;
  const auto lists = step_out_lists(plan, size, d);
  REQUIRE(lists);
  CHECK(d.all().empty());
  return *lists;
}

}  // namespace

TEST_CASE("of every block one sample is frozen at each step") {
  const Plan plan = whole_plan("tests/patterns/base/months");
  const auto all = samples(plan, 0);
  // A four patch is two equal pairs, then the whole; there are two of them.
  REQUIRE(all.size() == 4);
  CHECK(all[0].step == 1);
  CHECK(all[0].pieces == 2);
  CHECK(all[1].step == 2);
  CHECK(all[1].pieces == 4);
  CHECK(all[2].use == 1);
  const auto lists = lists_of(plan, 0);
  const List& list = list_named(lists, "samples");
  CHECK(cell(list, 1, "block") == Cell("First"));
  CHECK(cell(list, 1, "pieces") == Cell(4LL));
  CHECK(cell(list, 1, "sewn from") == Cell("2 of " + plan.piecing.units[all[0].unit].name));
}

TEST_CASE("the cloth of samples is planned from what they hold") {
  const Plan plan = whole_plan("tests/patterns/base/months");
  Diagnostics d;
  const auto part = plan_samples(plan, 0, samples(plan, 0), d);
  REQUIRE(part);
  std::map<std::string, long long> cut;
  for (const CutPiece& p : part->pieces) {
    cut[plan.pattern().fabrics[plan.piecing.pieces[p.piece].fabric].id] += p.count;
  }
  // Each four patch: a pair (one of each) and the whole (two of each).
  CHECK(cut == std::map<std::string, long long>{{"ink", 6}, {"cream", 3}, {"plum", 3}});
  const auto lists = lists_of(plan, 0);
  const List& cloth = list_named(lists, "cloth");
  REQUIRE(cloth.rows.size() == 3);
  CHECK(cell(cloth, 0, "strips") == Cell("1 of 2 1/2 in"));
}

TEST_CASE("samples of shipped patterns hold their patches, whatever the bundle has") {
  for (const std::string name : {"harbor-lights", "tide-star", "reed-bed"}) {
    const Plan plan = whole_plan("patterns/" + name);
    for (std::size_t size = 0; size < plan.pattern().sizes.size(); ++size) {
      CAPTURE(name, size);
      const auto all = samples(plan, size);
      REQUIRE_FALSE(all.empty());
      long long patches = 0;
      for (const Sample& sample : all) patches += sample.pieces;
      Diagnostics d;
      const auto part = plan_samples(plan, size, all, d);
      REQUIRE(part);
      // Patches that are cut by themselves and those that strip sets and batches give.
      long long cut = 0;
      for (const CutPiece& p : part->pieces) {
        const auto& batches = part->batches;
        const bool taken = std::any_of(batches.begin(), batches.end(), [&](const BatchCount& b) {
          const auto& takes = plan.piecing.units[b.unit].batch->takes;
          return std::any_of(takes.begin(), takes.end(),
                             [&](const auto& take) { return take.piece == p.piece; });
        });
        if (!taken) cut += p.count;
      }
      for (const StripSet& set : part->strip_sets) {
        cut += set.need * static_cast<long long>(set.strips.size());
      }
      for (const BatchCount& b : part->batches) {
        cut += b.need * static_cast<long long>(plan.piecing.units[b.unit].inputs.size());
      }
      CHECK(cut == patches);
    }
  }
}

TEST_CASE("samples tell how many papers to print of each foundation") {
  const Plan plan = whole_plan("tests/patterns/base/lamp");
  const auto lists = lists_of(plan, 0);
  const List& papers = list_named(lists, "foundations");
  REQUIRE(papers.rows.size() == 3);
  long long printed = 0;
  for (const auto& row : papers.rows) printed += std::get<long long>(row.back());
  // Each sample holds a paper for every foundation that is sewn into it.
  const std::function<long long(UnitId)> held = [&](UnitId id) -> long long {
    const SewnUnit& unit = plan.piecing.units[id];
    if (unit.foundation) return 1;
    long long n = 0;
    for (const Input& in : unit.inputs) n += in.is_piece ? 0 : held(in.unit);
    return n;
  };
  long long wanted = 0;
  for (const Sample& sample : samples(plan, 0)) wanted += held(sample.unit);
  CHECK(wanted > 3);
  CHECK(printed == wanted);
}
