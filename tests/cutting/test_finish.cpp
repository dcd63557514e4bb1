// Binding, backing, batting and hanging sleeve; the source of each outside fact stands beside it.

#include <catch2/catch.hpp>
#include <set>

#include "cutting/finish.h"
#include "support/plan.h"
#include "support/trade.h"

using namespace dogear;
using dogear::test::f;

namespace {

const Exact quarter = Exact::ratio(1, 4);

BindingDef on_the_bias(const Exact& strip) {
  BindingDef def;
  def.strip = strip;
  def.bias = true;
  return def;
}

BackingDef backing(const Exact& wide) {
  BackingDef def;
  def.name = "Backing";
  def.width = 42;
  def.extra = 8;
  if (wide.sign() > 0) def.wide = wide;
  return def;
}

}  // namespace

TEST_CASE("a square of 23 gives 250 in of 2 in bias binding") {
  // Mydecozo: √(250 × 2) = 22.36, up to 23; its seams take no more than the rounding gives.
  CHECK(bias_square(Exact(250), Exact(2), Exact(0)) == 23);
  CHECK(bias_square(Exact(250), Exact(2), quarter) == 23);
}

TEST_CASE("a bias square is the smallest that gives the length, its two seams taken off") {
  // computed: each seam takes two allowances along a side.
  for (int length = 40; length < 600; length += 7) {
    for (const Exact& strip : {Exact(2), Exact::ratio(9, 4), Exact::ratio(5, 2)}) {
      const long long side = bias_square(Exact(length), strip, quarter);
      const auto gives = [&](long long s) { return Exact(s) * (Exact(s) - Exact(1)) / strip; };
      CHECK(gives(side) >= Exact(length));
      CHECK(gives(side - 1) < Exact(length));
    }
  }
}

TEST_CASE("bias binding comes from as few squares as the cloth is wide enough for") {
  // 2 (50 + 62) + 24 = 248 in; 248 × 2 1/2 = 620 = less than 26 × 25.
  const Binding small = plan_binding(on_the_bias(Exact::ratio(5, 2)), Exact(50), Exact(62), 42);
  CHECK(small.square == f(26));
  CHECK(small.squares == 1);
  CHECK(small.strips == 0);
  CHECK(small.length == f(260));
  // 2 (100 + 110) + 24 = 444 in; of 1110 in² one square of 34 gives 1122.
  const Binding large = plan_binding(on_the_bias(Exact::ratio(5, 2)), Exact(100), Exact(110), 42);
  CHECK(large.square == f(34));
  CHECK(large.squares == 1);
  // The same from cloth 30 in wide: two squares of 25 (600 in² of 555).
  const Binding two = plan_binding(on_the_bias(Exact::ratio(5, 2)), Exact(100), Exact(110), 30);
  CHECK(two.squares == 2);
  CHECK(two.square == f(25));
  CHECK(Exact(two.length) >= Exact(444));
}

TEST_CASE("straight binding stays as it is where nothing is said of the bias") {
  // Quick Tips, 2011: (2 (60 + 72) + 24) / 40 = 7.2 strips.
  BindingDef def;
  def.strip = Exact::ratio(5, 2);
  const Binding b = plan_binding(def, Exact(60), Exact(72), Exact(42));
  CHECK(b.strips == 8);
  CHECK_FALSE(b.square);
}

TEST_CASE("a backing as wide as the cloth needs no seam") {
  // 34 + 8 = 42 in across cloth of 42.
  const Backing whole = plan_backing(backing(0), Exact(34), Exact(60));
  CHECK(whole.panels == 1);
  CHECK(whole.seams_vertical);
  CHECK(whole.yards == f(2));  // 68 in
  // Turned, the shorter side lies across the cloth.
  const Backing turned = plan_backing(backing(0), Exact(60), Exact(34));
  CHECK(turned.panels == 1);
  CHECK_FALSE(turned.seams_vertical);
  CHECK(turned.yards == f(2));
}

TEST_CASE("of ways that cost the same, the backing with fewer seams") {
  // computed: 90 × 45 from 46: one panel down 45 × 2 = 90 in, one across 90 in.
  BackingDef def = backing(0);
  def.width = 46;
  const Backing b = plan_backing(def, Exact(82), Exact(37));
  CHECK(b.panels == 1);
  CHECK(b.yards == f(5, 2));
}

TEST_CASE("wide cloth is quoted beside: 72 x 90 from cloth 108 in wide has no seam") {
  // computed: 80 in of it where 42 in cloth takes 5 1/2 yd.
  const Backing b = plan_backing(backing(108), Exact(72), Exact(90));
  CHECK(b.yards == f(11, 2));
  REQUIRE(b.wide);
  CHECK(*b.wide == f(108));
  CHECK(b.wide_panels == 1);
  CHECK(b.wide_yards == f(9, 4));  // 80 in
  CHECK(b.wide_centimetres == 205);
  // A king's top of 110 in each way needs two panels even so.
  CHECK(plan_backing(backing(108), Exact(110), Exact(110)).wide_panels == 2);
}

TEST_CASE("a hanging sleeve: twice its depth and allowances, an inch less than the width") {
  // common practice: a strip of 8 1/2 in for a tube of 4 in.
  const Sleeve s = plan_sleeve({0, Exact(4), {}}, Exact(50), quarter);
  CHECK(s.strip == f(17, 2));
  CHECK(s.length == f(49));
  CHECK(s.finished == f(4));
}

TEST_CASE("the sleeve and the squares of bias binding are part of the cloth") {
  const std::string block =
      "block: B\ngrid: square\nunit: 5 in\nroles: [l]\nshape: square 2\nunits:\n"
      "  a: {shape: rectangle 1 x 2, fabric: l}\nrow: [a, a]\n";
  const auto with = [&](const std::string& more) {
    auto p = test::plan_block(block, "l: grey", "", more);
    INFO(p.errors());
    REQUIRE(p.quantities);
    return p;
  };
  const auto plain = with("");
  const auto sleeve = with(", hanging sleeve: {fabric: red, depth: 2 in}");
  const auto& need = sleeve.quantities->sizes[0].fabrics;
  REQUIRE(need.size() == 2);
  CHECK(need[1].uses == std::vector<std::string>{"hanging sleeve"});
  CHECK(need[1].length == Exact::ratio(9, 2));
  CHECK(plain.quantities->sizes[0].fabrics.size() == 1);
  // 2 (10 + 10) + 24 = 64 in of 2 1/2: a square of 14 gives 182 in².
  const auto bias = with(", binding: {fabric: red, cut: on the bias}");
  const auto& of_bias = bias.quantities->sizes[0];
  CHECK(of_bias.binding->square == f(14));
  CHECK(of_bias.fabrics[1].length == Exact(14));
}

TEST_CASE("binding goes round and 10 in further, however much its joins take") {
  // common practice: 10 in for the corners and the last join.
  for (const int strip : {2, 3, 4, 6}) {
    for (const int cloth : {12, 16, 21, 42}) {
      for (const int side : {20, 54, 108}) {
        BindingDef def;
        def.strip = strip;
        const Binding b = plan_binding(def, Exact(side), Exact(side), Exact(cloth));
        CAPTURE(strip, cloth, side);
        CHECK(Exact(b.length) >= Exact(4 * side + 10));
      }
    }
  }
}

TEST_CASE("backing is rounded up in the steps of all other cloth") {
  Allowances rounding;
  rounding.yard_parts = 4;
  rounding.centimetre_step = 10;
  // 60 x 72 and 8 in: 136 in across, 3 7/8 yd in eighths; 345.4 cm.
  const Backing b = plan_backing(backing(108), Exact(60), Exact(72), rounding);
  CHECK(b.yards == f(4));
  CHECK(b.centimetres == 350);
  CHECK(b.wide_yards == f(2));  // 68 in, 1 7/8 yd in eighths
  CHECK(b.wide_centimetres == 180);
}

TEST_CASE("cloth whose width lies between two eighths gives whole strips all the same") {
  // 110 cm = 43.307 in, and 1/2 in for the ends: strips of 42 3/4 in.
  const std::string block =
      "block: B\ngrid: square\nunit: 25 in\nroles: [l]\nshape: square 2\nunits:\n"
      "  a: {shape: rectangle 1 x 2, fabric: l}\nrow: [a, a]\n";
  const auto p = test::plan_block(
      block, "l: grey", "usable width: 110 cm\n",
      ", binding: {fabric: red}, borders: [{fabric: blue, width: 2 in}], hanging sleeve: {fabric: "
      "red}");
  INFO(p.errors());
  REQUIRE(p.quantities);
  std::set<std::string> whole;
  for (const StripPlan& strip : p.quantities->sizes[0].strips) {
    if (strip.runs[0].length == f(171, 4)) whole.insert(strip.purpose);
  }
  CHECK(whole == std::set<std::string>{"binding", "border", "sleeve"});
}
