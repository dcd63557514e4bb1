// When the machine fails: a clear error, earlier outputs as they were, and nothing half written.

#include <catch2/catch.hpp>
#include <cerrno>
#include <thread>

#include "support.h"

namespace dogear::test {

namespace {

Result with_fault(const StarFolder& here, const std::string& fault, const std::string& words) {
  // A sanitizer would stand before the faults.
  return shell(
      "env ASAN_OPTIONS=verify_asan_link_order=0 LD_PRELOAD=" + std::string(DOGEAR_FAULTS) +
          " DOGEAR_FAULT=" + fault + " " + program.string() + " " + words,
      here.folder.path());
}

std::string failing(const std::string& call, int number, const std::string& part, int skip = 0) {
  return call + ":" + std::to_string(number) + ":" + part + ":" + std::to_string(skip);
}

std::vector<std::string> names_in(const fs::path& folder) {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder))
    names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

// A booklet that is there already, and a pattern that has changed since.
struct Rebuilt : StarFolder {
  std::string before;
  Rebuilt() {
    REQUIRE(dogear({"build", "star", "-o", "out"}).code == 0);
    before = read(folder / "out/star-mini.pdf");
    change(pattern / "pattern.yaml", "title: Small Star", "title: Changed Star");
  }
  void is_as_it_was() const {
    CHECK(names_in(folder / "out") == std::vector<std::string>{"star-mini.pdf"});
    CHECK(read(folder / "out/star-mini.pdf") == before);
  }
};

}  // namespace

TEST_CASE("the faults of these tests do reach the program") {
  const StarFolder here;
  CHECK(with_fault(here, failing("write", ENOSPC, "/nowhere/"), "build star -o out").code == 0);
  CHECK(with_fault(here, failing("write", ENOSPC, "/other/"), "build star -o other").code == 3);
}

TEST_CASE("a disk that fills up while a booklet is written") {
  const Rebuilt here;
  for (const int written : {0, 1, 5}) {
    const Result told =
        with_fault(here, failing("write", ENOSPC, "/out/", written), "build star -o out");
    CHECK(told.code == 3);
    CHECK(has(told.err, "out/star-mini.pdf cannot be written: the disk is full"));
    here.is_as_it_was();
  }
  const Result quota = with_fault(here, failing("write", EDQUOT, "/out/"), "build star -o out");
  CHECK(has(quota.err, "the disk is full"));
  here.is_as_it_was();
}

TEST_CASE("a disk that fails at the last moment") {
  const Rebuilt here;
  for (const std::string call : {"fsync", "link", "rename"}) {
    const Result told = with_fault(here, failing(call, EIO, "/"), "build star -o out");
    INFO(call);
    CHECK(told.code == 3);
    CHECK(has(told.err, "out/star-mini.pdf cannot be written"));
    here.is_as_it_was();
  }
}

TEST_CASE("a folder into which nobody may write") {
  const Rebuilt here;
  const Result told = with_fault(here, failing("open", EACCES, "out"), "build star -o out");
  CHECK(told.code == 3);
  CHECK(has(told.err, "out/star-mini.pdf cannot be written: permission was refused"));
  here.is_as_it_was();
  const Result ledger =
      with_fault(here, failing("rename", EROFS, "quantities.txt"), "quantities star --ledger");
  CHECK(ledger.code == 3);
}

TEST_CASE("a file system without files that have no name") {
  const Rebuilt here;
  // Only the file with a name is then opened, which the fault does not reach.
  CHECK(with_fault(here, failing("open", EOPNOTSUPP, "out"), "build star -o out").code == 0);
  CHECK(names_in(here.folder / "out") == std::vector<std::string>{"star-mini.pdf"});
  CHECK(read(here.folder / "out/star-mini.pdf") != here.before);
}

TEST_CASE("a program that is killed while it writes leaves the earlier booklet, and nothing else") {
  const Rebuilt here;
  for (const int written : {0, 1, 5}) {
    with_fault(here, "write:kill:/out/:" + std::to_string(written), "build star -o out");
    here.is_as_it_was();
  }
  for (const std::string call : {"fsync", "link"}) {
    with_fault(here, call + ":kill:out/:0", "build star -o out");
    here.is_as_it_was();
  }
  REQUIRE(here.dogear({"build", "star", "-o", "out"}).code == 0);
  CHECK(names_in(here.folder / "out") == std::vector<std::string>{"star-mini.pdf"});
  CHECK(read(here.folder / "out/star-mini.pdf") != here.before);
}

TEST_CASE("a font that cannot be read, or is none") {
  const Rebuilt here;
  for (const std::string call : {"open", "read"}) {
    const Result told =
        with_fault(here, failing(call, EIO, "Vollkorn-Italic"), "build star -o out");
    CHECK(told.code == 3);
    CHECK(has(told.err, "Vollkorn-Italic.ttf"));
    CHECK(has(told.err, "[D001]"));
    here.is_as_it_was();
  }
}

TEST_CASE("a source that breaks off while it is read") {
  const Rebuilt here;
  const Result told =
      with_fault(here, failing("read", EIO, "blocks/star.yaml"), "build star -o out");
  CHECK(told.code == 3);
  CHECK(has(told.err, "blocks/star.yaml"));
  here.is_as_it_was();
}

TEST_CASE(
    "a folder for booklets that goes away is made again, and one that cannot be made is told") {
  const Rebuilt here;
  fs::remove_all(here.folder / "out");
  CHECK(here.dogear({"build", "star", "-o", "out"}).code == 0);
  CHECK(fs::exists(here.folder / "out/star-mini.pdf"));

  // Gone between being made and being written to.
  const Result told = with_fault(here, failing("open", ENOENT, "out"), "build star -o out");
  CHECK(told.code == 3);
  CHECK(has(told.err, "there is no such file or folder"));

  write(here.folder / "file", "mine");
  CHECK(here.dogear({"build", "star", "-o", "file/out"}).code == 3);
  CHECK(read(here.folder / "file") == "mine");
}

TEST_CASE("builds into one folder at once leave a whole booklet of one of them") {
  const Rebuilt here;
  copy_folder(here.pattern, here.folder / "again/star");
  change(here.folder / "again/star/pattern.yaml", "title: Changed Star", "title: Other Star");
  REQUIRE(here.dogear({"build", "star", "-o", "first"}).code == 0);
  REQUIRE(here.dogear({"build", "again/star", "-o", "second"}).code == 0);
  const std::string first = read(here.folder / "first/star-mini.pdf");
  const std::string second = read(here.folder / "second/star-mini.pdf");
  std::vector<std::thread> builders;
  std::vector<int> codes(6, -1);
  for (std::size_t i = 0; i < codes.size(); ++i)
    builders.emplace_back([&, i] {
      codes[i] = here.dogear({"build", i % 2 == 0 ? "star" : "again/star", "-o", "out"}).code;
    });
  for (std::thread& builder : builders) builder.join();
  CHECK(codes == std::vector<int>(6, 0));
  CHECK(names_in(here.folder / "out") == std::vector<std::string>{"star-mini.pdf"});
  const std::string left = read(here.folder / "out/star-mini.pdf");
  CHECK((left == first || left == second));
}

}  // namespace dogear::test
