// The page for screens and the listing of a shop, as files.

#include <catch2/catch.hpp>

#include "support.h"

using namespace dogear::test;

namespace {

void cut_off(const fs::path& pattern) { fs::remove_all(pattern / "blocks"); }

std::size_t files_in(const fs::path& folder) {
  std::size_t n = 0;
  for (const auto& entry : fs::directory_iterator(folder)) n += entry.is_regular_file() ? 1 : 0;
  return n;
}

}  // namespace

TEST_CASE("build --as html writes one page of every size, whole or not at all") {
  const StarFolder here;
  const Result first = here.dogear({"build", "star", "--as", "html", "-o", "out"});
  CAPTURE(first.out, first.err);
  REQUIRE(first.code == 0);
  CHECK(first.out == "out/star.html\n");
  CHECK(files_in(here.folder / "out") == 1);
  const std::string page = read(here.folder / "out/star.html");
  CHECK(has(page, "<!DOCTYPE html>"));
  CHECK(page.ends_with("</html>\n"));
  // A build that fails leaves it as it was.
  cut_off(here.pattern);
  CHECK(here.dogear({"build", "star", "--as", "html", "-o", "out"}).code == 1);
  CHECK(read(here.folder / "out/star.html") == page);
  CHECK(files_in(here.folder / "out") == 1);
}

TEST_CASE("build --as listing writes the text and the picture") {
  const StarFolder here;
  const Result done = here.dogear({"build", "star", "--as", "listing", "-o", "out"});
  CAPTURE(done.out, done.err);
  REQUIRE(done.code == 0);
  CHECK(done.out == "out/star-listing.md\nout/star-cover.png\n");
  const std::string text = read(here.folder / "out/star-listing.md");
  for (const char* words :
       {"# ", "## Sizes", "| Size | Finished size | Blocks | Pages |",
        "## Fabric requirements: ", "## What is included", "## Skills", "Paper: "})
    CHECK(has(text, words));
  const std::string png = read(here.folder / "out/star-cover.png");
  CHECK(png.substr(1, 3) == "PNG");
  CHECK(here.dogear({"build", "star", "--as", "listing", "-o", "again"}).code == 0);
  CHECK(read(here.folder / "again/star-cover.png") == png);
  CHECK(read(here.folder / "again/star-listing.md") == text);
}

TEST_CASE("the listing says what the booklets say") {
  const Folder folder;
  const std::string tide = (project / "patterns" / "tide-star").string();
  REQUIRE(run({"build", tide, "--as", "listing", "-o", "out"}, folder.path()).code == 0);
  REQUIRE(run({"build", tide, "--size", "throw", "-o", "out"}, folder.path()).code == 0);
  const std::string text = read(folder / "out/tide-star-listing.md");
  const std::string pages =
      shell("pdfinfo out/tide-star-throw.pdf | sed -n 's/^Pages: *//p'", folder.path()).out;
  CHECK(has(text, "| Throw | 54 in × 54 in (137 cm × 137 cm) | 9 | " +
                      pages.substr(0, pages.find('\n')) + " |"));
  CHECK(has(text, "| 2 | **Coral** (blocks, cornerstones, binding) | **⅞ yd** | 80 cm |"));
  CHECK(has(text, "| **Backing** | 3½ yd (315 cm), for a backing of 62 in × 62 in |"));
  CHECK(has(text, "Edition 1."));
}

TEST_CASE("only forms that there are can be asked for") {
  const StarFolder here;
  CHECK(here.dogear({"build", "star", "--as", "paper"}).code == 2);
}

TEST_CASE("a browser ticks steps off, remembers them, changes sizes and fetches nothing") {
  if (shell("command -v chromium", ".").code != 0) {
    WARN("there is no chromium to try it with");
    return;
  }
  const Folder folder;
  const std::string tide = (project / "patterns" / "tide-star").string();
  REQUIRE(run({"build", tide, "--as", "html", "-o", "out"}, folder.path()).code == 0);
  fs::create_directory(folder / "browser");
  const Result used = shell("timeout 100 " + (project / "tests/command/browser.py").string() +
                                " out/tide-star.html browser",
                            folder.path());
  CAPTURE(used.out, used.err);
  REQUIRE(used.code == 0);
  const std::string printed = shell("pdfinfo browser/printed.pdf", folder.path()).out;
  CHECK(std::stoi(printed.substr(printed.find("Pages:") + 6)) > 5);
  const std::string words = shell("pdftotext browser/printed.pdf -", folder.path()).out;
  CHECK(has(words, "Fabric requirements"));
  CHECK_FALSE(has(words, "Next step"));
}
