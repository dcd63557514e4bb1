// What the booklets of the shipped patterns tell their makers, with the right values.

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "booklet/writer.h"
#include "canvas/font.h"
#include "help.h"
#include "support/project.h"

using namespace dogear;

namespace {

const help::Compiled& pattern(const std::string& name) {
  static std::map<std::string, std::unique_ptr<help::Compiled>> known;
  auto& compiled = known[name];
  if (!compiled) {
    DiskFiles files;
    compiled = help::compile(test::project_folder() + "/patterns/" + name, files);
  }
  return *compiled;
}

std::string words(const help::Compiled& c, std::size_t size) {
  Diagnostics d;
  const auto document = set_booklet(c.scene(), size, help::letter(), d);
  REQUIRE(document);
  return help::running_words(*document);
}

struct Steps {
  Diagnostics d;
  booklet::Writer writer;
  Steps(const std::string& name, std::size_t size)
      : writer(pattern(name).scene(), size, help::letter(), d) {}
  const BlockSewing& block(const std::string& id) const {
    for (const BlockSewing& b : writer.sewing().blocks)
      if (writer.pattern().uses[b.use].id == id) return b;
    throw std::runtime_error(id);
  }
  booklet::StepWords step(const std::string& id, std::size_t n) const {
    return booklet::step_words(writer, block(id).steps.at(n), {});
  }
  booklet::StepWords assembly(const std::string& name) const {
    for (const UnitId unit : writer.sewing().assembly)
      if (writer.scene.piecing.units[unit].name == name)
        return booklet::step_words(writer, unit, {});
    throw std::runtime_error(name);
  }
};

void check_says(const std::string& text, std::initializer_list<const char*> sentences) {
  for (const char* sentence : sentences) {
    INFO(sentence);
    CHECK(text.find(sentence) != std::string::npos);
  }
}

void check_silent(const std::string& text, std::initializer_list<const char*> sentences) {
  for (const char* sentence : sentences) {
    INFO(sentence);
    CHECK(text.find(sentence) == std::string::npos);
  }
}

}  // namespace

TEST_CASE("steps say what they make") {
  const Steps lap("harbor-lights", 0), star("tide-star", 0);
  CHECK(lap.step("lantern", 0).sew ==
        "Sew A1, B2 and C3 together in that order to make a ray unit.");
  CHECK(lap.step("lantern", 1).sew ==
        "Sew one ray unit to each side of D11 to make one half of a Lantern. Turn them as shown.");
  CHECK(lap.step("star", 3).sew ==
        "Sew one dim unit to each side of the point unit to make the other half of a Star. Turn "
        "them as shown.");
  CHECK(star.step("coral-star", 2).sew ==
        "Sew one goose unit to each side of D3 to make an across unit. Turn them as shown.");
  CHECK(star.step("coral-star", 3).sew ==
        "Sew one top unit to the top and one to the bottom of the across unit to make a Coral Star "
        "block. Turn them as shown.");
}

TEST_CASE("halves are measured along both edges") {
  const Steps lap("harbor-lights", 0);
  // Computed: 16/√3 + 1/2·√3 = 10.104 and 8/√3 + 1/2/√3 = 4.907 in.
  CHECK(lap.step("lantern", 1).measure ==
        "Measures 4½ in high, about 10⅛ in along the long edge, 4⅞ in along the short edge with "
        "seam allowances.");
  CHECK(lap.step("lantern", 0).measure ==
        "Measures 4½ in from base to blunt tip with seam allowances.");
}

TEST_CASE("every step tells of its bias edges") {
  const Steps lap("harbor-lights", 0), star("tide-star", 0);
  for (const char* block : {"lantern", "buoy", "gull", "wave"}) {
    INFO(block);
    CHECK_FALSE(lap.step(block, 0).two_bias);
    CHECK(lap.step(block, 0).outer_bias == "outer bias slanted");
    CHECK(lap.step(block, 1).two_bias);
    CHECK_FALSE(lap.step(block, 1).outer_bias.empty());
  }
  CHECK(star.step("coral-star", 0).two_bias);
  CHECK(star.step("coral-star", 0).outer_bias.empty());
  CHECK_FALSE(star.step("coral-star", 1).two_bias);
  const std::string text = words(pattern("harbor-lights"), 0);
  check_says(text,
             {"All slanted edges are bias: pin, do not pull.",
              "Bias edges (30°) meet here and lie along the outside: pin them, do not pull."});
  std::size_t said = 0;
  for (std::size_t at = 0; (at = text.find("The slanted outer edges are bias", at)) != text.npos;
       ++at)
    ++said;
  CHECK(said >= 9);  // rays, sails, feathers, crests, points, dims, and the halves of strip sets
}

TEST_CASE("edges of unequal length are centred, told once a block") {
  const Steps lap("harbor-lights", 0), star("tide-star", 0);
  // A 2 in triangle's base is cut q·(√3 - 1/√3) = 0.289 in longer at each end than a 120° corner.
  const std::string quarter =
      "Center the shorter edge; the tips of the longer one stand out about ¼ in at each end; "
      "trimmed, they lie flush.";
  CHECK(lap.step("lantern", 0).unequal == quarter);
  CHECK(lap.step("gull", 0).unequal == quarter);
  CHECK(lap.step("sail", 1).unequal == quarter);
  CHECK(lap.step("sail", 0).unequal.empty());
  CHECK(lap.step("lantern", 1).unequal.empty());
  for (std::size_t n = 0; n < 4; ++n) CHECK(star.step("coral-star", n).unequal.empty());

  Steps other("harbor-lights", 0);
  const booklet::Column column = other.writer.column();
  booklet::Warned warned;
  const auto said = [&] {
    std::string all;
    for (const auto& runs : booklet::step_runs(lap.writer, column, lap.step("gull", 0), warned))
      all += booklet::plain_text(runs);
    return all.find("Center the shorter edge") != std::string::npos;
  };
  CHECK(said());
  CHECK_FALSE(said());
}

TEST_CASE("both halves of a strip set are cut in one step and sorted") {
  const Steps lap("harbor-lights", 0);
  CHECK(lap.step("stripe-1", 0).sew ==
        "Cut 4 from strip set 1, between the 4 in and 8½ in lines, turning the ruler end for end "
        "each time. Sort them: 2 with Kelp along the short edge and 2 with Brass.");
  const std::string text = words(pattern("harbor-lights"), 0);
  check_says(text, {"Sew one 2 1/2 in Brass strip to one Kelp strip. Press the seam toward Kelp.",
                    "Where a block is sewn as halves, keep the halves apart; they are joined in "
                    "the rows.",
                    "Keep the halves apart. Measures"});
}

TEST_CASE("borders and sashing are named and pressed toward") {
  const Steps throw_size("tide-star", 0), pillow("tide-star", 1), wall("harbor-lights", 1);
  CHECK(throw_size.assembly("border").sew ==
        "Sew one H3 to the top and one to the bottom of the quilt center with side borders.");
  CHECK(throw_size.assembly("border").press == "Press both seams toward the borders.");
  CHECK(wall.assembly("outer sashing").sew ==
        "Sew one M12 to the top and one to the bottom of the quilt center with side sashing.");
  CHECK(wall.assembly("outer sashing").press == "Press both seams toward the sashing.");
  CHECK(pillow.assembly("center with side borders").sew ==
        "Sew one J3 to each side of the center.");
  check_says(words(pattern("harbor-lights"), 1), {"Framed top.", "Quilt center."});
  const std::string text = words(pattern("tide-star"), 1);
  check_says(text, {"Center with side borders."});
  check_silent(text, {"quilt center", "Quilt center", "Sew a label"});
}

TEST_CASE("borders are joined straight and measured before they are cut") {
  const std::string text = words(pattern("tide-star"), 0);
  check_says(text,
             {"Join the five Lagoon border strips end to end with straight seams and press the "
              "seams open. Measure the top through its middle from top to bottom, 44 1/2 in or a "
              "little less; cut two G3 from the joined strip to that. Sew one",
              "Measure from side to side, 54 1/2 in or a little less; cut two H3 from the joined "
              "strip to that.",
              "The top now measures 54 1/2 in × 54 1/2 in; the finished size, 54 in × 54 in, is "
              "measured inside the binding.",
              "strips joined end to end with straight seams, cut to 44 1/2 in when the top is "
              "measured, before it is sewn on"});
  CHECK(text.find("Join the five") == text.rfind("Join the five"));
  check_silent(words(pattern("tide-star"), 1), {"Join the", "inside the binding"});
}

TEST_CASE("outer sashing is measured before it is sewn on, as borders are") {
  check_says(words(pattern("harbor-lights"), 1),
             {"Measure the top through its middle from top to bottom, 38 1/2 in or a little less; "
              "cut both L12 to that.",
              "cut both M12 to that."});
}

TEST_CASE("a border whose measure is no ruler's line has one number, and why another is cut") {
  const std::string text = words(pattern("reed-bed"), 0);
  check_says(
      text,
      {"Measure the top through its middle from top to bottom: that should be about 68 3/8 in "
       "(rounded up, 68 1/2 in). Cut two H5 from the joined strip to your measure.",
       "Measures about 59 3/8 in × 68 3/8 in with seam allowances."});
  check_silent(text, {"68 1/2 in or a little less", "59 1/2 in or a little less"});
}

TEST_CASE("what is bought holds all that the steps ask for, and no more") {
  const std::string lap = words(pattern("harbor-lights"), 0),
                    throws = words(pattern("tide-star"), 0),
                    pillow = words(pattern("tide-star"), 1);
  check_says(lap, {"marking pencil for fabric, needle for sewing by hand, safety pins"});
  check_says(throws, {"pressing surface, needle for sewing by hand, safety pins",
                      "Finish the quilt: backing, batting and binding.",
                      "Backing: 3 1/2 yd (315 cm)", "Batting: At least 62 in × 62 in"});
  check_silent(throws, {"marking pencil"});
  check_silent(pillow, {"needle for sewing by hand"});
}

TEST_CASE("a strip set has its height, and each half is kept apart from the other") {
  check_says(words(pattern("harbor-lights"), 0), {"Make 1 set, 18 5/8 in long and 4 1/2 in high."});
  const Steps lap("harbor-lights", 0);
  Diagnostics d;
  booklet::Writer writer(pattern("harbor-lights").scene(), 0, help::letter(), d);
  booklet::Column column = writer.column();
  booklet::write_block_steps(writer, column, lap.block("star"));
  std::size_t apart = 0;
  for (const booklet::Box& box : column.boxes) {
    const std::string said = help::words_of(box.content);
    for (std::size_t at = said.find("halves apart"); at != std::string::npos;
         at = said.find("halves apart", at + 1))
      ++apart;
  }
  CHECK(apart == 2);
}

TEST_CASE("blocks with a directional print are turned as drawn, and units of other blocks told") {
  check_says(words(pattern("reed-bed"), 0),
             {"Turn each block as the figures of the rows show it: arrows with a bar at their foot "
              "point to the top of directional prints.",
              "Make 72. 24 of them are for Dawn Skein."});
  check_silent(words(pattern("tide-star"), 0), {"Turn each block as", "of them are for"});
}

TEST_CASE("half-triangles are marked, cut and kept from their mirror images") {
  check_says(words(pattern("harbor-lights"), 0),
             {"F11 and F11R. Square the end of the strip. Mark 3 in along one long edge. Lay a "
              "slanted side of the ruler (60° ruler, blunt tip) through the mark so that the other "
              "edge measures about 3/8 in; cut.",
              "With the squared end at your left, mark the lower edge for F11R and the upper edge "
              "for F11.",
              "cut both from a single layer, right side up"});
  check_silent(words(pattern("tide-star"), 0), {"Square the end of the strip", "single layer"});
}

TEST_CASE("rulers, washing and the first cut") {
  const std::string lap = words(pattern("harbor-lights"), 0),
                    wall = words(pattern("harbor-lights"), 1),
                    star = words(pattern("tide-star"), 0);
  check_says(lap, {"60° ruler, blunt tip, with 1/2 in lines up to 8 1/2 in; 6 × 24 in ruler",
                   "Do not wash the strips before you cut.", "Yardage is based on 42 in",
                   "That cut-off is the only one that is not counted as a piece",
                   "one edge of the strip runs along each",
                   "lay the blunt tip of one piece at the corner of the other", "dog ears",
                   "Cut the fabrics, and the strips of each, in the order given.",
                   "These marks appear in the figures."});
  check_says(wall, {"60° ruler, blunt tip, with 1/2 in lines up to 4 1/2 in"});
  check_says(star, {"dog ears"});
  check_silent(star, {"Do not wash", "lines up to", "Slanted seams"});
}

TEST_CASE("backing and binding") {
  check_says(words(pattern("harbor-lights"), 0),
             {"Cut the backing into two panels of WOF × 53 in. Join them with one seam that runs "
              "from side to side, and trim to 53 in × 56 in.",
              "with diagonal seams to about 239 in of binding",
              "Begin in the middle of a long side and leave a tail of 10 in free", "Sew a label"});
  check_says(words(pattern("tide-star"), 0),
             {"two panels of WOF × 62 in. Join them with one seam"});
  // Half a side of 20 in holds no more.
  check_says(words(pattern("uferwiese"), 1), {"tail of 7 in free", "Stop 7 in before"});
  const std::string wall = words(pattern("harbor-lights"), 1);
  check_says(wall, {"Cut one piece of backing 40 in × 50 in; it needs no seam."});
  check_silent(wall, {"panel", "slanting"});
}
