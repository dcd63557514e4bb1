// What to mind in a step: points where seams meet.

#include <algorithm>
#include <set>

#include "booklet/writer.h"

namespace dogear::booklet {

namespace {

constexpr int many_layers = 8;  // more than two seams that nest ever give

}  // namespace

std::string pressing_note(const Writer& w, UnitId id) {
  const SewnUnit& unit = w.scene.piecing.units[id];
  if (unit.strip_set) return {};
  std::vector<std::string> out;
  int points = 0, layers = 0;
  long long crossings = 0, nested = 0;
  std::set<std::size_t> open;
  for (const MeetingPoint& p : unit.points) {
    crossings += p.crosses ? 1 : 0;
    nested += p.nests ? 1 : 0;
    layers = std::max(layers, p.layers);
    if (unit.seams[p.seam].press != Press::open) continue;
    points = std::max(points, p.patches);
    open.insert(p.seam);
  }
  constexpr int many_points = 6;
  if (points >= many_points) {
    const bool all_open = std::all_of(unit.seams.begin(), unit.seams.end(),
                                      [](const Seam& s) { return s.press == Press::open; });
    out.push_back(w.words(!all_open          ? "points in some seams"
                          : open.size() == 1 ? "points in seam"
                                             : "points in seams",
                          {{"n", w.words.number(points)}}));
  }
  if (crossings > 0 && nested == crossings) out.push_back(w.words("seams nest"));
  if (crossings > 0 && nested == 0) out.push_back(w.words("no seam nests"));
  if (nested > 0 && nested < crossings) {
    const long long n = crossings - nested;
    out.push_back(
        w.words(n == 1 ? "seam does not nest" : "seams do not nest", {{"n", w.words.number(n)}}));
  }
  if (layers >= many_layers) {
    out.push_back(w.words("layers", {{"n", w.words.number(layers)}}));
  }
  std::string text;
  for (const std::string& sentence : out) text += (text.empty() ? "" : " ") + sentence;
  return text;
}

}  // namespace dogear::booklet
