// The harness itself: a case that expects too much or too little must fail.

#include <catch2/catch.hpp>

#include "case.h"

using namespace dogear;
using namespace dogear::test;

namespace {

const std::string no_bases = "/nowhere";

Diagnostics one_error() {
  Diagnostics diagnostics;
  auto& d = diagnostics.error("D101", {"case/pattern.yaml", 2, 3, 2, 6}, "unknown key titel");
  Note note;
  note.span = {"case/blocks/a.yaml", 4, 1, 4, 2};
  note.message = "the block is here";
  d.notes.push_back(note);
  d.hints.push_back("did you mean title?");
  return diagnostics;
}

std::string differs(const std::string& expectations) {
  const Case read = read_case("Words.\n" + expectations, no_bases);
  return compare(read.expected, one_error());
}

}  // namespace

TEST_CASE("a message that came as expected is no difference") {
  CHECK(differs("=== error D101 pattern.yaml:2:3 unknown key\n"
                "    note blocks/a.yaml:4:1 the block\n    hint title?\n")
            .empty());
}

TEST_CASE("every part of an expectation counts") {
  CHECK_FALSE(differs("").empty());
  CHECK_FALSE(differs("=== warning D101 pattern.yaml:2:3 unknown key\n").empty());
  CHECK_FALSE(differs("=== error D102 pattern.yaml:2:3 unknown key\n").empty());
  CHECK_FALSE(differs("=== error D101 pattern.yaml:2:4 unknown key\n").empty());
  CHECK_FALSE(differs("=== error D101 pattern.yaml:2:3 missing key\n").empty());
  const std::string right = "=== error D101 pattern.yaml:2:3 unknown key\n";
  CHECK_FALSE(differs(right + "    hint nothing of the kind\n").empty());
  CHECK_FALSE(differs(right + "    note blocks/a.yaml:4:2 the block\n").empty());
  CHECK_FALSE(differs(right + right).empty());
}

TEST_CASE("the files of a case are read as they stand") {
  const Case read =
      read_case("Words.\n\n--- a.yaml\none: 1\n\ntwo: 2\n\n\n--- b.md\nText.\n", no_bases);
  CHECK(read.files.at("a.yaml") == "one: 1\n\ntwo: 2\n");
  CHECK(read.files.at("b.md") == "Text.\n");
}

TEST_CASE("lines of a file can be changed and a file removed") {
  const Case read = read_case(
      "Words.\n--- a\none\ntwo\nthree\n--- b\nx\n--- a, changed\n- two\n+ 2\n+ 2b\n\n- three\n"
      "--- b, removed\n",
      no_bases);
  CHECK(read.files.at("a") == "one\n2\n2b\n");
  CHECK_FALSE(read.files.contains("b"));
}

TEST_CASE("a badly written case is refused") {
  for (const std::string text :
       {"", "--- a\nx\n", "Words.\nbase: none\n", "Words.\n--- a, altered\n",
        "Words.\n--- a, changed\n- x\n", "Words.\n--- a, removed\n",
        "Words.\n--- a\nx\n--- a, changed\n- y\n+ z\n",
        "Words.\n--- a\nx\nx\n--- a, changed\n- x\n+ z\n",
        "Words.\n--- a\nx\n--- a, changed\n+ z\n", "Words.\n=== fault D101 a:1:1 words\n",
        "Words.\n=== error D101 a:1:1\n", "Words.\n=== error D101 a:1:1 words\n  also this\n"}) {
    CAPTURE(text);
    CHECK_THROWS(read_case(text, no_bases));
  }
}

TEST_CASE("messages spelled as expectations are expected") {
  const Diagnostics given = one_error();
  const Case read = read_case("Words.\n" + as_expected(given), no_bases);
  CHECK(compare(read.expected, given).empty());
}
