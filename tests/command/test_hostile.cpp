// Patterns from strangers: nothing outside of the folder is read, and what is too much is refused.

#include <catch2/catch.hpp>

#include "support.h"

namespace dogear::test {

namespace {

// A secret beside the pattern, which no output or message may show.
struct Secret : StarFolder {
  Secret() { write(folder / "secret.txt", "block: OPEN-SESAME\n# OPEN-SESAME\n"); }
  Result check() const {
    const Result told = dogear({"check", "star"});
    CHECK_FALSE(has(told.out + told.err, "OPEN-SESAME"));
    return told;
  }
  void link(const std::string& name) const {
    fs::remove(pattern / name);
    fs::create_directories((pattern / name).parent_path());
    fs::create_symlink(folder / "secret.txt", pattern / name);
  }
};

}  // namespace

TEST_CASE("links that lead out of the pattern's folder are not followed") {
  for (const std::string name : {"pattern.yaml", "blocks/star.yaml", "prose/welcome.md",
                                 "quantities.txt", "editions/1.txt"}) {
    const Secret here;
    here.link(name);
    const Result told = here.check();
    INFO(name + "\n" + told.err);
    CHECK(told.code != 0);
    CHECK(has(told.err, "it is a link that leads out of the folder"));
    CHECK(has(told.err, name));
  }
}

TEST_CASE("nor by a command that reads nothing but the pattern") {
  const Secret here;
  here.link("pattern.yaml");
  const Result told = here.dogear({"sizes", "star"});
  CHECK(told.code == 3);
  CHECK(has(told.err, "it is a link that leads out of the folder"));
}

TEST_CASE("nor a whole folder that is such a link, nor a photograph, nor a template's file") {
  {
    const Secret here;
    fs::rename(here.pattern / "blocks", here.folder / "elsewhere");
    fs::create_directory_symlink(here.folder / "elsewhere", here.pattern / "blocks");
    CHECK(has(here.check().err, "it is a link that leads out of the folder"));
  }
  {
    const Secret here;
    here.link("photos/quilt.png");
    write(here.pattern / "prose/welcome.md", "# Hello\n\n![A quilt](photos/quilt.png)\n");
    const Result told = here.check();
    CHECK(told.code == 1);
    CHECK(has(told.err, "it is a link that leads out of the folder"));
  }
  {
    const Secret here;
    here.link("mine.yaml");
    change(here.pattern / "pattern.yaml", "title: Small Star",
           "title: Small Star\npaper: mine.yaml");
    CHECK(has(here.check().err, "it is a link that leads out of the folder"));
  }
}

TEST_CASE("links within the folder, and a folder that is itself a link, are as good as files") {
  const StarFolder here;
  fs::rename(here.pattern / "blocks/star.yaml", here.pattern / "kept.yaml");
  fs::create_symlink("../kept.yaml", here.pattern / "blocks/star.yaml");
  fs::create_directory_symlink(here.pattern, here.folder / "by-link");
  CHECK(here.dogear({"check", "star"}).code == 0);
  CHECK(here.dogear({"check", "by-link"}).code == 0);
  CHECK(shell(program.string() + " check .", here.pattern).code == 0);
}

TEST_CASE("paths in a pattern's text do not leave its folder") {
  const std::vector<std::pair<std::string, std::string>> tries{
      {"title: Small Star", "title: Small Star\npaper: ../secret.yaml"},
      {"title: Small Star", "title: Small Star\npaper: /etc/passwd.yaml"},
  };
  for (const auto& [before, after] : tries) {
    const Secret here;
    change(here.pattern / "pattern.yaml", before, after);
    CHECK(here.check().code == 1);
  }
  for (const std::string address : {"../secret.png", "/etc/passwd.png", "a/../../secret.jpg"}) {
    const Secret here;
    write(here.pattern / "prose/welcome.md", "# Hello\n\n![A quilt](" + address + ")\n");
    CHECK(here.check().code == 1);
  }
}

TEST_CASE("a booklet of more than a thousand pages is refused") {
  const StarFolder here;
  std::string booklet = "\nbooklet: [cover, requirements, cutting, blocks, assembly, finishing";
  for (int i = 0; i < 4; ++i) {
    std::string words = "# Words\n\n";
    while (words.size() < 900'000) words += "Hem and haw, on and on, without an end to it.\n\n";
    const std::string name = "prose/words-" + std::to_string(i) + ".md";
    write(here.pattern / name, words);
    booklet += ", " + name;
  }
  std::string pattern = read(here.pattern / "pattern.yaml");
  pattern = pattern.substr(0, pattern.find("\nbooklet:")) + booklet + "]\n";
  write(here.pattern / "pattern.yaml", pattern);
  const Result told = here.dogear({"check", "star", "--paper", "a5"});
  INFO(told.err.substr(0, 500));
  CHECK(told.code == 1);
  CHECK(has(told.err, "[D478]"));
}

TEST_CASE("units within units that multiply are counted before they are made") {
  const StarFolder here;
  std::string block =
      "block: Star\ngrid: square\nunit: 1/8 in\nroles: [light, dark]\nunits:\n"
      "  u0: {shape: square 1, fabric: dark}\n";
  for (int i = 1; i <= 30; ++i)
    block += "  u" + std::to_string(i) + ": {row: [u" + std::to_string(i - 1) + ", u" +
             std::to_string(i - 1) + "]}\n";
  write(here.pattern / "blocks/star.yaml", block + "stack: [u30]\n");
  const Result told = here.dogear({"check", "star"});
  CHECK(told.code == 1);
  CHECK(told.err.size() < 20'000);
}

TEST_CASE("what is too large is refused at once, in plain words") {
  const StarFolder here;
  // Holes: a gigabyte that takes no room.
  for (const std::string name : {"blocks/star.yaml", "prose/welcome.md"}) {
    const StarFolder own;
    fs::resize_file(own.pattern / name, std::uintmax_t{1} << 30);
    const Result told = own.dogear({"check", "star"});
    CHECK(told.code == 3);
    CHECK(has(told.err, name));
    CHECK(has(told.err, "it is larger than 128 MiB"));
  }
  fs::remove(here.pattern / "pattern.yaml");
  REQUIRE(shell("mkfifo star/pattern.yaml", here.folder.path()).code == 0);
  const Result pipe = here.dogear({"check", "star"});
  CHECK(pipe.code == 3);
  CHECK(has(pipe.err, "it is not a plain file"));
}

}  // namespace dogear::test
