// The lists for one purpose each, as their users ask for them.

#include <catch2/catch.hpp>

#include "support.h"

using namespace dogear::test;

namespace {

using Star = StarFolder;

}  // namespace

TEST_CASE("a shopping list comes in four spellings") {
  const Star here;
  for (const std::string as : {"text", "csv", "json", "markdown"}) {
    const Result result = here.dogear({"quantities", "star", "--shopping", "--as", as});
    CAPTURE(as, result.err);
    CHECK(result.code == 0);
    CHECK(has(result.out, "Ink"));
    CHECK(has(result.out, "thread to match"));
    CHECK_FALSE(has(result.out, "subcut"));
  }
}

TEST_CASE("kits are cut from bolts, for the sizes that are named") {
  const Star here;
  const Result all = here.dogear({"quantities", "star", "--kit", "12"});
  CHECK(all.code == 0);
  CHECK(has(all.out, "bolt cuts"));
  CHECK(has(all.out, "12 of "));
  CHECK(has(all.out, "[ ]  1 "));
  CHECK(here.dogear({"quantities", "star", "--kit", "mini=12"}).out == all.out);
  CHECK(here.dogear({"quantities", "star", "--kit", "12", "--size", "mini"}).out == all.out);
  CHECK(
      has(here.dogear({"quantities", "star", "--kit", "12", "--as", "json"}).out, "\"bolts\": ["));
}

TEST_CASE("a kit that is too long for a bolt names the bolt") {
  const Star here;
  change(here.pattern / "pattern.yaml", "title: Small Star", "bolt: 1 yd\ntitle: Small Star");
  change(here.pattern / "pattern.yaml", "{fabric: ink, width: 2 in}", "{fabric: ink, width: 9 in}");
  const Result result = here.dogear({"quantities", "star", "--kit", "3"});
  CHECK(result.code == 1);
  CHECK(result.out.empty());
  CHECK(has(result.err, "[D679]"));
  CHECK(has(result.err, "a bolt holds 1 yd"));
}

TEST_CASE("step-outs, schedules and leftovers are printed in every spelling") {
  const Star here;
  copy_folder(project / "tests/patterns/base/months", here.folder / "months");
  for (const std::string as : {"text", "csv", "json", "markdown"}) {
    CAPTURE(as);
    const Result samples = here.dogear({"quantities", "star", "--step-outs", "--as", as});
    CHECK(samples.code == 0);
    CHECK(has(samples.out, "sewn from") != (as == "json"));
    const Result months = here.dogear({"quantities", "months", "--schedule", "--as", as});
    CHECK(months.code == 0);
    CHECK(has(months.out, "January"));
    const Result left = here.dogear({"quantities", "star", "--leftovers", "--as", as});
    CHECK(left.code == 0);
    CHECK(has(left.out, "end of a strip"));
  }
  const Result none = here.dogear({"quantities", "star", "--schedule"});
  CHECK(none.code == 2);
  CHECK(none.out.empty());
  CHECK(has(none.err, "has no schedule"));
}

TEST_CASE("the manual's examples of lists do what they say") {
  const std::string text = read(project / "tools/dogear/manual/quantities.md");
  int seen = 0;
  for (std::size_t at = text.find("\n    dogear "); at != std::string::npos;
       at = text.find("\n    dogear ", at + 1)) {
    const std::size_t from = at + std::string("\n    dogear ").size();
    const std::string line = text.substr(from, text.find('\n', from) - from);
    const Result result = shell(program.string() + ' ' + line, project);
    CAPTURE(line, result.err);
    CHECK(result.code == 0);
    CHECK_FALSE(result.out.empty());
    ++seen;
  }
  CHECK(seen >= 5);
}

TEST_CASE("the manual's schedule is one that a pattern may have") {
  const Folder folder;
  copy_folder(project / "tests/patterns/base/months", folder / "months");
  const std::string text = read(project / "tools/dogear/manual/quantities.md");
  const std::string open = "```yaml\n";
  const std::size_t from = text.find(open) + open.size();
  const std::string yaml = text.substr(from, text.find("```", from) - from);
  REQUIRE(has(yaml, "schedule:"));
  std::string pattern = read(folder / "months/pattern.yaml");
  const std::size_t at = pattern.find("schedule:\n");
  pattern.replace(at, pattern.find("\nbooklet:") - at, yaml);
  write(folder / "months/pattern.yaml", pattern);
  // Two months begin two strips.
  change(folder / "months/pattern.yaml", "roll: {", "roll: {each: 2, ");
  const Result result = run({"quantities", "months", "--schedule"}, folder.path());
  CAPTURE(result.err);
  CHECK(result.code == 0);
  CHECK(result.err.empty());
}

TEST_CASE("lists are asked for one at a time, and in words that are known") {
  const Star here;
  const std::vector<std::vector<std::string>> wrong{
      {"--step-outs", "--schedule"},
      {"--leftovers", "--ledger"},
      {"--shopping", "--kit", "2"},
      {"--shopping", "--ledger"},
      {"--kit"},
      {"--kit", "many"},
      {"--kit", "huge=2"},
      {"--kit", "mini=0"},
      {"--kit", "3", "--ledger"},
      {"--shopping", "--size", "huge"},
      {"--kit", "mini=3", "--size", "mini"},
  };
  for (const auto& words : wrong) {
    std::vector<std::string> line{"quantities", "star"};
    line.insert(line.end(), words.begin(), words.end());
    const Result result = here.dogear(line);
    CAPTURE(words, result.err);
    CHECK(result.code == 2);
    CHECK(result.out.empty());
    CHECK_FALSE(result.err.empty());
  }
  CHECK(has(here.dogear({"quantities", "star", "--kit", "huge=2"}).err, "known: mini"));
}
