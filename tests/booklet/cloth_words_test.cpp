// What is cut from what, what is bought and what is left, in the booklet's words.
#include "booklet/cloth_words.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "booklet/proofread.h"
#include "help.h"
#include "support/project.h"

using namespace dogear;

namespace {

// The small pattern with other fabrics, bundles and allowances.
MemoryFiles with(const std::string& fabrics, const std::string& more = "") {
  MemoryFiles files = help::small_pattern();
  std::string& yaml = files.content["p/pattern.yaml"];
  const std::size_t from = yaml.find("fabrics:"), to = yaml.find("rulers:");
  yaml.replace(from, to - from, "fabrics:\n" + fabrics + more);
  return files;
}

const char* const red_by_the_yard = "  red: {name: Red, colour: \"#b03030\"}\n";
const char* const sand_by_the_yard = "  sand: {name: Sand, colour: \"#e0d0b0\"}\n";

struct Page {
  std::unique_ptr<help::Compiled> compiled;
  Diagnostics d;
  booklet::Writer w;
  explicit Page(const MemoryFiles& files, std::size_t size = 1)
      : compiled(help::compile("p", files)), w(compiled->scene(), size, help::letter(), d) {}

  const FabricNeed& need(FabricId fabric) const {
    for (const FabricNeed& n : w.quantities().fabrics)
      if (n.fabric == fabric) return n;
    throw std::runtime_error("fabric is not used");
  }

  // All rows of a fabric's first table: "2: 4½ in × WOF: 8 A1".
  std::vector<std::string> rows(FabricId fabric) const {
    std::vector<std::string> out;
    for (const ClothLayout& layout : layouts_of(w.pattern(), w.quantities(), fabric)) {
      const auto add = [&](const ClothLayout::Part& part, bool across) {
        out.push_back(std::to_string(part.times * layout.times) + ": " +
                      booklet::strip_words(w, layout, part, across) + ": " +
                      booklet::runs_words(w, *part.plan));
      };
      for (const auto& part : layout.parts) add(part, false);
      for (const auto& part : layout.across) add(part, true);
    }
    return out;
  }

  std::string words() const {
    Diagnostics ignored;
    const auto document = set_booklet(compiled->scene(), w.size, help::letter(), ignored);
    REQUIRE(document);
    return help::running_words(*document);
  }
};

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

dogear::Run run_of(dogear::Run::Kind kind, long long count, Fraction y, Fraction length,
                   Fraction height) {
  dogear::Run run;
  run.kind = kind;
  run.count = count;
  run.x = {0, 1};
  run.y = y;
  run.length = length;
  run.height = height;
  return run;
}

}  // namespace

TEST_CASE("strips are told by the cloth they come from") {
  // Eight squares of 2½ in of either fabric; Red binds the quilt as well.
  const Page yard(with(std::string(red_by_the_yard) + sand_by_the_yard));
  CHECK(yard.rows(1) == std::vector<std::string>{"1: 2½ in × WOF: 8\u00A0A2"});

  const Page quarters(with(std::string(red_by_the_yard) +
                           "  sand: {name: Sand, colour: \"#e0d0b0\", from: [fat quarters]}\n"));
  CHECK(quarters.rows(1) == std::vector<std::string>{"1: 2½ in from fat quarter 1: 8\u00A0A2"});
  CHECK(booklet::bought_words(quarters.w, quarters.need(1)) ==
        "1\u00A0fat quarter of 18 in × 21 in");
  CHECK(booklet::bought_words(quarters.w, quarters.need(1), false) == "1\u00A0fat quarter");

  const Page squares(with(
      std::string(red_by_the_yard) + "  sand: {name: Sand, colour: \"#e0d0b0\", from: [charm]}\n",
      "bundles:\n  charm: {name: 5 in square bundle, square: 5 in, each: 3, "
      "fabrics: [sand]}\n"));
  // Four squares of 2½ in come out of one of 5 in.
  CHECK(squares.rows(1) ==
        std::vector<std::string>{"4: 2½ in, two from each of squares 1 and 2: 2\u00A0A2"});
  CHECK(booklet::bought_words(squares.w, squares.need(1)).empty());
  const std::string words = squares.words();
  CHECK(contains(words, "One bundle of 5 in squares with 1 fabric, 3 squares of each."));
  CHECK(contains(words, "2 of 3"));

  const Page strips(with(std::string(red_by_the_yard) + sand_by_the_yard,
                         "bundles:\n  long: {name: 3 in strip bundle, strip: 3 in, length: 42 in, "
                         "each: 1, fabrics: [sand]}\n"));
  const std::string row = strips.rows(1).at(0);
  INFO(row);
  CHECK((row == "1: 3 in bundle strip, cut down to 2½ in: 8\u00A0A2" ||
         row == "1: 3 in bundle strip: 8\u00A0A2 (cut down to 2½ in)"));
}

TEST_CASE("rows of a strip are told with their height") {
  Page page(with(std::string(red_by_the_yard) + sand_by_the_yard));
  StripPlan plan;
  plan.fabric = 1;
  plan.height = {5, 1};
  plan.usable = {42, 1};
  plan.purpose = "pieces";
  const PieceId piece = page.w.quantities().pieces[0].piece;
  const std::string label = page.w.scene.piecing.pieces[piece].label(page.w.pattern());
  dogear::Run low = run_of(dogear::Run::Kind::piece, 16, {0, 1}, {40, 1}, {5, 2});
  low.piece = piece;
  dogear::Run high = low;
  high.y = {5, 2};
  plan.runs = {low, high};
  CHECK(booklet::runs_words(page.w, plan) == "2 rows of 16\u00A0" + label + " (cut down to 2½ in)");
  plan.runs[1].count = 9;
  CHECK(booklet::runs_words(page.w, plan) == "25\u00A0" + label + " (cut down to 2½ in)");
  dogear::Run border = run_of(dogear::Run::Kind::whole_strip, 1, {0, 1}, {39, 2}, {5, 1});
  border.purpose = "border";
  dogear::Run rest = run_of(dogear::Run::Kind::leftover, 0, {0, 1}, {45, 2}, {5, 1});
  plan.runs = {border, rest};
  // Joined first and cut to length when the top is measured: nothing is cut off before.
  CHECK(booklet::runs_words(page.w, plan) ==
        "for the border: join the whole strip, trim to fit when sewing");
  dogear::Run beside = run_of(dogear::Run::Kind::piece, 1, {39, 2}, {5, 1}, {5, 1});
  beside.piece = piece;
  plan.runs = {border, beside};
  CHECK(booklet::runs_words(page.w, plan) == "19½ in for the border, 1\u00A0" + label);
  plan.runs = {border, rest};
  CHECK(booklet::strip_rest_words(page.w, plan) == "5 × 22½ in");
  dogear::Run binding = run_of(dogear::Run::Kind::whole_strip, 1, {0, 1}, {42, 1}, {5, 2});
  binding.purpose = "binding";
  plan.runs = {binding, binding};
  CHECK(booklet::runs_words(page.w, plan) == "2 × for the binding (cut down to 2½ in)");
  CHECK(booklet::strip_rest_words(page.w, plan) == "–");
}

TEST_CASE("what is left over is told largest first, and smaller pieces by number") {
  const Page page(with(std::string(red_by_the_yard) + sand_by_the_yard));
  FabricNeed need;
  need.fabric = 0;
  const auto left = [](Leftover::From from, Fraction height, Fraction length, long long count) {
    Leftover l;
    l.from = from;
    l.height = height;
    l.length = length;
    l.count = count;
    return l;
  };
  using From = Leftover::From;
  need.leftovers = {left(From::strip, {3, 2}, {4, 1}, 9), left(From::strip, {1, 1}, {30, 1}, 1),
                    left(From::cloth, {9, 2}, {42, 1}, 1), left(From::strip, {5, 2}, {5, 4}, 3)};
  Leftover spare = left(From::squares, {0, 1}, {0, 1}, 2);
  spare.piece = page.w.quantities().pieces[0].piece;
  need.leftovers.push_back(spare);
  const std::string label = page.w.scene.piecing.pieces[*spare.piece].label(page.w.pattern());
  CHECK(booklet::leftover_words(page.w, need) ==
        "4½ × 42 in; 1 × 30 in; 9 pieces of 1½ × 4 in; 2\u00A0" + label +
            "; 3\u00A0smaller pieces");
  need.leftovers.clear();
  for (int i = 0; i < 10; ++i)
    need.leftovers.push_back(left(From::strip, {3, 1}, Fraction{20 - i, 1}, 1));
  const std::string many = booklet::leftover_words(page.w, need);
  CHECK(many.starts_with("3 × 20 in; 3 × 19 in"));
  CHECK(many.ends_with("3 × 15 in; 4\u00A0smaller pieces"));
}

TEST_CASE("the requirements say what the yardage holds") {
  const std::string plain = Page(with(std::string(red_by_the_yard) + sand_by_the_yard)).words();
  CHECK(contains(plain, "Yardage includes 1 in of each fabric for squaring up, and is rounded up"));
  CHECK(contains(plain, "Buy more if you shrink the fabric"));
  const std::string full =
      Page(with(std::string(red_by_the_yard) + sand_by_the_yard,
                "allowances: {squaring up: 2 in, shrinkage: 3 %, margin: 1 strip}\n"))
          .words();
  CHECK(contains(full,
                 "2 in of each fabric for squaring up, 3% for shrinkage and 1 strip of "
                 "each fabric to spare"));
  CHECK_FALSE(contains(full, "Buy more if you shrink"));
  const std::string none = Page(with(std::string(red_by_the_yard) + sand_by_the_yard,
                                     "allowances: {squaring up: 0 in}\n"))
                               .words();
  CHECK(contains(none, "These are the cuts alone"));
  CHECK_FALSE(contains(none, "Yardage includes"));
}

TEST_CASE("only where no plan needs less does the booklet say so") {
  Page page(with(std::string(red_by_the_yard) + sand_by_the_yard));
  for (FabricNeed& need : page.compiled->quantities.sizes[1].fabrics) need.least->met = true;
  CHECK(contains(page.words(), "This is the least that will do when everything is cut in strips"));
  page.compiled->quantities.sizes[1].fabrics.front().least->met = false;
  CHECK_FALSE(contains(page.words(), "This is the least"));
}

TEST_CASE("fabrics are listed by number, on the back all sizes side by side") {
  const Page page(
      with("  sand: {name: Sand, colour: \"#e0d0b0\"}\n"
           "  red: {name: Red, colour: \"#b03030\", width: 44 in}\n"));
  const std::string words = page.words();
  const std::size_t red = words.find("Red (blocks, binding, 44 in wide)");
  const std::size_t sand = words.find("Sand (blocks)");
  REQUIRE(red != std::string::npos);
  REQUIRE(sand != std::string::npos);
  CHECK(sand < red);
  const std::string back = words.substr(words.find("Fabric requirements by size"));
  CHECK(contains(back, "Mug Rug"));
  CHECK(back.find("1 Sand (blocks)") < back.find("2 Red (blocks, binding)"));
  CHECK(back.find("2 Red (blocks, binding)") < back.find("Backing"));
  CHECK(back.find("Backing") < back.find("Batting"));
}

TEST_CASE("squares that are cut apart are counted where they are cut") {
  DiskFiles files;
  const auto star = help::compile(test::project_folder() + "/patterns/tide-star", files);
  Diagnostics d;
  const auto document = set_booklet(star->scene(), 0, help::letter(), d);
  REQUIRE(document);
  const std::string words = help::running_words(*document);
  // 9 blocks of 4 quarters; 5 blocks of 8 halves.
  CHECK(contains(words, "9 squares of 7 1/4 in, each cut twice from corner to"));
  CHECK(contains(words, "20 squares of 3 7/8 in, each cut once from corner to"));
}

TEST_CASE("fat quarters and squares are counted in the designer's words") {
  MemoryFiles files = with(std::string(red_by_the_yard) +
                           "  sand: {name: Sand, colour: \"#e0d0b0\", from: [fat quarters]}\n");
  const auto codes = [&](const std::string& words) {
    files.content["p/prose/welcome.md"] = "# Welcome\n\n" + words + "\n";
    Diagnostics d;
    const auto compiled = help::compile("p", files);
    proofread(compiled->scene(), {0, 1}, help::letter().words, files, d);
    std::vector<std::string> out;
    for (const Diagnostic& each : d.all()) out.push_back(each.code);
    return out;
  };
  CHECK(codes("{{#four}}Buy 2 fat quarters of Sand.{{/four}}") == std::vector<std::string>{"D420"});
  CHECK(codes("{{#four}}Buy 1 fat quarter of Sand.{{/four}}") == std::vector<std::string>{"D450"});
  CHECK(codes("Fat quarters of Sand are nice.").empty());
}

TEST_CASE("a table that a page holds is not parted") {
  const Template& style = help::letter();
  const booklet::Typesetter type(help::fonts(), help::hyphens());
  booklet::FlowContext flow{style, type};
  for (int above = 0; above < 40; above += 3) {
    booklet::Column column(flow, 0, style.text_width());
    for (int n = 0; n < above; ++n) column.paragraph("One line.");
    booklet::Table table;
    table.head = {{column.plain("Cut"), {}}, {column.plain("Strips"), {}}};
    for (int n = 0; n < 12; ++n)
      table.rows.push_back({{column.plain("1"), {}}, {column.plain("strip"), {}}});
    const std::size_t first = column.boxes.size();
    column.table(table);
    const std::size_t end = column.boxes.size();
    for (int n = 0; n < 20; ++n) column.paragraph("One line.");
    for (const booklet::PageRun& page : booklet::paginate(column.boxes, style.text_height())) {
      INFO(above << " lines above");
      CHECK((page.end <= first || page.end >= end));
    }
  }
}
