#include <catch2/catch.hpp>

#include "piecing/grain.h"
#include "sewn.h"

using namespace dogear;
using namespace dogear::test;

namespace {

const std::string head = "block: B\ngrid: square\nunit: 3 in\nroles: [red, blue]\nunits:\n";

// Two triangles that make a square: how each is cut is given.
SewnBlock square_of(const std::string& a, const std::string& b) {
  return sew_block(head + "  a: {shape: half-square triangle 1, fabric: red" + a + "}\n" +
                   "  b: {shape: half-square triangle 1, fabric: blue" + b + "}\n" +
                   "shape: square 1\nplace:\n  - {unit: a, at: [0, 0]}\n"
                   "  - {unit: b turned, at: [0, 0]}\n");
}

}  // namespace

TEST_CASE("every edge is lengthwise, crosswise or bias with its angle") {
  CHECK(thread_along({Exact(2), Exact(0)}) == Thread::crosswise);
  CHECK(thread_along({Exact(0), Exact(-1)}) == Thread::lengthwise);
  CHECK(thread_along({Exact(1), Exact(1)}) == Thread::bias);
  // Bias stretches most at 45°: Nebraska Extension G91-1028.
  CHECK(degrees_off({Exact(1), Exact(1)}) == Approx(45));
  CHECK(degrees_off({Exact(1), Exact::sqrt3()}) == Approx(30));
  CHECK(degrees_off({Exact(2), Exact(1)}) == Approx(26.565).margin(0.001));
  CHECK(degrees_off({Exact(3), Exact(0)}) == 0);
}

TEST_CASE("the thread of an edge is carried through every turn") {
  const SewnBlock s = square_of("", "");
  REQUIRE(s.piecing);
  for (int turn = 0; turn < 24; ++turn) {
    int length = 0, cross = 0, bias = 0;
    for (const EdgeGrain& e : edges(*s.piecing, {0, Transform::turned(turn)})) {
      length += e.thread == Thread::lengthwise ? 1 : 0;
      cross += e.thread == Thread::crosswise ? 1 : 0;
      bias += e.thread == Thread::bias ? 1 : 0;
      if (e.thread == Thread::bias) CHECK(e.off == Approx(45));
    }
    CHECK(length == 1);
    CHECK(cross == 1);
    CHECK(bias == 1);
  }
}

TEST_CASE("`grain` turns the shape on its cloth and leaves its place in the block") {
  const SewnBlock s = square_of(", grain: 45", ", grain: along the long edge");
  REQUIRE(s.piecing);
  for (const Piece& p : s.piecing->pieces) {
    // Cut with the long edge along the strip: half as high as it is long.
    const Box box = bounds(p.shape);
    CHECK(box.width() == box.height() * Exact(2));
  }
  // They fill the square they filled before.
  CHECK(area(s.unit("B").outline) == Exact(9));
  CHECK_FALSE(s.unit("B").seams[0].first_has_bias);
}

TEST_CASE("bias at the outer edge of a block is told with the turn that avoids it") {
  // Quarter-square shapes at the corners of a square on its point: the legs lie outside.
  const SewnBlock s = square_of(", grain: 45", "");
  CHECK(s.codes() == std::vector<std::string>{"D351"});
  CHECK(s.hint().find("`grain: 0` on `a`") != std::string::npos);
  CHECK(square_of(", grain: 0", "").codes().empty());
  // The suggestion holds: written as it stands it brings no other warning.
  CHECK(square_of(", grain: 0", ", grain: 90").codes().empty());
}

TEST_CASE("half-square triangles whose long edges meet are common practice and bring no warning") {
  CHECK(square_of("", "").codes().empty());
}

TEST_CASE("bias sewn to bias is told where a turn on the cloth avoids it") {
  // Two rounds of triangles about a square: the inner ones cut along their long edges meet the
  // outer ones' long edges bias to bias; cut along their legs they hold them (Nebraska Extension
  // G91-1028: sew a bias edge to a woven-thread edge where you can).
  const auto rounds = [](const std::string& grain) {
    return head +
           "  middle: {shape: square 2, fabric: red}\n"
           "  inner: {corners: [[0, 1], [1, 0], [2, 1]], fabric: blue" +
           grain +
           "}\n"
           "  outer: {shape: half-square triangle 2, fabric: red}\n"
           "  core:\n    corners: [[2, 0], [4, 2], [2, 4], [0, 2]]\n    place:\n      - {unit: "
           "middle, at: [1, 1]}\n"
           "      - {unit: inner, at: [2, 0]}\n      - {unit: inner turned, at: [1, 3]}\n"
           "      - {unit: inner turned 90, at: [3, 1]}\n"
           "      - {unit: inner turned 270, at: [1, 1]}\n"
           "shape: square 4\nplace:\n  - {unit: core, at: [2, 0]}\n"
           "  - {unit: outer turned 90, at: [0, 0]}\n  - {unit: outer turned, at: [2, 0]}\n"
           "  - {unit: outer, at: [0, 2]}\n  - {unit: outer turned 270, at: [4, 2]}\n";
  };
  const SewnBlock s = sew_block(rounds(""));
  CHECK(s.codes() == std::vector<std::string>{"D353"});
  CHECK(s.hint().find("`grain: 45` on `inner`") != std::string::npos);
  CHECK(sew_block(rounds(", grain: 45")).codes().empty());
}

TEST_CASE("a square on its point is cut along its own edges unless its grain says otherwise") {
  const auto block = [](const std::string& grain) {
    return head + "  middle: {corners: [[1, 0], [2, 1], [1, 2], [0, 1]], fabric: red" + grain +
           "}\n"
           "  corner: {shape: half-square triangle 1, fabric: blue}\n"
           "shape: square 2\nplace:\n  - {unit: middle, at: [1, 0]}\n"
           "  - {unit: corner turned 90, at: [0, 0]}\n  - {unit: corner turned 180, at: [1, 0]}\n"
           "  - {unit: corner, at: [0, 1]}\n  - {unit: corner turned 270, at: [2, 1]}\n";
  };
  CHECK(sew_block(block("")).codes().empty());
  CHECK(sew_block(block(", grain: 45")).codes().empty());
  CHECK(sew_block(block(", grain: 0")).codes() == std::vector<std::string>{"D353"});
}

TEST_CASE("a directional print turned in the block is told with the grain that rights it") {
  const std::string block = head +
                            "  a: {shape: rectangle 1 x 2, fabric: red}\n"
                            "  b: {shape: rectangle 1 x 2, fabric: blue}\n"
                            "row: [a turned 90, b turned 90]\n";
  CHECK(sew_block(block).codes().empty());
  const SewnBlock s = sew_block(block, 2, 2, ", directional: yes");
  CHECK(s.codes() == std::vector<std::string>{"D356"});
  CHECK(s.hint().find("`grain: 270` on `a`") != std::string::npos);
  std::string mended = block;
  mended.replace(mended.find("fabric: red"), 11, "fabric: red, grain: 270");
  const SewnBlock good = sew_block(mended, 2, 2, ", directional: yes");
  CHECK(good.codes().empty());
}

TEST_CASE("pieces of a directional print that lie the other way up are other pieces") {
  const std::string block = head +
                            "  a: {shape: half-square triangle 1, fabric: red}\n"
                            "  c: {shape: half-square triangle 1, fabric: red, grain: 180}\n"
                            "  b: {shape: half-square triangle 1, fabric: blue}\n"
                            "  one:\n    shape: square 1\n    place:\n"
                            "      - {unit: a, at: [0, 0]}\n      - {unit: b turned, at: [0, 0]}\n"
                            "  two:\n    shape: square 1\n    place:\n"
                            "      - {unit: b, at: [0, 0]}\n      - {unit: c turned, at: [0, 0]}\n"
                            "row: [one, two]\n";
  const auto count = [](const SewnBlock& s) {
    return std::count_if(s.piecing->pieces.begin(), s.piecing->pieces.end(),
                         [](const Piece& p) { return p.fabric == 0; });
  };
  CHECK(count(sew_block(block)) == 1);
  const SewnBlock s = sew_block(block, 1, 1, ", directional: yes");
  CHECK(s.codes().empty());
  CHECK(count(s) == 2);
}
