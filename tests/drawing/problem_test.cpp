// The figure of an error: all that matters is marked, named and measured, and nothing collides.

#include "drawing/problem.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "look.h"
#include "support/fonts.h"

using namespace dogear;

namespace {

using Kind = PictureRegion::Kind;
constexpr double side = 432;

PictureRing box(double x, double y, double width, double height) {
  return {{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
}

ProblemPicture goose() {
  ProblemPicture picture;
  picture.what = "the parts of goose leave a gap";
  picture.parts = {{"sky", {{2, 0}, {4, 2}, {0, 2}}}, {"wing", {{0, 0}, {2, 0}, {0, 2}}}};
  picture.promised = box(0, 0, 4, 2);
  picture.regions = {{Kind::gap, {{{2, 0}, {4, 0}, {4, 2}}}}};
  return picture;
}

std::vector<std::string> words(const look::Drawn& drawn) {
  std::vector<std::string> out;
  for (const auto& run : drawn.runs) out.push_back(run.text());
  return out;
}

bool says(const look::Drawn& drawn, const std::string& what) {
  const auto all = words(drawn);
  return std::find(all.begin(), all.end(), what) != all.end();
}

// Words lie apart, within the figure; so do all shapes.
void check_sound(const Figure& figure) {
  const look::Drawn drawn = look::at(*figure.list);
  const canvas::Rect page{-0.01, -0.01, figure.width + 0.01, figure.height + 0.01};
  for (std::size_t i = 0; i < drawn.runs.size(); ++i) {
    const canvas::Rect a = look::words_box(drawn.runs[i]);
    CAPTURE(drawn.runs[i].text());
    CHECK((a.left >= page.left && a.right <= page.right && a.top >= page.top &&
           a.bottom <= page.bottom));
    for (std::size_t j = 0; j < i; ++j) {
      CAPTURE(drawn.runs[j].text());
      CHECK_FALSE(look::meet(a, look::words_box(drawn.runs[j])));
    }
  }
  for (const canvas::Shape& shape : drawn.shapes) {
    REQUIRE(shape.path.finite());
    const canvas::Rect b = shape.path.bounds();
    CHECK((b.left >= page.left && b.right <= page.right && b.top >= page.top &&
           b.bottom <= page.bottom));
  }
}

}  // namespace

TEST_CASE("a gap is hatched, named, measured and explained") {
  const Figure figure = draw_problem(goose(), test_fonts(), side, side);
  check_sound(figure);
  CHECK(figure.width <= side);
  CHECK(figure.height <= side);
  const look::Drawn drawn = look::at(*figure.list);
  for (const std::string what : {"The parts of goose leave a gap", "gap", "sky", "wing", "2 in",
                                 "gap: no part lies here", "the shape that the parts must fill"}) {
    CAPTURE(what, words(drawn));
    CHECK(says(drawn, what));
  }
  CHECK(figure.alt == "the parts of goose leave a gap. Marked: gap, 2 in by 2 in.");
  const auto hatched = std::count_if(drawn.shapes.begin(), drawn.shapes.end(),
                                     [](const auto& s) { return s.style.hatch.has_value(); });
  CHECK(hatched == 2);  // the region and its key
}

TEST_CASE("each kind of region has a hatch, a colour and a word of its own") {
  std::set<int> hatches;
  std::set<std::string> colours, names;
  for (const Kind kind : {Kind::gap, Kind::overlap, Kind::overhang}) {
    ProblemPicture picture = goose();
    picture.regions[0].kind = kind;
    const Figure figure = draw_problem(picture, test_fonts(), side, side);
    check_sound(figure);
    const look::Drawn drawn = look::at(*figure.list);
    for (const canvas::Shape& s : drawn.shapes) {
      if (!s.style.hatch) continue;
      hatches.insert(s.style.hatch->kind);
      colours.insert(s.style.hatch->color.hex());
      CHECK(canvas::contrast(s.style.hatch->color, *s.style.fill) > 4.5);
    }
    names.insert(figure.alt);
  }
  CHECK(hatches.size() == 3);
  CHECK(colours.size() == 3);
  CHECK(names.size() == 3);
}

TEST_CASE("a set-in corner is ringed and named, and its seams are heavy") {
  ProblemPicture picture;
  picture.what = "Whirl would need a set-in seam";
  picture.parts = {{"lying", box(0, 0, 4, 2)},
                   {"standing", box(4, 0, 2, 4)},
                   {"lying", box(2, 4, 4, 2)},
                   {"standing", box(0, 2, 2, 4)},
                   {"middle", box(2, 2, 2, 2)}};
  picture.lines = {{{{2, 2}, {4, 2}}}, {{{2, 2}, {2, 4}}}};
  picture.marks = {{{2, 2}, "set-in seam"}};
  const Figure figure = draw_problem(picture, test_fonts(), side, side);
  check_sound(figure);
  const look::Drawn drawn = look::at(*figure.list);
  CHECK(says(drawn, "set-in seam"));
  CHECK(says(drawn, "2 in"));
  CHECK(says(drawn, "seams that end in the marked corner"));
  CHECK_FALSE(says(drawn, "the shape that the parts must fill"));
}

TEST_CASE("where sizes differ, both are measured") {
  ProblemPicture size = goose();
  size.regions.clear();
  size.promised = box(0, 0, 8, 3);
  const Figure whole = draw_problem(size, test_fonts(), side, side);
  check_sound(whole);
  for (const std::string what : {"8 in", "3 in", "4 in", "2 in"}) {
    CHECK(says(look::at(*whole.list), what));
  }
  ProblemPicture row;
  row.what = "corner and centre do not meet along a whole edge";
  row.parts = {{"corner", box(0, 0, 2, 2)}, {"centre", box(2.5, 0, 4, 5)}};
  const Figure two = draw_problem(row, test_fonts(), side, side);
  check_sound(two);
  for (const std::string what : {"4 in", "5 in", "2 in"}) {
    CHECK(says(look::at(*two.list), what));
  }
}

TEST_CASE("a tiny fault in a large top is found by its label, and many parts are survived") {
  ProblemPicture picture;
  picture.what = "the top has an overlap";
  for (int i = 0; i < 2500; ++i) {
    picture.parts.push_back({"block", box(i % 50 * 12.0, i / 50 * 12.0, 12, 12)});
  }
  picture.regions = {{Kind::overlap, {box(300, 300, 0.001, 0.001)}}};
  const Figure figure = draw_problem(picture, test_fonts(), side, side);
  check_sound(figure);
  const look::Drawn drawn = look::at(*figure.list);
  CHECK(says(drawn, "overlap"));
  CHECK(says(drawn, "300 in"));
  CHECK_FALSE(says(drawn, "block"));
}

TEST_CASE("narrow, wide and nested regions keep their words apart") {
  for (const auto& [w, h] : std::vector<std::pair<double, double>>{
           {100, 0.5}, {0.5, 100}, {0.25, 0.25}, {3, 3}, {9000, 9000}}) {
    CAPTURE(w, h);
    ProblemPicture picture;
    picture.what =
        "the parts of a unit whose name is longer than it ought to be stick out "
        "of the shape that was promised for them";
    picture.parts = {{"first", box(0, 0, w, h)}, {"second", box(w, 0, w, h)}};
    picture.promised = box(0, 0, 1.9 * w, h);
    picture.regions = {
        {Kind::overhang, {box(1.9 * w, 0, 0.1 * w, h), box(1.92 * w, h / 4, 0.04 * w, h / 2)}}};
    check_sound(draw_problem(picture, test_fonts(), side, side));
  }
}

TEST_CASE("a picture of nothing, or of what is no number, is an empty figure") {
  CHECK(draw_problem({}, test_fonts(), side, side).list->empty());
  for (const double bad : {std::numeric_limits<double>::quiet_NaN(),
                           std::numeric_limits<double>::infinity(), 1e308, -1e308}) {
    ProblemPicture picture = goose();
    picture.parts[0].outline[1].x = bad;
    const Figure figure = draw_problem(picture, test_fonts(), side, side);
    for (const canvas::Shape& s : look::at(*figure.list).shapes) CHECK(s.path.finite());
    CHECK(std::isfinite(figure.width));
    CHECK(std::isfinite(figure.height));
  }
}
