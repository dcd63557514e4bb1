#pragma once
// Pieces laid on strips: runs of one piece, several runs a strip, long ones first.

#include <string>
#include <vector>

#include "cutting/quantities.h"

namespace dogear {

// What one fabric must give in one size.
struct StripDemand {
  Run::Kind kind = Run::Kind::piece;
  PieceId piece = 0;
  std::size_t strip_set = 0;
  Exact height;              // of the strip
  double first = 0;          // inches taken by the first cut
  double pitch = 0;          // and by each further one
  bool square_ends = false;  // as in PieceCut
  int per_cut = 1;           // pieces a cut gives
  bool shared = false;       // and pieces of other kinds (one_way.h)
  long long pieces = 0;
  Span span;
  // Inches of strip that n cuts take, rounded up to 1/8.
  Fraction run_length(long long cuts) const;
  long long cuts_in(double inches) const;  // how many fit
};

struct Strip {
  Exact height;
  Exact usable;
  std::vector<Run> runs;
  double used = 0;
};

// First fit, tallest and longest first, runs unbroken where that costs no strip. With `cut_down`
// every strip has that height, and a stretch of it may be cut down to a lower run.
std::vector<Strip> lay_on_strips(std::vector<StripDemand> demands, const Exact& usable,
                                 const std::optional<Exact>& cut_down);

// Equal strips counted once, leftovers of 1 in and more added as last runs.
std::vector<StripPlan> gather(const std::vector<Strip>& strips, FabricId fabric,
                              const std::optional<std::size_t>& bundle);

}  // namespace dogear
