#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "base/files.h"

using namespace dogear;
namespace fs = std::filesystem;

namespace {

// A folder of its own for each test, gone afterwards.
struct Folder {
  fs::path path;
  Folder() {
    std::string name = (fs::temp_directory_path() / "dogear-test-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    path = name;
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() { fs::remove_all(path); }
  std::string file(const char* name) const { return (path / name).string(); }
  std::size_t entries() const {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(path), fs::directory_iterator()));
  }
};

}  // namespace

TEST_CASE("files in memory are read, written and listed") {
  MemoryFiles files;
  std::string error;
  CHECK(files.write("q/blocks/b.yaml", "b", error));
  CHECK(files.write("q/blocks/a.yaml", "a", error));
  CHECK(files.write("q/pattern.yaml", "p", error));
  CHECK(files.write("top.txt", "t", error));
  CHECK(files.read("q/pattern.yaml", error) == "p");
  CHECK(error.empty());
  CHECK_FALSE(files.read("q/none", error));
  CHECK(error == "there is no such file or folder");
  const std::vector<std::string> blocks{"a.yaml", "b.yaml"};
  CHECK(files.list("q/blocks") == blocks);
  CHECK(files.list("q/blocks/") == blocks);
  CHECK(files.list("q") == std::vector<std::string>{"pattern.yaml"});
  CHECK(files.list("") == std::vector<std::string>{"top.txt"});
  CHECK(files.list("nowhere").empty());
}

TEST_CASE("a write that fails in memory leaves the old content") {
  MemoryFiles files;
  std::string error;
  files.content["out.pdf"] = "old";
  files.fail_writes_to = "out.pdf";
  CHECK_FALSE(files.write("out.pdf", "new", error));
  CHECK_FALSE(error.empty());
  CHECK(files.content["out.pdf"] == "old");
}

TEST_CASE("files on disk keep every byte") {
  const Folder folder;
  DiskFiles files;
  std::string error;
  std::string content(200'000, 'x');
  content[7] = '\0';
  content[70'000] = '\xFF';
  CHECK(files.write(folder.file("a"), content, error));
  CHECK(files.read(folder.file("a"), error) == content);
  CHECK(files.write(folder.file("a"), "", error));
  CHECK(files.read(folder.file("a"), error) == "");
  CHECK(error.empty());
  CHECK(folder.entries() == 1);
}

TEST_CASE("a folder on disk lists its plain files in order") {
  const Folder folder;
  DiskFiles files;
  std::string error;
  for (const char* name : {"b.yaml", "a.yaml", "c.md"}) {
    CHECK(files.write(folder.file(name), name, error));
  }
  fs::create_directory(folder.path / "aa");
  CHECK(files.list(folder.path.string()) == std::vector<std::string>{"a.yaml", "b.yaml", "c.md"});
  CHECK(files.list(folder.file("missing")).empty());
}

TEST_CASE("what cannot be read says why") {
  const Folder folder;
  const DiskFiles files;
  std::string error;
  CHECK_FALSE(files.read(folder.file("missing"), error));
  CHECK(error == "there is no such file or folder");
  CHECK_FALSE(files.read(folder.path.string(), error));
  CHECK(error == "it is a folder");
  REQUIRE(::mkfifo(folder.file("pipe").c_str(), 0600) == 0);
  CHECK_FALSE(files.read(folder.file("pipe"), error));
  CHECK(error == "it is not a plain file");
}

TEST_CASE("a write that fails leaves no trace") {
  const Folder folder;
  DiskFiles files;
  std::string error;
  CHECK_FALSE(files.write(folder.file("no/such/folder"), "x", error));
  CHECK(error == "there is no such file or folder");
  fs::create_directory(folder.path / "sub");
  CHECK_FALSE(files.write(folder.file("sub"), "x", error));
  CHECK(error == "it is a folder");
  REQUIRE(::mkfifo(folder.file("pipe").c_str(), 0600) == 0);
  CHECK_FALSE(files.write(folder.file("pipe"), "x", error));
  CHECK(fs::is_fifo(folder.file("pipe")));
  CHECK(folder.entries() == 2);
}

TEST_CASE("a file that is replaced keeps its mode, and a link stays a link") {
  const Folder folder;
  DiskFiles files;
  std::string error;
  CHECK(files.write(folder.file("real"), "old", error));
  fs::permissions(folder.file("real"), fs::perms::owner_read | fs::perms::owner_write);
  fs::create_symlink("real", folder.file("link"));
  CHECK(files.write(folder.file("link"), "new", error));
  CHECK(fs::is_symlink(folder.file("link")));
  CHECK(files.read(folder.file("real"), error) == "new");
  CHECK(fs::status(folder.file("real")).permissions() ==
        (fs::perms::owner_read | fs::perms::owner_write));
  CHECK(folder.entries() == 2);
}
