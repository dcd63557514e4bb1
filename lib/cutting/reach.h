#pragma once
// How far the described straight rulers reach.

#include "cutting/quantities.h"

namespace dogear {

// The highest line of the straight rulers; nothing when none is described.
std::optional<Exact> longest_ruler(const Pattern& pattern);

// A piece subcut at more than any straight ruler measures in one stroke.
bool beyond_rulers(const Pattern& pattern, const PieceCut& cut);

// Warns of a piece that no ruler can be laid across: where every straight ruler has a `width`, a
// cut is made either within that width along the ruler's length, or within its length by a stroke
// no longer than its width.
void check_reach(const Pattern& pattern, const Piecing& piecing, const std::vector<PieceCut>& cuts,
                 Diagnostics& diagnostics);

// For a cut that no described ruler makes: the rulers that come near, and their nearest lines with
// what each would cost in the piece and its seams, and, where the piece is known, across the block
// and the top.
void add_nearest_rulers(Diagnostic& diagnostic, const Pattern& pattern, const PieceCut& cut,
                        const Piecing& piecing, std::optional<PieceId> piece = {});

}  // namespace dogear
