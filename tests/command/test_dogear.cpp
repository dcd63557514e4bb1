// The program as its users meet it: exit codes, messages, files written or left alone.

#include <unistd.h>

#include <catch2/catch.hpp>

#include "support.h"

using namespace dogear::test;

namespace {

struct Star : StarFolder {
  void break_it() const { change(pattern / "pattern.yaml", "title: Small", "titel: Small"); }
};

}  // namespace

TEST_CASE("help and version") {
  const Star here;
  const Result help = here.dogear({"--help"});
  CHECK(help.code == 0);
  for (const std::string word : {"check", "build", "quantities", "draw", "Exit codes"}) {
    CHECK(has(help.out, word));
  }
  const Result version = here.dogear({"--version"});
  CHECK(version.code == 0);
  CHECK(has(version.out, "dogear 0."));
  CHECK(here.dogear({"build", "--help"}).code == 0);
}

TEST_CASE("a wrong command is told and exits with 2") {
  const Star here;
  const std::vector<std::vector<std::string>> wrong{
      {},
      {"check"},
      {"bind", "star"},
      {"build", "star", "--colour"},
      {"build", "star", "--size", "huge"},
      {"build", "star", "--paper", "napkin"},
      {"quantities", "star", "--as", "xml"},
      {"quantities", "star", "--size", "huge"},
      {"quantities", "star", "--ledger", "--as", "csv"},
      {"draw", "star"},
      {"draw", "star", "block/stra"},
  };
  for (const auto& words : wrong) {
    const Result result = here.dogear(words);
    CAPTURE(words, result.err);
    CHECK(result.code == 2);
    CHECK(result.out.empty());
    CHECK_FALSE(result.err.empty());
  }
  CHECK(has(here.dogear({"build", "star", "--size", "huge"}).err, "mini"));
}

TEST_CASE("a sound pattern is told to be one, and without complaint") {
  const Star here;
  const Result result = here.dogear({"check", "star"});
  CHECK(result.code == 0);
  CHECK(has(result.out, ": no errors (mini)"));
  CHECK(result.err == "");
}

TEST_CASE("a faulty pattern exits with 1 and points at the place") {
  const Star here;
  here.break_it();
  for (const std::string command : {"check", "build", "quantities", "sizes"}) {
    const Result result = here.dogear({command, "star"});
    CAPTURE(command, result.err);
    CHECK(result.code == 1);
    CHECK(has(result.err, "star/pattern.yaml:1:1: error: "));
    CHECK(has(result.err, "`titel`"));
    CHECK(has(result.err, "`title`"));
    CHECK(result.out.empty());
    CHECK_FALSE(has(result.err, "\x1b"));  // colours are for terminals
  }
}

TEST_CASE("a terminal gets colours unless NO_COLOR asks for none") {
  const Star here;
  here.break_it();
  const std::string line = "script -qec '" + program.string() + " check star' /dev/null";
  if (shell("script -qec true /dev/null", here.folder.path()).code != 0) {
    WARN("no terminal can be had here (is /dev/pts there?), so its colours are not tested");
    return;
  }
  CHECK(has(shell("TERM=xterm " + line, here.folder.path()).out, "\x1b["));
  CHECK_FALSE(has(shell("TERM=xterm NO_COLOR=1 " + line, here.folder.path()).out, "\x1b["));
}

TEST_CASE("what cannot be read exits with 3") {
  const Star here;
  CHECK(here.dogear({"check", "nowhere"}).code == 3);
  CHECK(has(here.dogear({"check", "nowhere"}).err, "nowhere/pattern.yaml"));
  CHECK(here.dogear({"build", "star", "--paper", "missing.yaml"}).code == 3);
  fs::remove(here.pattern / "blocks" / "star.yaml");
  fs::create_symlink("nothing", here.pattern / "blocks" / "star.yaml");
  CHECK(here.dogear({"check", "star"}).code != 0);
}

TEST_CASE("who names a file of the pattern is told its folder, and who names none how to begin") {
  const Star here;
  CHECK(has(here.dogear({"check", "star/pattern.yaml"}).err,
            "a pattern is named by its folder: star"));
  CHECK(has(here.dogear({"check", "."}).err, "`dogear start` begins a new one"));
}

TEST_CASE("what cannot be written exits with 3") {
  const Star here;
  write(here.folder / "file", "");
  for (const std::string out : {"file", "file/below"}) {
    const Result result = here.dogear({"build", "star", "-o", out});
    CAPTURE(out, result.err);
    CHECK(result.code == 3);
    CHECK(has(result.err, "cannot be written"));
  }
  fs::create_directory(here.folder / "star-mini.pdf");
  CHECK(here.dogear({"build", "star"}).code == 3);
  CHECK(here.dogear({"draw", "star", "block/star", "-o", "none/figure.svg"}).code == 3);
  const Result full = shell(program.string() + " quantities star >/dev/full", here.folder.path());
  CHECK(full.code == 3);
  if (::geteuid() != 0) {  // root writes anywhere
    fs::create_directory(here.folder / "shut");
    fs::permissions(here.folder / "shut", fs::perms::owner_read | fs::perms::owner_exec);
    CHECK(here.dogear({"build", "star", "-o", "shut"}).code == 3);
  }
}

TEST_CASE("a build writes the PDF and a failed one leaves it as it was") {
  const Star here;
  const Result built = here.dogear({"build", "star", "-o", "new/out", "--depfile", "star.d"});
  REQUIRE(built.code == 0);
  CHECK(built.out == "new/out/star-mini.pdf\n");
  const fs::path pdf = here.folder / "new/out/star-mini.pdf";
  const std::string bytes = read(pdf);
  CHECK(bytes.substr(0, 5) == "%PDF-");
  CHECK(shell("qpdf --check new/out/star-mini.pdf", here.folder.path()).code == 0);
  CHECK(has(read(here.folder / "star.d"), "new/out/star-mini.pdf:"));
  CHECK(has(read(here.folder / "star.d"), "star/blocks/star.yaml"));

  here.break_it();
  CHECK(here.dogear({"build", "star", "-o", "new/out"}).code == 1);
  CHECK(read(pdf) == bytes);
  std::size_t files = 0;
  for (const auto& entry : fs::directory_iterator(pdf.parent_path())) files += entry.exists();
  CHECK(files == 1);  // nothing half-written beside it
}

TEST_CASE("the same source gives the same bytes, wherever and whenever") {
  const Star here;
  REQUIRE(here.dogear({"build", "star", "-o", "a"}).code == 0);
  copy_folder(here.pattern, here.folder / "elsewhere/star");
  REQUIRE(shell("cd elsewhere && TZ=Asia/Tokyo LC_ALL=C.UTF-8 LANG=de_DE.UTF-8 HOME=/nowhere " +
                    program.string() + " build star/ -o ../b",
                here.folder.path())
              .code == 0);
  CHECK(read(here.folder / "a/star-mini.pdf") == read(here.folder / "b/star-mini.pdf"));
  REQUIRE(here.dogear({"build", "star", "-o", "c", "--paper", "a4"}).code == 0);
  CHECK(read(here.folder / "a/star-mini.pdf") != read(here.folder / "c/star-mini.pdf"));
}

TEST_CASE("figures are drawn by their address, with or without its prefix") {
  const Star here;
  const Result plain = here.dogear({"draw", "star", "block/star"});
  CAPTURE(plain.err);
  REQUIRE(plain.code == 0);
  CHECK(here.dogear({"draw", "star", "figure:block/star", "-o", "block.svg"}).code == 0);
  CHECK(read(here.folder / "block.svg") == plain.out);
  CHECK(shell("xmllint --noout block.svg", here.folder.path()).code == 0);
  CHECK(shell("rsvg-convert block.svg -o block.png", here.folder.path()).code == 0);
  const Result near = here.dogear({"draw", "star", "block/stra"});
  CHECK(has(near.err, "did you mean `block/star`?"));
}

TEST_CASE("quantities come in four spellings") {
  const Star here;
  for (const std::string as : {"text", "csv", "json", "markdown"}) {
    const Result result = here.dogear({"quantities", "star", "--as", as});
    CAPTURE(as, result.err);
    CHECK(result.code == 0);
    CHECK(has(result.out, "Ink"));
  }
  CHECK(here.dogear({"sizes", "star"}).out == "mini\n");
}

TEST_CASE("the ledger is written when asked for, and a stale one is told") {
  const Star here;
  REQUIRE(here.dogear({"build", "star"}).code == 0);
  CHECK_FALSE(fs::exists(here.pattern / "quantities.txt"));
  REQUIRE(here.dogear({"quantities", "star", "--ledger"}).code == 0);
  CHECK(has(read(here.pattern / "quantities.txt"), "\nmini "));
  CHECK(here.dogear({"check", "star"}).err == "");

  change(here.pattern / "pattern.yaml", "{fabric: ink, width: 2 in}", "{fabric: ink, width: 3 in}");
  const Result stale = here.dogear({"check", "star"});
  CHECK(stale.code == 0);
  CHECK(has(stale.err, "the ledger is stale"));
  CHECK(has(stale.err, "--ledger"));
}
