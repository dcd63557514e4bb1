#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "compile/lists.h"
#include "small_plan.h"
#include "whole_plan.h"

using namespace dogear;

namespace {

// A reader of RFC 4180 of its own, so that what is written is read back another way.
std::vector<std::vector<std::string>> read_csv(const std::string& text) {
  std::vector<std::vector<std::string>> rows(1, std::vector<std::string>(1));
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '"' && text[i + 1] == '"') {
      rows.back().back() += c;
      ++i;
    } else if (c == '"') {
      quoted = !quoted;
    } else if (!quoted && c == ',') {
      rows.back().emplace_back();
    } else if (!quoted && c == '\r') {
      REQUIRE(text[i + 1] == '\n');
      ++i;
      rows.emplace_back(1);
    } else {
      rows.back().back() += c;
    }
  }
  REQUIRE_FALSE(quoted);
  rows.pop_back();
  return rows;
}

}  // namespace

TEST_CASE("lists hold what is cut and bought") {
  const auto lists = quantity_lists(test::small_plan(), 0);
  std::vector<std::string> names;
  for (const List& list : lists) {
    names.push_back(list.name);
    for (const auto& row : list.rows) CHECK(row.size() == list.columns.size());
  }
  CHECK(names == std::vector<std::string>{"quilt", "fabrics", "pieces", "finishing", "rulers"});
}

TEST_CASE("quantities as text stand in columns") {
  const std::string text = print_quantities(test::small_plan(), {0}, ListFormat::text);
  CHECK(text.find("Small, Lap quilt\n") == 0);
  CHECK(
      text.find("  label  shape   fabric      count  strip     length    cut               ruler\n"
                "  A2     square  Ink | blue     16  2 1/2 in  2 1/2 in  subcut the strip  "
                "Rectangular ruler\n") != std::string::npos);
  CHECK(text.find(" \n") == std::string::npos);
  CHECK(text.find("Wall") == std::string::npos);
}

TEST_CASE("quantities as CSV follow RFC 4180") {
  const std::string text = print_quantities(test::small_plan(), {0, 1}, ListFormat::csv);
  const auto rows = read_csv(text);
  REQUIRE(rows.size() == 1 + 2 * 6);
  for (const auto& row : rows) CHECK(row.size() == rows[0].size());
  const auto column = [&](const std::string& name) {
    const auto found = std::find(rows[0].begin(), rows[0].end(), name);
    REQUIRE(found != rows[0].end());
    return static_cast<std::size_t>(found - rows[0].begin());
  };
  CHECK(rows[2][column("list")] == "fabrics");
  CHECK(rows[2][column("fabric")] == "Cream, \"light\"");
  CHECK(rows[2][column("yardage")] == "1 1/8 yd");
  CHECK(rows[2][column("metric")] == "105 cm");
  CHECK(rows[3][column("bundle strips")] == "3");
  CHECK(rows[7][column("size")] == "wall");
}

TEST_CASE("quantities as JSON can be read again") {
  const auto json =
      nlohmann::json::parse(print_quantities(test::small_plan(), {0, 1}, ListFormat::json));
  CHECK(json["pattern"] == "small");
  REQUIRE(json["sizes"].size() == 2);
  const auto& lap = json["sizes"][0];
  CHECK(lap["size"] == "lap");
  CHECK(lap["pieces"][0]["count"] == 16);
  CHECK(lap["pieces"][0]["strip"] == "2 1/2 in");
  CHECK(lap["fabrics"][0]["fabric"] == "Cream, \"light\"");
  CHECK_FALSE(lap["fabrics"][0].contains("bundle_strips"));
  CHECK(lap["fabrics"][1]["bundle_strips"] == 3);
}

TEST_CASE("quantities as Markdown are tables, whatever the names hold") {
  const std::string text = print_quantities(test::small_plan(), {0}, ListFormat::markdown);
  CHECK(text.find("## Small, Lap quilt\n\n### quilt\n\n| width | height |\n| --- | --- |\n"
                  "| 22 1/2 in | 24 in |\n") == 0);
  CHECK(text.find("| Ink \\| blue |") != std::string::npos);
  CHECK(text.find("| count |") != std::string::npos);
  CHECK(text.find(" ---: |") != std::string::npos);
}

TEST_CASE("formats are known by name") {
  CHECK(list_format("csv") == ListFormat::csv);
  CHECK(list_format("markdown") == ListFormat::markdown);
  CHECK_FALSE(list_format("CSV").has_value());
}

TEST_CASE("people read the lists in the language of the pattern, programs read one and the same") {
  const Plan plan = test::whole_plan("patterns/uferwiese");
  for (const ListFormat format : {ListFormat::text, ListFormat::markdown}) {
    const std::string text = print_quantities(plan, {0}, format);
    for (const char* said : {"Stoffe", "Zuschnitt", "Blöcke, Einfassung", "6 1/2\u2033",
                             "40\u2033 für Streifensatz 1", "10 von A1", "Kanten quer"}) {
      INFO(said);
      CHECK(text.find(said) != std::string::npos);
    }
    for (const char* foreign :
         {"/2 in", "strip", "fabric", " of ", "yardage", "left over", "square"}) {
      INFO(foreign);
      CHECK(text.find(foreign) == std::string::npos);
    }
  }
  const auto json = nlohmann::json::parse(print_quantities(plan, {0}, ListFormat::json));
  CHECK(json.at("sizes").at(0).at("fabrics").at(0).at("used_for") == "blocks, binding");
  CHECK(print_quantities(plan, {0}, ListFormat::csv).find("used for") != std::string::npos);
}
