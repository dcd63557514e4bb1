// The catalogue of codes: read as written, complete, and of the severity with which codes are said.

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>

#include "diag/catalogue.h"
#include "support/project.h"

using namespace dogear;

namespace fs = std::filesystem;

namespace {

const std::string sound =
    "# D204 Strips do not add up\nerror\n\nWhat it\nmeans.\n\n- one\n  thing\n- another\n\n"
    "## Why it matters\nIt does.\n\n## Faulty\nbase: star\nfile: blocks/star.yaml\n\n"
    "```yaml\n  a: 1\n\n  b: 2\n```\n\n## Mended\n```yaml\n  a: 2\n```\n";

std::string changed(const std::string& from, const std::string& to) {
  std::string text = sound;
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

std::string why_not(const std::string& text) {
  std::string error;
  CHECK_FALSE(read_code(text, error).has_value());
  return error;
}

std::string whole(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// All code of the program, one file after the other.
const std::string& program_text() {
  static const std::string text = [] {
    std::string all;
    for (const char* folder : {"lib", "tools"}) {
      for (const auto& entry :
           fs::recursive_directory_iterator(fs::path(test::project_folder()) / folder)) {
        const std::string end = entry.path().extension().string();
        if (end == ".cpp" || end == ".h") all += whole(entry.path());
      }
    }
    return all;
  }();
  return text;
}

std::set<std::string> found(const std::string& pattern, std::size_t group) {
  const std::regex expression(pattern);
  std::set<std::string> all;
  const std::string& text = program_text();
  for (std::sregex_iterator it(text.begin(), text.end(), expression), end; it != end; ++it) {
    all.insert((*it)[group].str());
  }
  return all;
}

}  // namespace

TEST_CASE("a code's file is read part by part") {
  std::string error;
  const auto entry = read_code(sound, error);
  CAPTURE(error);
  REQUIRE(entry);
  CHECK(entry->code == "D204");
  CHECK(entry->title == "Strips do not add up");
  CHECK(entry->severity == Severity::error);
  CHECK(entry->text == std::vector<std::string>{"What it means.", "- one thing", "- another"});
  CHECK(entry->why == std::vector<std::string>{"It does."});
  REQUIRE(entry->example);
  CHECK(entry->example->base == "star");
  CHECK(entry->example->file == "blocks/star.yaml");
  CHECK(entry->example->faulty == "  a: 1\n\n  b: 2\n");
  CHECK(entry->example->mended == "  a: 2\n");
  CHECK(entry->raised_by.empty());

  const std::size_t faulty = sound.find("## Faulty");
  const auto internal = read_code(sound.substr(0, faulty) + "## Raised by\nA fault.\n", error);
  REQUIRE(internal);
  CHECK_FALSE(internal->example);
  CHECK(internal->raised_by == std::vector<std::string>{"A fault."});
}

TEST_CASE("a badly written file says in which line") {
  CHECK(why_not("") == "line 1: the first line is \"# D204 A title\"");
  CHECK(why_not("# D204\nerror\n") == "line 1: the first line is \"# D204 A title\"");
  CHECK(why_not(changed("D204", "D2x4")) == "line 1: the first line is \"# D204 A title\"");
  CHECK(why_not(changed("error", "fault")) ==
        "line 2: the second line is error, error, by judgement, or warning");
  CHECK(why_not("# D204 A\nerror\n\n## Why it matters\nx\n") ==
        "line 4: nothing says what the code means");
  CHECK(why_not(changed("## Why it matters\nIt does.\n\n", "")) ==
        "line 11: \"## Why it matters\" is expected here");
  CHECK(why_not(changed("It does.", "")) == "line 14: nothing says why it matters");
  CHECK(why_not(changed("base: star\n", "")) == "line 15: \"base: ...\" is expected here");
  CHECK(why_not(changed("```yaml", "``` c")) == "line 19: the source is yaml or markdown");
  CHECK(why_not(changed("## Mended\n```yaml\n  a: 2\n```\n", "## Mended\n")) ==
        "line 26: lines of source stand between fences of three backticks");
  CHECK(why_not(changed("  a: 2\n```\n", "  a: 2\n")) == "line 28: the fence is not closed");
  CHECK(why_not(changed("  a: 2\n", "")) == "line 26: there is no source in these fences");
  CHECK(why_not(changed("  a: 2\n", "  a: 1\n\n  b: 2\n")) ==
        "line 31: faulty and mended source are of one language, and differ");
  CHECK(why_not(sound + "## More\n") == "line 28: nothing is expected here");
}

TEST_CASE("every code of the program is explained, and no other") {
  std::set<std::string> explained;
  for (const CodeEntry& entry : code_catalogue()) {
    CAPTURE(entry.code);
    CHECK(explained.insert(entry.code).second);
    CHECK(find_code(entry.code) == &entry);
    CHECK(entry.title.back() != '.');
    CHECK(entry.title.size() < 70);
  }
  CHECK(found("\"(D[0-9]{3})\"", 1) == explained);
  CHECK(find_code("D000") == nullptr);
  CHECK(find_code("") == nullptr);
  CHECK(find_code("D99999") == nullptr);
}

TEST_CASE("a code is explained as what it is said as") {
  for (const std::string& code : found("\\bwarning\\(\\s*\"(D[0-9]{3})\"", 1)) {
    CAPTURE(code);
    REQUIRE(find_code(code) != nullptr);
    CHECK(find_code(code)->severity == Severity::warning);
  }
  const auto errors = found("\\berror\\(\\s*\"(D[0-9]{3})\"", 1);
  CHECK(errors.size() > 30);
  for (const std::string& code : errors) {
    CAPTURE(code);
    REQUIRE(find_code(code) != nullptr);
    CHECK(find_code(code)->severity == Severity::error);
  }
}

TEST_CASE("the files built in are those of the folder") {
  std::set<std::string> on_disk;
  for (const auto& entry :
       fs::directory_iterator(fs::path(test::project_folder()) / "lib/diag/codes")) {
    on_disk.insert(entry.path().stem().string());
    CHECK(code_files().at(entry.path().stem().string()) == whole(entry.path()));
  }
  CHECK(on_disk.size() == code_files().size());
}
