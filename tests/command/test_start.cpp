// `dogear start`: what it writes is whole, right and quiet.

#include <catch2/catch.hpp>

#include "support.h"

namespace dogear::test {

TEST_CASE("a pattern that was just started builds without a word") {
  const Folder here;
  const Result started = run({"start", "night-garden"}, here.path());
  REQUIRE(started.code == 0);
  CHECK(started.err.empty());
  const fs::path folder = here / "night-garden";
  for (const std::string name :
       {"pattern.yaml", "blocks/pinwheel.yaml", "prose/welcome.md", "Makefile", ".gitignore"}) {
    CHECK(fs::exists(folder / name));
    CHECK(has(started.out, "night-garden/" + name + "\n"));
  }
  CHECK(has(read(folder / "pattern.yaml"), "title: \"Night Garden\"\n"));
  // Editors find the schemas by the first line.
  CHECK(read(folder / "pattern.yaml")
            .rfind("# yaml-language-server: $schema=schemas/pattern.json\n", 0) == 0);
  CHECK(read(folder / "schemas/block.json") == run({"schema", "block"}, here.path()).out);
  CHECK(fs::exists(folder / "schemas/pattern.json"));

  const Result checked = run({"check", "night-garden"}, here.path());
  CHECK(checked.code == 0);
  CHECK(checked.out == "Night Garden: no errors (baby, wall)\n");
  CHECK(checked.err.empty());
  REQUIRE(run({"build", "night-garden", "-o", "out"}, here.path()).code == 0);
  CHECK(fs::exists(here / "out/night-garden-baby.pdf"));
  CHECK(fs::exists(here / "out/night-garden-wall.pdf"));
}

TEST_CASE("its Makefile builds, checks and writes the ledger") {
  const Folder here;
  REQUIRE(run({"start", "kites"}, here.path()).code == 0);
  const std::string make = "make -s dogear=" + program.string() + " ";
  CHECK(shell(make + "all check ledger", here / "kites").code == 0);
  CHECK(fs::exists(here / "kites/out/kites-baby.pdf"));
  CHECK(has(read(here / "kites/quantities.txt"), "wall size.width"));
  CHECK(shell(make + "clean", here / "kites").code == 0);
  CHECK_FALSE(fs::exists(here / "kites/out"));
}

TEST_CASE("start fills an empty folder, and writes into no other") {
  const Folder here;
  fs::create_directory(here / "empty");
  CHECK(run({"start", "empty/"}, here.path()).code == 0);
  CHECK(run({"start", "."}, here / "empty").code == 2);

  write(here / "mine/notes.txt", "mine");
  const Result told = run({"start", "mine"}, here.path());
  CHECK(told.code == 2);
  CHECK(has(told.err, "mine is not empty"));
  CHECK(std::distance(fs::directory_iterator(here / "mine"), {}) == 1);
  CHECK(run({"start", "mine/notes.txt"}, here.path()).code == 2);
  CHECK(read(here / "mine/notes.txt") == "mine");
}

TEST_CASE("any name of a folder gives a title that YAML reads as it is") {
  const Folder here;
  for (const std::string name : {"it's \"so\": #1", "yes", "a\\b", "12", "-"}) {
    REQUIRE(run({"start", "./" + name}, here.path()).code == 0);
    CHECK(run({"check", "./" + name}, here.path()).code == 0);
  }
}

TEST_CASE("the command that start proposes can be typed as it is") {
  for (const std::string name : {"my stars", "it's", "$(echo)", "-x", "plain"}) {
    CAPTURE(name);
    const Folder here;
    const Result started = run({"start", "--", name}, here.path());
    REQUIRE(started.code == 0);
    const std::string command = started.out.substr(started.out.find("  dogear ") + 9);
    CHECK(shell(program.string() + ' ' + command, here.path()).code == 0);
    CHECK(fs::is_directory(here / "out"));
  }
}

TEST_CASE("a folder without a name is none, and one whose name is no text has a plain title") {
  const Folder here;
  CHECK(run({"start", ""}, here.path()).code == 2);
  CHECK(fs::is_empty(here.path()));
  REQUIRE(run({"start", "bad\xff"}, here.path()).code == 0);
  CHECK(run({"check", "bad\xff"}, here.path()).code == 0);
}

TEST_CASE("where not all can be written nothing stays") {
  const Folder here;
  write(here / "file", "");
  CHECK(run({"start", "file/under"}, here.path()).code == 3);
  CHECK(read(here / "file").empty());
}

}  // namespace dogear::test
