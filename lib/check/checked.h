#pragma once
// A pattern whose every block and top is known to fit: the only input of later stages.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "geom/tiling.h"
#include "model/pattern.h"

namespace dogear {

using PartId = std::size_t;  // index into CheckedPattern::parts

struct Placed {
  PartId part = 0;
  Transform where;  // own coordinates -> those of the whole
};

// How units come out of squares and rectangles that are larger than their patches: sewn first, then
// cut apart or trimmed. Every cut's edges run along the unit's sides, and so does its grain.
struct Batch {
  ReadyMade kind = ReadyMade::half_square;
  Method method = Method::two_at_a_time;
  int yield = 1;   // units from one batch
  Exact oversize;  // inches that units are larger before they are trimmed
  struct Cut {
    FabricId fabric = 0;
    Exact width, height;  // as cut
    int count = 1;        // in a batch
  };
  std::vector<Cut> cuts;          // in order of use
  std::vector<std::size_t> from;  // for each part of the unit, the cut it comes out of
};

// How the designer wants the seams of a whole pressed.
struct PressWish {
  PressSpec::How how = PressSpec::How::open;
  FabricId fabric = 0;  // towards, away
  std::string role;
  Span span;
};

// A patch of one fabric or a whole made of parts, in its own coordinates. Parts are shared: a unit
// used twelve times is one Part placed twelve times.
struct Part {
  Polygon outline;
  std::string name;  // "ray", "half", "Lantern"; "" for patches
  std::string shape_words;
  Span span;
  bool is_patch = false;
  bool measured = false;     // corners good to 1/1000 in, not yet snapped to their neighbours
  FabricId fabric = 0;       // patch: cut with its own x axis along the strip (grain)
  bool directional = false;  // patch: of a print with an up, which is against its own y axis
  int grain = 0;             // patch: x 15° from the base of its unit's shape to its own x axis
  // Patch: its strip is cut along the length of the cloth, so its print stands upright where the
  // patch lies turned a quarter.
  bool along = false;
  bool border = false;  // patch: a strip of a border
  bool mitred = false;  // patch: a border with ends on the diagonal; whole: with such borders
  std::optional<PressWish> press;
  bool strip_set = false;      // whole: its parts are strips sewn first, the shape cut from the set
  std::optional<Batch> batch;  // whole: its parts are patches that come out of larger pieces
  std::optional<FoundationWish> foundation;  // whole: all its patches are sewn on one paper
  std::vector<Placed> parts;
  std::vector<Meeting> meetings;  // between parts, in the whole's coordinates
  SewingWish sewing;              // whole: what the designer says of its order
  std::vector<Span> part_spans;   // whole: where each part is asked for; may be empty
};

struct BlockPlace {
  std::size_t use = 0;  // Pattern::uses
  Transform where;      // block -> top
};

struct CheckedSize {
  std::size_t size = 0;        // Pattern::sizes
  PartId top = 0;              // the finished quilt top, borders included; least corner at (0, 0)
  std::vector<PartId> blocks;  // one a use: the whole block, for figures (may be unused)
  std::vector<BlockPlace> places;  // where each block lies in the top
  Exact width, height;             // finished
};

struct CheckedPattern {
  Pattern pattern;
  std::vector<Part> parts;
  std::vector<PartId> block_parts;  // one for each Pattern::uses
  std::vector<CheckedSize> sizes;   // one for each Pattern::sizes, same order
};

// Builds every block and top and proves that the parts fill their outlines.
std::optional<CheckedPattern> check_pattern(Pattern pattern, Diagnostics& diagnostics);

// Every patch of a part, flattened: fabric and outline in the part's coordinates.
struct FlatPatch {
  PartId patch = 0;
  Transform where;
};
std::vector<FlatPatch> flatten(const CheckedPattern& checked, PartId part);

}  // namespace dogear
