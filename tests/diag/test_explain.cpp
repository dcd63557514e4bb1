// A code in words for a terminal, and all of them as a page of the manual.

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <iterator>

#include "diag/explain.h"
#include "support/project.h"

using namespace dogear;

TEST_CASE("a code is explained in lines that a terminal shows whole") {
  CodeEntry entry;
  entry.code = "D204";
  entry.title = "Strips do not add up";
  entry.severity = Severity::warning;
  entry.text = {"One.",
                "- an item that is long enough to be broken over two lines of the terminal, "
                "which happens here",
                "- two"};
  entry.why = {"Because.", "And so."};
  entry.example = CodeExample{"star", "blocks/star.yaml", "yaml", "  a: 1\n\n  b: 2\n", "  a: 2\n"};
  CHECK(explain_code(entry) ==
        "D204 (warning): Strips do not add up\n\nOne.\n"
        "- an item that is long enough to be broken over two lines of the terminal,\n"
        "  which happens here\n- two\n"
        "\nWhy it matters\nBecause.\n\nAnd so.\n"
        "\nFaulty, in blocks/star.yaml\n      a: 1\n\n      b: 2\n"
        "\nMended\n      a: 2\n");
  entry.example.reset();
  entry.raised_by = {"A fault."};
  CHECK(explain_code(entry).find("\nRaised by\nA fault.\n") != std::string::npos);
}

TEST_CASE("no line of prose is longer than a terminal is wide, and no code is left out") {
  const std::string list = list_codes();
  for (const CodeEntry& entry : code_catalogue()) {
    CAPTURE(entry.code);
    CHECK(list.find("  " + entry.code + "  " + entry.title) != std::string::npos);
    for (const std::string& line : split(explain_code(entry), '\n')) {
      if (!starts_with(line, "    ")) CHECK(code_points(line).size() <= 78);
    }
  }
}

TEST_CASE("codes are found as people say them") {
  std::string near;
  REQUIRE(find_spoken_code("d204", near) != nullptr);
  CHECK(find_spoken_code("d204", near)->code == "D204");
  CHECK(find_spoken_code(" 204 ", near)->code == "D204");
  CHECK(find_spoken_code("D2O4", near) == nullptr);
  CHECK(near == "D204");
  for (const std::string words : {"", "gap", "D2044444444444", "\xFF", "--"}) {
    CHECK(find_spoken_code(words, near) == nullptr);
  }
}

TEST_CASE("the manual's page of messages is up to date") {
  const std::string path = test::project_folder() + "/tools/dogear/manual/messages.md";
  if (const char* update = std::getenv("DOGEAR_UPDATE"); update != nullptr && *update != '\0') {
    std::ofstream(path, std::ios::binary) << catalogue_as_markdown();
  }
  std::ifstream in(path, std::ios::binary);
  const std::string page{std::istreambuf_iterator<char>(in), {}};
  INFO("renew it: `dogear explain --as markdown >tools/dogear/manual/messages.md`");
  CHECK((page == catalogue_as_markdown()));
}
