#include <cmath>
#include <limits>

#include "canvas/display.h"
#include "canvas/number.h"
#include "support/fonts.h"

using namespace dogear::canvas;

namespace {
std::string number(double v, int places = 3) {
  std::string out;
  append_number(out, v, places);
  return out;
}
void check_box(const Rect& box, double left, double top, double right, double bottom) {
  CHECK(box.left == Approx(left).margin(1e-9));
  CHECK(box.top == Approx(top).margin(1e-9));
  CHECK(box.right == Approx(right).margin(1e-9));
  CHECK(box.bottom == Approx(bottom).margin(1e-9));
}
}  // namespace

TEST_CASE("numbers are short, rounded and never in exponent form") {
  CHECK(number(0) == "0");
  CHECK(number(-0.0001) == "0");
  CHECK(number(2.5) == "2.5");
  CHECK(number(-2.0625) == "-2.063");
  CHECK(number(1.0 / 3, 6) == "0.333333");
  CHECK(number(12.05, 1) == "12.1");
  CHECK(number(0.007) == "0.007");
  CHECK(number(3e15) == "3000000000000000");
  CHECK(number(std::numeric_limits<double>::quiet_NaN()) == "0");
}

TEST_CASE("colours are read from and written as hex") {
  const auto c = Color::parse("#ff8000");
  REQUIRE(c);
  CHECK(c->r == 1);
  CHECK(c->hex() == "#ff8000");
  CHECK(Color::parse("#f80")->hex() == "#ff8800");
  CHECK_FALSE(Color::parse("ff8000"));
  CHECK_FALSE(Color::parse("#ff80"));
  CHECK_FALSE(Color::parse("#gg0000"));
  CHECK(contrast(black, white) == Approx(21));
  CHECK(contrast(white, white) == Approx(1));
}

TEST_CASE("transforms turn clockwise on the page and chain in reading order") {
  const Point p = Transform::turn(90).apply(Point{1, 0});
  CHECK(p == Point{0, 1});  // exactly: to the right becomes down
  const Transform t = Transform::scale(2).then(Transform::move(10, 0));
  CHECK(t.apply(Point{3, 4}) == Point{16, 8});
  const Point q = Transform::turn_about(180, {5, 5}).apply(Point{6, 7});
  CHECK(q == Point{4, 3});
}

TEST_CASE("bounds of curves are those of the curve, not of its control points") {
  check_box(Path::circle({10, 20}, 5).bounds(), 5, 15, 15, 25);
  Path hump;
  hump.move(0, 0).cubic({0, 4}, {4, 4}, {4, 0});
  check_box(hump.bounds(), 0, 0, 4, 3);
  check_box(Path::arc({0, 0}, 10, 0, 90).bounds(), 0, 0, 10, 10);
  const Rect three_quarters = Path::arc({0, 0}, 10, -45, 225).bounds();
  CHECK(three_quarters.bottom == Approx(10).epsilon(1e-3));
  CHECK(three_quarters.top == Approx(-std::sqrt(50.0)));
  CHECK(Path{}.bounds().empty());
  CHECK_FALSE(Path::segment({0, 0}, {std::nan(""), 1}).finite());
}

TEST_CASE("bounds of a list follow strokes, forms, clips and turned text") {
  DisplayList inner;
  inner.stroke_path(Path::segment({0, 0}, {10, 0}), black, 2);
  DisplayList list;
  CHECK(list.bounds().empty());
  list.draw(share(inner), Transform::scale(3).then(Transform::move(100, 50)));
  check_box(list.bounds(), 97, 47, 133, 53);

  DisplayList clipped;
  clipped.draw_clipped(share(inner), {}, Path::rect(2, -5, 4, 10));
  check_box(clipped.bounds(), 2, -1, 6, 1);

  const ShapedText word = test_fonts().shape(FontId::text, 10, "strip");
  DisplayList flat, turned;
  flat.text(0, 0, word);
  turned.text(0, 0, word, black, 90);
  check_box(flat.bounds(), 0, -word.ascent, word.width, word.descent);
  check_box(turned.bounds(), -word.descent, 0, word.ascent, word.width);

  DisplayList unseen;
  unseen.link(Rect::of(0, 0, 5, 5), "x");
  unseen.anchor("x", {3, 3});
  CHECK(unseen.bounds().empty());
}
