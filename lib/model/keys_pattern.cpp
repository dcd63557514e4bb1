#include "model/keys.h"
#include "model/load.h"
#include "words/languages.h"

namespace dogear::keys {

const KeyTable& pattern() {
  static const KeyTable table{
      "pattern",
      "the pattern",
      "The pattern",
      "The file `pattern.yaml`.",
      {need("title", text(), "Garden Gate", "the quilt's name, printed on the cover"),
       need("designer", text(), "Ada Lindgren", "who made it, printed on the cover"),
       may("summary", text(), none, "Nine stars in a gate of three colours.",
           "a sentence for the cover and the back"),
       may("edition", text(), "1", "\"2\"", "the number of the printed edition"),
       may("language", choice("language", languages()), "en", "en",
           "the language of the booklet, and of your own prose"),
       may("paper",
           either({choice("paper", papers()),
                   said("the path of a template (`.yaml`)", text("\\.yaml$"))}),
           "letter", "half-letter",
           "the paper, or a template of your own by its path in the pattern's folder"),
       may("seam allowance", length("1/16 in", "1 in"), "1/4 in", "1/4 in",
           "added to every edge that is sewn"),
       may("foundation allowance", length("1/4 in", "2 in"), "3/4 in", "1/2 in",
           "how far a piece for a paper foundation is cut beyond the finished patch"),
       may("usable width", length("6 in", "200 in"), "42 in", "40 in",
           "the width of yardage between its selvages: WOF"),
       may("tolerance", length("1/16 in", "1 in"), "1/8 in", "1/16 in",
           "the most that rounded cuts may add up to across a block, and between two edges that "
           "are sewn together"),
       may("top tolerance", length("1/16 in", "4 in"), "1/2 in", "3/4 in",
           "the most that rounded cuts may add up to across the whole top"),
       may("layers", choice("number of layers", {"1", "2", "4"}),
           computed("2 where the cloth is `folded`, else 1"), "2",
           "how many layers of cloth are cut at once"),
       may("folded", yes(), "no", "yes",
           "whether the layers come from folding, so that every second one lies wrong side up"),
       need("fabrics", named("fabric", map(fabric), slug_pattern),
            "{ink: {colour: \"#22304f\"}, cream: {colour: \"#f3ead8\"}, leaf: {colour: "
            "\"#5d7a52\"}}",
            "the fabrics by names of your own, in the order in which they are numbered"),
       may("bundles", named("bundle", map(bundle)), none,
           "{strips: {strip: 2 1/2 in, fabrics: [ink, leaf]}}",
           "bundles of strips or squares that are bought; every other fabric is bought by the "
           "length"),
       may("allowances", map(allowances), computed("the defaults of its keys"),
           "{shrinkage: 3 %, margin: 1 strip}", "cloth that is bought beyond what is cut"),
       may("bolt", length("36 in", "3600 in"), "15 yd", "12 yd",
           "how much cloth is on a bolt from which kits are cut"),
       need("rulers", named("ruler", map(ruler)),
            "{straight: {highest: 24 in}, slanted: {angle: 45, highest: 12 in}}",
            "the rulers that a maker needs; cuts are printed on the lines they have"),
       need("blocks", named("block", map(block_use), slug_pattern),
            "{star: {block: star, fabrics: {light: cream, dark: ink}}}",
            "the blocks by names of your own: each a coloring of a file in `blocks/`"),
       need("sizes", named("size", map(size), slug_pattern),
            "{wall: {setting: rows, rows: [[star, star], [star, star]]}}",
            "the sizes that the pattern is written for"),
       may("other colorings", list(map(coloring)), none,
           "[{name: Night Garden, fabrics: {cream: \"#2b2b3f\"}}]",
           "the quilt in other fabrics; cuts and cloth are those of the pattern"),
       may("schedule", list(map(month)), none,
           "[{month: January, blocks: [star]}, {month: March, assembly: yes, finishing: yes}]",
           "the months of a sew-along in order, every block in one of them"),
       may("errata", list(map(erratum)), none,
           "[{edition: \"1\", fact: wall fabric.ink.cloth, was: 3/4 yd, now: 7/8 yd}]",
           "what was wrong in printed editions"),
       may("booklet",
           list(either({choice("section", section_names()),
                        said("a Markdown file (`.md`)", text("\\.md$"))})),
           computed("every section that the pattern has, without prose"),
           "[cover, contents, before, requirements, cutting, blocks, assembly, finishing, back]",
           "the sections in order, and Markdown files such as `prose/welcome.md`")}};
  return table;
}

const KeyTable& fabric() {
  static const KeyTable table{
      "fabric",
      "a fabric",
      "Fabric",
      "Each of `fabrics` in pattern.yaml.",
      {may("name", text(), computed("the fabric's own key"), "Midnight Ink", "as it is printed"),
       need("colour", colour(), "\"#22304f\"", "of its figures, in quotes"),
       may("directional", yes(), "no", "yes", "whether its print has an up"),
       may("width", length("6 in", "200 in"), computed("the pattern's `usable width`"), "44 in",
           "its own usable width between the selvages"),
       may("from", list(said("cloth", text())),
           computed("the bundle that it is in; otherwise `yardage`"), "[2 fat quarters, yardage]",
           "the cloth it is cut from, in order: `yardage`, a bundle's name, `fat quarters`, `fat "
           "eighths`, `scrap 10 x 20 in`, each with a number where there are only so many")}};
  return table;
}

const KeyTable& bundle() {
  static const KeyTable table{
      "bundle",
      "a bundle",
      "Bundle",
      "Each of `bundles` in pattern.yaml: strips of several fabrics, or squares.",
      {may("name", text(), computed("made of its size"), "Garden strips", "as it is printed"),
       may("strip", length(), "2 1/2 in", "2 1/4 in", "how wide its strips are"),
       may("length", length(), computed("the pattern's `usable width`"), "43 in",
           "how long its strips are"),
       may("square", length("1 in", "60 in"), none, "10 in",
           "the side of its squares, instead of `strip` and `length`"),
       may("each", whole("1", "1000"), "1", "2", "how many of every fabric are in it"),
       may("at most", whole("1", "1000"), "1", "3", "how many bundles may be bought"),
       need("fabrics", list(name_of("fabric")), "[ink, leaf]", "the fabrics that are in it")}};
  return table;
}

const KeyTable& allowances() {
  static const KeyTable table{
      "allowances",
      "the list of allowances",
      "Allowances",
      "`allowances` in pattern.yaml.",
      {may("squaring up", length("0 in", "9 in"), "1 in", "2 in",
           "for straightening the ends of every length of cloth"),
       may("strip ends", length("0 in", "4 in"), "1/2 in", "1 in",
           "of every strip cut across the cloth, or of a bundle of strips, for squaring its ends"),
       may("strip set ends", length("0 in", "4 in"), "1 in", "1 1/2 in",
           "of every strip set, for squaring both its ends once it is sewn"),
       may("joined strips", length("0 in", "36 in"), "1 in", "6 in",
           "to spare in strips that are joined end to end, such as those of a border"),
       may("shrinkage", said("a share such as `3 %`", text("%\\s*$")), none, "3 %",
           "a share of the length, up to a quarter, for cloth that is washed first"),
       may("margin",
           either({said("`1 strip` or more strips", text("strips?\\s*$")),
                   said("a share such as `5 %`", text("%\\s*$")), length()}),
           none, "1 strip",
           "a margin of your own: so many strips (up to 20), a share (up to a quarter) or a length "
           "(up to 72 in)"),
       may("round up to",
           choice("step of yardage", {"1/8 yd", "1/4 yd"},
                  {{"⅛ yd", "1/8 yd"}, {"¼ yd", "1/4 yd"}}),
           "1/8 yd", "1/4 yd", "the steps in which yards are bought"),
       may("metric up to", choice("step of metric yardage", {"5 cm", "10 cm"}), "5 cm", "10 cm",
           "the steps in which centimetres are bought")}};
  return table;
}

const KeyTable& ruler() {
  static const KeyTable table{
      "ruler",
      "a ruler",
      "Ruler",
      "Each of `rulers` in pattern.yaml.",
      {may("name", text(), computed("made of its angle"), "6 × 24 in ruler", "as it is printed"),
       may("angle", whole("15", "90"), "90", "60",
           "90, 60 or 45 degrees: of its slanted side or line"),
       may("tip", choice("tip", {"blunt", "pointed"}), "pointed", "blunt",
           "whether the tip of a slanted ruler is cut off"),
       may("lowest", length(), "1/2 in", "1 in", "its lowest line"),
       need("highest", length(), "24 in", "its highest line, measured along its longer side"),
       may("step", length(), "1/8 in", "1/16 in", "from line to line: a plain fraction of an inch"),
       may("width", length(), none, "6 1/2 in",
           "across a straight ruler, where wider cuts are to be told of")}};
  return table;
}

const KeyTable& block_use() {
  static const KeyTable table{
      "block-use",
      "a block",
      "Block in its fabrics",
      "Each of `blocks` in pattern.yaml.",
      {need("block", name_of("file in blocks/"), "star", "the file's name without `.yaml`"),
       may("title", text(), computed("that of the file"), "Gate Star", "as it is printed"),
       may("fabrics", named("role", name_of("fabric"), {}, true),
           computed("every role has the fabric of its own name"), "{light: cream, dark: ink}",
           "which fabric each of the block's roles has")}};
  return table;
}

const KeyTable& coloring() {
  static const KeyTable table{
      "coloring",
      "a coloring",
      "Other coloring",
      "Each of `other colorings` in pattern.yaml.",
      {need("name", text(), "Night Garden", "as it is printed"),
       need("fabrics", named("fabric", either({colour(), map(coloring_fabric)}), {}, true),
            "{cream: \"#2b2b3f\", ink: {name: Straw, colour: \"#d6b98a\"}}",
            "what fabrics become: a colour, or a name and a colour; all others stay")}};
  return table;
}

const KeyTable& coloring_fabric() {
  static const KeyTable table{
      "coloring-fabric",
      "a fabric of a coloring",
      "Fabric of another coloring",
      "A fabric of `other colorings` where it has a name besides its colour.",
      {may("name", text(), computed("the fabric's name"), "Straw", "as it is printed"),
       need("colour", colour(), "\"#d6b98a\"", "of its figures, in quotes")}};
  return table;
}

const KeyTable& month() {
  static const KeyTable table{
      "month",
      "a month of the schedule",
      "Month of the schedule",
      "Each of `schedule` in pattern.yaml. It says at least one thing that is to do.",
      {need("month", text(), "February", "as it is printed; it need not be a month"),
       may("blocks", list(name_of("block")), none, "[star]",
           "the blocks that are made, all of each"),
       may("assembly", yes(), "no", "yes", "whether the top is sewn together"),
       may("finishing", yes(), "no", "yes", "whether the quilt is quilted and bound")},
      {{"blocks"}, {"assembly"}, {"finishing"}}};
  return table;
}

const KeyTable& erratum() {
  static const KeyTable table{
      "erratum",
      "an erratum",
      "Erratum",
      "Each of `errata` in pattern.yaml; the ledgers of printed editions are kept as "
      "`editions/EDITION.txt`.",
      {need("edition", text(), "\"1\"", "the edition that had it wrong"),
       need("fact", text(), "wall fabric.ink.cloth",
            "the fact's name in the ledger; cut off at a dot it stands for all below it"),
       may("was", text(), none, "3/4 yd", "what was printed"),
       may("now", text(), none, "7/8 yd", "what is right"),
       may("words", text(), none, "The binding had been left out.",
           "a sentence of your own for the buyer")}};
  return table;
}

}  // namespace dogear::keys
