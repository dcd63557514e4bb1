#include <catch2/catch.hpp>

#include "diag/diagnostics.h"

using namespace dogear;

namespace {

Span at(const char* file, std::size_t line, std::size_t column) {
  return {file, line, column, line, column + 1};
}

}  // namespace

TEST_CASE("errors are counted, warnings are not") {
  Diagnostics d;
  CHECK_FALSE(d.has_errors());
  d.warning("D201", at("a", 1, 1), "narrow");
  CHECK_FALSE(d.has_errors());
  d.error("D101", at("a", 1, 1), "short").hints.push_back("buy more");
  CHECK(d.has_errors());
  CHECK(d.error_count() == 1);
  REQUIRE(d.all().size() == 2);
  CHECK(d.all()[0].severity == Severity::warning);
  CHECK(d.all()[1].hints == std::vector<std::string>{"buy more"});
}

TEST_CASE("sorting is by place, stable, and says a thing once") {
  Diagnostics d;
  d.error("D3", at("b", 1, 1), "third");
  d.error("D2", at("a", 10, 1), "second, said first");
  d.error("D1", at("a", 10, 1), "second, said later");
  d.error("D1", at("a", 2, 9), "first");
  d.error("D2", at("a", 10, 1), "second, said first");
  d.warning("D2", at("a", 10, 1), "second, said first");
  d.error("D9", Span{}, "nowhere");
  d.sort();
  std::vector<std::string> messages;
  for (const Diagnostic& m : d.all()) messages.push_back(m.message);
  CHECK(messages == std::vector<std::string>{"nowhere", "first", "second, said first",
                                             "second, said later", "second, said first", "third"});
  CHECK(d.error_count() == 5);
}

TEST_CASE("a thing said twice with another between is still said once") {
  Diagnostics d;
  for (int i = 0; i < 3; ++i) {
    d.error("D1", at("a", 1, 1), "one");
    d.error("D1", at("a", 1, 1), "two");
  }
  d.sort();
  CHECK(d.all().size() == 2);
  CHECK(d.error_count() == 2);
}

TEST_CASE("sources give their lines, whatever the line ends") {
  Sources s;
  s.add("unix", "one\ntwo\n");
  s.add("windows", "one\r\ntwo");
  s.add("mark", "\xEF\xBB\xBFone");
  CHECK(s.line("unix", 1) == "one");
  CHECK(s.line("unix", 2) == "two");
  CHECK(s.line("unix", 3).empty());
  CHECK(s.line("unix", 4).empty());
  CHECK(s.line("unix", 0).empty());
  CHECK(s.line("windows", 1) == "one");
  CHECK(s.line("windows", 2) == "two");
  CHECK(s.line("mark", 1) == "one");
  CHECK(s.line("none", 1).empty());
  CHECK(s.text("none") == nullptr);
  REQUIRE(s.text("unix") != nullptr);
  CHECK(*s.text("unix") == "one\ntwo\n");
  s.add("unix", "again");
  CHECK(s.line("unix", 1) == "again");
}
