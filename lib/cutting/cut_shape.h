#pragma once
#include <map>
#include <optional>
#include <vector>

#include "cutting/quantities.h"

namespace dogear {

// For each piece, the lines (point and direction, inside on the right) that trim its tips so that
// sewn ends lie flush: where a neighbour's corner is wider than the piece's, the tip is cut along
// the neighbour's cut edge as it lies when the two are right sides together.
struct TrimLine {
  Point at;
  Point along;
};
std::map<PieceId, std::vector<TrimLine>> tip_trims(const CheckedPattern& checked,
                                                   const Piecing& piecing);

// A 60° ruler's tip: cut off 1/4 in down, or running to a point.
enum class Tip { blunt, pointed };

// The cut round a template: any shape whose outline leaves room for its allowances.
std::optional<PieceCut> plan_template(const Polygon& shape, const Pattern& pattern,
                                      const std::vector<TrimLine>& trims);

// The cut of a finished shape (strip along x) with a ruler of such a tip, or from a template where
// no ruler serves. `from_set`: the strip is sewn already, so it ends a seam allowance beyond a tip,
// and there is no template.
std::optional<PieceCut> plan_cut(const Polygon& shape, const Pattern& pattern,
                                 const std::vector<TrimLine>& trims, Tip tip,
                                 bool from_set = false);

// The cut with the rulers that make it: blunt tips are tried first, as their strips are narrower.
// With no ruler in the result `why_not` says what is missing.
std::optional<PieceCut> plan_cut_with_rulers(const Polygon& shape, const Pattern& pattern,
                                             const std::vector<TrimLine>& trims,
                                             std::string& why_not, bool from_set = false);

}  // namespace dogear
