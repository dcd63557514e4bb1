// What the booklet says of borders, binding, backing and the hanging sleeve.

#include <catch2/catch.hpp>

#include "help.h"

using namespace help;

namespace {

// The small pattern's larger size with other words, set as pages.
std::string text_of(const std::string& borders, const std::string& finish) {
  MemoryFiles files = small_pattern();
  std::string& text = files.content["p/pattern.yaml"];
  const std::string binding = "    binding: {fabric: red}\n    backing: {}\n";
  const std::size_t at = text.find(binding);
  REQUIRE(at != std::string::npos);
  text.replace(at, binding.size(), borders + finish);
  const auto compiled = compile("p", files);
  REQUIRE(compiled);
  Diagnostics d;
  const auto document = set_booklet(compiled->scene(), 1, letter(), d);
  REQUIRE(document);
  std::string all = words_of(*document);
  for (char& c : all) c = c == '\n' ? ' ' : c;
  return all;
}

bool says(const std::string& all, const std::string& words) {
  INFO(all);
  return all.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("border strips are cut to length when the top is measured, in both places") {
  const std::string all =
      text_of("    borders: [{fabric: red, width: 2 in}, {fabric: sand, width: 3 in}]\n", "");
  // Nowhere is a border cut to length in the cutting section and measured afterwards.
  CHECK(says(all, "when the top is measured, before it is sewn on"));
  CHECK(says(all, "Measure the top through its middle from top to bottom"));
  CHECK(says(all, "Measure from side to side"));
}

TEST_CASE("mitred corners have words of their own") {
  const std::string all =
      text_of("    borders: [{fabric: red, width: 2 in, corners: mitred}]\n", "");
  CHECK(says(all, "the corners are mitered when it is sewn on"));
  CHECK(says(all, "to every side of"));
  CHECK(says(all, "Mitered corners."));
  CHECK(says(all, "sew on it from the inside out"));
  CHECK(says(all, "Press the long seams toward the borders"));
  CHECK_FALSE(says(all, "Measure the top through"));
  CHECK_FALSE(says(all, "Bias edges meet"));
}

TEST_CASE("a pieced border is sewn as rows of its blocks") {
  const std::string all = text_of("    borders: [{block: check, corners: red}]\n", "");
  CHECK(says(all, "Pieced border with corners."));
  CHECK_FALSE(says(all, "Measure the top through"));
}

TEST_CASE("finishing: bias binding, a backing of wide cloth, a sleeve") {
  const std::string all = text_of("",
                                  "    binding: {fabric: red, cut: on the bias}\n"
                                  "    backing: {width: 15 in, wide: 60 in}\n"
                                  "    hanging sleeve: {fabric: sand, depth: 2 in}\n");
  CHECK(says(all, "and cut it once from corner to corner"));
  CHECK(says(all, "Cut round and round along the line"));
  CHECK(says(all, "of cloth 60 in wide, which needs no seam"));
  CHECK(says(all, "Hanging sleeve"));
  CHECK(says(all, "The tube is 2 in deep"));
}

TEST_CASE("the steps of the binding say which picture shows them") {
  const std::string all = text_of("", "    binding: {fabric: red}\n");
  CHECK(says(all, "See picture"));
  CHECK(says(all, "Fold the corner"));
  CHECK(says(all, "overlap by 2"));
  CHECK_FALSE(says(text_of("", ""), "See picture"));
}

TEST_CASE("a backing in one piece is said to need no seam") {
  const std::string all = text_of("", "    backing: {}\n");
  CHECK(says(all, "it needs no seam"));
  CHECK(says(all, "with no seam"));
}
