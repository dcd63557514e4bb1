#include <catch2/catch.hpp>

#include "canvas/font.h"

using dogear::canvas::find_fractions;
using dogear::canvas::normal_fractions;
using dogear::canvas::words;

TEST_CASE("every spelling of a fraction reads the same") {
  const std::vector<std::pair<std::string, std::string>> cases{
      {"2½", "2 1/2"},
      {"2 1/2", "2 1/2"},
      {"2-1/2 in", "2 1/2 in"},
      {"2\u20091\u20442", "2 1/2"},
      {"2\u00A01/2", "2 1/2"},
      {"⅛", "1/8"},
      {"Cut 2½ in strips, 15/16, 3⅞", "Cut 2 1/2 in strips, 15/16, 3 7/8"},
      {"1⁄16", "1/16"},
      {"12½″", "12 1/2″"},
      {"4 × 6½", "4 × 6 1/2"},
      {"5×7½", "5×7 1/2"},
      {"2½ in × 3¾ in", "2 1/2 in × 3 3/4 in"},
      {"½½", "1/21/2"},
  };
  for (const auto& [text, expected] : cases) {
    INFO(text);
    CHECK(normal_fractions(text) == expected);
  }
}

TEST_CASE("what only looks like a fraction stays as it is") {
  for (const std::string text :
       {"and/or", "3/4/2026", "1.5/2", "A1/2", "1/2.5", "1/0", "0/4", "1/1", "1234/5", "1/1234",
        "/2", "2/", "24", "", "x/2", "2026-11-01"}) {
    INFO(text);
    CHECK(find_fractions(text).empty());
    CHECK(normal_fractions(text) == text);
  }
}

TEST_CASE("a letter or decimal before a number keeps it out of the fraction") {
  const auto spans = find_fractions("A2 1/2");
  REQUIRE(spans.size() == 1);
  CHECK(spans[0].whole.empty());
  CHECK(find_fractions("row é3½").at(0).whole.empty());
  CHECK(find_fractions("“3½”").at(0).whole == "3");
  CHECK(find_fractions("6–7½").at(0).whole == "7");
}

TEST_CASE("lines break between words but never within a measure") {
  using W = std::vector<std::string>;
  CHECK(words("Cut 2 1/2 in strips.") == W{"Cut", "2 1/2 in", "strips."});
  CHECK(words("  press\n toward\tdark ") == W{"press", "toward", "dark"});
  CHECK(words("a 5 × 7 piece") == W{"a", "5 × 7", "piece"});
  CHECK(words("2½ in × 42 in strips") == W{"2½ in × 42 in", "strips"});
  CHECK(words("Make 12, in pairs") == W{"Make 12,", "in", "pairs"});
  CHECK(words("of step 3 and fabric 2.") == W{"of", "step 3", "and", "fabric 2."});
  CHECK(words("below row 1. Siehe Bild 2") == W{"below", "row 1.", "Siehe", "Bild 2"});
  CHECK(words("28 Stück anfertigen") == W{"28 Stück", "anfertigen"});
  CHECK(words("Make them steps ahead") == W{"Make", "them", "steps", "ahead"});
  CHECK(words("3 yd, then") == W{"3 yd,", "then"});
  CHECK(words("no\u00A0break here") == W{"no\u00A0break", "here"});
  CHECK(words("").empty());
}
