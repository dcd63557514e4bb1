#pragma once
// The marks of the booklet's own sign language; the figure "key" explains every one.

#include "drawing/labels.h"
#include "drawing/sketch.h"
#include "piecing/piecing.h"

namespace dogear::drawing {

// A line with an open arrowhead at each end, along the thread.
void grain_line(canvas::DisplayList& list, Spot from, Spot to);
// A line with one filled head at `to`, where the top of a directional print lies, and a bar across
// its foot.
void print_line(canvas::DisplayList& list, Spot from, Spot to);
// A short wave, `from` the stretch's start `to` its end, moved `away` points to its outer side.
void bias_wave(canvas::DisplayList& list, Spot middle, Spot along, double span);
// A filled arrowhead on a short stem across the seam, pointing where both allowances go.
void press_arrow(canvas::DisplayList& list, Spot at, Spot towards, double size = 9);
// Two filled heads that point away from each other: the allowances are pressed open.
void press_open(canvas::DisplayList& list, Spot at, Spot across, double size = 9);
// A ring on a seam line: a seam stops or turns here.
void seam_stop(canvas::DisplayList& list, Spot at);
// A hollow arrow from what is sewn to what it becomes, `width` long.
void becomes(canvas::DisplayList& list, Spot middle, double width, bool down = false);
// A measure between two spots: a thin line with a tick at each end.
void measure_line(canvas::DisplayList& list, Spot from, Spot to);
void seam_line(canvas::DisplayList& list, Spot from, Spot to);
// A line drawn on the cloth, and a row of stitches.
void drawn_line(canvas::DisplayList& list, Spot from, Spot to);
void stitches(canvas::DisplayList& list, Spot from, Spot to);
void cut_line(canvas::DisplayList& list, const Ring& ring);
// On cloth that would swallow it.
void cut_line_on_cloth(canvas::DisplayList& list, Spot from, Spot to, double halo = 2.4);
// A strip that goes on at its right end, which is in teeth; and the line of the teeth.
Ring torn_strip(const Rect& strip);
void torn_line(canvas::DisplayList& list, const Rect& strip);
inline constexpr double torn = 0.85;  // pt, its width

// Puts the grain line of a patch where it is clear: through the label's plate where one was put,
// else beside it. Returns false when there is no room for `shortest` pt. `mark` draws it:
// grain_line or print_line.
using LineMark = void (*)(canvas::DisplayList& list, Spot from, Spot to);
bool put_grain(canvas::DisplayList& list, Labels& labels, const Ring& patch, Spot thread,
               const std::optional<Rect>& label, LineMark mark = grain_line, double shortest = 12);

}  // namespace dogear::drawing
