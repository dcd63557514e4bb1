#pragma once
// A pattern as the designer wrote it: typed, defaults filled, names resolved to indices.
// Lengths are inches, finished unless a name says "cut". Counts are whole numbers.

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/exact.h"
#include "base/length.h"
#include "diag/diagnostics.h"
#include "geom/polygon.h"
#include "model/foundation.h"
#include "model/methods.h"
#include "model/sewing.h"
#include "source/node.h"

namespace dogear {

using FabricId = std::size_t;  // index into Pattern::fabrics

// Cloth that a fabric is cut from. Sheets are cut as they come, yardage is bought by the length.
struct ClothSource {
  enum class Kind { yardage, bundle, fat_quarter, fat_eighth, scrap } kind = Kind::yardage;
  std::size_t bundle = 0;        // Pattern::bundles
  Exact length;                  // strips run along it: the usable width of yardage
  std::optional<Exact> height;   // of a sheet
  std::optional<long long> had;  // sheets there are; none: as many as are needed
  Span span;
};

struct Fabric {
  std::string id;      // "ink", as used in the source
  std::string name;    // "Ink", as printed
  std::string colour;  // "#rrggbb"
  int number = 1;      // 1-based, order of the source: labels its pieces, A3 = shape A of fabric 3
  Span span;
  bool directional = false;                   // its print has an up, which is the lengthwise thread
  std::optional<Exact> width = std::nullopt;  // usable width, where not the pattern's
  std::vector<ClothSource> sources = {};      // in order of use; filled by the reader, never empty
};

struct Bundle {  // a 2½ in strip bundle, or a 10 in square bundle
  std::string id;
  std::string name;
  Exact strip;           // cut width of each strip; side of each square
  Exact length;          // usable length of each strip; side of each square
  bool squares = false;  // it holds squares
  int each = 1;          // strips or squares of every fabric
  int most = 1;          // bundles that may be bought
  std::vector<FabricId> fabrics;
  Span span;
};

struct Ruler {
  std::string id;
  std::string name;    // "60° ruler, blunt tip"
  int angle = 60;      // degrees at the tip; 90 for a rectangular ruler
  bool blunt = false;  // the tip is cut off 1/4 in down, so strips need no allowance for it
  Exact lowest, highest, step;  // readings
  Span span;
  std::optional<Exact> width = std::nullopt;  // of a rectangular ruler, across its long edges
};

// One word of a row or stack: a unit's name, mirrored left to right or not, and then turned
// clockwise.
struct PartRef {
  std::string unit;
  bool flipped = false;
  int turn = 0;             // x 15°
  std::optional<Point> at;  // place: where the topmost, then leftmost corner goes, inches
  Span span;
};

struct BandSpec {
  std::string role;
  Exact width;  // finished, inches
  Span span;
};

// How the designer wants the seams of a unit pressed.
struct PressSpec {
  enum class How { open, to_first, to_last, towards, away } how = How::open;
  std::string role;  // towards, away
  Span span;
};

enum class Composition { fabric, bands, strip_set, row, stack, place, ready_made };

struct UnitDef {
  std::string name;
  Composition how = Composition::fabric;
  std::optional<Polygon> shape;  // finished outline, own coordinates, where a shape is written
  Point shape_at;                // where its box starts on the grid: other than 0 for corners
  bool measured = false;         // a corner is a typed length: snapped to what it meets
  std::string shape_words;       // "60° triangle", "half-hexagon"
  std::string role;              // fabric
  // fabric: x 15° clockwise from the shape's base to the strip it is cut from
  std::optional<int> grain;
  std::optional<PressSpec> press;
  std::vector<BandSpec> bands;        // bands, strip_set: from tip (or top) to base
  std::vector<PartRef> parts;         // row, stack, place
  std::optional<ReadyMadeDef> ready;  // ready_made
  SewingWish sewing;
  std::optional<FoundationWish> foundation = {};
  Span span;
  Span shape_span;
};

enum class GridKind { square, triangle };

struct BlockDef {
  std::string id;     // file name without .yaml
  std::string title;  // "Lantern"
  GridKind grid = GridKind::square;
  Exact unit = 1;  // inches a grid step; the height of a triangle on the triangle grid
  std::vector<std::string> roles;
  std::vector<UnitDef> units;  // in source order; later ones may use earlier ones
  UnitDef whole;               // the block itself: a row, stack or shape
  bool filler = false;         // fills a setting round the feature blocks, from what is left
  std::string words;           // the designer's sentence about it (may be empty)
  Span span;
};

// A block with its roles bound to fabrics: one colouring.
struct BlockUse {
  std::string id;  // the name used in settings
  std::string title;
  std::size_t block = 0;                    // index into Pattern::blocks
  std::map<std::string, FabricId> fabrics;  // every role is bound
  Span span;
};

enum class Setting { rows, hexagon_columns, hexagon_rows, on_point };

struct BorderDef {
  FabricId fabric = 0;
  Exact width;
  Span span;
  bool mitred = false;             // corners on the diagonal; otherwise sides first, then over all
  std::optional<bool> along = {};  // cut along the length of the cloth; none: what the print asks
  std::optional<std::size_t> use = {};         // pieced: blocks of this use side by side
  std::optional<std::size_t> corner_use = {};  // pieced: the blocks at its corners; else `fabric`
};

struct SashingDef {
  FabricId fabric = 0;
  Exact width;
  std::optional<FabricId> cornerstones;
  bool around = false;  // also along the outside
  Span span;
};

struct BindingDef {
  FabricId fabric = 0;
  Exact strip;  // cut width
  Span span;
  bool bias = false;  // continuous strips from a square
};

struct BackingDef {
  std::string name;  // as printed; backing is bought on its own
  Exact width;       // usable width of the cloth
  Exact extra;       // over the quilt, both sides of a dimension together
  Span span;
  std::optional<Exact> wide = {};  // usable width of wide cloth, quoted beside
};

struct SleeveDef {  // by which a wall hanging hangs
  FabricId fabric = 0;
  Exact depth;  // finished
  Span span;
};

struct BattingDef {
  Exact extra;  // both sides together
  Span span;
};

struct SizeDef {
  std::string id;     // "lap"
  std::string title;  // "Lap quilt"
  Setting setting = Setting::rows;
  // rows: rows of block uses; hexagon_columns: columns. Index into Pattern::uses.
  struct Cell {
    std::size_t use = 0;
    Span span;
  };
  std::vector<std::vector<Cell>> cells;
  std::optional<FabricId> ground;  // fills the edge of a hexagon setting or of one on point
  std::optional<SashingDef> sashing;
  std::vector<BorderDef> borders;  // from the inside out
  std::optional<BindingDef> binding;
  std::optional<BackingDef> backing;
  std::optional<BattingDef> batting;
  std::optional<SleeveDef> sleeve;
  std::optional<Span> fillers_from_bundle;  // where it says so: no other filler could be made
  Span span;
  Span setting_span;
};

// Cloth bought beyond what is cut. Each is printed by itself.
struct Allowances {
  Exact squaring = 1;                     // inches, once for every length of cloth bought
  Exact strip_ends = Exact::ratio(1, 2);  // inches of every strip, for squaring its ends
  Exact set_ends = 1;                     // of every strip set
  Exact joined = 1;                       // to spare in strips joined end to end
  Exact shrinkage;                        // share of the length, 3/100
  Exact margin_share;                     // the designer's own: share of the length
  Exact margin_length;                    // or inches
  long long margin_strips = 0;            // or strips more, as high as the highest
  long long yard_parts = 8;               // cloth is bought in eighths (or quarters) of a yard
  long long centimetre_step = 5;
  Span span;
};

// The whole quilt in other colours: what some fabrics become, the rest stay as they are.
struct Coloring {
  struct Cloth {
    std::string name;    // as the fabric's where no other is written
    std::string colour;  // "#rrggbb"
  };
  std::string name;  // "Fog Bank"
  std::map<FabricId, Cloth> fabrics;
  Span span;
};

// One part of a sew-along.
struct Instalment {
  std::string title;              // "January"
  std::vector<std::size_t> uses;  // blocks made then: all of each
  bool assembly = false, finishing = false;
  Span span;
};

// What was wrong in an edition that is printed.
struct Erratum {
  std::string edition;
  std::string fact;  // its name in the ledger, "lap fabric.ink.cloth"
  std::string was, now;
  std::string words;  // the designer's, may be empty
  Span span;
  Span fact_span;
};

struct Section {
  std::string name;  // "cover", "requirements", ... or a Markdown path such as "prose/welcome.md"
  bool is_prose = false;
  Span span;
};

struct Prose {
  std::string path;
  std::string text;  // as read, tags not yet expanded
};

struct Pattern {
  std::string folder;
  std::string id;  // the folder's own name: "harbor-lights"
  std::string title;
  std::string designer;
  std::string summary;
  std::string edition;
  std::string paper;            // "letter", "a4", "half-letter", "a5", or a template's path
  std::string language = "en";  // of the booklet: one of languages()
  Exact seam_allowance;
  Exact usable_width;      // WOF of yardage
  Span usable_width_span;  // the whole file where none is written
  // The most that rounded cuts may add up to: across a block and between two edges sewn together;
  // across the whole top.
  Exact tolerance = Exact::ratio(1, 8);
  Exact top_tolerance = Exact::ratio(1, 2);
  Span tolerance_span;  // line 0 where none is written
  int layers = 1;       // of cloth cut at once: 1, 2 or 4
  // Cloth cut beyond each finished patch of a foundation, on every side (common practice).
  Exact foundation_allowance = Exact::ratio(3, 4);
  Allowances allowances;
  Exact bolt = 540;                  // inches of cloth on a bolt from which kits are cut
  std::vector<Instalment> schedule;  // of a sew-along, in order
  std::vector<Coloring> colorings;   // besides that of the fabrics
  Span schedule_span;
  std::vector<Erratum> errata;
  bool folded = false;  // layers come from folding, so every second lies wrong side up
  Span folded_span;
  std::vector<Fabric> fabrics;
  std::vector<Bundle> bundles;
  std::vector<Ruler> rulers;
  std::vector<BlockDef> blocks;
  std::vector<BlockUse> uses;
  std::vector<SizeDef> sizes;
  std::vector<Section> sections;
  bool sections_written = false;       // else they are those of every pattern
  std::map<std::string, Prose> prose;  // by path relative to the folder
  std::vector<std::string> files;      // every file read, for depfiles
  Span span;
};

// The first bundle a fabric comes from, an index into Pattern::bundles; nothing without one.
std::optional<std::size_t> bundle_of(const Pattern& pattern, FabricId fabric);
// The source of a fabric that is bought by the length; nothing without one.
const ClothSource* yardage_of(const Pattern& pattern, FabricId fabric);
// What of its length pieces are cut from: strips across cloth and those of a bundle lose their
// ends.
Exact strip_length(const Pattern& pattern, const ClothSource& source);
// The length of the longest strip that a fabric gives as often as it is needed, its ends squared.
Exact longest_strip(const Pattern& pattern, FabricId fabric);

// Reads folder/pattern.yaml, folder/blocks/*.yaml and the prose it names.
class Files;
std::optional<Pattern> load_pattern(const std::string& folder, const Files& files, Sources& sources,
                                    Diagnostics& diagnostics);

}  // namespace dogear
