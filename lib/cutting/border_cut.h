#pragma once
#include "cutting/quantities.h"

namespace dogear {

// What a strip for a mitred border is cut longer than its outer side with allowances: 2 in, so that
// both corners can be squared (common practice: 2 to 5 in).
Exact mitre_spare();

// The cut of a border's strip along the length of the cloth, or of one whose ends are mitred once
// it is sewn on. Errors: D502 no ruler measures it, D541 wider than the cloth it is cut along.
PieceCut plan_border_cut(const Piece& piece, const Pattern& pattern, Diagnostics& diagnostics);

// What the piece comes to, square inches, with its allowances. Of a mitred border its corners are
// waste; any other strip is used as it is printed.
double cut_area(const Piece& piece, const PieceCut& cut);

}  // namespace dogear
