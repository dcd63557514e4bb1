#pragma once
// What to cut and what to buy, for each size. Cut measures are inches with seam allowances.

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "piecing/piecing.h"

namespace dogear {

enum class CutMethod {
  rectangle,       // strip of `strip` high, subcut every `length`
  half_square,     // square of `length`, cut once on the diagonal: two
  quarter_square,  // square of `length`, cut twice: four
  angled,          // strip of `strip`, both ends at the ruler's angle, at `reading`
  half_angled,     // strip of `strip`, one end square, the other at the ruler's angle
  joined_strip,    // longer than the cloth is wide: strips joined end to end, then cut to `length`
  lengthwise,      // strip of `strip` wide, cut along the length of the cloth, `length` long
  from_strip_set,  // sewn strips of `strip` together high, both ends angled, at `reading`
  templated        // drawn round a template; takes a stretch `strip` high and `length` long
};

// A printed measure and the exact one it stands for.
struct CutMeasure {
  enum class What { strip, length, reading, upper_reading } what = What::strip;
  Exact exact;
  Fraction printed;
  bool eased = false;  // does no harm: eased to what it is sewn to, or squared off afterwards
};

// How one piece (or one shape cut from a strip set) is cut.
struct PieceCut {
  CutMethod method = CutMethod::rectangle;
  Polygon cut_shape;                      // with seam allowances, tips trimmed flush; strip along x
  Fraction strip;                         // strip height
  Fraction length;                        // rectangle, half_square, ...: measure along the strip
  int angle = 90;                         // angled: of its ends to the strip, 60 or 45
  bool parallel = false;                  // angled: cuts every `length`, measured square to them
  std::optional<Fraction> reading;        // angled: the ruler line on the strip's wider edge
  std::optional<Fraction> upper_reading;  // trapezoids: the reading at the strip's narrower edge
  std::vector<std::size_t> rulers;        // Pattern::rulers able to make the cut
  int per_cut = 1;     // pieces from each cut: 2 from a square halved, 4 from one quartered
  double rounded = 0;  // the most by which a printed measure differs from the exact one, inches
  std::vector<CutMeasure> measures;
  double first = 0;          // inches of strip the first cut takes
  double pitch = 0;          // inches each further one takes, turned alternately
  bool one_way = false;      // of a directional print: no piece is cut turned about
  double turned_pitch = 0;   // one_way: the pitch if every second piece were
  bool square_ends = false;  // every second cut is square, so an even run has no slanted end
};

// Pieces that the cuts of a run of `count` give beyond it.
inline long long spare_pieces(const PieceCut& cut, long long count) {
  if (cut.per_cut < 2 || cut.one_way) return 0;
  return (cut.per_cut - count % cut.per_cut) % cut.per_cut;
}

// How a piece and its mirror image differ.
enum class Hand {
  alike,        // turned on its cloth the mirror image is the piece itself
  other_grain,  // the mirror image fits, but its threads run another way: a diamond
  mirrored      // the mirror image is another piece
};

struct CutPiece {
  PieceId piece = 0;
  PieceCut cut;
  long long count = 0;
  Hand hand = Hand::alike;
  std::optional<PieceId> twin = std::nullopt;  // its mirror image, cut from the same fabric
  int layers = 1;                              // layers of cloth cut at once: 1, 2 or 4
};

// A shape cut from sewn strips.
struct StripSet {
  UnitId unit = 0;            // one of the units cut from it
  std::vector<UnitId> units;  // all units cut from it (turned the other way, too)
  std::vector<std::pair<FabricId, Fraction>> strips;  // fabric and cut width, in sewing order
  PieceCut cut;
  long long need = 0;                 // shapes
  long long sets = 0;                 // strip sets sewn
  std::vector<Fraction> set_lengths;  // length of each set, longest first
  long long extra = 0;                // shapes left over
};

// Ready-made units that are sewn in batches of the unit's `batch->yield`.
struct BatchCount {
  UnitId unit = 0;
  long long need = 0;
  long long batches = 0;
  long long extra = 0;  // units over
  long long made() const { return need + extra; }
};

// A rectangle of a strip: a run of one piece, a strip for a strip set, binding, ..., or what is
// left.
struct Run {
  enum class Kind { piece, strip_set, whole_strip, leftover } kind = Kind::piece;
  Fraction x, y;  // of its lower left corner in the strip
  PieceId piece = 0;
  std::size_t strip_set = 0;
  long long count = 0;  // pieces in the run
  bool shared = false;  // its cuts give other kinds as well: `also`, and how many
  std::vector<std::pair<PieceId, long long>> also;
  Fraction height;           // less than the strip's where the stretch is cut down
  Fraction length;           // inches of strip used, rounded up to 1/8
  std::string purpose = {};  // whole_strip: "border", "binding", "sleeve"
};

struct StripPlan {
  FabricId fabric = 0;
  bool from_bundle = false;
  std::size_t bundle = 0;  // Pattern::bundles
  Fraction height;         // cut height of the strip
  Fraction usable;         // length
  std::vector<Run> runs;   // pieces and, last, leftover; from the left, then from below
  long long times = 1;     // strips cut exactly like this
  std::string purpose;     // "pieces", "border", "binding", "sleeve"
  std::size_t source = 0;  // Fabric::sources
  bool along = false;      // cut along the length of the cloth
  bool beside = false;     // across what is left beside strips cut along the length
  long long sheet = 0;     // of a fat quarter, square or scrap: which, from 1; 0 for others
};

// Cloth that is left, in sizes worth keeping, equal ones counted.
struct Leftover {
  enum class From {
    strip,        // the end of a strip, or what is above its rows
    whole_sheet,  // never opened
    sheet,        // the rest of one that was
    cloth,        // bought because cloth is rounded up
    squares       // spare pieces of squares cut apart
  } from = From::strip;
  Fraction height, length;  // inches, length the longer of the two where they are the cloth's
  long long count = 1;
  std::size_t source = 0;        // Fabric::sources
  std::optional<PieceId> piece;  // squares: spare pieces, ready cut
};

// Sheets of a source, or its yardage.
struct SourceUse {
  std::size_t source = 0;  // Fabric::sources
  long long used = 0;      // sheets
  long long had = 0;       // or bought, where as many are bought as are needed
};

// The best that any plan of strips could do for a fabric, and how near the plan comes.
struct LeastCloth {
  Fraction length;       // inches cut into strips; sheets where the last source is in sheets
  long long bought = 0;  // eighths or quarters of a yard, or sheets
  bool met = false;      // no plan needs less to be bought
};

struct FabricNeed {
  FabricId fabric = 0;
  std::vector<std::string> uses;  // "blocks", "border", "binding", in order of use
  long long bundle_strips = 0;    // strips used of the bundle
  long long bundle_strips_had = 0;
  std::vector<SourceUse> sources;        // those that are used, in order
  Exact length;                          // inches of yardage cut into strips
  Exact squaring, shrinkage, margin;     // inches added for each
  std::optional<Fraction> yards;         // to buy, rounded up
  std::optional<long long> centimetres;  // to buy, rounded up, from the plan
  std::optional<LeastCloth> least;
  std::vector<Leftover> leftovers;  // largest first
  // Areas in square inches that must balance: cloth = pieces + leftover + waste.
  double cloth_area = 0, piece_area = 0, leftover_area = 0, waste_area = 0;
};

struct Binding {
  FabricId fabric = 0;
  long long strips = 0;
  Fraction strip;   // cut width
  Fraction length;  // inches of binding that the joined strips give
  // On the bias: squares of this side instead of strips.
  std::optional<Fraction> square = {};
  long long squares = 0;
};

struct Backing {
  std::string name;
  Fraction width, height;  // wanted
  long long panels = 1;
  bool seams_vertical = true;
  Fraction yards;
  long long centimetres = 0;
  // Wide cloth, where the pattern names one.
  std::optional<Fraction> wide = {};  // its usable width
  Fraction wide_yards;
  long long wide_centimetres = 0;
  long long wide_panels = 1;
};

struct Sleeve {
  FabricId fabric = 0;
  Fraction strip, length;  // cut; joined from strips where longer than the cloth is wide
  Fraction finished;       // depth
};

// Bundles to buy.
struct BundleUse {
  std::size_t bundle = 0;  // Pattern::bundles
  long long bought = 1;
  long long sheets_used = 0, sheets_had = 0;  // strips or squares of all its fabrics
};

struct Batting {
  Fraction width, height;  // least
  std::string package;     // smallest package that serves, "" when none does
};

struct SizeQuantities {
  std::size_t size = 0;
  Fraction finished_width, finished_height;  // rounded to 1/8
  std::vector<CutPiece> pieces;              // largest strip first, then in letter order
  std::vector<StripSet> strip_sets;
  std::vector<BatchCount> batches;  // by unit
  // Units on paper: how many papers to print of each.
  std::vector<std::pair<UnitId, long long>> papers;
  std::vector<StripPlan> strips;    // by fabric, tallest first
  std::vector<FabricNeed> fabrics;  // in order of use
  std::optional<Binding> binding;
  std::optional<Backing> backing;
  std::optional<Batting> batting;
  std::optional<Sleeve> sleeve;
  std::vector<BundleUse> bundles;
  std::vector<std::size_t> rulers;  // the fewest of Pattern::rulers that make every cut
};

// The batches of a unit; nothing where it is sewn piece by piece.
const BatchCount* batches_of(const SizeQuantities& quantities, UnitId unit);
// Null where the size does not cut the piece, or cuts the unit from no set.
const CutPiece* cut_of(const SizeQuantities& quantities, PieceId piece);
const StripSet* strip_set_of(const SizeQuantities& quantities, UnitId unit);

struct Quantities {
  std::vector<SizeQuantities> sizes;  // same order as Pattern::sizes
  std::vector<PieceCut> cuts;         // by PieceId
};

std::optional<Quantities> plan_cutting(const CheckedPattern& checked, const Piecing& piecing,
                                       Diagnostics& diagnostics);

// What a part of a size takes (some blocks, the samples of a class): pieces, strip sets, strips and
// cloth, nothing finished. `cuts` are Quantities::cuts.
std::optional<SizeQuantities> plan_part(const CheckedPattern& checked, const Piecing& piecing,
                                        const std::vector<PieceCut>& cuts, const SizeSewing& part,
                                        Diagnostics& diagnostics);

// Its pieces and strip sets alone, no cloth planned.
std::optional<SizeQuantities> part_pieces(const CheckedPattern& checked, const Piecing& piecing,
                                          const std::vector<PieceCut>& cuts, const SizeSewing& part,
                                          Diagnostics& diagnostics);

// The facts of a size as name -> value: what tags in prose and lines of the ledger are made of.
// "fabric.ink.cloth" -> "1 1/8 yd"; plain spelling (pretty() of base/length.h for prose).
std::string fact_number(const Fraction& f);  // as it may stand in a name: "2-1/2"
// "strip-set.ink-2-1/2.cream-2-1/2.rail"
std::string fact_name(const Pattern& pattern, const Piecing& piecing, const StripSet& set);
std::map<std::string, std::string> facts(const CheckedPattern& checked, const Piecing& piecing,
                                         const Quantities& quantities, std::size_t size);

}  // namespace dogear
