// Ready-made units by every method: cuts against facts of the trade, counts, and the same look.

#include <algorithm>
#include <catch2/catch.hpp>

#include "support/plan.h"
#include "support/trade.h"

using namespace dogear;
using test::f;

namespace {

// One unit, `count` times in a row, on a grid of 1 in; red and blue.
test::Planned units(const std::string& unit, int count, const std::string& extra = "") {
  std::string row;
  for (int i = 0; i < count; ++i) row += i == 0 ? "u" : ", u";
  return test::plan_block("block: B\ngrid: square\nroles: [light, dark, third]\nunits:\n  u: {" +
                              unit + "}\nrow: [" + row + "]\n",
                          "light: red, dark: blue, third: grey", extra);
}

const CutPiece* cut_of(const test::Planned& p, FabricId fabric, const Fraction& strip) {
  for (const CutPiece& c : p.quantities->sizes[0].pieces) {
    const Piece& piece = p.piecing->pieces[c.piece];
    if (piece.fabric == fabric && c.cut.strip == strip) return &c;
  }
  return nullptr;
}

constexpr FabricId red = 0, blue = 1;

void check_square(const test::Planned& p, FabricId fabric, const Fraction& side, long long count) {
  INFO(p.errors());
  REQUIRE(p.quantities);
  const CutPiece* c = cut_of(p, fabric, side);
  INFO(plain(side));
  REQUIRE(c != nullptr);
  CHECK(c->cut.method == CutMethod::rectangle);
  CHECK(c->cut.length == side);
  CHECK(c->count == count);
}

const SewnUnit& batch_unit(const test::Planned& p) {
  const auto& units = p.piecing->units;
  const auto found = std::find_if(units.begin(), units.end(),
                                  [](const SewnUnit& u) { return u.batch.has_value(); });
  REQUIRE(found != units.end());
  return *found;
}

std::string of_two(const std::string& shape, const std::string& method) {
  return "shape: " + shape + ", fabrics: [light, dark], method: " + method;
}

// What is seen: the fabric of every patch and where it lies in the top.
std::vector<std::pair<FabricId, Polygon>> look(const test::Planned& p) {
  std::vector<std::pair<FabricId, Polygon>> out;
  for (const FlatPatch& patch : flatten(*p.checked, p.checked->sizes[0].top)) {
    const Part& part = p.checked->parts[patch.patch];
    out.emplace_back(part.fabric, tidy(patch.where.apply(part.outline)));
  }
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace

TEST_CASE("half-square triangles two at a time: squares of F + 7/8") {
  // common practice; exactly q(2 + √2) = 0.854, rounded up to 1/8.
  for (const int side : {1, 2, 3, 4, 6}) {
    const auto p =
        units(of_two("half-square triangle unit " + std::to_string(side), "two at a time"), 4);
    check_square(p, red, f(8 * side + 7, 8), 2);
    check_square(p, blue, f(8 * side + 7, 8), 2);
  }
}

TEST_CASE("half-square triangles eight at a time: squares of 2(F + 7/8)") {
  // A. Tomlinson, tutorial; Mythic Seam, 2020: 5 -> 11 3/4, 4 -> 9 3/4.
  const auto five = units(of_two("half-square triangle unit 5", "eight at a time"), 8);
  check_square(five, red, f(47, 4), 1);
  check_square(five, blue, f(47, 4), 1);
  const auto four = units(of_two("half-square triangle unit 4", "eight at a time"), 8);
  check_square(four, red, f(39, 4), 1);
}

TEST_CASE("quarter-square triangles two at a time: squares of F + 1 1/4") {
  // common practice; exactly q(2 + 2√2) = 1.207, rounded up to 1/8.
  for (const int side : {2, 4, 6}) {
    const auto p =
        units(of_two("quarter-square triangle unit " + std::to_string(side), "two at a time"), 2);
    check_square(p, red, f(4 * side + 5, 4), 1);
    check_square(p, blue, f(4 * side + 5, 4), 1);
  }
}

TEST_CASE("flying geese four at a time: width + 1 1/4 and height + 7/8") {
  // Sylvia's Quilt Depot; Beverly's Quilting Page: 4 x 2 -> 5 1/4 and 2 7/8, 6 x 3 -> 7 1/4 and
  // 3 7/8.
  const auto four = units(of_two("flying geese 4 x 2", "four at a time"), 4);
  check_square(four, red, f(21, 4), 1);
  check_square(four, blue, f(23, 8), 4);
  const auto six = units(of_two("flying geese 6 x 3", "four at a time"), 4);
  check_square(six, red, f(29, 4), 1);
  check_square(six, blue, f(31, 8), 4);
}

TEST_CASE("flying geese of stitched corners: one rectangle and two squares, each + 1/2") {
  // common practice: (width + 1/2) x (height + 1/2), two squares of height + 1/2.
  const auto p = units(of_two("flying geese 4 x 2", "stitched corners"), 3);
  INFO(p.errors());
  REQUIRE(p.quantities);
  const CutPiece* goose = cut_of(p, red, f(5, 2));
  REQUIRE(goose != nullptr);
  CHECK(goose->cut.length == f(9, 2));
  CHECK(goose->count == 3);
  check_square(p, blue, f(5, 2), 6);
}

TEST_CASE("a stitched and flipped corner: a square of its leg + 1/2") {
  // Canuck Quilter, 2024.
  const auto p = units(
      "shape: rectangle 3 x 4, fabric: light, stitched corners: {top left: dark 1, bottom right: "
      "dark 1, bottom left: dark 1 1/2}",
      2);
  check_square(p, blue, f(3, 2), 4);
  check_square(p, blue, f(2), 2);
  const CutPiece* base = cut_of(p, red, f(7, 2));
  REQUIRE(base != nullptr);
  CHECK(base->cut.length == f(9, 2));
}

TEST_CASE("a square in a square: a center cut 4 has corners from squares of 3 3/8") {
  // computed; a printed error of the past had 3 3/4. The center finishes 3 1/2, its corners
  // 3 1/2 / √2, so the whole unit is 3 1/2 √2, about 4.949.
  const auto p = units("shape: square in a square 4.949, fabrics: [light, dark]", 1);
  INFO(p.errors());
  REQUIRE(p.quantities);
  const CutPiece* corners = test::find_piece(p, 0, "half-square triangle");
  REQUIRE(corners != nullptr);
  CHECK(corners->cut.method == CutMethod::half_square);
  CHECK(corners->cut.length == f(27, 8));
  const CutPiece* middle = test::find_piece(p, 0, "square");
  REQUIRE(middle != nullptr);
  CHECK(middle->cut.strip == f(4));
}

TEST_CASE("another seam allowance changes the squares by the exact formula") {
  // computed: q(2 + √2) = 1.280 and q(2 + 2√2) = 1.811 at q = 3/8.
  const std::string q = "seam allowance: 3/8 in\n";
  check_square(units(of_two("half-square triangle unit 3", "two at a time"), 2, q), red, f(35, 8),
               1);
  check_square(units(of_two("flying geese 4 x 2", "four at a time"), 4, q), red, f(47, 8), 1);
}

TEST_CASE("oversize makes every square that much larger, and the unit is trimmed") {
  check_square(
      units(of_two("half-square triangle unit 3", "two at a time") + ", oversize: 1/8 in", 2), red,
      f(4), 1);
  check_square(
      units(of_two("half-square triangle unit 4", "eight at a time") + ", oversize: 1/8 in", 8),
      red, f(10), 1);
}

TEST_CASE("units are sewn in whole batches, and what is over is told") {
  struct Row {
    const char *shape, *method;
    int need;
    long long batches, extra;
  };
  const Row row = GENERATE(Row{"half-square triangle unit 2", "two at a time", 4, 2, 0},
                           Row{"half-square triangle unit 2", "two at a time", 5, 3, 1},
                           Row{"half-square triangle unit 2", "eight at a time", 9, 2, 7},
                           Row{"quarter-square triangle unit 2", "two at a time", 3, 2, 1},
                           Row{"flying geese 2 x 1", "four at a time", 6, 2, 2},
                           Row{"flying geese 2 x 1", "stitched corners", 5, 5, 0});
  const auto p = units(of_two(row.shape, row.method), row.need);
  INFO(p.errors());
  REQUIRE(p.quantities);
  const SizeQuantities& q = p.quantities->sizes[0];
  REQUIRE(q.batches.size() == 1);
  CHECK(q.batches[0].need == row.need);
  CHECK(q.batches[0].batches == row.batches);
  CHECK(q.batches[0].extra == row.extra);
  // Every piece that is cut goes into a batch, or the binding of the top.
  long long pieces = 0, taken = 0;
  for (const CutPiece& c : q.pieces) pieces += c.count;
  for (const SewnBatch::Take& take : batch_unit(p).batch->takes) taken += take.count * row.batches;
  CHECK(pieces == taken);
}

TEST_CASE("units turned, or used in another block, share their batches") {
  const auto p = test::plan_block(
      "block: B\ngrid: square\nroles: [light, dark]\nunits:\n  u: {" +
          of_two("half-square triangle unit 2", "two at a time") + "}\n  v: {" +
          "shape: half-square triangle unit 2, fabrics: [dark, light], method: two at a time" +
          "}\nrow: [u, u turned 90, v, v turned 270, u flipped, v flipped turned 90]\n",
      "light: red, dark: blue");
  INFO(p.errors());
  REQUIRE(p.quantities);
  REQUIRE(p.quantities->sizes[0].batches.size() == 1);
  CHECK(p.quantities->sizes[0].batches[0].batches == 3);
}

TEST_CASE("methods change cuts, counts and cloth, never the look or the fit") {
  const auto make = [](const std::string& hst, const std::string& qst, const std::string& geese) {
    const auto with = [](const std::string& method) {
      return method.empty() ? "" : ", method: " + method;
    };
    return test::plan_block(
        "block: B\ngrid: square\nunit: 2 in\nroles: [light, dark]\nunits:\n"
        "  pair: {shape: half-square triangle unit 2, fabrics: [light, dark]" +
            with(hst) +
            "}\n"
            "  hour: {shape: quarter-square triangle unit 2, fabrics: [light, dark]" +
            with(qst) +
            "}\n"
            "  goose: {shape: flying geese 2 x 1, fabrics: [light, dark]" +
            with(geese) +
            "}\n"
            "  geese: {stack: [goose, goose turned]}\n"
            "row: [pair, hour turned 90, geese, geese turned 90, pair turned 270]\n",
        "light: red, dark: blue");
  };
  const auto single = make("", "", "");
  INFO(single.errors());
  REQUIRE(single.quantities);
  CHECK(single.quantities->sizes[0].batches.empty());
  for (const auto& p : {make("two at a time", "two at a time", "four at a time"),
                        make("eight at a time", "two at a time", "stitched corners")}) {
    INFO(p.errors());
    REQUIRE(p.quantities);
    CHECK(look(p) == look(single));
    CHECK(p.checked->sizes[0].width == single.checked->sizes[0].width);
    // The thread of every patch runs as it does where triangles are cut one by one.
    const auto threads = [](const test::Planned& plan) {
      std::vector<std::tuple<Point, Point, bool>> out;
      for (const PlacedPiece& piece : flatten(*plan.piecing, plan.piecing->sizes[0].top)) {
        for (const EdgeGrain& e : edges(*plan.piecing, piece)) {
          out.emplace_back(e.where.a, e.where.b, e.thread == Thread::bias);
        }
      }
      std::sort(out.begin(), out.end());
      return out;
    };
    CHECK(threads(p) == threads(single));
    CHECK(p.quantities->sizes[0].batches.size() == 3);
    const auto pieces = [](const test::Planned& plan) {
      long long n = 0;
      for (const CutPiece& c : plan.quantities->sizes[0].pieces) n += c.count;
      return n;
    };
    CHECK(pieces(p) < pieces(single));
  }
}

TEST_CASE("no bias edge is sewn where units are cut apart after sewing") {
  const auto p = units(of_two("half-square triangle unit 2", "two at a time"), 2);
  REQUIRE(p.piecing);
  for (const Seam& seam : batch_unit(p).seams) {
    CHECK_FALSE(seam.first_has_bias);
    CHECK_FALSE(seam.second_has_bias);
  }
  const auto single = units(of_two("half-square triangle unit 2", "one at a time"), 2);
  REQUIRE(single.piecing);
  const bool bias = std::any_of(
      single.piecing->units.begin(), single.piecing->units.end(), [](const SewnUnit& u) {
        return std::any_of(u.seams.begin(), u.seams.end(),
                           [](const Seam& s) { return s.first_has_bias && s.second_has_bias; });
      });
  CHECK(bias);
}

TEST_CASE("how ready-made units lie") {
  // Half-square: the first fabric at the bottom left. Geese: the goose's long side at the bottom.
  const auto at = [](const test::Planned& p, const Point& spot) {
    for (const auto& [fabric, shape] : look(p)) {
      bool inside = true;
      for (std::size_t i = 0; i < shape.size(); ++i) {
        const Segment e = shape.edge(i);
        inside = inside && cross(e.b - e.a, spot - e.a).sign() > 0;
      }
      if (inside) return static_cast<int>(fabric);
    }
    return -1;
  };
  const Exact low = Exact::ratio(1, 10), high = Exact::ratio(19, 10);
  const auto pair = units("shape: half-square triangle unit 2, fabrics: [light, dark]", 1);
  CHECK(at(pair, {low, high - low}) == 0);
  CHECK(at(pair, {high, low}) == 1);
  const auto goose = units("shape: flying geese 2 x 1, fabrics: [light, dark]", 1);
  CHECK(at(goose, {Exact(1), Exact::ratio(9, 10)}) == 0);
  CHECK(at(goose, {low, low}) == 1);
  const auto hour =
      units("shape: quarter-square triangle unit 2, fabrics: [light, dark, third]", 1);
  CHECK(at(hour, {Exact(1), low}) == 0);
  CHECK(at(hour, {low, Exact(1)}) == 1);
  CHECK(at(hour, {high, Exact(1)}) == 1);
  CHECK(at(hour, {Exact(1), high}) == 2);
  const auto frame = units("shape: square in a square 2, fabrics: [light, dark]", 1);
  CHECK(at(frame, {Exact(1), Exact(1)}) == 0);
  CHECK(at(frame, {low, high}) == 1);
  const auto snow =
      units("shape: square 2, fabric: light, stitched corners: {top right: dark 1/2}", 1);
  CHECK(at(snow, {high, low}) == 1);
  CHECK(at(snow, {low, low}) == 0);
}

TEST_CASE("units cut apart are warned of where a print has a direction") {
  const auto with = [](const std::string& method) {
    MemoryFiles files;
    files.content["p/blocks/b.yaml"] =
        "block: B\ngrid: square\nroles: [light, dark]\nunits:\n  u: {" +
        of_two("half-square triangle unit 2", method) + "}\nrow: [u, u]\n";
    files.content["p/pattern.yaml"] =
        "title: T\ndesigner: D\nfabrics:\n  red: {colour: \"#aa2222\", directional: yes}\n"
        "  blue: {colour: \"#2222aa\"}\n"
        "rulers: {straight: {angle: 90, highest: 24 in}}\n"
        "blocks: {b: {block: b, fabrics: {light: red, dark: blue}}}\n"
        "sizes: {one: {setting: rows, rows: [[b]]}}\n";
    return test::plan("p", files);
  };
  CHECK(with("two at a time").has("D516"));
  CHECK(with("eight at a time").has("D516"));
  CHECK_FALSE(with("one at a time").has("D516"));
}
