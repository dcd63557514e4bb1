#include "model/keys.h"
#include "model/methods.h"

namespace dogear::keys {

namespace {

Value grid() { return choice("grid", {"square", "triangle"}); }

std::vector<std::string> methods() {
  std::vector<std::string> out;
  for (const Method m : {Method::one_at_a_time, Method::two_at_a_time, Method::four_at_a_time,
                         Method::eight_at_a_time, Method::stitched_corners})
    out.emplace_back(method_words(m));
  return out;
}

// Two numbers of grid steps, or measured lengths.
Value point() { return said("a grid point, `[across, down]`", list(text(), 2)); }

Value strip() { return said("a role and its width in grid steps", text("\\S\\s")); }

Value part() { return said("a unit and how it is turned", text()); }

// How a unit or the block itself is made.
std::vector<Key> making() {
  return {
      may("shape", said("a shape and its measures", text()), computed("the outline of its parts"),
          "square 2",
          "a shape by its name and its measures in grid steps; parts in it must fill it"),
      may("corners", list(either({point(), map(arc)})), none, "[[0, 0], [2, 0], [0, 2]]",
          "instead of `shape`: grid points once round, and arcs between them"),
      may("fabric", name_of("role"), none, "dark", "a shape of one fabric"),
      may("bands", list(strip()), none, "[light 1, dark 1]",
          "strips from the shape's top to its base, cut one by one, each a role and its width"),
      may("strip set", list(strip()), none, "[light 1, dark 1]",
          "strips that are sewn first; the shape is cut across them"),
      may("row", list(part()), none, "[corner, corner turned]", "parts from left to right"),
      may("stack", list(part()), none, "[corner, corner turned 90]", "parts from top to bottom"),
      may("place", list(map(placed_unit)), none, "[{unit: corner, at: [0, 0]}]",
          "parts on grid points"),
      may("fabrics", list(name_of("role")), none, "[light, dark]",
          "the fabrics of a ready-made unit in its order"),
      may("method", choice("method", methods()), "one at a time", "two at a time",
          "how a ready-made unit is made"),
      may("oversize", length("1/16 in", "2 in"), none, "1/8 in",
          "how much larger the squares of a ready-made unit are cut, to trim it"),
      may("stitched corners", map(stitched_corners), none, "{top left: light 1/2}",
          "squares sewn across the corners of a square or rectangle of one fabric"),
      may("grain",
          either({choice("grain", {"along the long edge", "along the short edge"}),
                  number("0", "345")}),
          computed("the base lies along the strip"), "45",
          "of a shape of one fabric: degrees clockwise from its base to the strip, a multiple of "
          "15, or an edge that lies along it"),
      may("press",
          either({choice("way to press", {"open", "to the first", "to the last"}),
                  said("`towards ROLE` or `away from ROLE`", text("^(towards?|away from) "))}),
          computed("planned"), "towards dark",
          "how the seams of this unit are pressed: `open`, to the first or last part, `towards "
          "ROLE` or `away from ROLE`"),
      may("sew",
          either({choice("order of sewing", {"rows", "columns"}),
                  list(said("parts such as `1 + 2`", text("\\+")))}),
          computed("found"), "[1 + 2]",
          "the order of sewing: which seams come last, or every step; parts are counted as they "
          "are written, and `, set in` or `, partial` may follow"),
      may("set-in", yes(), "no", "yes",
          "whether set-in and partial seams may be used where no straight one is left"),
      may("foundation", either({yes(), list(whole("1", "999"))}), "no", "yes",
          "whether it is sewn on a paper foundation; or its parts, counted as they are written, in "
          "the order in which they are sewn on"),
      may("foundation allowance", length("1/4 in", "2 in"), computed("the pattern's"), "1/2 in",
          "how far a piece for its foundation is cut beyond the finished patch")};
}

std::vector<Key> with_making(std::vector<Key> own) {
  for (Key& key : making()) own.push_back(std::move(key));
  return own;
}

std::vector<std::vector<std::string>> ways() {
  return {{"fabric"}, {"bands"}, {"strip set"}, {"row"}, {"stack"}, {"place"}, {"fabrics"}};
}

}  // namespace

const KeyTable& block() {
  static const KeyTable table{
      "block",
      "a block",
      "Block",
      "A file of `blocks/`: its parts, and how the block itself is made of them.",
      with_making(
          {need("block", text(), "Gate Star", "its title"),
           may("words", text(), none, "A star for confident beginners.",
               "a sentence that is printed with it"),
           may("filler", yes(), "no", "yes",
               "whether it fills a setting round the feature blocks, from what the bundle leaves"),
           need("grid", grid(), "square", "on which its measures are counted"),
           may("unit", length(), "1 in", "3 in",
               "how large a grid step finishes; of triangles, their height"),
           need("roles", list(said("a name of your own", text())), "[light, dark]",
                "what its fabrics are for; a role with the name of a fabric has that fabric"),
           may("units", named("unit", map(unit), "^(?!(turned|flipped)$)[a-z0-9-]+$", true), none,
               "{corner: {shape: square 2, fabric: dark}}",
               "its parts by names of your own; each uses those above it")}),
      ways()};
  return table;
}

const KeyTable& unit() {
  static const KeyTable table{
      "unit",
      "a unit",
      "Unit",
      "Each of `units` in a block's file: a shape of one fabric, strips, parts or a ready-made "
      "unit.",
      with_making({may("grid", grid(), computed("the block's"), "square",
                       "on which its own measures are counted")}),
      ways()};
  return table;
}

const KeyTable& placed_unit() {
  static const KeyTable table{
      "placed-unit",
      "a placed unit",
      "Placed unit",
      "Each of `place`.",
      {need("unit", part(), "corner turned 90", "what is placed"),
       need("at", point(), "[0, 0]",
            "the grid point of its topmost, then leftmost corner as it lies")}};
  return table;
}

const KeyTable& arc() {
  static const KeyTable table{
      "arc",
      "an arc",
      "Arc",
      "Between two points of `corners`: the edge between them is an arc.",
      {need("around", point(), "[0, 0]", "the point from which both lie equally far")}};
  return table;
}

const KeyTable& stitched_corners() {
  const auto corner = [](const char* name) {
    return may(name, said("a role and a measure", text("\\S\\s")), none, "light 1/2",
               "the role, and how far the corner reaches along both sides in grid steps");
  };
  static const KeyTable table{
      "stitched-corners",
      "`stitched corners`",
      "Stitched corners",
      "`stitched corners` of a unit of one fabric.",
      {corner("top left"), corner("top right"), corner("bottom right"), corner("bottom left")},
      {{"top left"}, {"top right"}, {"bottom right"}, {"bottom left"}}};
  return table;
}

}  // namespace dogear::keys
