// Cloth to spare: strips whose ends are squared, sets whose ends are squared once they are sewn,
// and strips joined end to end, each counted again from what is printed.

#include <algorithm>
#include <map>

#include "cutting/finish.h"
#include "support/plan.h"

using namespace dogear;
using test::plan_block;
using test::plan_demo;
using test::Planned;

namespace {

const std::vector<std::string> demos{"harbor-lights", "tide-star", "reed-bed", "uferwiese"};

// A row of squares that finish 3 in, cut 3 1/2 in.
std::string squares(int count) {
  std::string row = "s";
  for (int i = 1; i < count; ++i) row += ", s";
  return "block: B\ngrid: square\nunit: 3 in\nroles: [a]\nunits:\n"
         "  s: {shape: square 1, fabric: a}\nrow: [" +
         row + "]\n";
}

// Squares of a strip set that finish 6 in.
std::string bars(int count) {
  std::string row = "s";
  for (int i = 1; i < count; ++i) row += ", s";
  return "block: B\ngrid: square\nunit: 3 in\nroles: [a, b]\nunits:\n"
         "  s: {shape: square 2, strip set: [a 1, b 1]}\nrow: [" +
         row + "]\n";
}

struct Join {
  Exact given;  // the strips, laid end to end
  long long strips = 0;
};

// The strips of a fabric and height that are there for one purpose.
Join joined(const SizeQuantities& q, FabricId fabric, const std::string& purpose,
            const Fraction& height) {
  Join out;
  for (const StripPlan& s : q.strips) {
    for (const Run& run : s.runs) {
      if (s.fabric != fabric || run.kind != Run::Kind::whole_strip) continue;
      if (run.purpose != purpose || !(run.height == height)) continue;
      out.given += Exact(run.length) * Exact(s.times);
      out.strips += s.times;
    }
  }
  return out;
}

// What is left of each join once everything is cut from it, its seams sewn; how many there are.
int check_joins(const Planned& p, std::size_t size) {
  const SizeQuantities& q = p.quantities->sizes[size];
  const Allowances& a = p.checked->pattern.allowances;
  const Exact seam = p.checked->pattern.seam_allowance * Exact(2);
  std::map<std::pair<FabricId, Exact>, std::pair<Fraction, Exact>> needs;
  for (const CutPiece& c : q.pieces) {
    if (c.cut.method != CutMethod::joined_strip) continue;
    auto& need = needs[{p.piecing->pieces[c.piece].fabric, Exact(c.cut.strip)}];
    need.first = c.cut.strip;
    need.second += Exact(c.cut.length) * Exact(c.count);
  }
  for (const auto& [which, need] : needs) {
    const Join j = joined(q, which.first, "border", need.first);
    CHECK(j.strips > 1);
    CHECK(j.given - seam * Exact(j.strips - 1) >= need.second + a.joined);
    // One strip fewer would not have done.
    const Exact whole = longest_strip(p.checked->pattern, which.first);
    CHECK(whole * Exact(j.strips - 1) - seam * Exact(j.strips - 2) < need.second + a.joined);
  }
  if (q.sleeve && Exact(q.sleeve->length) > longest_strip(p.checked->pattern, q.sleeve->fabric)) {
    const Join j = joined(q, q.sleeve->fabric, "sleeve", q.sleeve->strip);
    CHECK(j.given - seam * Exact(j.strips - 1) >= Exact(q.sleeve->length) + a.joined);
  }
  return static_cast<int>(needs.size());
}

// No strip of yardage or of a bundle is used up to its ends.
void check_ends(const Planned& p, std::size_t size) {
  const Pattern& pattern = p.checked->pattern;
  for (const StripPlan& s : p.quantities->sizes[size].strips) {
    const ClothSource& source = pattern.fabrics[s.fabric].sources[s.source];
    const bool sheet =
        source.kind != ClothSource::Kind::yardage &&
        (source.kind != ClothSource::Kind::bundle || pattern.bundles[source.bundle].squares);
    if (sheet || s.along) continue;
    for (const Run& run : s.runs) {
      CHECK(Exact(run.x) + Exact(run.length) <= source.length - pattern.allowances.strip_ends);
    }
  }
}

// Each set is as long as its shapes and the ends that are squared off.
void check_sets(const Planned& p, std::size_t size) {
  const Exact ends = p.checked->pattern.allowances.set_ends;
  for (const StripSet& set : p.quantities->sizes[size].strip_sets) {
    long long made = 0;
    for (const Fraction& length : set.set_lengths) {
      const double room = (Exact(length) - ends).approx();
      REQUIRE(room >= set.cut.first - 1e-9);
      made += 1 + static_cast<long long>((room - set.cut.first) / set.cut.pitch + 1e-9);
      for (const auto& [fabric, width] : set.strips) {
        CHECK(Exact(length) <= longest_strip(p.checked->pattern, fabric));
      }
    }
    CHECK(made >= set.need);
  }
}

const CutPiece& first_piece(const Planned& p) { return p.quantities->sizes[0].pieces.front(); }

}  // namespace

TEST_CASE("in every demo each join has an inch to spare, each strip and each set its ends") {
  int joins = 0;
  std::size_t sets = 0;
  for (const std::string& name : demos) {
    const auto p = plan_demo(name);
    INFO(name << "\n" << p.errors());
    REQUIRE(p.quantities);
    for (std::size_t size = 0; size < p.quantities->sizes.size(); ++size) {
      joins += check_joins(p, size);
      check_ends(p, size);
      check_sets(p, size);
      sets += p.quantities->sizes[size].strip_sets.size();
    }
  }
  CHECK(joins >= 5);
  CHECK(sets >= 8);
}

TEST_CASE("borders of every length and every spare have their strips") {
  const int length = GENERATE(10, 13, 14, 20, 23, 27, 28, 41);
  const std::string spare = GENERATE("0 in", "1 in", "6 in", "36 in");
  const std::string ends = GENERATE("0 in", "1/2 in", "1 1/8 in");
  const auto p =
      plan_block(squares(length), "a: red",
                 "allowances: {joined strips: " + spare + ", strip ends: " + ends + "}\n",
                 ", borders: [{fabric: grey, width: 3 in}, {fabric: blue, width: 2 in}],"
                 " hanging sleeve: {fabric: blue}");
  INFO(p.errors());
  REQUIRE(p.quantities);
  check_joins(p, 0);
  check_ends(p, 0);
}

TEST_CASE("a strip gives twelve squares of 3 1/2 in only where its ends are not squared") {
  // 12 × 3 1/2 = 42 (computed): a usable width of 42 has nothing to spare then.
  const auto usual = plan_block(squares(12), "a: red");
  REQUIRE(usual.quantities);
  CHECK(first_piece(usual).count == 12);
  CHECK(usual.quantities->sizes[0].fabrics[0].length == Exact(7));
  const auto full = plan_block(squares(12), "a: red", "allowances: {strip ends: 0 in}\n");
  REQUIRE(full.quantities);
  CHECK(full.quantities->sizes[0].fabrics[0].length == Exact::ratio(7, 2));
  const auto eleven = plan_block(squares(11), "a: red", "allowances: {strip ends: 3 1/2 in}\n");
  REQUIRE(eleven.quantities);
  CHECK(eleven.quantities->sizes[0].fabrics[0].length == Exact::ratio(7, 2));
}

TEST_CASE("squares and fat quarters of a bundle are cut to their edges") {
  // Two pieces of 5 in from a square of 10 in (common practice).
  const auto p = plan_block(
      "block: B\ngrid: square\nunit: 1/2 in\nroles: [a]\nunits:\n"
      "  s: {shape: square 9, fabric: a}\n  r: {row: [s, s]}\nstack: [r, r]\n",
      "a: red", "bundles: {tens: {square: 10 in, each: 1, fabrics: [red]}}\n");
  INFO(p.errors());
  REQUIRE(p.quantities);
  CHECK(p.quantities->sizes[0].fabrics[0].sources.front().used == 1);
}

TEST_CASE("a set of six shapes of 6 1/2 in is an inch longer than they are, and so is one of one") {
  const auto p = plan_block(bars(7), "a: red, b: blue");
  INFO(p.errors());
  REQUIRE(p.quantities);
  REQUIRE(p.quantities->sizes[0].strip_sets.size() == 1);
  const StripSet& set = p.quantities->sizes[0].strip_sets[0];
  CHECK(set.need == 7);
  // 6 × 6 1/2 = 39 in, and 6 1/2 in.
  CHECK(set.set_lengths == std::vector<Fraction>{Fraction::of(40, 1), Fraction::of(15, 2)});
  check_sets(p, 0);
  const auto none = plan_block(bars(7), "a: red, b: blue", "allowances: {strip set ends: 0 in}\n");
  REQUIRE(none.quantities);
  CHECK(none.quantities->sizes[0].strip_sets[0].set_lengths ==
        std::vector<Fraction>{Fraction::of(39, 1), Fraction::of(13, 2)});
}

TEST_CASE("binding counts its own loss in joining: the ends of strips change nothing") {
  // Quick Tips, 2011: ceil((2(W + L) + 24) / 40).
  for (const char* ends : {"0 in", "1/2 in", "1 in"}) {
    const auto p =
        plan_block(squares(12), "a: red", std::string("allowances: {strip ends: ") + ends + "}\n",
                   ", binding: {fabric: blue}");
    REQUIRE(p.quantities);
    const SizeQuantities& q = p.quantities->sizes[0];
    REQUIRE(q.binding);
    const double round = 2 * (q.finished_width.approx() + q.finished_height.approx());
    CHECK(q.binding->strips == static_cast<long long>(std::ceil((round + 24) / 40)));
  }
}

TEST_CASE("what would fit but for its ends is told, with the key that counts none") {
  const std::string bar =
      "block: B\ngrid: square\nunit: 1/4 in\nroles: [a]\nunits:\n"
      "  s: {shape: rectangle 165 x 8, fabric: a}\nstack: [s, s]\n";
  const std::string box = "bundles: {box: {each: 2, fabrics: [red]}}\n";
  const auto p = plan_block(bar, "a: red", box);
  INFO(p.errors());
  CHECK(p.has("D503"));
  CHECK(p.errors().find("write `strip ends: 0 in` under `allowances`") != std::string::npos);
  CHECK(plan_block(bar, "a: red", box + "allowances: {strip ends: 0 in}\n").quantities);
  const std::string set =
      "block: B\ngrid: square\nunit: 1/2 in\nroles: [a, b]\nunits:\n"
      "  s: {shape: rectangle 81 x 8, strip set: [a 4, b 4]}\nstack: [s, s]\n";
  const auto q = plan_block(set, "a: red, b: blue");
  INFO(q.errors());
  CHECK(q.has("D503"));
  CHECK(q.errors().find("write `strip set ends: 0 in` under `allowances`") != std::string::npos);
}
