// `dogear outline`: a draft to begin from, and what changed since; her words are never touched.

#include <catch2/catch.hpp>

#include "support.h"

namespace dogear::test {

namespace {

// The first pattern of `start`, its words drafted.
struct Wheels : Folder {
  Wheels() {
    REQUIRE(run({"start", "wheels"}, path()).code == 0);
    REQUIRE(run({"outline", "wheels"}, path()).code == 0);
  }
};

}  // namespace

TEST_CASE("the draft tells every step with its figure, and the booklet takes it") {
  const StarFolder here;
  const Result drafted = here.dogear({"outline", "star"});
  REQUIRE(drafted.code == 0);
  CHECK(has(drafted.out, "star/prose/blocks/star.md\n"));
  CHECK(has(drafted.out, "star/prose/assembly.md\n"));
  const std::string block = read(here.pattern / "prose/blocks/star.md");
  CHECK(has(block, "**1.** "));
  CHECK(has(block, "](figure:step/star/1)"));
  CHECK(has(block, "{{make.star.goose}}"));
  CHECK(has(block, "{{measure.star.goose.width}}"));
  const std::string assembly = read(here.pattern / "prose/assembly.md");
  CHECK(has(assembly, "Measure the top through its middle"));
  CHECK(has(assembly, "](figure:assembly/1)"));

  change(here.pattern / "pattern.yaml", "blocks, assembly]", "blocks, prose/assembly.md]");
  const Result checked = here.dogear({"check", "star"});
  INFO(checked.err);
  CHECK(checked.code == 0);
  CHECK_FALSE(has(checked.err, "prose/blocks/star.md"));
  REQUIRE(here.dogear({"build", "star"}).code == 0);
  const std::string text = shell("pdftotext -layout star-mini.pdf -", here.folder.path()).out;
  CHECK(has(text, "Make 16."));
}

TEST_CASE("a later run says what is new and what is gone, and leaves her words alone") {
  const StarFolder here;
  REQUIRE(here.dogear({"outline", "star"}).code == 0);
  const fs::path file = here.pattern / "prose/blocks/star.md";
  const std::string hers = "My own way to say it.\n\n" + read(file);
  write(file, hers);
  const Result same = here.dogear({"outline", "star"});
  CHECK(same.code == 0);
  CHECK(same.out.empty());

  // The middle of the star is now pieced, so a step more is sewn.
  change(here.pattern / "blocks/star.yaml", "  centre: {shape: square 2, fabric: dark}\n",
         "  half: {shape: rectangle 2 x 1, fabric: dark}\n  centre: {stack: [half, half]}\n");
  const Result later = here.dogear({"outline", "star"});
  CHECK(later.code == 0);
  CHECK(has(later.out, "star/prose/blocks/star.md:"));
  CHECK(has(later.out, "new, after this: **"));
  CHECK(has(later.out, ": gone: **"));
  CHECK(has(later.out, "--renew"));
  CHECK(read(file) == hers);
  CHECK(here.dogear({"outline", "star"}).out == later.out);  // until it is taken
  const Result checked = here.dogear({"check", "star"});
  CHECK(checked.code == 0);
  CHECK(has(checked.err, "[D652]"));
  CHECK(has(checked.err, "star/prose/blocks/star.md:"));
  const Result built = here.dogear({"build", "star"});  // who prints it is warned, too
  CHECK(built.code == 0);
  CHECK(has(built.err, "[D652]"));

  CHECK(here.dogear({"outline", "star", "--renew"}).code == 0);
  CHECK(here.dogear({"outline", "star"}).out.empty());
  CHECK(read(file) == hers);
  CHECK_FALSE(has(here.dogear({"check", "star"}).err, "[D652]"));
  CHECK_FALSE(has(here.dogear({"build", "star"}).err, "[D652]"));
}

TEST_CASE("a draft that was thrown away is not written again, a new block's is") {
  const StarFolder here;
  REQUIRE(here.dogear({"outline", "star"}).code == 0);
  fs::remove(here.pattern / "prose/assembly.md");
  CHECK(here.dogear({"outline", "star"}).out.empty());
  CHECK_FALSE(fs::exists(here.pattern / "prose/assembly.md"));

  change(here.pattern / "pattern.yaml",
         "  star: {block: star, fabrics: {light: cream, dark: ink}}\n",
         "  star: {block: star, fabrics: {light: cream, dark: ink}}\n"
         "  night: {block: star, title: Night Star, fabrics: {light: ink, dark: cream}}\n");
  change(here.pattern / "pattern.yaml", "rows: [[star, star], [star, star]]",
         "rows: [[star, night], [star, star]]");
  const Result grown = here.dogear({"outline", "star"});
  CHECK(grown.code == 0);
  CHECK(has(grown.out, "star/prose/blocks/night.md\n"));
}

TEST_CASE("counts and measures of a draft are tags, so its booklet follows the pattern") {
  const Wheels here;
  const std::string block = read(here / "wheels/prose/blocks/plum-wheel.md");
  CHECK(has(block, "Do this {{batch.plum-wheel.pair.batches}} times."));
  CHECK(has(block,
            "Measures {{measure.plum-wheel.pair.width}} × {{measure.plum-wheel.pair.height}}"));
  CHECK_FALSE(has(block, "{{#"));  // the sizes differ in numbers alone
  const std::string assembly = read(here / "wheels/prose/assembly.md");
  CHECK(has(assembly, "{{measure.assembly.border.side-to-side}} or a little less"));
  change(here / "wheels/pattern.yaml", "  - assembly\n", "  - prose/assembly.md\n");
  const auto text = [&](const std::string& size) {
    const Result built = run({"build", "wheels"}, here.path());
    INFO(built.err);
    REQUIRE(built.code == 0);
    CHECK(built.err.empty());
    return shell("pdftotext wheels-" + size + ".pdf - | tr -s '\\n ' ' '", here.path()).out;
  };
  CHECK(has(text("baby"), "Do this 12 times."));
  CHECK(has(text("wall"), "Do this 4 times."));
  CHECK(has(text("wall"), "Measures 4 1⁄2 in × 4 1⁄2 in with"));

  // A number changes and no word: the booklet is right, and the draft has nothing to tell.
  change(here / "wheels/blocks/pinwheel.yaml", "unit: 4 in", "unit: 3 in");
  CHECK(has(text("wall"), "Measures 3 1⁄2 in × 3 1⁄2 in with"));
  CHECK_FALSE(has(text("wall"), "4 1⁄2 in × 4 1⁄2 in"));
  CHECK(run({"outline", "wheels"}, here.path()).out.empty());
}

TEST_CASE("each of two borders has its own measures in a draft") {
  const Folder here;
  REQUIRE(run({"start", "wheels"}, here.path()).code == 0);
  change(here / "wheels/pattern.yaml", "      - {fabric: sage, width: 4 in}\n",
         "      - {fabric: plum, width: 2 in}\n      - {fabric: sage, width: 4 in}\n");
  REQUIRE(run({"outline", "wheels"}, here.path()).code == 0);
  const std::string assembly = read(here / "wheels/prose/assembly.md");
  const std::string head = "{{measure.assembly.center-with-side-borders";
  CHECK(has(assembly, head + ".top-to-bottom}} or a little less"));
  CHECK(has(assembly, head + "-2.top-to-bottom}} or a little less"));
  CHECK(assembly.find(" in or a little less") == std::string::npos);
  change(here / "wheels/pattern.yaml", "  - assembly\n", "  - prose/assembly.md\n");
  CHECK(run({"build", "wheels"}, here.path()).code == 0);
}

TEST_CASE("steps that sizes tell otherwise stand between their own tags, and are right in each") {
  const Wheels here;
  const std::string assembly = read(here / "wheels/prose/assembly.md");
  CHECK(has(assembly, "{{#baby}}"));
  CHECK(has(assembly, "{{/wall}}"));
  change(here / "wheels/pattern.yaml", "  - assembly\n", "  - prose/assembly.md\n");
  REQUIRE(run({"build", "wheels"}, here.path()).code == 0);
  const std::string wall = shell("pdftotext wheels-wall.pdf - | tr '\\n' ' '", here.path()).out;
  CHECK(has(wall, "Sew the five rows together"));
  CHECK_FALSE(has(wall, "Sew the nine rows together"));
}

TEST_CASE("what is gone is found in the words of its own size") {
  const Wheels here;
  // Without sashing the wall hanging loses its first step; the same words stand above, for the baby
  // quilt.
  const std::string before = read(here / "wheels/prose/assembly.md");
  std::string pattern = read(here / "wheels/pattern.yaml");
  const auto wall = pattern.find("  wall:");
  const auto sashing = pattern.find("sashing:", wall);
  REQUIRE(sashing != std::string::npos);
  const auto line = pattern.rfind('\n', sashing) + 1;
  pattern.erase(line, pattern.find('\n', sashing) + 1 - line);
  write(here / "wheels/pattern.yaml", pattern);
  const Result told = run({"outline", "wheels"}, here.path());
  INFO(told.out + told.err);
  const auto within = before.find("{{#wall}}");
  const auto first = before.find("**1.** **Sashing row.**", within);
  REQUIRE(first != std::string::npos);
  const auto lines =
      std::count(before.begin(), before.begin() + static_cast<long>(first), '\n') + 1;
  CHECK(has(told.out, "assembly.md:" + std::to_string(lines) + ": gone: **1.** **Sashing row.**"));
}

TEST_CASE("a faulty pattern has no outline") {
  const StarFolder here;
  change(here.pattern / "blocks/star.yaml", "block: Star", "blok: Star");
  CHECK(here.dogear({"outline", "star"}).code == 1);
  CHECK_FALSE(fs::exists(here.pattern / "outline.md"));
  CHECK_FALSE(fs::exists(here.pattern / "prose/blocks"));
}

TEST_CASE("what is hers or lies elsewhere is not written over by a draft") {
  const StarFolder here;
  const fs::path own = here.pattern / "outline.md", elsewhere = here.folder / "elsewhere";
  write(own, "# My plan\n");
  const Result told = here.dogear({"outline", "star"});
  CHECK(told.code == 3);
  CHECK(has(told.err, "star/outline.md cannot be written: it is no draft"));
  CHECK(read(own) == "# My plan\n");
  CHECK_FALSE(fs::exists(here.pattern / "prose/assembly.md"));

  fs::remove(own);
  write(elsewhere / "letter.md", "Dear Jo\n");
  fs::create_symlink("../elsewhere/letter.md", own);
  CHECK(here.dogear({"outline", "star"}).code == 3);
  CHECK(read(elsewhere / "letter.md") == "Dear Jo\n");

  fs::remove(own);
  fs::remove(elsewhere / "letter.md");
  fs::create_symlink("../../elsewhere", here.pattern / "prose/blocks");
  CHECK(here.dogear({"outline", "star"}).code == 3);
  CHECK(fs::is_empty(elsewhere));
}

}  // namespace dogear::test
