#include "model/keys.h"

namespace dogear::keys {

const KeyTable& size() {
  static const KeyTable table{
      "size",
      "a size",
      "Size",
      "Each of `sizes` in pattern.yaml.",
      {may("title", text(), computed("the size's own key"), "Wall Quilt", "as it is printed"),
       need("setting", choice("setting", {"rows", "on point", "hexagon columns", "hexagon rows"}),
            "rows",
            "how the blocks lie: in straight rows; square blocks on their points, every second row "
            "one shorter; interlocked hexagons, every second column one shorter; hexagons point to "
            "point"),
       may("rows", list(list(name_of("block"))), none, "[[star, star], [star, star]]",
           "the blocks from left to right, row by row; `hexagon columns` have `columns` instead"),
       may("columns", list(list(name_of("block"))), none, "[[hexagon, hexagon], [hexagon]]",
           "the blocks of `hexagon columns` from top to bottom, column by column"),
       may("ground", name_of("fabric"), none, "cream",
           "the fabric that fills the edges of hexagons and the side and corner triangles on "
           "point; needed there"),
       may("sashing", map(sashing), none, "{fabric: cream, width: 1 1/2 in}",
           "strips between the blocks; for `rows` and `hexagon rows`"),
       may("borders", list(map(border)), none, "[{fabric: ink, width: 4 in}]",
           "from the inside out"),
       may("binding", map(binding), none, "{fabric: ink}", "around the quilt's edge"),
       may("backing", map(backing), none, "{}", "behind the quilt; `{}` takes every default"),
       may("batting", map(batting), none, "{}", "between top and backing; `{}` takes the default"),
       may("hanging sleeve", map(hanging_sleeve), none, "{fabric: ink}",
           "the tube behind a wall hanging"),
       may("fillers", choice("number of fillers", {"as many as the bundle gives"}), none,
           "as many as the bundle gives",
           "an error comes when the bundle gives one more filler and a plain block could make way "
           "for it")},
      {{"rows"}, {"columns"}}};
  return table;
}

const KeyTable& sashing() {
  static const KeyTable table{
      "sashing",
      "a sashing",
      "Sashing",
      "`sashing` of a size.",
      {need("fabric", name_of("fabric"), "cream", "of its strips"),
       need("width", length(), "1 1/2 in", "of its strips, finished"),
       may("cornerstones", name_of("fabric"), none, "leaf",
           "the fabric of squares where strips meet; for `rows` only"),
       may("around", yes(), "no", "yes", "whether it runs along the outside, too")}};
  return table;
}

const KeyTable& border() {
  static const KeyTable table{
      "border",
      "a border",
      "Border",
      "Each of `borders` of a size: plain, with `fabric` and `width`, or pieced, with `block` and "
      "`corners`.",
      {may("fabric", name_of("fabric"), none, "ink", "of a plain border; needed there"),
       may("width", length(), none, "4 in", "of a plain border, finished; needed there"),
       may("corners",
           either({choice("kind of corner", {"butted", "mitred"}), name_of("fabric or block")}),
           computed("`butted` for a plain border"), "mitred",
           "of a plain border: `butted` or `mitred`; of a pieced one: a fabric, or `block NAME`, "
           "and needed"),
       may("cut", choice("way to cut a border", {"across the width", "along the length"}),
           computed("across; of a directional fabric, along at the sides"), "along the length",
           "how the strips of a plain border lie on the cloth"),
       may("block", name_of("block"), none, "star",
           "of a pieced border: blocks side by side, their upper edges outward")},
      {{"fabric", "width"}, {"block", "corners"}}};
  return table;
}

const KeyTable& binding() {
  static const KeyTable table{
      "binding",
      "a binding",
      "Binding",
      "`binding` of a size.",
      {need("fabric", name_of("fabric"), "ink", "of its strips"),
       may("strip", length("1 in", "6 in"), "2 1/2 in", "2 1/4 in", "how wide its strips are cut"),
       may("cut", choice("way to cut a binding", {"across the width", "on the bias"}),
           "across the width", "on the bias", "how its strips lie on the cloth")}};
  return table;
}

const KeyTable& backing() {
  static const KeyTable table{
      "backing",
      "a backing",
      "Backing",
      "`backing` of a size.",
      {may("name", text(), computed("the word of the booklet's language"), "Backing flannel",
           "as it is printed"),
       may("width", length("6 in", "200 in"), computed("the pattern's `usable width`"), "44 in",
           "its usable width"),
       may("extra", length("0 in", "40 in"), "8 in", "10 in",
           "how much longer and wider than the quilt it is"),
       may("wide", length("6 in", "200 in"), none, "108 in",
           "the usable width of wide cloth that is quoted beside")}};
  return table;
}

const KeyTable& batting() {
  static const KeyTable table{
      "batting",
      "a batting",
      "Batting",
      "`batting` of a size.",
      {may("extra", length("0 in", "40 in"),
           computed("8 in, or the backing's `extra` where that is less"), "6 in",
           "how much longer and wider than the quilt it is; no more than "
           "the backing")}};
  return table;
}

const KeyTable& hanging_sleeve() {
  // Four inches take the rods of most shows (common practice).
  static const KeyTable table{
      "hanging-sleeve",
      "a hanging sleeve",
      "Hanging sleeve",
      "`hanging sleeve` of a size.",
      {need("fabric", name_of("fabric"), "ink", "of the tube"),
       may("depth", length("1 in", "12 in"), "4 in", "3 in", "from top to bottom, finished")}};
  return table;
}

}  // namespace dogear::keys
