// The scripts of tools/: they find what they are there to find.

#include <catch2/catch.hpp>
#include <regex>
#include <set>

#include "support.h"

using namespace dogear::test;

namespace {

Result check_includes(const Folder& folder) {
  return shell((project / "tools/check-includes").string() + " " + folder.path().string(),
               folder.path());
}

// What install_packages of tools/prepare.sh does on a machine whose tools are these.
struct Machine {
  Folder folder;
  void tool(const std::string& name, const std::string& script) const {
    write(folder / ("bin/" + name), "#!/bin/bash\n" + script + '\n');
    fs::permissions(folder / ("bin/" + name), fs::perms::owner_all);
  }
  // dpkg-query knows the packages named in `installed`, one a line.
  Machine() {
    write(folder / "installed", "");
    tool("dpkg-query", "for p in \"${@:4}\"; do grep -qx -- \"$p\" " +
                           (folder / "installed").string() +
                           " && echo \"installed $p\"; done; exit 1");
    tool("apt-get", "echo \"$@\" >>" + (folder / "asked").string() +
                        "; [ \"$1\" = update ] || for p in \"$@\"; do echo \"$p\" >>" +
                        (folder / "installed").string() + "; done");
    tool("id", "echo 0");
  }
  Result install() const {
    return shell("set -euo pipefail; PATH=" + (folder / "bin").string() + ":/usr/bin:/bin; . " +
                     (project / "tools/prepare.sh").string() + "; install_packages",
                 folder.path());
  }
  bool asked() const { return fs::exists(folder / "asked"); }
};

}  // namespace

TEST_CASE("a forbidden include is found, with its line") {
  const Folder folder;
  write(folder / "lib/base/exact.h", "#include <array>\n");
  write(folder / "lib/geom/polygon.h", "#pragma once\n#include \"base/exact.h\"\n");
  CHECK(check_includes(folder).code == 0);

  write(folder / "lib/geom/polygon.h",
        "#pragma once\n#include \"base/exact.h\"\n"
        "#include \"model/pattern.h\"\n");
  const Result upward = check_includes(folder);
  CHECK(upward.code == 1);
  CHECK(has(upward.out, "lib/geom/polygon.h:3: geom may not include model"));
}

TEST_CASE("other forbidden includes are found") {
  for (const std::string line :
       {"#include \"exact.h\"", "#include \"../model/pattern.h\"", "  #  include <hpdf.h>",
        "#include <yaml-cpp/yaml.h>", "#include \"canvas/display.h\""}) {
    CAPTURE(line);
    const Folder folder;
    write(folder / "lib/geom/polygon.cpp", "#include <vector>\n" + line + '\n');
    const Result result = check_includes(folder);
    CHECK(result.code == 1);
    CHECK(has(result.out, "lib/geom/polygon.cpp:2: "));
  }
  const Folder folder;
  write(folder / "lib/geom/polygon.cpp", "");
  write(folder / "lib/quilt/quilt.cpp", "");
  CHECK(check_includes(folder).code == 1);
}

TEST_CASE("missing packages are installed, and only once") {
  const Machine machine;
  const Result first = machine.install();
  CAPTURE(first.err);
  REQUIRE(first.code == 0);
  CHECK(has(read(machine.folder / "asked"), "libhpdf-dev"));
  CHECK(has(read(machine.folder / "asked"), "fonts-vollkorn"));
  fs::remove(machine.folder / "asked");
  CHECK(machine.install().code == 0);
  CHECK_FALSE(machine.asked());
}

TEST_CASE("installing that cannot work says so") {
  const Machine failing;
  failing.tool("apt-get", "exit 100");
  const Result failed = failing.install();
  CHECK(failed.code != 0);
  CHECK(has(failed.err, "apt could not install"));

  const Machine user;
  user.tool("id", "echo 1000");
  if (shell("PATH=/usr/bin:/bin command -v sudo", user.folder.path()).code == 0) return;
  const Result refused = user.install();
  CHECK(refused.code != 0);
  CHECK(has(refused.err, "needs root"));
  CHECK(has(refused.err, "apt-get install"));
  CHECK_FALSE(user.asked());
}

TEST_CASE("every script of the tools is sound bash") {
  for (const auto& entry : fs::directory_iterator(project / "tools")) {
    if (!entry.is_regular_file()) continue;
    const std::string text = read(entry.path());
    if (text.substr(0, text.find('\n')).find("bash") == std::string::npos &&
        entry.path().extension() != ".sh") {
      continue;
    }
    CAPTURE(entry.path());
    CHECK(shell("bash -n " + entry.path().string(), project).code == 0);
  }
}

namespace {

std::set<std::string> codes_below(const fs::path& folder) {
  static const std::regex code("\\bD[0-9]{3}\\b");
  std::set<std::string> found;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file() || entry.path().filename() == "test_tools.cpp") continue;
    const std::string text = read(entry.path());
    for (std::sregex_iterator it(text.begin(), text.end(), code), end; it != end; ++it) {
      found.insert(it->str());
    }
  }
  return found;
}

}  // namespace

TEST_CASE("every diagnostic code stands in a test") {
  // Checks of the stages against each other: no pattern that anyone knows of brings these about.
  const std::set<std::string> never{"D209", "D303", "D405", "D407", "D504", "D601"};
  const std::set<std::string> tested = codes_below(project / "tests");
  for (const std::string& code : codes_below(project / "lib")) {
    CAPTURE(code);
    CHECK((tested.contains(code) || never.contains(code)));
  }
}
