// Line breaking.
//
// Goal: among all ways to part a paragraph into lines, the one whose lines stray least from their
// measure, taken together (Knuth and Plass, "Breaking paragraphs into lines", 1981).
//
// best[j] is the least cost of setting atoms 0..j-1 with a line ending behind atom j-1. For each j
// we look back over every i at which that line may begin, until it cannot fit even with its spaces
// shrunk: a line holds a bounded number of atoms, so the whole is linear in the paragraph. A line's
// cost grows with the cube of how far its spaces stretch or shrink (ragged: of how short it is),
// plus the penalty of its break; two hyphens in a row, and a last line of one short word, cost
// more. Ends because j only grows. Fitness classes were left out: they change few lines of prose.

#include "booklet/linebreak.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace dogear::booklet {
namespace {

constexpr double slack = 1e-6;  // pt
constexpr double never = std::numeric_limits<double>::infinity();

double measure_of(const LineMeasure& m, std::size_t begin) {
  return m.width - (begin == 0 ? m.first_indent : 0);
}

double badness(const BrokenLine& line, const LineMeasure& m) {
  const double room = measure_of(m, line.begin) - line.natural;
  if (room < -slack && (!m.justify || line.shrink < -room - slack)) return never;
  if (m.justify) {
    if (room < 0) {
      const double r = -room / line.shrink;
      return 100 * r * r * r;
    }
    if (line.last) return 0;
    const double r = line.stretch > 0 ? room / line.stretch : room / 0.5;
    return std::min(100 * r * r * r, 1e7);
  }
  if (line.last || room <= 0) return 0;
  const double r = room / (0.2 * m.width);
  return 100 * r * r * r;
}

void break_stretch(const std::vector<Atom>& atoms, std::size_t from, std::size_t to,
                   const LineMeasure& measure, std::vector<BrokenLine>& out) {
  const std::size_t n = to - from;
  std::vector<double> best(n + 1, never);
  std::vector<BrokenLine> line(n + 1);
  best[0] = 0;
  for (std::size_t j = 1; j <= n; ++j) {
    const Atom& end = atoms[from + j - 1];
    const bool last = j == n;
    if (!last && end.after == Atom::After::none) continue;
    const bool hyphen = !last && end.after == Atom::After::hyphen;
    BrokenLine candidate;
    candidate.end = from + j;
    candidate.last = last;
    candidate.natural = hyphen ? end.hyphen : 0;
    bool found = false;
    for (std::size_t i = j; i-- > 0;) {
      const Atom& atom = atoms[from + i];
      candidate.begin = from + i;
      candidate.natural += atom.width;
      if (i + 1 < j && atom.after == Atom::After::space) {
        candidate.natural += atom.space;
        candidate.stretch += atom.stretch;
        candidate.shrink += atom.shrink;
      }
      if (best[i] == never) continue;
      double bad = badness(candidate, measure);
      if (bad == never) {
        if (found) break;
        bad = 1e9;  // even the shortest line is too long, and it has to stand somewhere
      }
      found = true;
      double cost = (10 + bad) * (10 + bad);
      const double penalty = last ? 0 : end.penalty;
      cost += penalty * penalty;
      if (i > 0 && hyphen && atoms[from + i - 1].after == Atom::After::hyphen) cost += 2e4;
      if (last && i > 0 && candidate.natural < 0.12 * measure.width)
        cost += candidate.natural < 0.06 * measure.width ? 4e4 : 4000;
      if (last && i > 0 && atoms[from + i - 1].after == Atom::After::hyphen) cost += 5000;
      if (best[i] + cost < best[j]) {
        best[j] = best[i] + cost;
        line[j] = candidate;
      }
    }
  }
  std::vector<BrokenLine> reversed;
  for (std::size_t j = n; j > 0; j = line[j].begin - from) reversed.push_back(line[j]);
  out.insert(out.end(), reversed.rbegin(), reversed.rend());
}

}  // namespace

std::vector<BrokenLine> break_lines(const std::vector<Atom>& atoms, const LineMeasure& measure) {
  std::vector<BrokenLine> out;
  std::size_t from = 0;
  for (std::size_t i = 0; i < atoms.size(); ++i) {
    if (atoms[i].after != Atom::After::forced && i + 1 < atoms.size()) continue;
    break_stretch(atoms, from, i + 1, measure, out);
    from = i + 1;
  }
  return out;
}

double worst_line(const std::vector<BrokenLine>& lines, const LineMeasure& measure) {
  double worst = 0;
  for (const BrokenLine& line : lines) {
    const double room = measure_of(measure, line.begin) - line.natural;
    if (room < -line.shrink - slack) return never;
    if (line.last) continue;
    if (measure.justify)
      worst = std::max(worst, room > 0 ? room / std::max(line.stretch, 0.5) / 1.6 : 0.0);
    else
      worst = std::max(worst, room / (0.3 * measure.width));
  }
  return worst;
}

}  // namespace dogear::booklet
