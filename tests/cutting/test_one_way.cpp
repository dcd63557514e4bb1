// Pieces of a directional print: kinds counted apart, cuts that give several kinds shared.

#include "cutting/one_way.h"

#include "support/plan.h"

using namespace dogear;
using namespace dogear::test;

namespace {

Planned plan_print(const std::string& block, bool directional, const std::string& setting) {
  MemoryFiles files;
  files.content["p/blocks/b.yaml"] = block;
  files.content["p/pattern.yaml"] =
      std::string("title: T\ndesigner: D\nfabrics:\n  red: {colour: \"#aa2222\", directional: ") +
      (directional ? "yes" : "no") +
      "}\n  blue: {colour: \"#222266\"}\n"
      "rulers:\n  sixty: {angle: 60, tip: blunt, lowest: 1 in, highest: 8 1/2 in, step: 1/2 in}\n"
      "  straight: {angle: 90, highest: 24 in}\n"
      "blocks: {b: {block: b}}\nsizes:\n  one: {" +
      setting + "}\n";
  return plan("p", files);
}

std::string triangles(const std::string& left, const std::string& right) {
  return "block: B\ngrid: square\nunit: 3 in\nroles: [red, blue]\nunits:\n"
         "  a: {shape: half-square triangle 1, fabric: red}\n"
         "  c: {shape: half-square triangle 1, fabric: red, grain: 180}\n"
         "  b: {shape: half-square triangle 1, fabric: blue}\n"
         "  up:\n    shape: square 1\n    place:\n"
         "      - {unit: a, at: [0, 0]}\n      - {unit: b turned, at: [0, 0]}\n"
         "  down:\n    shape: square 1\n    place:\n"
         "      - {unit: b, at: [0, 0]}\n      - {unit: c turned, at: [0, 0]}\n"
         "row: [" +
         left + ", up, " + right + "]\n";
}

const StripPlan& strip_of(const Planned& p, FabricId fabric) {
  for (const StripPlan& s : p.quantities->sizes[0].strips) {
    if (s.fabric == fabric) return s;
  }
  FAIL("no strip of the fabric");
  return p.quantities->sizes[0].strips.front();
}

std::string hexagon(const std::string& bottom) {
  return "block: B\ngrid: triangle\nunit: 1 in\nroles: [red, blue]\nunits:\n"
         "  a: {shape: triangle 4, fabric: red}\n"
         "  c: {shape: triangle 4, fabric: red, grain: 180}\n"
         "  top: {row: [a, c turned, a]}\n"
         "  low: {row: [" +
         bottom +
         "]}\n"
         "stack: [top, low turned]\n";
}

const std::string columns =
    "setting: hexagon columns, columns: [[b, b], [b], [b, b]], ground: blue";

}  // namespace

TEST_CASE("half-square triangles of a directional print: a square gives one of each kind") {
  const Planned p =
      plan_print(triangles("up", "down"), true, "setting: rows, rows: [[b, b], [b, b]]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const StripPlan& strip = strip_of(p, 0);
  const Run& run = strip.runs.front();
  // 8 of one kind, 4 of the other: eight squares, four of them give both.
  CHECK(run.count == 8);
  REQUIRE(run.also.size() == 1);
  CHECK(run.also[0].second == 4);
  CHECK(run.length == Fraction::of(8 * 31, 8));
  // Cut either way up six squares would do.
  const Planned plain =
      plan_print(triangles("up", "down"), false, "setting: rows, rows: [[b, b], [b, b]]");
  REQUIRE(plain.quantities);
  CHECK(strip_of(plain, 0).runs.front().count == 12);
  CHECK(strip_of(plain, 0).runs.front().length == Fraction::of(6 * 31, 8));
}

TEST_CASE("half-square triangles of one kind alone waste the other half of each square") {
  const Planned p = plan_print(triangles("up", "up"), true, "setting: rows, rows: [[b], [b]]");
  INFO(p.errors());
  REQUIRE(p.quantities);
  const Run& run = strip_of(p, 0).runs.front();
  CHECK(run.count == 6);
  CHECK(run.also.empty());
  CHECK(run.length == Fraction::of(6 * 31, 8));
}

TEST_CASE("60° triangles with tips up and down, as many of each, take the strip of any print") {
  const Planned p = plan_print(hexagon("c, a turned, c"), true, columns);
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK_FALSE(p.has("D356"));
  long long up = 0, down = 0;
  double length = 0;
  for (const StripPlan& s : p.quantities->sizes[0].strips) {
    if (s.fabric != 0) continue;
    for (const Run& run : s.runs) {
      if (run.kind != Run::Kind::piece) continue;
      CHECK(run.shared);
      up += run.count * s.times;
      for (const auto& other : run.also) down += other.second * s.times;
      length += run.length.approx() * static_cast<double>(s.times);
    }
  }
  CHECK(up == 15);
  CHECK(down == 15);
  const Planned plain = plan_print(hexagon("c, a turned, c"), false, columns);
  REQUIRE(plain.quantities);
  double plain_length = 0;
  for (const StripPlan& s : plain.quantities->sizes[0].strips) {
    if (s.fabric != 0) continue;
    for (const Run& run : s.runs) {
      if (run.kind == Run::Kind::piece) {
        plain_length += run.length.approx() * static_cast<double>(s.times);
      }
    }
  }
  // One slanted end more a strip at the most.
  CHECK(length == Approx(plain_length).margin(3));
}

TEST_CASE("what one kind needs beyond the other is cut without turning the ruler") {
  const Planned p = plan_print(hexagon("a, c turned, a"), true, columns);
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(p.has("D356"));
  long long shared = 0, alone = 0;
  for (const StripPlan& s : p.quantities->sizes[0].strips) {
    for (const Run& run : s.runs) {
      if (s.fabric != 0 || run.kind != Run::Kind::piece) continue;
      (run.shared ? shared : alone) += run.count * s.times;
    }
  }
  CHECK(shared == 10);
  CHECK(alone == 10);
}
