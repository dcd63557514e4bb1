#pragma once
// The figure of an error about geometry: where parts leave a gap, overlap, stick out, do not meet,
// or need a set-in seam. Needs no sound pattern.

#include "canvas/font.h"
#include "diag/picture.h"
#include "drawing/figure.h"

namespace dogear {

// No wider and no higher than given. A picture without a finite extent gives an empty figure.
Figure draw_problem(const ProblemPicture& picture, const canvas::FontSet& fonts, double max_width,
                    double max_height);

}  // namespace dogear
