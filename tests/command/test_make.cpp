// patterns/Makefile: rebuilds what changed, and leaves nothing half-built.

#include <catch2/catch.hpp>

#include "support.h"

using namespace dogear::test;

namespace {

struct Patterns {
  Folder folder;
  Patterns() {
    copy_folder(star, folder / "star");
    copy_folder(star, folder / "comet");
    change(folder / "comet/pattern.yaml", "  mini:\n", "  throw:\n");
    fs::copy_file(project / "patterns" / "Makefile", folder / "Makefile");
  }
  Result make(const std::string& words = "") const {
    return shell("unset MAKEFLAGS MAKELEVEL; make -j2 --no-print-directory dogear=" +
                     program.string() + ' ' + words,
                 folder.path());
  }
  bool up_to_date() const { return make("-q").code == 0; }
  bool built(const std::string& name) const {
    return fs::exists(folder / ("out/" + name + ".pdf"));
  }
  // Later than what was written before, whatever the clock's grain.
  void touch(const std::string& name) const {
    fs::last_write_time(folder / name, fs::file_time_type::clock::now() + std::chrono::seconds(2));
  }
};

}  // namespace

TEST_CASE("make builds every booklet once") {
  const Patterns here;
  const Result first = here.make();
  CAPTURE(first.out, first.err);
  REQUIRE(first.code == 0);
  CHECK(here.built("star-mini"));
  CHECK(here.built("comet-throw"));
  CHECK(here.up_to_date());
  CHECK_FALSE(has(here.make().out, "dogear"));
}

TEST_CASE("make builds one pattern or one booklet") {
  const Patterns here;
  REQUIRE(here.make("star-mini").code == 0);
  CHECK(here.built("star-mini"));
  CHECK_FALSE(here.built("comet-throw"));
  REQUIRE(here.make("comet").code == 0);
  CHECK(here.built("comet-throw"));
  CHECK(here.up_to_date());
}

TEST_CASE("make rebuilds what a changed file is part of") {
  const Patterns here;
  REQUIRE(here.make().code == 0);
  for (const std::string file :
       {"star/pattern.yaml", "star/blocks/star.yaml", "star/prose/welcome.md"}) {
    CAPTURE(file);
    here.touch(file);
    CHECK_FALSE(here.up_to_date());
    const Result again = here.make();
    CHECK(has(again.out, "build star "));
    CHECK_FALSE(has(again.out, "build comet "));
    fs::last_write_time(here.folder / file, fs::file_time_type::clock::now());
    here.touch("out/star-mini.pdf");
    CHECK(here.up_to_date());
  }
  write(here.folder / "star/prose/more.md", "More.\n");
  here.touch("star/prose/more.md");
  here.touch("out/star-mini.pdf");
  fs::last_write_time(here.folder / "star/prose/more.md",
                      fs::file_time_type::clock::now() + std::chrono::seconds(9));
  CHECK_FALSE(here.up_to_date());
}

TEST_CASE("a file that is gone does not stop make") {
  const Patterns here;
  REQUIRE(here.make().code == 0);
  fs::remove(here.folder / "star/prose/welcome.md");
  change(here.folder / "star/pattern.yaml", "prose/welcome.md, ", "");
  here.touch("star/pattern.yaml");
  const Result again = here.make();
  CAPTURE(again.err);
  CHECK(again.code == 0);
}

TEST_CASE("a faulty pattern fails, keeps its booklet and does not stop the others") {
  const Patterns here;
  REQUIRE(here.make().code == 0);
  const std::string bytes = read(here.folder / "out/star-mini.pdf");
  change(here.folder / "star/blocks/star.yaml", "goose, corner]", "goosse, corner]");
  here.touch("star/blocks/star.yaml");
  here.touch("comet/pattern.yaml");
  const Result again = here.make("-k");
  CHECK(again.code != 0);
  CHECK(has(again.err, "star/blocks/star.yaml:"));
  CHECK(has(again.out, "build comet "));
  CHECK(read(here.folder / "out/star-mini.pdf") == bytes);
  CHECK(here.make().code != 0);  // not taken for done

  change(here.folder / "star/blocks/star.yaml", "goosse, corner]", "goose, corner]");
  CHECK(here.make().code == 0);
}
