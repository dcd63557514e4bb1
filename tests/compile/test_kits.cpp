#include "compile/kits.h"

#include <nlohmann/json.hpp>
#include <numeric>

#include "compile/bolts.h"
#include "rows.h"
#include "small_plan.h"

using namespace dogear;
using namespace dogear::test;

namespace {

Plan yardage_plan() {
  Plan plan = small_plan();
  plan.checked.pattern.usable_width = 42;
  plan.checked.pattern.edition = "1";
  return plan;
}

std::vector<ListGroup> kits(const Plan& plan, const std::string& text) {
  std::string wrong;
  const auto orders = read_kit_orders(plan.pattern(), {0}, text, wrong);
  INFO(wrong);
  REQUIRE(orders);
  Diagnostics d;
  const auto groups = kit_lists(plan, *orders, d);
  REQUIRE(groups);
  return *groups;
}

std::string refused(const std::string& text) {
  std::string wrong;
  CHECK_FALSE(read_kit_orders(small_plan().pattern(), {0, 1}, text, wrong));
  return wrong;
}

}  // namespace

TEST_CASE("a bolt of 15 yd gives 13 kits of 1 1/8 yd") {  // computed
  const auto groups = kits(yardage_plan(), "13");
  REQUIRE(groups.size() == 2);
  CHECK_FALSE(groups[0].size);
  const List& bolts = list_named(groups[0].lists, "bolts");
  CHECK(row(bolts, 0) == "Cream, \"light\" | 42 in | 1 | 1 | 14 5/8 yd | 15 yd");
  CHECK(row(list_named(groups[0].lists, "bolt cuts"), 0) ==
        "Cream, \"light\" | 1 | 13 of 1 1/8 yd | 3/8 yd");
  const auto more = kits(yardage_plan(), "14");
  CHECK(cell(list_named(more[0].lists, "bolts"), 0, "bolts") == Cell(2LL));
  CHECK(cell(list_named(more[0].lists, "bolts"), 0, "fewest possible") == Cell(2LL));
  CHECK(list_named(more[0].lists, "bolt cuts").rows.size() == 2);
}

TEST_CASE("bolts give every cut and no more than they hold") {
  // Whole and half yards of several sizes of kit, in amounts that a small generator makes up.
  std::uint32_t state = 7;
  const auto below = [&](std::uint32_t n) {
    state = state * 1664525U + 1013904223U;
    return (state >> 8) % n;
  };
  for (int round = 0; round < 300; ++round) {
    const Exact bolt(9 * (20 + below(60)));
    std::vector<BoltDemand> demands;
    Exact all = 0;
    for (std::uint32_t k = 0; k < 1 + below(5); ++k) {
      demands.push_back({Exact::ratio(9 * (1 + below(40)), 2), 1 + below(40)});
      if (demands.back().inches > bolt) demands.back().inches = bolt;
      all += demands.back().inches * Exact(demands.back().cuts);
    }
    const BoltCutting cutting = cut_bolts(demands, bolt);
    std::vector<long long> made(demands.size(), 0);
    long long bolts = 0;
    for (const BoltPlan& plan : cutting.plans) {
      Exact used = 0;
      for (const auto& [i, n] : plan.cuts) {
        made[i] += n * plan.times;
        used += demands[i].inches * Exact(n);
      }
      CHECK(used + plan.remnant == bolt);
      CHECK(plan.remnant.sign() >= 0);
      bolts += plan.times;
    }
    for (std::size_t i = 0; i < demands.size(); ++i) CHECK(made[i] == demands[i].cuts);
    CHECK(bolts == cutting.bolts);
    CHECK(cutting.least <= cutting.bolts);
    CHECK(Exact(cutting.least) * bolt >= all);
    if (demands.size() == 1) CHECK(cutting.least == cutting.bolts);
  }
}

TEST_CASE("the fewest bolts are more than the cloth alone asks for where cuts are long") {
  // Four cuts of 8 yd from bolts of 15 yd: 32 yd, yet each lies on a bolt of its own.
  CHECK(cut_bolts({{Exact(288), 4}}, Exact(540)).least == 4);
  // Two of 9 and two of 7 yd: a 9 leaves 6, so the sevens share the third bolt.
  const BoltCutting both = cut_bolts({{Exact(324), 2}, {Exact(252), 2}}, Exact(540));
  CHECK(both.bolts == 3);
  CHECK(both.least == 3);
}

TEST_CASE("sizes share a bolt, and each has a sheet for its box") {
  Plan plan = yardage_plan();
  plan.quantities.sizes[1].fabrics[0].yards = Fraction::of(3, 4);
  const auto groups = kits(plan, "lap=12, wall=2");
  REQUIRE(groups.size() == 3);
  CHECK(row(list_named(groups[0].lists, "kits"), 1) == "Wall hanging | 2");
  CHECK(row(list_named(groups[0].lists, "bolt cuts"), 0) ==
        "Cream, \"light\" | 1 | 12 of 1 1/8 yd (Lap quilt); 2 of 3/4 yd (Wall hanging) | none");
  CHECK(row(list_named(groups[2].lists, "kit"), 0) ==
        "1 | booklet Small, Wall hanging, edition 1 | ");
  CHECK(row(list_named(groups[2].lists, "kit"), 1) == "3/4 yd | Cream, \"light\" | blocks, border");
  CHECK_FALSE(has_list(groups[2].lists, "background and binding add-on"));
}

TEST_CASE("the bundle kit and its add-on are apart") {
  Plan plan = yardage_plan();
  Bundle bundle;
  bundle.name = "2½ in strip bundle";
  bundle.each = 2;
  bundle.fabrics = {1};
  plan.checked.pattern.bundles = {bundle};
  plan.quantities.sizes[0].bundles = {{0, 1, 3, 4}};
  const auto groups = kits(plan, "6");
  CHECK(row(list_named(groups[0].lists, "bundles"), 0) ==
        "2½ in strip bundle | 6 | 2 strips each of Ink | blue");
  const List& kit = list_named(groups[1].lists, "bundle kit");
  REQUIRE(kit.rows.size() == 2);
  CHECK(cell(kit, 1, "what") == Cell("2½ in strip bundle"));
  const List& add_on = list_named(groups[1].lists, "background and binding add-on");
  REQUIRE(add_on.rows.size() == 1);
  CHECK(cell(add_on, 0, "amount") == Cell("1 1/8 yd"));
  CHECK_FALSE(has_list(groups[1].lists, "kit"));
}

TEST_CASE("fat quarters of kits are cut from half yards of a bolt") {  // Annie's, tutorial guide
  Plan plan = yardage_plan();
  ClothSource quarters;
  quarters.kind = ClothSource::Kind::fat_quarter;
  quarters.height = 18;
  quarters.length = 21;
  plan.checked.pattern.fabrics[1].sources = {quarters};
  plan.quantities.sizes[0].fabrics[1].sources = {{0, 3, 3}};
  const auto groups = kits(plan, "5");  // 15 fat quarters: 8 half yards
  const List& cuts = list_named(groups[0].lists, "bolt cuts");
  CHECK(row(cuts, 1) == "Ink | blue | 1 | 8 of 1/2 yd, halved into fat quarters | 11 yd");
  CHECK(row(list_named(groups[1].lists, "kit"), 2) == "3 fat quarters | Ink | blue | blocks");
}

TEST_CASE("half a yard is halved for two sizes") {
  Plan plan = yardage_plan();
  ClothSource quarters;
  quarters.kind = ClothSource::Kind::fat_quarter;
  quarters.height = 18;
  quarters.length = 21;
  plan.checked.pattern.fabrics[1].sources = {quarters};
  plan.quantities.sizes[0].fabrics[1].sources = {{0, 3, 3}};
  plan.quantities.sizes[1].fabrics[1].sources = {{0, 1, 1}};
  const auto groups = kits(plan, "lap=1,wall=5");  // 3 + 5 fat quarters: 4 half yards
  CHECK(cell(list_named(groups[0].lists, "bolt cuts"), 1, "cut from each") ==
        Cell("4 of 1/2 yd, halved into fat quarters (Lap quilt, Wall hanging)"));
}

TEST_CASE("backing of kits is planned by itself, in each width it comes in") {
  Plan plan = yardage_plan();
  plan.quantities.sizes[0].backing = two_way_backing();
  const auto groups = kits(plan, "5");
  const List& bolts = list_named(groups[0].lists, "bolts");
  REQUIRE(bolts.rows.size() == 3);
  CHECK(row(bolts, 1) == "Backing | 42 in | 2 | 2 | 17 1/2 yd | 15 yd");
  CHECK(cell(bolts, 2, "measuring") == Cell("108 in"));
  CHECK(cell(bolts, 2, "bolts") == Cell(1LL));
  CHECK(list_named(groups[1].lists, "backing add-on").rows.size() == 2);
}

TEST_CASE("a kit that needs more than a bolt in one length is refused") {
  Plan plan = yardage_plan();
  plan.checked.pattern.bolt = 36;
  Diagnostics d;
  CHECK_FALSE(kit_lists(plan, {{0, 2}}, d));
  REQUIRE(d.all().size() == 1);
  CHECK(d.all()[0].code == "D679");
  CHECK(d.all()[0].message ==
        "a kit for Lap quilt needs 1 1/8 yd of Cream, \"light\" in one length, and a bolt holds "
        "1 yd");
  CHECK(d.all()[0].hints.at(0) == "say how much a bolt holds: `bolt: 2 yd`");
}

TEST_CASE("kits are ordered by number or by size") {
  std::string wrong;
  const Pattern pattern = small_plan().pattern();
  const auto all = read_kit_orders(pattern, {0, 1}, "12", wrong);
  REQUIRE(all);
  CHECK(all->size() == 2);
  const auto one = read_kit_orders(pattern, {0, 1}, "wall=6", wrong);
  REQUIRE(one);
  REQUIRE(one->size() == 1);
  CHECK((*one)[0].size == 1);
  CHECK((*one)[0].kits == 6);
  CHECK(refused("none").find("lap=12") != std::string::npos);
  CHECK(refused("0").find("1 to 10000") != std::string::npos);
  CHECK(refused("12.5").find("Write a number") != std::string::npos);
  CHECK(refused("king=2").find("known: lap, wall") != std::string::npos);
  CHECK(refused("lap=-2").find("not a whole number") != std::string::npos);
  CHECK(refused("lap=2,lap=3").find("twice") != std::string::npos);
  CHECK(refused("lap=2,").find("Write a number") != std::string::npos);
}

TEST_CASE("kits as JSON: what is for all stands beside the sizes") {
  const Plan plan = yardage_plan();
  const auto json =
      nlohmann::json::parse(print_lists(plan.pattern(), kits(plan, "13"), ListFormat::json));
  CHECK(json["bolts"][0]["bolts"] == 1);
  CHECK(json["bolt_cuts"][0]["remnant"] == "3/8 yd");
  CHECK(json["sizes"][0]["size"] == "lap");
  CHECK(json["sizes"][0]["kit"][1]["amount"] == "1 1/8 yd");
  CHECK_FALSE(json.contains("bundles"));
}
