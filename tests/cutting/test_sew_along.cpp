#include "cutting/sew_along.h"

#include <catch2/catch.hpp>

#include "base/files.h"
#include "support/plan.h"
#include "support/project.h"

using namespace dogear;
using namespace dogear::test;

namespace {

const std::string months = test::project_folder() + "/tests/patterns/base/months";

SewAlong along(const Planned& p, std::size_t size) {
  Diagnostics d;
  const auto found = plan_sew_along(*p.checked, *p.piecing, *p.quantities, size, d);
  for (const Diagnostic& each : d.all()) UNSCOPED_INFO(each.message);
  REQUIRE(found);
  return *found;
}

std::map<std::string, long long> cut(const Planned& p, const MonthPlan& month) {
  std::map<std::string, long long> out;
  for (const CutPiece& piece : month.cut.pieces) {
    out[p.checked->pattern.fabrics[p.piecing->pieces[piece.piece].fabric].id] += piece.count;
  }
  return out;
}

}  // namespace

TEST_CASE("each month has its blocks, its pieces and its cloth") {
  const Planned p = plan(months, DiskFiles());
  INFO(p.errors());
  REQUIRE(p.quantities);
  const SewAlong plan = along(p, 0);
  REQUIRE(plan.months.size() == 3);
  REQUIRE(plan.months[0].blocks.size() == 2);
  CHECK(plan.months[0].blocks[0].blocks == 2);
  // Four blocks of two dark and two light squares each.
  CHECK(cut(p, plan.months[0]) ==
        std::map<std::string, long long>{{"ink", 8}, {"cream", 4}, {"plum", 4}});
  CHECK(plan.months[1].cut.pieces.empty());  // blocks alone: nothing else is in the top
  REQUIRE(plan.months[2].cut.fabrics.size() == 1);
  const FabricNeed& binding = plan.months[2].cut.fabrics[0];
  CHECK(binding.uses == std::vector<std::string>{"binding"});
  // Two strips of 2 1/2 in and an inch to square up: 6 in.
  CHECK(binding.length == Exact(5));
  CHECK(*binding.yards == Fraction::of(1, 4));
}

TEST_CASE("cloth by month: cut at once, cut by month, bought by month") {
  const Planned p = plan(months, DiskFiles());
  REQUIRE(p.quantities);
  const SewAlong plan = along(p, 0);
  const auto of = [&](const std::string& id) {
    for (const ClothByMonth& c : plan.cloth) {
      if (p.checked->pattern.fabrics[c.fabric].id == id) return c;
    }
    FAIL("no cloth " << id);
    return ClothByMonth{};
  };
  // Plum: a strip in January and two of binding in March, each month with its own inch.
  CHECK(of("plum").inches_by_month == Exact::ratio(15, 2));
  CHECK(*of("plum").cut_by_month == Fraction::of(1, 4));
  CHECK(*of("plum").bought_by_month == Fraction::of(3, 8));
  CHECK(of("ink").sheets_at_once == 1);
  CHECK(of("ink").sheets_by_month == 1);
  CHECK(of("ink").sheets_had == 1);
}

TEST_CASE("the months of a shipped pattern add up to its pieces") {
  const Planned p = plan_demo("tide-star");
  INFO(p.errors());
  REQUIRE(p.quantities);
  REQUIRE_FALSE(p.checked->pattern.schedule.empty());
  for (std::size_t size = 0; size < p.checked->pattern.sizes.size(); ++size) {
    const SewAlong plan = along(p, size);
    std::map<PieceId, long long> whole, sum;
    for (const CutPiece& c : p.quantities->sizes[size].pieces) whole[c.piece] = c.count;
    for (const MonthPlan& month : plan.months) {
      for (const CutPiece& c : month.cut.pieces) sum[c.piece] += c.count;
    }
    CHECK(sum == whole);
    for (const ClothByMonth& cloth : plan.cloth) {
      if (!cloth.at_once) continue;
      REQUIRE(cloth.cut_by_month);
      CHECK(Exact(*cloth.at_once) <= Exact(*cloth.cut_by_month));
      CHECK(Exact(*cloth.cut_by_month) <= Exact(*cloth.bought_by_month));
    }
  }
}

TEST_CASE("the months are facts of each size") {
  const Planned p = plan_demo("tide-star");
  REQUIRE(p.quantities);
  const auto throw_size = facts(*p.checked, *p.piecing, *p.quantities, 0);
  CHECK(throw_size.at("month.1.title") == "January");
  CHECK(throw_size.at("month.1.coral-star.count") == "5");
  CHECK(throw_size.at("month.3.assembly") == "yes");
  CHECK(throw_size.at("month.4.finishing") == "yes");
  const auto pillow = facts(*p.checked, *p.piecing, *p.quantities, 1);
  CHECK(pillow.at("month.1.coral-star.count") == "1");
  CHECK_FALSE(pillow.contains("month.2.lagoon-star.count"));
}
