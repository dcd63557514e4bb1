// What changed, in the buyer's words and order.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "compile/compare.h"
#include "compile/compare_causes.h"
#include "diag/print.h"
#include "support/pattern_files.h"
#include "support/project.h"

using namespace dogear;

namespace {

ComparedSide ledger(const std::string& name, const std::string& text) {
  std::string error;
  const auto side = side_of_ledger(name, text, error);
  INFO(error);
  REQUIRE(side);
  return *side;
}

Comparison compared(const std::string& was, const std::string& now) {
  return compare_sides(ledger("old.txt", was), ledger("new.txt", now));
}

// "what: was -> now (difference)" of each change of a size.
std::vector<std::string> told(const SizeComparison& size) {
  std::vector<std::string> out;
  for (const Change& c : size.changes) {
    out.push_back(c.what + ": " + c.was + " -> " + c.now +
                  (c.difference.empty() ? "" : " (" + c.difference + ")"));
  }
  return out;
}

struct Shipped {
  test::PatternFiles files;
  std::string name;
  explicit Shipped(const std::string& pattern) : name(pattern) {
    files.add(test::project_folder() + "/patterns/" + pattern, pattern);
  }
  Shipped& change(const std::string& file, const std::string& before, const std::string& after) {
    std::string& text = files.content.at(name + '/' + file);
    const auto at = text.find(before);
    REQUIRE(at != std::string::npos);
    REQUIRE(text.find(before, at + 1) == std::string::npos);
    text.replace(at, before.size(), after);
    return *this;
  }
  ComparedSide side() const {
    Session session(files);
    const auto side = side_of_pattern(name, name, session);
    INFO(print_for_people(session.diagnostics, session.sources, false));
    REQUIRE(side);
    return *side;
  }
};

Comparison with_causes(const Shipped& was, const Shipped& now) {
  const ComparedSide before = was.side(), after = now.side();
  Comparison c = compare_sides(before, after);
  find_causes(c, before, after);
  return c;
}

const Change& change_of(const Comparison& c, const std::string& what) {
  for (const SizeComparison& size : c.sizes) {
    for (const Change& change : size.changes) {
      if (change.what == what) return change;
    }
  }
  FAIL("nothing is told of " << what);
  return c.sizes.front().changes.front();
}

}  // namespace

TEST_CASE("the largest effect on the buyer is told first") {
  const std::string was =
      "lap backing.cloth = 3 yd\nlap batting.package = 45 × 60 in\nlap blocks.count = 12\n"
      "lap cut.ink.2-1/2.square-2-1/2 = 24\nlap fabric.ink.cloth = 1 1/2 yd\n"
      "lap fabric.ink.left-over = 2 x 3 in\nlap fabric.red.cloth = 1 yd\n"
      "lap make.star.wing = 8\nlap ruler.sixty = 60° ruler\nlap size.height = 48 in\n"
      "lap size.width = 45 in\nlap strips.ink.2-1/2 = 2\nlap fabric.sky.cloth = 2 yd\n";
  const std::string now =
      "lap backing.cloth = 3 1/8 yd\nlap batting.package = 72 × 90 in\nlap blocks.count = 13\n"
      "lap cut.ink.2-1/2.square-2-1/2 = 30\nlap fabric.ink.cloth = 1 7/8 yd\n"
      "lap fabric.ink.left-over = 2 x 4 in\nlap fabric.red.cloth = 7/8 yd\n"
      "lap make.star.wing = 9\nlap ruler.straight = 6 in ruler\nlap size.height = 50 in\n"
      "lap size.width = 45 in\nlap strips.ink.2-1/2 = 3\nlap fabric.rust.cloth = 1/4 yd\n";
  const Comparison c = compared(was, now);
  REQUIRE(c.sizes.size() == 1);
  CHECK(told(c.sizes[0]) == std::vector<std::string>{
                                "ink: cloth to buy: 1 1/2 yd -> 1 7/8 yd (+3/8 yd)",
                                "rust: cloth to buy:  -> 1/4 yd (+1/4 yd)",
                                "Backing: cloth to buy: 3 yd -> 3 1/8 yd (+1/8 yd)",
                                "Batting: package: 45 × 60 in -> 72 × 90 in",
                                "Ruler:  -> 6 in ruler",
                                "Finished size: 45 × 48 in -> 45 × 50 in",
                                "sky: cloth to buy: 2 yd ->  (-2 yd)",
                                "red: cloth to buy: 1 yd -> 7/8 yd (-1/8 yd)",
                                "Ruler: 60° ruler -> ",
                                "Blocks in all: 12 -> 13 (+1)",
                                "ink: square from 2 1/2 in strips, 2 1/2 in long: 24 -> 30 (+6)",
                                "ink: strips 2 1/2 in high: 2 -> 3 (+1)",
                                "star, wing: make: 8 -> 9 (+1)",
                                "ink: left over: 2 x 3 in -> 2 x 4 in",
                            });
}

TEST_CASE("a measure that changed is one change, told with both measures") {
  const Comparison c = compared(
      "lap cut.ink.2.square-2 = 24\nlap cut.ink.3.square-3 = 8\nlap cut.ink.5.square-5 = 4\n"
      "lap strips.ink.2 = 3\n",
      "lap cut.ink.2-1/2.square-2-1/2 = 24\nlap cut.ink.5.square-5 = 4\n"
      "lap cut.ink.3-1/2.square-3-1/2 = 10\nlap strips.ink.2-1/2 = 3\n");
  REQUIRE(c.sizes.size() == 1);
  CHECK(told(c.sizes[0]) ==
        std::vector<std::string>{
            "ink: square: 24 from 2 in strips, 2 in long -> 24 from 2 1/2 in strips, 2 1/2 in long",
            "ink: square: 8 from 3 in strips, 3 in long -> 10 from 3 1/2 in strips, 3 1/2 in long "
            "(+2)",
            "ink: strips: 3, 2 in high -> 3, 2 1/2 in high"});
  CHECK(c.sizes[0].changes[0].facts.size() == 2);
}

TEST_CASE("facts that belong together are one change") {
  const Comparison c = compared(
      "lap fabric.ink.cloth = 1 yd\nlap fabric.ink.metric = 90 cm\n"
      "lap binding.strips = 5\nlap binding.length = 200 in\nlap binding.width = 2 1/2 in\n"
      "lap bundle.b.strips = 20\nlap bundle.b.strips-used = 12\nlap bundle.b.bought = 1\n"
      "lap cut.ink.2.kite-3 = 8\nlap cut.ink.2.kite-3.reversed = 4\n",
      "lap fabric.ink.cloth = 1 yd\nlap fabric.ink.metric = 95 cm\n"
      "lap binding.strips = 6\nlap binding.length = 240 in\nlap binding.width = 2 1/2 in\n"
      "lap bundle.b.strips = 20\nlap bundle.b.strips-used = 24\nlap bundle.b.bought = 2\n"
      "lap cut.ink.2.kite-3 = 8\nlap cut.ink.2.kite-3.reversed = 2\n");
  REQUIRE(c.sizes.size() == 1);
  CHECK(told(c.sizes[0]) ==
        std::vector<std::string>{
            "ink: cloth to buy: 1 yd (90 cm) -> 1 yd (95 cm) (+5 cm)",
            "b: used: 12 of 20 strips -> 24 of 20 strips, 2 bundles (+12)",
            "ink: kite from 2 in strips, 3 in long: 8, 4 reversed -> 8, 2 reversed",
            "Binding: 5 strips, 2 1/2 in wide, 200 in long together -> 6 strips, 2 1/2 in wide, "
            "240 in long together (+1)"});
  CHECK(c.sizes[0].changes[1].effect == Effect::more_to_buy);
}

TEST_CASE("sizes that are gone come first, new ones are told as a whole") {
  const Comparison c = compared(
      "lap size.title = Lap\nlap size.width = 40 in\ncot size.title = Cot\n"
      "wall fabric.ink.cloth = 1 yd\n",
      "lap size.title = Lap\nlap size.width = 40 in\nbed size.title = Bed\n"
      "wall fabric.ink.cloth = 2 yd\n");
  REQUIRE(c.sizes.size() == 3);
  CHECK(c.sizes[0].id == "cot");
  CHECK(c.sizes[0].changes.front().effect == Effect::size_gone);
  CHECK(c.sizes[1].id == "wall");
  CHECK(c.sizes[2].title == "Bed");
  CHECK(c.sizes[2].changes.front().effect == Effect::size_new);
  CHECK(c.changes() == 3);
}

TEST_CASE("what is no ledger is refused with its line") {
  std::string error;
  CHECK_FALSE(side_of_ledger("x", "# nothing\n", error));
  CHECK(error == "it holds no quantities");
  CHECK_FALSE(side_of_ledger("x", "lap a.b = 1\nblock: Star\n", error));
  CHECK(error == "line 2 is not written as in a ledger: block: Star");
  CHECK_FALSE(side_of_ledger("x", "one = 2\n", error));
  CHECK_FALSE(side_of_ledger("x", "lap too many = 2\n", error));
  CHECK(side_of_ledger("x", "lap a.b =\n", error));
}

TEST_CASE("a pattern is the same as itself and as its ledger") {
  for (const std::string name : {"harbor-lights", "tide-star", "reed-bed"}) {
    const Shipped pattern(name);
    const ComparedSide side = pattern.side();
    std::string text;
    for (const auto& [fact, value] : side.facts) text += fact + " = " + value + '\n';
    CHECK(compare_sides(side, side).same());
    CHECK(compare_sides(ledger("l", text), side).same());
    CHECK_FALSE(side.steps.empty());
  }
}

TEST_CASE("every fact of the shipped patterns has words of its own") {
  for (const std::string name : {"harbor-lights", "tide-star", "reed-bed"}) {
    for (const auto& [fact, value] : Shipped(name).side().facts) {
      INFO(fact << ": teach it to lib/cutting/fact_names.cpp and lib/compile/compare_words.cpp");
      CHECK(read_fact_name(split_size(fact).name).kind != FactKind::other);
    }
  }
}

TEST_CASE("a month of a schedule is told as a whole") {
  const Comparison c = compared(
      "lap month.2.lantern.count = 4\nlap month.2.title = May\nlap size.width = 45 in\n",
      "lap month.2.assembly = yes\nlap month.2.lantern.count = 4\nlap month.2.title = May\n"
      "lap size.width = 45 in\n");
  REQUIRE(c.sizes.size() == 1);
  CHECK(told(c.sizes[0]) ==
        std::vector<std::string>{
            "Month 2 of the schedule: May: 4 lantern -> May: assembly, 4 lantern"});
}

TEST_CASE("each change has the one line that caused it") {
  Shipped was("tide-star"), now("tide-star");
  now.change("blocks/sawtooth.yaml", "unit: 3 in", "unit: 4 in");
  const Comparison c = with_causes(was, now);
  REQUIRE(c.changes() > 10);
  CHECK(c.tried == 1);
  CHECK(c.untried == 0);
  for (const SizeComparison& size : c.sizes) {
    for (const Change& change : size.changes) {
      INFO(change.what);
      CHECK(change.cause.kind == Cause::Kind::line);
      CHECK(change.cause.file == "blocks/sawtooth.yaml");
      CHECK(change.cause.text == "unit: 4 in");
    }
  }
}

TEST_CASE("two lines are told apart, and what both bring about is of neither") {
  Shipped was("harbor-lights"), now("harbor-lights");
  now.change("pattern.yaml", "      - {fabric: night-sky, width: 4 in}",
             "      - {fabric: night-sky, width: 5 in}")
      .change("pattern.yaml", "sashing: {fabric: quay-stone, width: 2 in, around: yes}",
              "sashing: {fabric: quay-stone, width: 3 in, around: yes}");
  // A comment, and a line of prose, are no cause.
  now.change("pattern.yaml", "# Harbor Lights: twelve", "# Harbor Lights, again: twelve");
  const Comparison c = with_causes(was, now);
  CHECK(c.tried == 2);
  REQUIRE(c.sizes.size() == 2);
  for (const SizeComparison& size : c.sizes) {
    const bool lap = size.id == "lap";
    for (const Change& change : size.changes) {
      INFO(size.id << " " << change.what);
      CHECK(change.cause.kind == Cause::Kind::line);
      CHECK(change.cause.text == (lap ? "- {fabric: night-sky, width: 5 in}"
                                      : "sashing: {fabric: quay-stone, width: 3 in, around: yes}"));
    }
  }
  Shipped both("tide-star");
  both.change("blocks/sawtooth.yaml", "unit: 3 in", "unit: 4 in")
      .change("pattern.yaml", "{fabric: sand, width: 2 in, cornerstones: coral",
              "{fabric: sand, width: 3 in, cornerstones: coral");
  const Comparison two = with_causes(Shipped("tide-star"), both);
  CHECK(change_of(two, "Finished size").cause.kind == Cause::Kind::several);
}

TEST_CASE("neighbouring lines that only work together are named together") {
  Shipped was("harbor-lights"), now("harbor-lights");
  now.change("blocks/gull.yaml",
             "  feather: {shape: triangle 4, bands: [tip 2, wing 2]}\n"
             "  water:   {shape: triangle 4, fabric: water}\n"
             "  half:    {row: [feather, water turned, feather]}\n",
             "  quill:   {shape: triangle 4, bands: [tip 2, wing 2]}\n"
             "  water:   {shape: triangle 4, fabric: water}\n"
             "  half:    {row: [quill, water turned, quill]}\n");
  const Comparison apart = with_causes(was, now);
  CHECK(change_of(apart, "Gull, quill: make").cause.kind == Cause::Kind::several);

  now.change("blocks/gull.yaml", "  water:   {shape: triangle 4, fabric: water}\n",
             "  water:   {shape: triangle 4,  fabric: water}\n");
  const Cause cause = change_of(with_causes(was, now), "Gull, quill: make").cause;
  CHECK(cause.kind == Cause::Kind::lines);
  CHECK(cause.line == 8);
  CHECK(cause.last == 10);
}

TEST_CASE("the order, parts and pressing of steps are compared") {
  Shipped now("tide-star");
  now.change("blocks/sawtooth.yaml", "  top:    {row: [corner, goose turned, corner]}\n",
             "  side:   {row: [corner, goose turned]}\n  top:    {row: [side, corner]}\n");
  const Comparison c = with_causes(Shipped("tide-star"), now);
  const Change& parts = change_of(c, "Coral Star, top: sewn from");
  CHECK(parts.was == "shell square + goose + shell square");
  CHECK(parts.now == "side + shell square");
  CHECK(parts.effect == Effect::steps);
  CHECK(parts.cause.kind == Cause::Kind::lines);
  CHECK(change_of(c, "Coral Star: order of the steps").now ==
        "goose, side, top, across, Coral Star");
  CHECK(change_of(c, "Lagoon Star, side: make").now == "8");

  const Shipped was("harbor-lights");
  Shipped pressed("harbor-lights");
  pressed.change("blocks/gull.yaml", "bands: [tip 2, wing 2]}",
                 "bands: [tip 2, wing 2], press: open}");
  CHECK(change_of(with_causes(was, pressed), "Gull, feather: seams and pressing").now == "open");
}

TEST_CASE("blocks that look otherwise and blocks that lie otherwise are told, with equal cuts") {
  const Shipped was("harbor-lights");
  Shipped turned("harbor-lights");
  turned.change("blocks/wave.yaml", "{row: [crest turned 120, water turned, crest]}",
                "{row: [crest, water turned, crest turned 240]}");
  const Comparison c = with_causes(was, turned);
  const Change& figure = change_of(c, "Wave: figure of the block");
  CHECK(figure.was == "one figure");
  CHECK(figure.now == "another figure");
  CHECK(figure.cause.text == "half:  {row: [crest, water turned, crest turned 240]}");
  for (const SizeComparison& size : c.sizes) {
    for (const Change& change : size.changes) {
      INFO(change.what);
      CHECK(change.effect >= Effect::steps);
    }
  }

  Shipped moved("harbor-lights");
  moved.change("pattern.yaml", "- [sail, wave, star, buoy]", "- [sail, star, wave, buoy]");
  const Comparison of_moved = with_causes(was, moved);
  const Change& layout = change_of(of_moved, "Assembly: layout of the blocks");
  CHECK(layout.was.find(" / sail, wave, star, buoy / ") != std::string::npos);
  CHECK(layout.now.find(" / sail, star, wave, buoy / ") != std::string::npos);

  // A larger block is no other figure.
  Shipped larger("tide-star");
  larger.change("blocks/sawtooth.yaml", "unit: 3 in", "unit: 4 in");
  const Shipped before("tide-star");
  const Comparison grown = with_causes(before, larger);
  for (const SizeComparison& size : grown.sizes) {
    for (const Change& change : size.changes)
      CHECK(change.what.find("figure") == std::string::npos);
  }
}

TEST_CASE("a change that would not compile alone stops nothing") {
  Shipped was("harbor-lights"), now("harbor-lights");
  now.change("pattern.yaml", "  quay-stone: {name: Quay Stone, colour: \"#b9b4a7\"}",
             "  pier-stone: {name: Quay Stone, colour: \"#b9b4a7\"}")
      .change("pattern.yaml", "ground: quay-stone", "ground: pier-stone")
      .change("pattern.yaml", "sashing: {fabric: quay-stone", "sashing: {fabric: pier-stone");
  const Comparison c = with_causes(was, now);
  CHECK(c.sizes.size() == 1);
  CHECK(c.tried == 4);  // three lines, of which two lie side by side
  for (const Change& change : c.sizes.front().changes) {
    INFO(change.what);
    CHECK(change.cause.kind == Cause::Kind::several);
  }
}

TEST_CASE("more changed places than are tried are told of") {
  Shipped was("harbor-lights"), now("harbor-lights");
  std::string& text = now.files.content.at("harbor-lights/pattern.yaml");
  std::string changed;
  for (const char c : text) changed += c == '\n' ? " \n" : std::string(1, c);
  text = changed;
  now.change("pattern.yaml", "usable width: 42 in", "usable width: 40 in");
  const ComparedSide before = was.side();
  const ComparedSide after = now.side();
  Comparison c = compare_sides(before, after);
  find_causes(c, before, after);
  CHECK(c.tried == most_tried);
  CHECK(c.untried > 10);
  CHECK(print_comparison(c, ComparisonFormat::text).find("Only 40 of ") != std::string::npos);
  CHECK(print_comparison(c, ComparisonFormat::markdown).find("Only 40 of ") != std::string::npos);
}

TEST_CASE("a comparison is printed as text") {
  Comparison c = compared("lap fabric.ink.cloth = 1 yd\nlap size.title = Lap Quilt\n",
                          "lap fabric.ink.cloth = 1 1/8 yd\nlap size.title = Lap Quilt\n");
  c.sizes[0].changes[0].cause = {Cause::Kind::line, "pattern.yaml", false, 7, 7, "- width: 5 in"};
  CHECK(print_comparison(c, ComparisonFormat::text) ==
        "Old: old.txt\nNew: new.txt\n"
        "1 size differs, in 1 change. It is in Lap Quilt (lap): ink: cloth to buy 1 yd, now 1 1/8 "
        "yd (+1/8 yd).\n\n"
        "Lap Quilt (lap)\n"
        "  ink: cloth to buy  1 yd -> 1 1/8 yd  +1/8 yd  [pattern.yaml:7]\n\n"
        "Because of\n  pattern.yaml:7: - width: 5 in\n");
  CHECK(print_comparison(compared("a b.c = 1\n", "a b.c = 1\n"), ComparisonFormat::text) ==
        "Old: old.txt\nNew: new.txt\nNothing differs in what is bought, cut and sewn.\n");
}

TEST_CASE("Markdown keeps to its cells whatever the names and lines hold") {
  Comparison c = compared("lap fabric.ink.cloth = 1 yd\nlap size.title = A | *b*\n",
                          "lap fabric.ink.cloth = 2 yd\nlap size.title = A | *b*\n");
  c.causes_sought = true;
  c.sizes[0].changes[0].cause = {Cause::Kind::line,   "pattern.yaml", true, 7, 7,
                                 "a: \"`x` | ``y``\""};
  const std::string text = print_comparison(c, ComparisonFormat::markdown);
  CHECK(text.find("### A \\| \\*b\\* (lap)\n") != std::string::npos);
  CHECK(text.find(
            "| What | Was | Now | Difference | Because |\n|---|---|---|---|---|\n| ink: cloth to "
            "buy | 1 yd | 2 yd | +1 yd | pattern.yaml:7 of the old, taken out ``` a: \"`x` "
            "\\| ``y``\" ``` |\n") != std::string::npos);
}

TEST_CASE("JSON holds every fact and cause") {
  Comparison c = compared("lap fabric.ink.cloth = 1 yd\nlap fabric.ink.metric = 90 cm\n",
                          "lap fabric.ink.cloth = 2 yd\nlap fabric.ink.metric = 180 cm\n");
  const std::string text = print_comparison(c, ComparisonFormat::json);
  CHECK(text == print_comparison(c, ComparisonFormat::json));
  const auto json = nlohmann::json::parse(text);
  CHECK(json["same"] == false);
  CHECK(json["changes"] == 1);
  const auto& change = json["sizes"][0]["changes"][0];
  CHECK(json["sizes"][0]["size"] == "lap");
  CHECK(change["effect"] == "more cloth");
  CHECK(change["was"] == "1 yd (90 cm)");
  CHECK(change["difference"] == "+1 yd");
  CHECK(change["cause"].is_null());
  REQUIRE(change["facts"].size() == 2);
  CHECK(change["facts"][1]["name"] == "fabric.ink.metric");
  CHECK(change["facts"][1]["now"] == "180 cm");
}
