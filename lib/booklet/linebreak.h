#pragma once
// Where a paragraph's lines end: the breaks that are best for the paragraph as a whole.

#include <cstddef>
#include <vector>

namespace dogear::booklet {

// A stretch of text that is never parted, and what follows it.
struct Atom {
  enum class After {
    none,    // the next atom joins on: no break
    space,   // a word space: a break drops it
    hyphen,  // a break adds a hyphen
    open,    // a break adds nothing ("well-|known")
    forced   // the line ends here
  };
  double width = 0;  // pt
  After after = After::space;
  double space = 0, stretch = 0, shrink = 0;  // of the word space
  double hyphen = 0;                          // width a hyphen would add
  double penalty = 0;                         // cost of breaking here, 0..10000
};

struct LineMeasure {
  double width = 0;     // pt
  bool justify = true;  // else ragged: spaces keep their width
  double first_indent = 0;
};

struct BrokenLine {
  std::size_t begin = 0, end = 0;  // atoms
  double natural = 0;              // width without the space at the end, with its hyphen
  double stretch = 0, shrink = 0;
  bool last = false;  // ends the paragraph or stands before a forced break
};

// Every line fits its measure provided every single atom does (with its hyphen).
std::vector<BrokenLine> break_lines(const std::vector<Atom>& atoms, const LineMeasure& measure);

// How far the worst line strays: 0 is perfect, above 1 calls for hyphens.
double worst_line(const std::vector<BrokenLine>& lines, const LineMeasure& measure);

}  // namespace dogear::booklet
