#include <catch2/catch.hpp>

#include "help.h"

using namespace dogear;
using namespace dogear::booklet;

namespace {

booklet::Box box(double height, bool keep = false) {
  booklet::Box b;
  b.height = height;
  b.keep_with_next = keep;
  return b;
}

double used(const std::vector<booklet::Box>& boxes, const PageRun& run) {
  double height = 0;
  stack(boxes, run, &height);
  return height;
}

struct Sheet {
  Typesetter type{help::fonts(), help::hyphens()};
  FlowContext flow{help::letter(), type};
  Column column{flow, 0, help::letter().text_width()};
  std::vector<PageRun> pages(double height) const { return paginate(column.boxes, height); }
  // Role of the innermost part of a box.
  canvas::Role role(std::size_t i) const { return column.boxes[i].path.back().role; }
  int part(std::size_t i) const { return column.boxes[i].path.back().id; }
};

const char* filler =
    "A lantern on the quay, a red buoy, a late sail, and a star or two over the breakwater keep "
    "the harbor company. Nothing in the bundle is there for show, and what the blocks leave over "
    "becomes a filler, so that hardly a hand's width of it is wasted in the end.";

}  // namespace

TEST_CASE("pages cover all boxes in order and none is too full") {
  std::vector<booklet::Box> boxes;
  for (int i = 0; i < 200; ++i) boxes.push_back(box(10 + (i * 37) % 41));
  std::size_t next = 0;
  for (const PageRun& run : paginate(boxes, 300)) {
    CHECK(run.begin == next);
    CHECK(run.end > run.begin);
    CHECK(used(boxes, run) <= 300.01);
    next = run.end;
  }
  CHECK(next == boxes.size());
}

TEST_CASE("space above and below a box collapses, and goes away at the page's top") {
  std::vector<booklet::Box> boxes{box(10), box(10), box(10)};
  boxes[0].before = 50;
  boxes[0].after = 6;
  boxes[1].before = 9;
  const std::vector<double> tops = stack(boxes, {0, 3}, nullptr);
  CHECK(tops == std::vector<double>{0, 19, 29});
}

TEST_CASE("boxes that may stand lower fill their page, unless it is nearly empty") {
  std::vector<booklet::Box> boxes{box(30), box(30), box(30)};
  boxes[0].stretch = 50;  // the first box of a page stays at its top
  boxes[1].stretch = 10;
  boxes[2].stretch = 30;
  const std::vector<double> natural{0, 30, 60};
  const auto tops = [&](double height) {
    std::vector<double> out = natural;
    spread(boxes, {0, 3}, 90, height, out);
    return out;
  };
  CHECK(tops(110) == std::vector<double>{0, 35, 80});
  CHECK(tops(134) == std::vector<double>{0, 40, 100});
  CHECK(tops(300) == natural);
  CHECK(tops(80) == natural);
}

TEST_CASE("space between boxes is drawn in where that saves a page") {
  std::vector<booklet::Box> boxes{box(40), box(40), box(40)};
  boxes[1].before = boxes[2].before = 10;
  CHECK(paginate(boxes, 140).size() == 1);
  CHECK(paginate(boxes, 135).size() == 1);
  std::vector<double> tops{0, 50, 100};
  spread(boxes, {0, 3}, 140, 135, tops);
  CHECK(tops == std::vector<double>{0, 47.5, 95});
  CHECK(paginate(boxes, 129).size() == 2);  // more than half of it
}

TEST_CASE("a section that may run on begins where enough of it fits") {
  std::vector<booklet::Box> boxes;
  for (int i = 0; i < 20; ++i) boxes.push_back(box(10));
  boxes[5].section_start = true;
  CHECK(paginate(boxes, 100).front().end == 5);
  boxes[5].runs_on = true;
  CHECK(paginate(boxes, 100).front().end == 10);
  CHECK(paginate(boxes, 70).front().end == 7);
  CHECK(paginate(boxes, 60).front().end == 5);  // a sixth of the page is too little
}

TEST_CASE("a section that is looked for runs on only below what would fill too little of a page") {
  for (const std::size_t before : {2, 3, 4, 5, 6}) {
    std::vector<booklet::Box> boxes;
    for (int i = 0; i < 20; ++i) boxes.push_back(box(10));
    boxes[before].section_start = true;
    INFO(before);
    CHECK(paginate(boxes, 100).front().end == (before < 4 ? 10 : before));
  }
}

TEST_CASE("no page is nearly empty where the one before can spare something") {
  std::vector<booklet::Box> boxes;
  for (int i = 0; i < 12; ++i) boxes.push_back(box(10));
  boxes[4].break_cost = -0.1;  // a heading
  boxes.push_back(box(95));
  boxes.back().section_start = true;
  const std::vector<PageRun> pages = paginate(boxes, 100);
  REQUIRE(pages.size() == 3);
  CHECK(used(boxes, pages[0]) >= 37);
  CHECK(used(boxes, pages[1]) >= 37);
}

TEST_CASE("boxes kept whole share a page if one page holds them") {
  std::vector<booklet::Box> boxes{box(40), box(20), box(20), box(20)};
  std::vector<booklet::Box> kept = boxes;
  keep_whole(boxes, 1, 50, 3);  // higher than a page
  for (const booklet::Box& b : boxes) CHECK(b.break_cost == 0);
  keep_whole(kept, 1, 90, 3);
  boxes.push_back(box(50));
  kept.push_back(box(50));
  CHECK(paginate(boxes, 90).front().end == 3);
  CHECK(paginate(kept, 90).front().end == 1);
}

TEST_CASE("no short item stands alone at either end of a list") {
  for (const double height : {45.0, 75.0, 90.0}) {
    Sheet sheet;
    sheet.column.list({sheet.column.plain("Cut."), sheet.column.plain("Sew."),
                       sheet.column.plain("Press."), sheet.column.plain("Trim."),
                       sheet.column.plain("Rest.")});
    const auto pages = sheet.pages(height);
    for (std::size_t p = 0; p + 1 < pages.size(); ++p) {
      INFO(height);
      CHECK(pages[p].end >= 4);  // a label and a line an item
      CHECK(sheet.column.boxes.size() - pages[p].end >= 4);
    }
  }
}

TEST_CASE("a box kept with the next moves over with it") {
  std::vector<booklet::Box> boxes{box(60), box(30, true), box(30)};
  const std::vector<PageRun> pages = paginate(boxes, 100);
  REQUIRE(pages.size() == 2);
  CHECK(pages[0].end == 1);
}

TEST_CASE("a box higher than the page has a page to itself") {
  const std::vector<booklet::Box> boxes{box(10), box(400), box(10)};
  const std::vector<PageRun> pages = paginate(boxes, 100);
  REQUIRE(pages.size() == 3);
  CHECK(pages[1].begin == 1);
}

TEST_CASE("kept boxes that fill more than a page are parted rather than lost") {
  std::vector<booklet::Box> boxes;
  for (int i = 0; i < 30; ++i) boxes.push_back(box(10, true));
  std::size_t total = 0;
  for (const PageRun& run : paginate(boxes, 100)) {
    CHECK(used(boxes, run) <= 100.01);
    total += run.end - run.begin;
  }
  CHECK(total == 30);
}

TEST_CASE("a section shares a page only if the whole of it fits") {
  std::vector<booklet::Box> boxes{box(40), box(30), box(20), box(20), box(20)};
  boxes[1].section_start = true;
  boxes[2].section_start = true;
  const std::vector<PageRun> pages = paginate(boxes, 100);
  REQUIRE(pages.size() == 2);
  CHECK(pages[0].end == 2);
}

TEST_CASE("a new page begins where one is asked for") {
  std::vector<booklet::Box> boxes{box(10), box(10), box(10)};
  boxes[1].new_page = true;
  const std::vector<PageRun> pages = paginate(boxes, 100);
  REQUIRE(pages.size() == 2);
  CHECK(pages[0].end == 1);
}

TEST_CASE("no heading ends a page and no single line stands before or behind a break") {
  Sheet sheet;
  for (int i = 0; i < 40; ++i) {
    sheet.column.heading({2 + i % 2, sheet.column.plain("A heading"), "", {}});
    for (int k = 0; k <= i % 3; ++k) sheet.column.paragraph(std::string(filler));
  }
  for (double height = 190; height < 700; height += 23) {
    const std::vector<PageRun> pages = sheet.pages(height);
    for (std::size_t p = 0; p + 1 < pages.size(); ++p) {
      const std::size_t last = pages[p].end - 1, next = pages[p].end;
      INFO("page " << p << " of height " << height);
      CHECK(sheet.role(last) == canvas::Role::paragraph);
      if (sheet.part(last) != sheet.part(next)) continue;
      CHECK(sheet.part(last - 1) == sheet.part(last));
      CHECK(sheet.part(next + 1) == sheet.part(next));
    }
  }
}

TEST_CASE("a step is one box: its words stay with its figure") {
  Sheet sheet;
  canvas::DisplayList art;
  art.fill_path(canvas::Path::rect(0, 0, 90, 60), canvas::black);
  const booklet::Picture picture{canvas::share(std::move(art)), 90, 60, "a step"};
  std::vector<Card> cards;
  for (int i = 1; i <= 9; ++i)
    cards.push_back({std::to_string(i), picture, {sheet.column.plain(filler)}});
  SECTION("beside") {
    sheet.column.cards(cards, 1);
    REQUIRE(sheet.column.boxes.size() == 9);
  }
  SECTION("two abreast") {
    sheet.column.cards(cards, 2);
    REQUIRE(sheet.column.boxes.size() == 5);
  }
  for (const booklet::Box& b : sheet.column.boxes) {
    const canvas::Rect ink = b.content.bounds();
    CHECK(ink.left >= -0.1);
    CHECK(ink.right <= sheet.column.width() + 0.1);
    CHECK(ink.top >= -0.1);
    CHECK(ink.bottom <= b.height + 1);  // descenders
  }
}

TEST_CASE("an item's label stands level with its first line") {
  Sheet sheet;
  sheet.column.list({sheet.column.plain(filler), sheet.column.plain("Short.")}, true);
  const std::vector<double> tops =
      stack(sheet.column.boxes, {0, sheet.column.boxes.size()}, nullptr);
  const canvas::DisplayList page =
      compose(sheet.column.boxes, {0, sheet.column.boxes.size()}, tops, {});
  const std::vector<help::Said> said = help::said(page);
  REQUIRE(said.size() >= 4);
  CHECK(said[0].text == "1.");
  CHECK(said[1].y == Approx(said[0].y));
  CHECK(said[1].x > said[0].x);
  CHECK(said[said.size() - 2].text == "2.");
  CHECK(said.back().y == Approx(said[said.size() - 2].y));
}

TEST_CASE("parts broken over pages keep their id, and groups nest as the parts do") {
  Sheet sheet;
  sheet.column.begin(canvas::Role::section);
  sheet.column.paragraph(std::string(filler));
  sheet.column.end();
  const std::size_t n = sheet.column.boxes.size();
  REQUIRE(n >= 3);
  std::vector<int> ids;
  for (const PageRun run : {PageRun{0, 1}, PageRun{1, n}}) {
    const canvas::DisplayList page =
        compose(sheet.column.boxes, run, stack(sheet.column.boxes, run, nullptr), {});
    REQUIRE(page.items().size() == 1);
    const auto& section = std::get<canvas::Group>(page.items()[0]);
    CHECK(section.role == canvas::Role::section);
    REQUIRE(section.list->items().size() == 1);
    const auto& paragraph = std::get<canvas::Group>(section.list->items()[0]);
    CHECK(paragraph.role == canvas::Role::paragraph);
    ids.push_back(section.id);
    ids.push_back(paragraph.id);
  }
  CHECK(ids[0] == ids[2]);
  CHECK(ids[1] == ids[3]);
  CHECK(ids[0] != ids[1]);
}

TEST_CASE("page numbers are known to boxes written later") {
  std::vector<booklet::Box> boxes{box(10), box(10), box(10)};
  boxes[1].new_page = boxes[2].new_page = true;
  boxes[2].anchors.push_back("there");
  std::string found, missing;
  boxes[0].late = [&](const PageOf& page_of) {
    found = page_of("there");
    missing = page_of("nowhere");
    return canvas::DisplayList();
  };
  const auto pages = make_pages(boxes, help::letter(), help::fonts(), {});
  CHECK(pages.size() == 3);
  CHECK(found == "3");
  CHECK(missing.empty());
  CHECK(pages[2].label == "3");
}
