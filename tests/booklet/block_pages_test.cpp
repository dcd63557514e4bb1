// Blocks on pages: which share one, at which scale, and what runs on.

#include "booklet/block_pages.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace dogear::booklet;

namespace {

constexpr double page = 600, apart = 20;

// Rows that grow with the scale.
ReachAt rows_of(std::vector<std::vector<double>> inches) {
  return [inches = std::move(inches)](std::size_t entry, double scale) {
    Reach out;
    double bottom = 0;
    for (const double high : inches[entry]) out.push_back(bottom += high * scale);
    return out;
  };
}

std::vector<BlockPage> plan(const std::vector<std::vector<double>>& inches, double begun = 0) {
  return plan_block_pages({page, begun, apart, std::vector<bool>(inches.size(), false)},
                          rows_of(inches));
}

void check_all_entries(const std::vector<BlockPage>& pages, std::size_t n) {
  std::size_t next = 0;
  for (const BlockPage& p : pages) {
    CHECK(p.begin == next);
    CHECK(p.end > p.begin);
    next = p.end;
  }
  CHECK(next == n);
}

}  // namespace

TEST_CASE("blocks share a page at the largest scale at which they fit") {
  const auto pages = plan({{18}, {18}});
  REQUIRE(pages.size() == 1);
  CHECK(pages[0].scale == 16);
  CHECK(pages[0].spare == Approx(600 - 20 - 2 * 18 * 16));
  const auto lower = plan({{21}, {21}});
  REQUIRE(lower.size() == 1);
  CHECK(lower[0].scale == 13);  // 21 x 13 x 2 + 20 is 566, at 14.5 it were 629
}

TEST_CASE("blocks that fill a page each have one each") {
  const auto pages = plan({{36}, {36}, {36}});
  REQUIRE(pages.size() == 3);
  for (const BlockPage& p : pages) {
    CHECK(p.scale == 16);
    CHECK_FALSE(p.runs_on);
  }
}

TEST_CASE("a block that no scale brings on one page runs on, and the next shares its last page") {
  // Five rows of 25 in: 750 pt at the least scale. The next block fills what the last page leaves.
  const auto pages = plan({{25, 25, 25, 25, 25}, {25}, {50}});
  check_all_entries(pages, 3);
  REQUIRE(pages.size() == 2);
  CHECK(pages[0].runs_on);
  CHECK(pages[0].end == 2);
}

TEST_CASE("the first page has less room where something stands above") {
  const auto whole = plan({{18}, {18}});
  const auto begun = plan({{18}, {18}}, 250);
  REQUIRE(whole.size() == 1);
  check_all_entries(begun, 2);
  CHECK((begun.size() > 1 || begun[0].scale < whole[0].scale));
  for (const double taken : {599.0, 600.0, 5000.0, -10.0}) {
    INFO(taken);
    check_all_entries(plan({{18}, {18}}, taken), 2);
  }
}

TEST_CASE("rows higher than a page, and no blocks at all, are planned as far as that goes") {
  CHECK(plan({}).empty());
  const auto pages = plan({{10}, {200}, {10}});
  check_all_entries(pages, 3);
  const auto high = std::find_if(pages.begin(), pages.end(),
                                 [](const BlockPage& p) { return p.begin <= 1 && p.end > 1; });
  REQUIRE(high != pages.end());
  CHECK(high->runs_on);
}

TEST_CASE("what needs no sewing does not stand on a page alone if it can be helped") {
  const std::vector<std::vector<double>> inches{{36}, {2}};
  const auto pages = plan_block_pages({page, 0, apart, {false, true}}, rows_of(inches));
  REQUIRE(pages.size() == 1);
  CHECK(pages[0].scale < 16);
}

TEST_CASE("any blocks are planned: in order, each once, none too high for its page but alone") {
  unsigned seed = 7;
  const auto next = [&](unsigned most) {
    return (seed = seed * 1103515245 + 12345) / 65536 % most;
  };
  for (int trial = 0; trial < 300; ++trial) {
    std::vector<std::vector<double>> inches(1 + next(12));
    for (auto& rows : inches) {
      rows.resize(1 + next(6));
      for (double& high : rows) high = 2 + next(60);
    }
    const double begun = next(700);
    const auto pages = plan(inches, begun);
    INFO("trial " << trial);
    check_all_entries(pages, inches.size());
    const ReachAt reach = rows_of(inches);
    for (const BlockPage& p : pages) {
      if (p.runs_on) continue;
      double high = apart * static_cast<double>(p.end - p.begin - 1);
      for (std::size_t e = p.begin; e < p.end; ++e) high += reach(e, p.scale).back();
      CHECK(high <= page - (p.begin == 0 ? std::min(begun, page) : 0) + 1e-6);
      CHECK(p.spare ==
            Approx(page - (p.begin == 0 ? std::min(begun, page) : 0) - high).margin(1e-6));
    }
  }
}
