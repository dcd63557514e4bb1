#include "compile/shopping.h"

#include <nlohmann/json.hpp>

#include "rows.h"
#include "small_plan.h"

using namespace dogear;
using namespace dogear::test;

namespace {

// Ink comes from a bundle, then from fat quarters; cream by the yard.
Plan with_sources() {
  Plan plan = small_plan();
  Pattern& pattern = plan.checked.pattern;
  pattern.usable_width = 42;
  Bundle bundle;
  bundle.name = "2½ in strip bundle";
  bundle.strip = Exact::ratio(5, 2);
  bundle.length = 42;
  bundle.each = 2;
  bundle.fabrics = {1};
  pattern.bundles = {bundle};
  ClothSource strips, quarters, yardage;
  strips.kind = ClothSource::Kind::bundle;
  quarters.kind = ClothSource::Kind::fat_quarter;
  quarters.height = 18;
  quarters.length = 21;
  yardage.length = 42;
  pattern.fabrics[0].sources = {yardage};
  pattern.fabrics[1].sources = {strips, quarters};
  SizeQuantities& q = plan.quantities.sizes[0];
  q.bundles = {{0, 2, 3, 4}};
  q.fabrics[0].sources = {{0, 0, 0}};
  q.fabrics[1].sources = {{0, 3, 4}, {1, 2, 2}};
  BackingDef backing;
  backing.width = 42;
  pattern.sizes[0].backing = backing;
  q.backing = two_way_backing();
  q.batting = Batting{Fraction::of(62, 1), Fraction::of(62, 1), "72 × 90 in"};
  return plan;
}

}  // namespace

TEST_CASE("a shopping list names each cloth as it is bought") {
  const auto lists = shopping_lists(with_sources(), 0);
  CHECK(row(list_named(lists, "bundles"), 0) ==
        "2 | 2½ in strip bundle | 2 strips each of Ink | blue");
  const List& cloth = list_named(lists, "cloth");
  REQUIRE(cloth.rows.size() == 2);
  CHECK(row(cloth, 0) == "1 1/8 yd | 105 cm | Cream, \"light\" | 42 in | blocks, border");
  CHECK(row(cloth, 1) == "2 fat quarters |  | Ink | blue | 18 in x 21 in | blocks");
  for (const List& list : lists) CHECK(list.to_tick);
}

TEST_CASE("scraps are not bought") {
  Plan plan = with_sources();
  plan.checked.pattern.fabrics[1].sources[1].kind = ClothSource::Kind::scrap;
  const auto lists = shopping_lists(plan, 0);
  CHECK(list_named(lists, "cloth").rows.size() == 1);
}

TEST_CASE("backing is listed in both ways that it can be bought") {
  const auto lists = shopping_lists(with_sources(), 0);
  const List& backing = list_named(lists, "backing");
  REQUIRE(backing.rows.size() == 2);
  CHECK(row(backing, 0) == "3 1/2 yd | 315 cm | Backing | 42 in | 2 panels, seams up and down");
  CHECK(cell(backing, 1, "buy") == Cell("1 3/4 yd"));
  CHECK(cell(backing, 1, "measuring") == Cell("108 in"));
  CHECK(cell(backing, 1, "made as") == Cell("one piece, no seam"));
  CHECK(cell(list_named(lists, "batting"), 0, "buy") == Cell("72 × 90 in"));
  const auto without = shopping_lists(with_sources(), 1);
  CHECK_FALSE(has_list(without, "backing"));
  CHECK_FALSE(has_list(without, "batting"));
}

TEST_CASE("notions follow from the work") {
  Plan plan = with_sources();
  const auto words = [&](std::size_t size) {
    const auto lists = shopping_lists(plan, size);
    std::string all;
    const List& notions = list_named(lists, "notions");
    for (std::size_t n = 0; n < notions.rows.size(); ++n) all += row(notions, n) + '\n';
    return all;
  };
  CHECK(words(0).find("template sheets") == std::string::npos);
  CHECK(words(0).find("basting") != std::string::npos);
  CHECK(words(1).find("basting") == std::string::npos);
  plan.quantities.sizes[1].pieces[0].cut.method = CutMethod::templated;
  CHECK(words(1).find("template sheets") != std::string::npos);
}

TEST_CASE("lists to tick have boxes for people and none for programs") {
  const Plan plan = with_sources();
  const std::vector<ListGroup> groups{{std::size_t{0}, "", shopping_lists(plan, 0)}};
  const Pattern& pattern = plan.pattern();
  const std::string text = print_lists(pattern, groups, ListFormat::text);
  CHECK(text.find("cloth\n       buy             metric  fabric") != std::string::npos);
  CHECK(text.find("\n  [ ]  1 1/8 yd        105 cm  Cream, \"light\"") != std::string::npos);
  CHECK(text.find(" \n") == std::string::npos);
  const std::string markdown = print_lists(pattern, groups, ListFormat::markdown);
  CHECK(markdown.find("| | buy | metric |") != std::string::npos);
  CHECK(markdown.find("| ☐ | 1 1/8 yd | 105 cm |") != std::string::npos);
  const auto json = nlohmann::json::parse(print_lists(pattern, groups, ListFormat::json));
  CHECK(json["sizes"][0]["cloth"][0]["buy"] == "1 1/8 yd");
  CHECK(json["sizes"][0]["cloth"][0].size() == 5);
  const std::string csv = print_lists(pattern, groups, ListFormat::csv);
  CHECK(csv.find("lap,cloth,") != std::string::npos);
  CHECK(csv.find("[ ]") == std::string::npos);
}
