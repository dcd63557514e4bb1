// Random patterns, planned, then cut out again by a checker of its own.

#include <array>
#include <catch2/catch.hpp>

#include "base/text.h"
#include "support/plan.h"

using namespace dogear;
using namespace dogear::test;

namespace {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed * 2654435761U + 12345) {}
  int upto(int n) {  // 0 .. n - 1
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;
    return static_cast<int>((state_ >> 33) % static_cast<std::uint64_t>(n));
  }
  bool one_in(int n) { return upto(n) == 0; }

 private:
  std::uint64_t state_;
};

constexpr std::array<const char*, 3> roles{"a", "b", "c"};

// Rows of rectangles, squares and halved squares, in half inches.
std::string random_block(Dice& dice) {
  const int width = 8 + 2 * dice.upto(5);
  std::string units;
  std::string stack;
  const int rows = 1 + dice.upto(4);
  for (int r = 0; r < rows; ++r) {
    const int height = 2 + dice.upto(6);
    std::string row;
    int n = 0;
    for (int x = 0; x < width; ++n) {
      int w = std::min(2 + dice.upto(7), width - x);
      if (width - x - w == 1) ++w;
      const std::string name = "u" + std::to_string(r) + "x" + std::to_string(n);
      const std::string role = roles[static_cast<std::size_t>(dice.upto(3))];
      if (w == height && dice.one_in(2)) {
        const std::string other = roles[static_cast<std::size_t>(dice.upto(3))];
        units += "  " + name + ": {shape: half-square triangle unit " + std::to_string(w) +
                 ", fabrics: [" + role + ", " + other + "]}\n";
      } else {
        units += "  " + name + ": {shape: rectangle " + std::to_string(w) + " x " +
                 std::to_string(height) + ", fabric: " + role + "}\n";
      }
      row += (row.empty() ? "" : ", ") + name;
      x += w;
    }
    units += "  row" + std::to_string(r) + ": {row: [" + row + "]}\n";
    stack += (stack.empty() ? "row" : ", row") + std::to_string(r);
  }
  return "block: B\ngrid: square\nunit: 1/2 in\nroles: [a, b, c]\nunits:\n" + units + "stack: [" +
         stack + "]\n";
}

std::string random_source(Dice& dice) {
  switch (dice.upto(6)) {
    case 0:
      return ", from: [2 fat quarters, yardage]";
    case 1:
      return ", from: [scrap 9 x 13 in, 2 scraps 6 1/2 x 30 in, yardage]";
    case 2:
      return ", width: 44 in";
    case 3:
      return ", from: [box, yardage]";
    case 4:
      return ", from: [tens, 1 fat eighth, yardage], width: 40 in";
    default:
      return "";
  }
}

struct RandomPattern {
  std::string block, cloth, finish;
  int columns = 1, rows = 1;

  explicit RandomPattern(std::uint64_t seed) {
    Dice dice(seed);
    block = random_block(dice);
    columns = 1 + dice.upto(4);
    rows = 1 + dice.upto(4);
    cloth = "allowances: {squaring up: " + std::to_string(dice.upto(3)) +
            " in, shrinkage: " + std::to_string(dice.upto(7)) + " %" +
            (dice.one_in(3) ? ", margin: 1 strip" : "") +
            (dice.one_in(2) ? ", strip ends: 0 in" : ", joined strips: 3 in") + "}\n";
    cloth += "fabrics:\n";
    for (const char* name : {"red", "blue", "grey"}) {
      cloth += std::string("  ") + name + ": {colour: \"#888888\"" + random_source(dice) + "}\n";
    }
    cloth +=
        "bundles:\n  box: {each: 2, fabrics: [red, blue, grey]}\n"
        "  tens: {square: 10 in, each: 3, fabrics: [red, blue, grey]}\n";
    for (const char* name : {"red", "blue", "grey"}) {
      const std::size_t at = cloth.find(std::string("  ") + name + ": {");
      const std::size_t end = cloth.find('\n', at);
      if (cloth.substr(at, end - at).find("from") == std::string::npos) {
        cloth.insert(end - 1, ", from: [yardage]");
      }
    }
    if (dice.one_in(2)) finish += ", borders: [{fabric: grey, width: 3 in}]";
    if (dice.one_in(2)) finish += ", binding: {fabric: blue}";
    if (dice.one_in(3)) finish += ", sashing: {fabric: red, width: 1 in, cornerstones: grey}";
  }

  Planned plan(int times) const {
    MemoryFiles files;
    files.content["p/blocks/b.yaml"] = block;
    std::string cells;
    for (int r = 0; r < rows * times; ++r) {
      cells += r == 0 ? "[" : ", [";
      for (int c = 0; c < columns; ++c) cells += c == 0 ? "b" : ", b";
      cells += "]";
    }
    files.content["p/pattern.yaml"] =
        "title: T\ndesigner: D\n" + cloth +
        "rulers: {straight: {angle: 90, highest: 24 in}}\n"
        "blocks: {b: {block: b, fabrics: {a: red, b: blue, c: grey}}}\n"
        "sizes: {one: {setting: rows, rows: [" +
        cells + "]" + finish + "}}\n";
    return test::plan("p", files);
  }
};

struct Rectangle {
  Exact left, bottom, right, top;
};

// Can the rectangles be parted by cuts that each run from edge to edge of what they cut?
bool edge_to_edge(std::vector<Rectangle> parts) {
  if (parts.size() < 2) return true;
  for (const bool upright : {true, false}) {
    const auto low = [&](const Rectangle& r) { return upright ? r.left : r.bottom; };
    const auto high = [&](const Rectangle& r) { return upright ? r.right : r.top; };
    for (const Rectangle& r : parts) {
      const Exact cut = low(r);
      std::vector<Rectangle> before, after;
      bool clean = true;
      for (const Rectangle& p : parts) {
        if (high(p) <= cut) {
          before.push_back(p);
        } else if (low(p) >= cut) {
          after.push_back(p);
        } else {
          clean = false;
        }
      }
      if (clean && !before.empty() && !after.empty()) {
        return edge_to_edge(before) && edge_to_edge(after);
      }
    }
  }
  return false;
}

void cut_out(const Planned& p) {
  const Pattern& pattern = p.checked->pattern;
  const SizeQuantities& q = p.quantities->sizes[0];
  std::map<PieceId, long long> cut;
  std::map<std::pair<FabricId, std::string>, Exact> joined;  // length of strips by purpose
  std::map<FabricId, Exact> yardage;
  std::map<std::tuple<FabricId, std::size_t, long long>, Exact> sheets;
  std::map<std::pair<FabricId, std::size_t>, long long> strips;
  for (const StripPlan& s : q.strips) {
    const ClothSource& source = pattern.fabrics[s.fabric].sources[s.source];
    CHECK(Exact(s.usable) <= strip_length(pattern, source));
    std::vector<Rectangle> parts;
    for (const Run& run : s.runs) {
      const Rectangle r{Exact(run.x), Exact(run.y), Exact(run.x) + Exact(run.length),
                        Exact(run.y) + Exact(run.height)};
      CHECK(r.left >= Exact(0));
      CHECK(r.right <= Exact(s.usable));
      CHECK(r.bottom >= Exact(0));
      CHECK(r.top <= Exact(s.height));
      for (const Rectangle& other : parts) {
        CHECK((r.right <= other.left || other.right <= r.left || r.top <= other.bottom ||
               other.top <= r.bottom));
      }
      parts.push_back(r);
      if (run.kind == Run::Kind::whole_strip) {
        joined[{s.fabric, run.purpose}] += Exact(run.length) * Exact(s.times);
      }
      if (run.kind != Run::Kind::piece) continue;
      cut[run.piece] += run.count * s.times;
      const PieceCut& how = p.quantities->cuts[run.piece];
      const long long cuts = (run.count + how.per_cut - 1) / how.per_cut;
      CHECK(how.strip == run.height);
      CHECK(how.length.approx() * static_cast<double>(cuts) <= run.length.approx() + 1e-9);
    }
    CHECK(edge_to_edge(parts));
    if (!source.height) {
      yardage[s.fabric] += Exact(s.height) * Exact(s.times);
    } else if (s.sheet > 0) {
      sheets[{s.fabric, s.source, s.sheet}] += Exact(s.height) * Exact(s.times);
    } else {
      CHECK(Exact(s.height) <= *source.height);
      strips[{s.fabric, s.source}] += s.times;
    }
  }
  for (const auto& [which, height] : sheets) {
    const ClothSource& source = pattern.fabrics[std::get<0>(which)].sources[std::get<1>(which)];
    CHECK(height <= *source.height);
    ++strips[{std::get<0>(which), std::get<1>(which)}];
  }
  for (const auto& [which, n] : strips) {
    const auto& had = pattern.fabrics[which.first].sources[which.second].had;
    if (had) CHECK(n <= *had);
  }
  for (const CutPiece& c : q.pieces) {
    const FabricId fabric = p.piecing->pieces[c.piece].fabric;
    if (c.cut.method == CutMethod::joined_strip) {
      CHECK(joined[{fabric, "border"}] >= Exact(c.cut.length) * Exact(c.count));
    } else {
      CHECK(cut[c.piece] == c.count);
    }
  }
  for (const FabricNeed& need : q.fabrics) {
    CHECK(need.length == yardage[need.fabric]);
    if (!need.yards) continue;
    const Exact bought = Exact(*need.yards) * Exact(36);
    CHECK(bought >= need.length + need.squaring + need.shrinkage + need.margin);
    REQUIRE(need.least);
    CHECK(need.least->bought <= (Exact(*need.yards) * Exact(8)).round_up(1).num);
    CHECK(need.least->met ==
          (need.least->bought == (Exact(*need.yards) * Exact(8)).round_up(1).num));
  }
  if (q.binding) {
    CHECK(joined[{q.binding->fabric, "binding"}] >= Exact(q.binding->length));
  }
}

}  // namespace

TEST_CASE("random patterns can be cut out as planned, and doubling never lowers the cloth") {
  const int seed = GENERATE(range(1, 81));
  const RandomPattern random(static_cast<std::uint64_t>(seed));
  INFO("seed " << seed << "\n" << random.block << random.cloth << random.finish);
  const Planned once = random.plan(1);
  INFO(once.errors());
  REQUIRE(once.quantities);
  cut_out(once);
  const Planned twice = random.plan(2);
  INFO(twice.errors());
  REQUIRE(twice.quantities);
  cut_out(twice);
  for (const FabricNeed& need : once.quantities->sizes[0].fabrics) {
    for (const FabricNeed& more : twice.quantities->sizes[0].fabrics) {
      if (more.fabric != need.fabric) continue;
      CHECK(more.yards.value_or(Fraction{}).approx() >= need.yards.value_or(Fraction{}).approx());
    }
  }
}
