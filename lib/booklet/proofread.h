#pragma once
// The technical edit of the words: what a careful editor would catch in a booklet's prose, judged
// against what was computed.

#include <cstddef>
#include <vector>

#include "drawing/figure.h"
#include "words/words.h"

namespace dogear {

class Files;

// Reads the designer's words as each of the sizes prints them. Prose whose tags or Markdown cannot
// be read is passed over: those who set the pages tell of it. The words of other languages than
// English are judged by D440 and D456 to D468 alone.
//
// Errors: D420 (a number by hand differs from the computed one), D421 (right in one size, wrong in
// another), D422 (a tag beside words it does not fit), D423 (a finished or unfinished size), D424
// (an amount of cloth), D430 (a step that is not there), D431 (a numbered figure that is not
// there), D440 (a step's count is not what the blocks need).
// Warnings: D450 (a number that a tag can give), D451 (fractions spelled in several ways), D452
// (inches as decimals), D453 (inch marks mixed), D454 (an abbreviation not explained), D455 (a
// fabric misspelt), D456 to D461 (fabrics, bundles, rulers, block files, prose and other files that
// nothing uses), D462 (words for a size left empty), D463 to D466 (pieces, steps, assembly and
// cloth that the booklet does not tell), D467, D468 (sizes of blocks and top left out).
void proofread(const Scene& scene, const std::vector<std::size_t>& sizes, const Words& words,
               const Files& files, Diagnostics& diagnostics);

}  // namespace dogear
