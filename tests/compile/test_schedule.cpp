#include "compile/schedule.h"

#include "compile/leftover_lists.h"
#include "cutting/fillers.h"
#include "rows.h"
#include "small_plan.h"
#include "whole_plan.h"

using namespace dogear;
using namespace dogear::test;

TEST_CASE("a schedule lists each month's work, cuts and cloth") {
  const Plan plan = whole_plan("tests/patterns/base/months");
  Diagnostics d;
  const auto lists = schedule_lists(plan, 0, d);
  REQUIRE(lists);
  const List& months = list_named(*lists, "schedule");
  REQUIRE(months.rows.size() == 4);
  CHECK(row(months, 0) == "January | 2 | First | ");
  CHECK(row(months, 2) == "February | 1 | quilt top | all blocks");
  CHECK(row(months, 3) == "March |  | finishing | binding");
  const List& pieces = list_named(*lists, "pieces");
  for (std::size_t n = 0; n < pieces.rows.size(); ++n) {
    CHECK(cell(pieces, n, "month") == Cell("January"));
  }
  const List& cloth = list_named(*lists, "cloth");
  CHECK(cell(cloth, cloth.rows.size() - 1, "month") == Cell("March"));
  CHECK(cell(cloth, cloth.rows.size() - 1, "yardage") == Cell("1/4 yd"));
  const List& all = list_named(*lists, "cloth over all months");
  CHECK(all.rows.size() == 3);
  for (std::size_t n = 0; n < all.rows.size(); ++n) {
    if (cell(all, n, "fabric") != Cell("Plum")) continue;
    CHECK(cell(all, n, "yardage cut by month") == Cell("1/4 yd"));
    CHECK(cell(all, n, "yardage bought by month") == Cell("3/8 yd"));
  }
}

TEST_CASE("a size that lacks a month's blocks has nothing to do in it") {
  const Plan plan = whole_plan("patterns/tide-star");
  Diagnostics d;
  const auto lists = schedule_lists(plan, 1, d);
  REQUIRE(lists);
  CHECK(row(list_named(*lists, "schedule"), 1) == "February |  | nothing for this size | ");
}

TEST_CASE("a pattern without a schedule lists nothing") {
  const Plan plan = whole_plan("patterns/reed-bed");
  Diagnostics d;
  const auto lists = schedule_lists(plan, 0, d);
  REQUIRE(lists);
  CHECK(lists->empty());
}

TEST_CASE("leftovers are listed by fabric, as what they are") {
  Plan plan = small_plan();
  Bundle bundle;
  bundle.name = "2½ in strip bundle";
  bundle.fabrics = {1};
  plan.checked.pattern.bundles = {bundle};
  ClothSource yardage, strips;
  strips.kind = ClothSource::Kind::bundle;
  plan.checked.pattern.fabrics[0].sources = {yardage};
  plan.checked.pattern.fabrics[1].sources = {strips};
  auto& fabrics = plan.quantities.sizes[0].fabrics;
  Leftover end, rest, whole, spare;
  end.height = Fraction::of(5, 2);
  end.length = Fraction::of(12, 1);
  end.count = 2;
  rest.from = Leftover::From::cloth;
  rest.height = Fraction::of(3, 1);
  rest.length = Fraction::of(42, 1);
  fabrics[0].leftovers = {rest, end};
  whole.from = Leftover::From::whole_sheet;
  whole.height = Fraction::of(5, 2);
  whole.length = Fraction::of(42, 1);
  spare.from = Leftover::From::squares;
  spare.piece = 0;
  fabrics[1].leftovers = {whole, spare};
  const auto lists = leftover_lists(plan, 0);
  const List& left = list_named(lists, "leftovers");
  REQUIRE(left.rows.size() == 4);
  CHECK(row(left, 0) == "Cream, \"light\" | bought by rounding up | 3 in | 42 in | 1");
  CHECK(row(left, 1) == "Cream, \"light\" | end of a strip | 2 1/2 in | 12 in | 2");
  CHECK(row(left, 2) == "Ink | blue | whole strip of the bundle | 2 1/2 in | 42 in | 1");
  CHECK(row(left, 3) == "Ink | blue | spare A2, ready cut |  |  | 1");
}

TEST_CASE("leftovers of a shipped pattern say how many fillers they give") {
  const Plan plan = whole_plan("patterns/harbor-lights");
  const auto lists = leftover_lists(plan, 0);
  CHECK(has_list(lists, "leftovers"));
  const auto offers = fillers_from_leftovers(plan.checked, plan.piecing, plan.quantities, 0);
  CHECK(has_list(lists, "fillers from leftovers") == !offers.empty());
  if (!offers.empty()) {
    const List& list = list_named(lists, "fillers from leftovers");
    REQUIRE(list.rows.size() == offers.size());
    CHECK(cell(list, 0, "how many") == Cell(offers[0].count));
  }
}
