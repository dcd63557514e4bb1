// The lists for one purpose each, as their users ask for them.

#include <catch2/catch.hpp>

#include "support.h"

using namespace dogear::test;

namespace {

struct Star {
  Folder folder;
  fs::path pattern = folder / "star";
  Star() { copy_folder(star, pattern); }
  Result dogear(const std::vector<std::string>& words) const { return run(words, folder.path()); }
};

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

TEST_CASE("lists are asked for one at a time, and in words that are known") {
  const Star here;
  const std::vector<std::vector<std::string>> wrong{
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
