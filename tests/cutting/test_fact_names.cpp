#include <catch2/catch.hpp>

#include "cutting/fact_names.h"

using namespace dogear;

TEST_CASE("names of cuts are taken apart") {
  const FactName angled = read_fact_name("cut.brass.1-1/2.60-trapezoid-at-3-1/2");
  CHECK(angled.kind == FactKind::piece);
  CHECK(angled.subject == "brass");
  CHECK(angled.unit == "60-trapezoid");
  CHECK(shape_of_slug(angled.unit) == "60° trapezoid");
  CHECK(angled.reading);
  CHECK(angled.measures == std::vector<Fraction>{Fraction::of(3, 2), Fraction::of(7, 2)});

  const FactName reversed = read_fact_name("cut.sky.4-1/2.half-triangle-3.reversed");
  CHECK(reversed.part == "reversed");
  CHECK(reversed.group == "cut.sky.4-1/2.half-triangle-3");
  CHECK(reversed.measures == std::vector<Fraction>{Fraction::of(9, 2), Fraction::of(3, 1)});
  CHECK_FALSE(reversed.reading);

  const FactName halved = read_fact_name("cut.coral.3-7/8.half-square-triangle");
  CHECK(halved.measures == std::vector<Fraction>{Fraction::of(31, 8)});
  CHECK(shape_of_slug(halved.unit) == "half-square triangle");

  const FactName template_cut = read_fact_name("cut.coral.3.wedge-5/8-template");
  CHECK(template_cut.unit == "wedge");
  CHECK(template_cut.measures == std::vector<Fraction>{Fraction::of(3, 1), Fraction::of(5, 8)});
}

TEST_CASE("names that differ in a measure alone are alike") {
  const auto like = [](const char* a, const char* b) {
    return read_fact_name(a).likeness == read_fact_name(b).likeness;
  };
  CHECK(like("cut.ink.2-1/2.square-2-1/2", "cut.ink.3.square-3"));
  CHECK_FALSE(like("cut.ink.2-1/2.square-2-1/2", "cut.red.2-1/2.square-2-1/2"));
  CHECK_FALSE(like("cut.ink.2-1/2.square-2-1/2", "cut.ink.2-1/2.rectangle-2-1/2"));
  CHECK_FALSE(like("cut.ink.2.wedge-3", "cut.ink.2.wedge-3-template"));
  CHECK(like("strips.ink.2-1/2", "strips.ink.4"));
  CHECK(like("strip-set.brass-2-1/2.kelp-2-1/2.up.sets", "strip-set.brass-2.kelp-3.up.sets"));
  CHECK_FALSE(like("strip-set.brass-2.kelp-2.up.sets", "strip-set.brass-2.kelp-2.down.sets"));
}

TEST_CASE("a strip set names its fabrics, also those that end in a number") {
  const FactName set = read_fact_name("strip-set.ink-2-2-1/2.kelp-3.up.shapes");
  CHECK(set.subject == "ink-2 + kelp");
  CHECK(set.measures == std::vector<Fraction>{Fraction::of(5, 2), Fraction::of(3, 1)});
  CHECK(set.unit == "up");
  CHECK(set.part == "shapes");
}

TEST_CASE("odd names are of no kind, and a group of their own") {
  for (const char* name : {"", ".", "cut", "cut.ink", "strip-set.a.b", "fabric", "fabric.ink",
                           "size", "make.lantern", "nonsense.of.any.kind", "....", "press"}) {
    const FactName f = read_fact_name(name);
    INFO(name);
    CHECK(f.group == name);
  }
  CHECK(read_fact_name("cut.ink.0/0.x-1/0").measures.empty());
  CHECK(read_fact_name("fabric.ink.cut-length").kind == FactKind::of_fabric);
  CHECK(split_size("lap fabric.ink.cloth").size == "lap");
  CHECK(split_size("lap").name == "lap");
  CHECK(shape_of_slug("") == "");
}
