// Several patterns in one run: each as if it were built alone.

#include <catch2/catch.hpp>

#include "support.h"

namespace dogear::test {

namespace {

struct ThreeStars {
  Folder folder;
  ThreeStars() {
    for (const std::string name : {"one", "two", "three"}) {
      copy_folder(star, folder / name);
      change(folder / name / "pattern.yaml", "title: Small Star", "title: Star " + name);
    }
  }
  Result dogear(const std::vector<std::string>& words) const { return run(words, folder.path()); }
};

std::vector<fs::path> booklets(const fs::path& folder) {
  std::vector<fs::path> out;
  for (const auto& entry : fs::directory_iterator(folder)) out.push_back(entry.path().filename());
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace

TEST_CASE("many patterns give the bytes that each gives alone, on any number of threads") {
  const ThreeStars here;
  for (const std::string name : {"one", "two", "three"})
    REQUIRE(here.dogear({"build", name, "-o", "alone"}).code == 0);
  for (const std::string threads : {"1", "5"}) {
    const std::string out = "with-" + threads;
    const Result all =
        here.dogear({"build", "three", "one", "two", "-o", out, "--threads", threads});
    REQUIRE(all.code == 0);
    // Told in the order in which they were named.
    CHECK(all.out == out + "/three-mini.pdf\n" + out + "/one-mini.pdf\n" + out + "/two-mini.pdf\n");
    CHECK(all.err == "1 of 3: three\n2 of 3: one\n3 of 3: two\n");
    REQUIRE(booklets(here.folder / out) == booklets(here.folder / "alone"));
    for (const fs::path& name : booklets(here.folder / out))
      CHECK(read(here.folder / out / name.string()) == read(here.folder / "alone" / name.string()));
  }
}

TEST_CASE("a faulty pattern does not keep the others from being built") {
  const ThreeStars here;
  change(here.folder / "one" / "pattern.yaml", "title: Star one", "titel: Star one");
  const Result all = here.dogear({"build", "one", "two", "three", "-o", "out"});
  CHECK(all.code == 1);
  CHECK(has(all.err, "one/pattern.yaml:1"));
  CHECK(has(all.err, "1 of 3 patterns could not be built"));
  CHECK(booklets(here.folder / "out") == std::vector<fs::path>{"three-mini.pdf", "two-mini.pdf"});

  // Of several ends the worst.
  const Result worse = here.dogear({"build", "one", "two", "missing", "-o", "out"});
  CHECK(worse.code == 3);
  CHECK(has(worse.err, "missing/pattern.yaml"));
  CHECK(has(worse.err, "2 of 3 patterns could not be built"));
}

TEST_CASE("a booklet in which nothing changed is left untouched, but for make") {
  const ThreeStars here;
  REQUIRE(here.dogear({"build", "one", "two", "-o", "out"}).code == 0);
  const auto long_ago = fs::file_time_type::clock::now() - std::chrono::hours(24);
  const fs::path one = here.folder / "out/one-mini.pdf", two = here.folder / "out/two-mini.pdf";
  for (const fs::path& path : {one, two}) fs::last_write_time(path, long_ago);
  change(here.folder / "two" / "pattern.yaml", "title: Star two", "title: Star of two");
  REQUIRE(here.dogear({"build", "one", "two", "-o", "out"}).code == 0);
  CHECK(fs::last_write_time(one) == long_ago);
  CHECK(fs::last_write_time(two) > long_ago);

  fs::last_write_time(two, long_ago);
  REQUIRE(here.dogear({"build", "one", "two", "-o", "out", "--depfile", "all.d"}).code == 0);
  CHECK(fs::last_write_time(one) > long_ago);
  CHECK(fs::last_write_time(two) > long_ago);
  const std::string depfile = read(here.folder / "all.d");
  CHECK(has(depfile, "out/one-mini.pdf: \\\n  one/blocks/star.yaml"));
  CHECK(has(depfile, "out/two-mini.pdf: \\\n  two/blocks/star.yaml"));
}

TEST_CASE("a booklet that two patterns would write is written for the first alone") {
  const ThreeStars here;
  fs::rename(here.folder / "one", here.folder / "star");
  fs::rename(here.folder / "two", here.folder / "star-wall");
  change(here.folder / "star/pattern.yaml", "  mini:", "  wall-mini:");
  const Result told = here.dogear({"build", "star", "star-wall", "-o", "out"});
  CHECK(told.code == 2);
  CHECK(has(told.err, "star and star-wall would both write out/star-wall-mini.pdf"));
  CHECK(booklets(here.folder / "out") == std::vector<fs::path>{"star-wall-mini.pdf"});
  REQUIRE(here.dogear({"build", "star", "-o", "alone"}).code == 0);
  CHECK(read(here.folder / "out/star-wall-mini.pdf") ==
        read(here.folder / "alone/star-wall-mini.pdf"));
}

TEST_CASE("two folders whose booklets would have one name are refused") {
  const ThreeStars here;
  copy_folder(here.folder / "one", here.folder / "other" / "one");
  const Result told = here.dogear({"build", "one", "other/one/", "-o", "out"});
  CHECK(told.code == 2);
  CHECK(has(told.err, "one and other/one/ would both write one-....pdf"));
  CHECK_FALSE(fs::exists(here.folder / "out"));
  CHECK(here.dogear({"build", "one", "./one"}).code == 2);
  CHECK(here.dogear({"build", "one", "--threads", "0"}).code == 2);
}

}  // namespace dogear::test
