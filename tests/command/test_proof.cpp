// The proof page as a file, and the pattern watched in a browser.

#include <catch2/catch.hpp>

#include "support.h"

using namespace dogear::test;

namespace {

struct Repository {
  StarFolder here;
  Repository() {
    git("init -q . && git add -A && git -c user.name=T -c user.email=t@example.org commit -q -m a");
  }
  void git(const std::string& words) const {
    REQUIRE(shell("git " + words, here.folder.path()).code == 0);
  }
};

}  // namespace

TEST_CASE("proof writes one page of what changed since a revision") {
  const Repository repository;
  const StarFolder& here = repository.here;
  const Result same = here.dogear({"proof", "star", "-o", "same.html"});
  CAPTURE(same.out, same.err);
  REQUIRE(same.code == 0);
  CHECK(has(same.err, "Nothing differs."));
  CHECK(has(read(here.folder / "same.html"), "Nothing differs."));

  change(here.pattern / "blocks/star.yaml", "unit: 2 in", "unit: 3 in");
  const Result first = here.dogear({"proof", "star"});
  CAPTURE(first.err);
  REQUIRE(first.code == 0);
  CHECK(has(first.out, "data-figure=\"block/star\""));
  CHECK(has(first.out, "<code class=\"place\">blocks/star.yaml:3</code>"));
  CHECK(here.dogear({"proof", "star/", "--against", "HEAD"}).out == first.out);
  write(here.folder / "page.html", first.out);
  const Result formed = shell("xmllint --noout --nonet page.html", here.folder.path());
  CHECK(formed.code == 0);
  CHECK(formed.err.empty());

  repository.git("-c user.name=T -c user.email=t@example.org commit -q -a -m b");
  CHECK(has(here.dogear({"proof", "star"}).out, "Nothing differs."));
  CHECK(has(here.dogear({"proof", "star", "--against", "HEAD~1"}).out, "block/star"));
}

TEST_CASE("proof tells what keeps the old side from being shown") {
  const Repository repository;
  const StarFolder& here = repository.here;
  copy_folder(star, here.folder / "fresh");
  const Result fresh = here.dogear({"proof", "fresh"});
  CAPTURE(fresh.err);
  CHECK(fresh.code == 0);
  CHECK(has(fresh.out, "has no pattern here: all is new."));

  const Result unknown = here.dogear({"proof", "star", "--against", "never"});
  CHECK(unknown.code == 3);
  CHECK(has(unknown.err, "the git repository has no revision `never`"));
  CHECK(unknown.out.empty());
  CHECK(here.dogear({"proof", "star", "--against", "-x"}).code != 0);
  CHECK(here.dogear({"proof", "nowhere"}).code == 3);

  change(here.pattern / "blocks/star.yaml", "fabric: dark}\n  sky", "fabric: darc}\n  sky");
  const Result faulty = here.dogear({"proof", "star", "-o", "faulty.html"});
  CHECK(faulty.code == 1);
  CHECK(has(read(here.folder / "faulty.html"), "<mark>darc</mark>"));
  repository.git("-c user.name=T -c user.email=t@example.org commit -q -a -m b");
  change(here.pattern / "blocks/star.yaml", "darc", "dark");
  const Result mended = here.dogear({"proof", "star"});
  CHECK(mended.code == 0);
  CHECK(has(mended.out, "Before (HEAD) has 1 error"));
}

TEST_CASE("proof needs a repository to compare with") {
  const StarFolder here;
  const Result alone = here.dogear({"proof", "star"});
  CHECK(alone.code == 3);
  CHECK(has(alone.err, "lies in no git repository"));
}

TEST_CASE("proof shows photographs as they were") {
  const Repository repository;
  const StarFolder& here = repository.here;
  const std::string photo =
      "from pathlib import Path; import struct, zlib, sys\n"
      "def part(k, d): return struct.pack('>I', len(d)) + k + d + "
      "struct.pack('>I', zlib.crc32(k + d))\n"
      "n = 900\n"
      "row = b'\\0' + bytes([int(sys.argv[2])]) * n * 3\n"
      "Path(sys.argv[1]).write_bytes(b'\\x89PNG\\r\\n\\x1a\\n' + "
      "part(b'IHDR', struct.pack('>IIBBBBB', n, n, 8, 2, 0, 0, 0)) + "
      "part(b'IDAT', zlib.compress(row * n)) + part(b'IEND', b''))\n";
  write(here.folder / "photo.py", photo);
  fs::create_directory(here.pattern / "photos");
  REQUIRE(shell("python3 photo.py star/photos/a.png 80", here.folder.path()).code == 0);
  write(here.pattern / "prose/welcome.md", "# Welcome\n\n![On a chair](photos/a.png)\n");
  repository.git("add -A && git -c user.name=T -c user.email=t@example.org commit -q -m photo");
  CHECK(has(here.dogear({"proof", "star"}).out, "Nothing differs."));
  REQUIRE(shell("python3 photo.py star/photos/a.png 160", here.folder.path()).code == 0);
  const Result changed = here.dogear({"proof", "star", "-o", "page.html"});
  CAPTURE(changed.err);
  CHECK(has(changed.err, "0 figures, 1 page and 0 quantities differ."));
}

TEST_CASE("watch shows in a browser what is saved, and keeps the last good pictures") {
  if (shell("command -v chromium", ".").code != 0) {
    WARN("there is no chromium to try it with");
    return;
  }
  const StarFolder here;
  fs::create_directory(here.folder / "browser");
  const Result used = shell("timeout 300 " + (project / "tests/command/watch.py").string() + ' ' +
                                program.string() + " star browser",
                            here.folder.path());
  CAPTURE(used.out, used.err);
  CHECK(used.code == 0);
}

TEST_CASE("watch says why it cannot listen") {
  const StarFolder here;
  CHECK(here.dogear({"watch", "nowhere"}).code == 3);
  CHECK(here.dogear({"watch", "star", "--port", "70000"}).code == 2);
}
