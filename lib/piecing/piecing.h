#pragma once
// How a quilt top is sewn: distinct pieces, distinct sewn units with "Make N", seams with grain and
// pressing. All shapes finished, inches.

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "check/checked.h"

namespace dogear {

using PieceId = std::size_t;  // index into Piecing::pieces
using UnitId = std::size_t;   // index into Piecing::units

// All patches of one shape, fabric and grain: cut alike, whatever way they are turned.
struct Piece {
  Polygon shape;  // finished, strip (grain) along x, least corner of its box at (0, 0)
  FabricId fabric = 0;
  std::string letter;  // "A": one for each shape, in order of use; label() adds the fabric's number
  bool reversed = false;  // the mirror image of the shape that has the letter: label() adds an R
  std::optional<PieceId>
      mirror_of;  // its mirror image of the same fabric, where the quilt has both
  std::string shape_words;
  bool in_strip_set = false;       // comes out of a strip set, is not cut by itself
  std::optional<PieceId> made_of;  // comes out of this larger piece, is not cut by itself
  bool generous = false;  // covers a patch of a foundation, is cut larger and trimmed once sewn on
  bool directional = false;  // its print has an up: turned half way round it is another piece
  bool along = false;  // its strip is cut along the length of the cloth: x is the lengthwise thread
  bool mitred = false;  // a border whose ends are cut on the diagonal once it is sewn on
  Span span;
  std::string label(const Pattern& pattern) const;  // "A3", "A3R"
};

// Strips are cut across the width of the fabric, so a piece's own x axis is the crosswise thread,
// but for borders cut along the length.
enum class Thread { lengthwise, crosswise, bias };

// An edge of a placed piece.
struct EdgeGrain {
  Segment where;
  Thread thread = Thread::crosswise;
  double off = 0;  // bias: degrees to the nearer thread, 45 at most; measured, for words alone
};

struct Input {
  bool is_piece = false;
  PieceId piece = 0;
  UnitId unit = 0;
  Transform where;  // piece or unit coordinates -> those of the unit made
};

enum class Press { to_first, to_second, open };

struct Seam {
  std::size_t first = 0;  // inputs
  std::size_t second = 0;
  Segment where;  // from end to end; a set-in seam turns between
  SeamKind kind = SeamKind::straight;
  std::vector<Point> path;   // its ends, with the corners of a set-in seam between them; a partial
                             // seam is left open at the last, and finished from the first
  std::optional<Arc> curve;  // which it follows between its ends
  // Which kinds of edge meet, by length along the seam; both sides straight is best.
  bool first_has_bias = false;
  bool second_has_bias = false;
  bool bias_meets = false;  // somewhere along it bias is sewn to bias
  Press press = Press::to_first;
  Span span;
};

// What a batch of ready-made units takes and gives; the unit's inputs are patches that come out of
// the pieces taken.
struct SewnBatch {
  ReadyMade kind = ReadyMade::half_square;
  Method method = Method::two_at_a_time;
  long long yield = 1;
  Exact oversize;  // inches to trim off
  struct Take {
    PieceId piece = 0;
    long long count = 0;
    friend bool operator==(const Take&, const Take&) = default;
  };
  std::vector<Take> takes;  // in order of use
};

// How a unit is pieced on paper: its inputs are patches in the order in which they are sewn on, and
// seam k joins input k + 1 to all that are there by then.
struct SewnFoundation {
  Exact allowance;                   // cloth cut beyond each finished patch, at least
  std::vector<std::size_t> written;  // the designer's own order of its parts, where there is one
};

// A point of a seam, not at its ends, at which seams of the parts sewn end.
struct MeetingPoint {
  std::size_t seam = 0;  // SewnUnit::seams
  double x = 0, y = 0;   // inches, measured
  int patches = 0;       // patch corners that meet there
  int layers = 0;        // the most layers of cloth beside it, all seams pressed as planned
  bool crosses = false;  // seams of both parts meet there
  bool nests = false;    // and are pressed apart, so that they lie close
};

// One thing sewn in one step from pieces and units made before.
struct SewnUnit {
  std::string name;  // "ray", "half", "row 3"; from the source where it has one
  Polygon outline;   // finished, as first drawn or as it is used
  std::vector<Input> inputs;
  std::vector<Seam> seams;         // in sewing order; inputs.size() - 1 besides finish and mitre
  bool strip_set = false;          // sew strips, then cut this shape from the set
  std::optional<SewnBatch> batch;  // sew larger pieces, then cut the units apart
  std::optional<SewnFoundation> foundation;
  std::optional<PressWish> wish;
  std::vector<MeetingPoint> points;
  bool alternate = false;  // a row in odd and even places: in the even pressed the other way
  Span span;
};

struct UnitCount {
  UnitId unit = 0;
  long long count = 0;  // "Make N" for this size
};

// What is made for one block (or for the assembly of a top), in sewing order.
struct BlockSewing {
  std::size_t use = 0;         // Pattern::uses
  std::vector<UnitId> steps;   // units first made for this block; made before is listed in `shared`
  std::vector<UnitId> shared;  // units that an earlier block's steps already make
  std::vector<UnitId> finals;  // what the block hands to the top (two halves, or itself)
  long long blocks = 0;        // how many blocks the size has
};

struct SizeSewing {
  std::size_t size = 0;             // Pattern::sizes
  std::vector<BlockSewing> blocks;  // in order of first use
  std::vector<UnitId> assembly;     // rows, then joined rows, then borders
  UnitId top = 0;
  std::map<UnitId, long long> make;     // every unit this size sews
  std::map<PieceId, long long> pieces;  // every piece this size needs
};

struct Piecing {
  std::vector<Piece> pieces;
  std::vector<SewnUnit> units;
  std::vector<SizeSewing> sizes;  // same order as Pattern::sizes
};

std::optional<Piecing> plan_piecing(const CheckedPattern& checked, Diagnostics& diagnostics);

// Every patch of a unit, flattened, with its grain.
struct PlacedPiece {
  PieceId piece = 0;
  Transform where;  // piece coordinates (strip along x) -> unit coordinates
};
std::vector<PlacedPiece> flatten(const Piecing& piecing, UnitId unit);
std::vector<EdgeGrain> edges(const Piecing& piecing, const PlacedPiece& placed);

}  // namespace dogear
