#pragma once
// Cuts of directional prints: every piece the same way up.

#include <vector>

#include "cutting/quantities.h"
#include "cutting/strips.h"

namespace dogear {

// A cut that may turn its pieces about becomes one that does not: a square gives one piece of a
// kind, and slanted pieces follow each other unturned.
void cut_one_way(PieceCut& cut);

// Kinds of piece that the same cuts give: the halves or quarters of one square, or a shape and the
// one between it and the next.
struct CutFamily {
  PieceId leader = 0;                                 // the kind that most are needed of
  std::vector<std::pair<PieceId, long long>> others;  // and how many the family's cuts give
};

// Makes one demand of those whose cuts give each other; what a kind needs beyond stays by itself.
std::vector<CutFamily> join_families(const Piecing& piecing, const std::vector<PieceCut>& cuts,
                                     std::vector<StripDemand>& demands);

// Gives the runs of each family the pieces that come with their leader's.
void hand_out(const std::vector<CutFamily>& families, std::vector<Strip>& strips);

}  // namespace dogear
