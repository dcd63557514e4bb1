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

// The cut of a finished shape (strip along x); nothing when no method of dogear cuts it.
std::optional<PieceCut> plan_cut(const Polygon& shape, const Pattern& pattern,
                                 const std::vector<TrimLine>& trims);

// Pattern::rulers that can make a cut; why_not says what is missing when there is none.
std::vector<std::size_t> rulers_for(const PieceCut& cut, const Pattern& pattern,
                                    std::string& why_not);

}  // namespace dogear
