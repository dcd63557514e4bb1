#include <catch2/catch.hpp>

#include "compile/ledger.h"

using namespace dogear;

TEST_CASE("ledgers are compared by name") {
  const std::string before = "# words\nlap a = 1\nlap b = 2 1/2 in\nlap c = x = y\n";
  CHECK(compare_ledgers(before, before).empty());
  CHECK(compare_ledgers(before, "lap c = x = y\r\n\nlap b = 2 1/2 in\nlap a = 1\n").empty());

  const auto changes = compare_ledgers(before, "lap a = 1\nlap b = 3 in\nlap d = 4\n");
  REQUIRE(changes.size() == 3);
  CHECK(changes[0].words() == "lap b was 2 1/2 in and is now 3 in");
  CHECK(changes[0].line == 3);
  CHECK(changes[1].words() == "lap c is gone: was x = y");
  CHECK(changes[2].words() == "lap d is new: 4");
  CHECK(changes[2].line == 0);
}
