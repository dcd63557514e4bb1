// The manual page and the completions, as man and the shells read them; installing and packing.

#include <catch2/catch.hpp>

#include "support.h"

namespace dogear::test {

namespace {

// What bash offers at the end of this line.
std::string offered(const Folder& here, const std::string& words, int at) {
  const Result told =
      shell("PATH=\"" + program.parent_path().string() + ":$PATH\" bash -c 'source ./complete; " +
                "COMP_WORDS=(" + words + "); COMP_CWORD=" + std::to_string(at) +
                "; _dogear; echo ${COMPREPLY[@]}'",
            here.path());
  CHECK(told.code == 0);
  return told.out;
}

}  // namespace

TEST_CASE("the manual page is sound roff and tells every command") {
  const Folder here;
  const Result page = run({"man"}, here.path());
  REQUIRE(page.code == 0);
  write(here / "dogear.1", page.out);
  const Result set = shell("groff -man -Tutf8 -ww dogear.1 | sed 's/.\\x08//g'", here.path());
  CHECK(set.code == 0);
  CHECK(set.err.empty());
  for (const std::string words : {"dogear start", "dogear build", "--imposed", "--kit",
                                  "SOURCE_DATE_EPOCH", "Exit codes: 0 all is well"})
    CHECK(has(set.out, words));
}

TEST_CASE("bash completes commands, options, their words, sizes and files") {
  const StarFolder here;
  write(here.folder / "complete", run({"completion", "bash"}, here.folder.path()).out);
  CHECK(offered(here.folder, "dogear qu", 1) == "quantities\n");
  CHECK(has(offered(here.folder, "dogear build star --im", 3), "--imposed"));
  CHECK(offered(here.folder, "dogear build star --as h", 4) == "html\n");
  CHECK(offered(here.folder, "dogear build star --size \"\"", 4) == "mini\n");
  CHECK(offered(here.folder, "dogear check st", 2) == "star\n");
}

TEST_CASE("zsh and fish read their completions") {
  const Folder here;
  for (const std::string sh : {"zsh", "fish"}) {
    const Result script = run({"completion", sh}, here.path());
    REQUIRE(script.code == 0);
    write(here / sh, script.out);
    const Result read = shell(sh + " -n " + sh, here.path());
    CHECK(read.code == 0);
    CHECK(read.err.empty());
  }
  const Result offered =
      shell("HOME=. fish -c 'source fish; complete -C \"dogear build . --as \"'", here.path());
  CHECK(has(offered.out, "html"));
  CHECK(run({"completion", "tcsh"}, here.path()).code == 2);
}

TEST_CASE("what is installed runs by itself and has its manual with it") {
  const Folder here;
  const Result installed =
      shell("cmake --install " + std::string(DOGEAR_BUILD) + " --prefix there", here.path());
  REQUIRE(installed.code == 0);
  for (const std::string name :
       {"share/doc/dogear/manual/language.md", "share/man/man1/dogear.1",
        "share/bash-completion/completions/dogear", "share/zsh/vendor-completions/_dogear",
        "share/fish/vendor_completions.d/dogear.fish"})
    CHECK(fs::exists(here / "there" / name));
  CHECK(shell("there/bin/dogear start quilt && there/bin/dogear build quilt", here.path()).code ==
        0);
  CHECK(fs::exists(here / "quilt-baby.pdf"));
}

TEST_CASE("the package for Debian holds the same and names what it needs") {
  const Folder here;
  const Result packed =
      shell("cpack -G DEB --config " + std::string(DOGEAR_BUILD) +
                "/CPackConfig.cmake -B pack >log 2>&1; cat log; mv pack/*.deb dogear.deb",
            here.path());
  INFO(packed.out);
  REQUIRE(packed.code == 0);
  const Result depends = shell("dpkg-deb -f dogear.deb Depends", here.path());
  for (const std::string needed :
       {"libharfbuzz0b", "libyaml-cpp0.7", "fonts-vollkorn", "hyphen-en-us"})
    CHECK(has(depends.out, needed));
  REQUIRE(shell("dpkg-deb -x dogear.deb root", here.path()).code == 0);
  const Result version = shell("root/usr/bin/dogear --version", here.path());
  CHECK(version.code == 0);
  CHECK(has(shell("dpkg-deb -f dogear.deb Version", here.path()).out,
            version.out.substr(std::string("dogear ").size(), 3)));
  CHECK(fs::exists(here / "root/usr/share/man/man1/dogear.1"));
}

}  // namespace dogear::test
