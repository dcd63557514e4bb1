#pragma once
// What a fabric must give, and the strips, stretches and rows on which it is laid (lib/stock).

#include <string>
#include <vector>

#include "cutting/quantities.h"
#include "stock/stock.h"

namespace dogear {

// The grid on which cloth is planned, in steps an inch: along strips, where runs are rounded up to
// 1/8 in, and across them, where a strip may be as high as any printed measure.
inline constexpr stock::Steps steps_along = 16;
inline constexpr stock::Steps steps_across = 960;

// What one fabric must give in one size.
struct StripDemand {
  Run::Kind kind = Run::Kind::piece;
  PieceId piece = 0;
  std::size_t strip_set = 0;
  std::string purpose = {};  // whole_strip
  Exact height;              // of the strip
  double first = 0;          // inches taken by the first cut
  double pitch = 0;          // and by each further one
  bool square_ends = false;  // as in PieceCut
  int per_cut = 1;           // pieces a cut gives
  bool shared = false;       // and pieces of other kinds (one_way.h)
  long long pieces = 0;
  Span span = {};
  // Inches of strip that n cuts take, rounded up to 1/8.
  Fraction run_length(long long cuts) const;
  long long cuts_in(double inches) const;  // how many fit
  long long cuts() const { return (pieces + per_cut - 1) / per_cut; }
};

struct Strip {
  std::size_t source = 0;  // of the problem
  long long sheet = 0;
  Exact height;
  Exact usable;
  std::vector<Run> runs;  // with what is left over, where it is worth keeping
};

// The demands as a problem: kind k is demand k.
stock::Problem stock_problem(const std::vector<StripDemand>& demands,
                             std::vector<stock::Source> sources);

// A solution in inches, every run placed, pieces counted up to what is needed.
std::vector<Strip> strips_of(const std::vector<StripDemand>& demands, const stock::Problem& problem,
                             const stock::Solution& solution);

// Equal strips of a source counted once; of sheets that hold several strips, by sheet.
std::vector<StripPlan> gather(const std::vector<Strip>& strips, FabricId fabric,
                              const stock::Problem& problem);

// A measure on the grid: cloth rounded down, cuts rounded up.
stock::Steps steps_down(const Exact& inches, stock::Steps per_inch);
stock::Steps steps_up(const Exact& inches, stock::Steps per_inch);

}  // namespace dogear
