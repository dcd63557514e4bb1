#include <catch2/catch.hpp>

#include "help.h"

using namespace dogear;
using namespace dogear::booklet;

namespace {

struct Sheet {
  Typesetter type{help::fonts(), help::hyphens()};
  FlowContext flow{help::letter(), type};
  Column column;
  explicit Sheet(double width) : column(flow, 0, width) {}
  Cell cell(const std::string& text) const { return {column.plain(text), {}}; }
};

booklet::Table sample(const Sheet& sheet, int rows) {
  booklet::Table table;
  table.align = "lrl";
  table.head = {sheet.cell("Piece"), sheet.cell("Cut"), sheet.cell("How")};
  for (int i = 0; i < rows; ++i)
    table.rows.push_back({sheet.cell("A" + std::to_string(i)), sheet.cell(std::to_string(i * 7)),
                          sheet.cell("squares of 2½ in, cut once from corner to corner")});
  return table;
}

std::size_t count(const std::string& text, const std::string& word) {
  std::size_t n = 0;
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) ++n;
  return n;
}

}  // namespace

TEST_CASE("a table's head is drawn again on every page it goes on to") {
  Sheet sheet(400);
  sheet.column.table(sample(sheet, 60));
  const auto& boxes = sheet.column.boxes;
  const std::vector<PageRun> pages = paginate(boxes, 240);
  REQUIRE(pages.size() > 3);
  std::size_t artifacts = 0;
  for (const PageRun& run : pages) {
    double height = 0;
    const std::vector<double> tops = stack(boxes, run, &height);
    CHECK(height <= 240.01);
    const canvas::DisplayList page = compose(boxes, run, tops, {});
    CHECK(count(help::words_of(page), "Piece\n") == 1);
    CHECK(run.end - run.begin >= 2);
    for (const canvas::Item& item : page.items()) {
      const auto* group = std::get_if<canvas::Group>(&item);
      artifacts += group != nullptr && group->role == canvas::Role::artifact ? 1 : 0;
    }
  }
  CHECK(artifacts == pages.size() - 1);
}

TEST_CASE("a head row never stands without a row below it") {
  Sheet sheet(400);
  sheet.column.paragraph("Above.");
  sheet.column.table(sample(sheet, 6));
  for (double height = 60; height < 260; height += 6) {
    for (const PageRun& run : paginate(sheet.column.boxes, height)) {
      const booklet::Box& last = sheet.column.boxes[run.end - 1];
      CHECK_FALSE((last.keep_with_next && height > 120));
    }
  }
}

TEST_CASE("cells stay within the table at any width") {
  for (const double width : {120.0, 200.0, 300.0, 460.0}) {
    Sheet sheet(width);
    sheet.column.table(sample(sheet, 5));
    for (const booklet::Box& box : sheet.column.boxes) {
      const canvas::Rect ink = box.content.bounds();
      INFO(width);
      CHECK(ink.left >= -0.5);
      CHECK(ink.right <= width + 0.5);
      CHECK(ink.bottom <= box.height + 0.5);
    }
  }
}

TEST_CASE("numbers aligned right end at one place") {
  Sheet sheet(400);
  sheet.column.table(sample(sheet, 20));
  std::vector<double> ends;
  for (const booklet::Box& box : sheet.column.boxes) {
    const std::vector<help::Said> said = help::said(box.content);
    REQUIRE(said.size() == 3);
    ends.push_back(said[1].x + said[1].width);
  }
  for (const double end : ends) CHECK(end == Approx(ends[0]).margin(0.05));
}

TEST_CASE("a row higher than the page runs on over it") {
  Sheet sheet(300);
  std::string much;
  for (int i = 0; i < 300; ++i) much += "some words that go on ";
  booklet::Table table;
  table.head = {sheet.cell("One"), sheet.cell("Two")};
  table.rows = {{sheet.cell("short"), sheet.cell(much)}};
  sheet.column.table(table);
  const auto& boxes = sheet.column.boxes;
  std::size_t said = 0;
  for (const PageRun& run : paginate(boxes, 400)) {
    double height = 0;
    const std::vector<double> tops = stack(boxes, run, &height);
    CHECK(height <= 400.01);
    said += count(help::words_of(compose(boxes, run, tops, {})), "some");
  }
  CHECK(said == 300);
}

TEST_CASE("pictures stand before the words of their cell") {
  canvas::DisplayList art;
  art.fill_path(canvas::Path::rect(0, 0, 26, 15), canvas::black);
  Sheet sheet(400);
  booklet::Table table;
  table.rows = {
      {Cell{sheet.column.plain("Ink"), booklet::Picture{canvas::share(std::move(art)), 26, 15, ""}},
       sheet.cell("1 yd")}};
  sheet.column.table(table);
  REQUIRE(sheet.column.boxes.size() == 1);
  const std::vector<help::Said> said = help::said(sheet.column.boxes[0].content);
  REQUIRE(said.size() == 2);
  CHECK(said[0].x > 26);
  CHECK(sheet.column.boxes[0].height >= 15);
}

TEST_CASE("an empty table is nothing") {
  Sheet sheet(400);
  sheet.column.table({});
  CHECK(sheet.column.boxes.empty());
}
