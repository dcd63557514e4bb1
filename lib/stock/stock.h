#pragma once
// Cutting stock: the least cloth from which given pieces can be cut edge to edge. Knows no quilt.
//
// Cloth is cut in strips from one side to the other; a strip is cut across into stretches; a
// stretch is cut along into rows; a row is cut into pieces, in runs of one kind. Every cut goes
// from edge to edge of what it cuts, as a rotary cutter's does (guillotine cuts, four stages).
//
// All measures are whole steps of a grid that the caller chooses; the grid along strips need not be
// the one across them.

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace dogear::stock {

using Steps = std::int64_t;

// Pieces that are all cut alike.
struct Kind {
  Steps height = 0;  // of the row they are cut from
  // run[n - 1] is the length of row that n cuts side by side take; increasing. As long as the
  // longest source needs: a run never has more cuts than this.
  std::vector<Steps> run;
  long long need = 0;  // cuts
};

// Cloth to cut from. Strips run along `length`.
struct Source {
  Steps length = 0;
  // A sheet (a bundle's strip, a fat quarter, a scrap) is this high and its strips lie one above
  // the other; none: cloth bought by the length, in which a strip of any height can be cut.
  std::optional<Steps> height;
  std::optional<long long> had;  // sheets there are; none: as many as wanted (the last source only)
};

struct Problem {
  std::vector<Kind> kinds;
  // In the order in which they are to be used up; all but the last are sheets with `had`.
  std::vector<Source> sources;
  // What is paid when so much of the last source is used (steps of height, or sheets): never
  // falling, and flat where rounding up makes cloth free. Plans that cost the same are compared by
  // how simple they are. None: the use itself.
  std::function<long long(Steps)> price;
  // How much work may go into finding the plan and its proof, in units of search that do not
  // depend on the machine.
  long long effort = 2000;
};

struct Run {
  std::size_t kind = 0;
  long long cuts = 0;
  Steps length = 0;
};

struct Row {
  Steps height = 0;
  std::vector<Run> runs;  // from the left
};

struct Stretch {
  Steps length = 0;
  std::vector<Row> rows;  // from the bottom; what is above them is left over
};

struct Strip {
  std::size_t source = 0;
  long long sheet = 0;  // of a source in sheets: which; strips of a sheet lie one above the other
  Steps height = 0;
  std::vector<Stretch> stretches;  // from the left; what is right of them is left over
};

// A value given to every cut of each kind, and the greatest value that a sheet of each source but
// the last can yield at that.
struct Worth {
  std::vector<long long> worth;  // by kind
  std::vector<long long> most;   // by source, without the last
};

// What no plan can do better than, and the proof. `worth[k]` is a value given to every cut of kind
// k; `most` is the greatest value that can be cut from a sheet of each source, or from a strip of
// cloth for each step of its height (as most / per). Then the pieces' whole value, less what the
// sheets that are had can yield, over that is the least cloth. Cloth is cut in whole strips, so it
// may take more: enough strips for the pieces' value. Each of `more` values the pieces otherwise,
// and only strips whose values are enough each time are enough.
struct Bound {
  // Of the last source. Of cloth: no strips that add up to less have values that are enough.
  Steps use = 0;
  long long price = 0;  // of that use
  std::vector<long long> worth;
  std::vector<long long> most;  // by source
  std::vector<Steps> per;       // by source: 1 for sheets, the strip's height for cloth
  std::vector<Worth> more;
};

struct Solution {
  std::vector<Strip> strips;
  Steps use = 0;  // of the last source: sum of the strips' heights, or sheets
  long long price = 0;
  std::vector<long long> sheets;  // used of each source; 0 for cloth by the length
  Bound bound;
  bool least() const { return price == bound.price; }  // proved: nothing costs less
};

// The plan that costs least; among those, fewest different strip heights and cuts; then least
// waste. Nothing when a kind fits no source, or sheets run out where the
// last source is limited too (`misfits` tells which kinds are left, where given). Strips are
// no higher than the highest kind. Never more cloth than first fit, longest first. Deterministic.
std::optional<Solution> solve(const Problem& problem, std::vector<std::size_t>* misfits = nullptr);

// What is wrong with a plan, in words; empty when every piece is there, nothing overlaps or leaves
// the cloth, and every cut goes edge to edge. Written apart from solve().
std::vector<std::string> faults(const Problem& problem, const std::vector<Strip>& strips);

// Is the bound proved? Values every source again, by another way than solve().
bool proves(const Problem& problem, const Bound& bound);

}  // namespace dogear::stock
