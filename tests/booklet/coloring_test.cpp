// The coloring page and the other colorings in a booklet.

#include <catch2/catch.hpp>

#include "help.h"

using namespace dogear;

namespace {

std::string words_with(const std::string& more, const std::string& booklet) {
  MemoryFiles files = help::small_pattern();
  std::string& pattern = files.content["p/pattern.yaml"];
  const std::size_t at = pattern.find("\nbooklet:");
  if (at != std::string::npos) pattern.erase(at + 1);
  pattern += more + booklet;
  const auto c = help::compile("p", files);
  Diagnostics d;
  const auto document = set_booklet(c->scene(), 0, help::letter(), d);
  REQUIRE(document);
  return help::running_words(*document);
}

const std::string dawn =
    "other colorings:\n  - {name: Dawn over Dunes, fabrics: {red: {name: Rosehip, colour: "
    "\"#c08090\"}}}\n";

}  // namespace

TEST_CASE("a booklet without a list of sections has a coloring page behind the finishing") {
  const std::string text = words_with("", "");
  const std::size_t page = text.rfind("Coloring page");
  REQUIRE(page != std::string::npos);
  CHECK(page > text.rfind("Assembling the top"));
  CHECK(text.find("Another coloring") == std::string::npos);
}

TEST_CASE("the coloring page stands where the designer has it, or nowhere") {
  const std::string left_out =
      words_with("", "booklet: [cover, requirements, cutting, blocks, assembly]\n");
  CHECK(left_out.find("Coloring page") == std::string::npos);
  const std::string early =
      words_with("", "booklet: [cover, coloring page, requirements, cutting, blocks, assembly]\n");
  CHECK(early.find("Coloring page") < early.find("Cutting"));
}

TEST_CASE("other colorings are printed of themselves, before the back page") {
  const std::string text =
      words_with(dawn, "booklet: [cover, requirements, cutting, blocks, assembly, back]\n");
  const std::size_t at = text.find("Another coloring");
  REQUIRE(at != std::string::npos);
  CHECK(at > text.find("Assembling"));
  CHECK(text.find("Dawn over Dunes", at) != std::string::npos);
  CHECK(text.find("Rosehip", at) != std::string::npos);
  CHECK(text.find("Fabric requirements", at) != std::string::npos);  // of the back page
}
