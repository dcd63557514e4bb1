#include <catch2/catch.hpp>

#include "base/length.h"

using namespace dogear;

namespace {

Exact inches(std::string_view text) {
  LengthError error;
  const auto length = parse_length(text, error);
  INFO(text << ": " << error.message);
  REQUIRE(length.has_value());
  return length->inches;
}

LengthError refused(std::string_view text) {
  LengthError error;
  INFO(text);
  CHECK_FALSE(parse_length(text, error).has_value());
  CHECK_FALSE(error.message.empty());
  return error;
}

bool says(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("two and a half inches, in every spelling of the trade") {
  const Exact expected = Exact::ratio(5, 2);
  for (const char* text : {"2 1/2 in",
                           "2½ in",
                           "2½\"",
                           "2-1/2 in",
                           "2-1/2\"",
                           "2.5 in",
                           "2 ½ in",
                           "2½in",
                           "5/2 in",
                           "2 1⁄2 inches",
                           "  2 1/2 in ",
                           "2½″",
                           "2½”",
                           "2 1/2 IN",
                           "2 1/2 in.",
                           "2 2/4 inch",
                           "2 1 / 2 in",
                           "2\u00A01/2\u00A0in",
                           "2\u20091\u20442 in",
                           "2\u20111/2 in"}) {
    CHECK(inches(text) == expected);
  }
}

TEST_CASE("other units are exact") {
  CHECK(inches("6.5 cm") == Exact::ratio(650, 254));
  CHECK(inches("65 mm") == inches("6.5 cm"));
  CHECK(inches("2.54 cm") == Exact(1));
  CHECK(inches("1 1/8 yd") == Exact::ratio(81, 2));
  CHECK(inches("1⅛ yards") == Exact::ratio(81, 2));
  CHECK(inches("3 ft") == inches("1 yard"));
  CHECK(inches("5'") == Exact(60));
  CHECK(inches("15/16 in") == Exact::ratio(15, 16));
  CHECK(inches("0.1 in") == Exact::ratio(1, 10));
  CHECK(inches(".375 in") == Exact::ratio(3, 8));
  CHECK(inches("0.333333 in") != Exact::ratio(1, 3));
  CHECK(inches("0 in").is_zero());
}

TEST_CASE("the unit as written is kept") {
  LengthError error;
  CHECK(parse_length("6.5 cm", error)->written == Unit::centimetre);
  CHECK(parse_length("65 millimeters", error)->written == Unit::millimetre);
  CHECK(parse_length("1 yd", error)->written == Unit::yard);
  CHECK(parse_length("1 foot", error)->written == Unit::foot);
  CHECK(parse_length("1 in", error)->written == Unit::inch);
}

TEST_CASE("a length that is none says what is wrong and where") {
  CHECK(says(refused("2 1/2").message, "needs a unit"));
  CHECK(refused("2 1/2").hint == "write 2 1/2 in");
  CHECK(refused("2 1/2").offset == 5);
  CHECK(refused("3 inhces").hint == "did you mean inches?");
  CHECK(refused("3 inhces").offset == 2);
  CHECK(refused("3 furlongs").hint == "the units are in, yd, ft, cm and mm");
  CHECK(says(refused("1/0 in").message, "0 below the line"));
  CHECK(refused("2 1/0 in").offset == 4);
  CHECK(says(refused("-2 in").message, "negative"));
  CHECK(says(refused("\u22122 in").message, "negative"));
  CHECK(refused("wide").offset == 0);
  CHECK(says(refused("").message, "nothing"));
  CHECK(says(refused("   ").message, "nothing"));
  CHECK(says(refused("2 3 in").message, "side by side"));
  CHECK(says(refused("2-3 in").message, "range"));
  CHECK(says(refused("2 5/4 in").message, "less than 1"));
  CHECK(says(refused("1/2/3 in").message, "one line"));
  CHECK(says(refused("2.5 1/2 in").message, "decimal"));
  CHECK(says(refused("2.5½ in").message, "decimal"));
  CHECK(says(refused("6,5 cm").hint, "point"));
  CHECK(says(refused("1.5/2 in").message, "whole numbers"));
  CHECK(says(refused("0.1234567 in").message, "decimals"));
  CHECK(says(refused("99999999999999999999 in").message, "too large"));
  CHECK(says(refused("1/99999999999999999999 in").message, "too large"));
  CHECK(says(refused("444420 ft").message, "too large"));
  CHECK(says(refused("2 in x 3 in").message, "follow"));
  refused("2 1/ in");
  refused("/2 in");
  refused("2- in");
  refused("1/-2 in");
  refused("1e3 in");
  refused("inf in");
  refused("0x10 in");
  refused("2½¼ in");
  refused("½½ in");
  refused("2\xFF in");
  refused("in");
}

TEST_CASE("a count of grid units is a number alone") {
  LengthError error;
  CHECK(parse_number("4", error) == Fraction{4, 1});
  CHECK(parse_number("2 1/2", error) == Fraction{5, 2});
  CHECK(parse_number("2½", error) == Fraction{5, 2});
  CHECK(parse_number("0.5", error) == Fraction{1, 2});
  CHECK(parse_number("3/4 ", error) == Fraction{3, 4});
  CHECK_FALSE(parse_number("4 in", error));
  CHECK(says(error.message, "no unit"));
  CHECK(error.offset == 2);
  CHECK_FALSE(parse_number("4 dark", error));
  CHECK_FALSE(parse_number("", error));
  CHECK_FALSE(parse_number("four", error));
}

TEST_CASE("a success clears the error of an earlier failure") {
  LengthError error;
  CHECK_FALSE(parse_length("2", error));
  CHECK(parse_length("2 in", error));
  CHECK(error.message.empty());
  CHECK(error.hint.empty());
}

TEST_CASE("numbers become text in one way") {
  CHECK(plain({5, 2}) == "2 1/2");
  CHECK(plain({15, 16}) == "15/16");
  CHECK(plain({3, 1}) == "3");
  CHECK(plain({0, 1}) == "0");
  CHECK(plain({-5, 2}) == "-2 1/2");
  CHECK(plain({-1, 2}) == "-1/2");
  CHECK(plain({INT64_MIN, 1}) == "-9223372036854775808");
  CHECK(pretty({5, 2}) == "2½");
  CHECK(pretty({7, 8}) == "⅞");
  CHECK(pretty({4, 3}) == "1⅓");
  CHECK(pretty({15, 16}) == "15\u204416");
  CHECK(pretty({47, 16}) == "2\u200915\u204416");
  CHECK(pretty({3, 1}) == "3");
  CHECK(pretty({0, 1}) == "0");
  CHECK(pretty({-5, 2}) == "\u22122½");
  CHECK(plain_inches({5, 2}) == "2 1/2 in");
  CHECK(pretty_inches({5, 2}) == "2½ in");
}

TEST_CASE("what is printed reads back as the same length") {
  for (std::int64_t den : {1, 2, 3, 4, 5, 8, 16, 32}) {
    for (std::int64_t num = 0; num <= 3 * den; ++num) {
      const Fraction f = Fraction::of(num, den);
      CHECK(inches(plain_inches(f)) == Exact(f));
      CHECK(inches(pretty_inches(f)) == Exact(f));
    }
  }
}
