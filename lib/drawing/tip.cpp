#include "drawing/tip.h"

#include <algorithm>
#include <cmath>

#include "drawing/apart.h"
#include "drawing/figures.h"
#include "drawing/marks.h"
#include "drawing/strips.h"
#include "drawing/within.h"

namespace dogear::drawing {
namespace {

constexpr double tip_scale = 50;  // pt an inch

// The longest of those a step tells to trim, else of all.
const PieceTip* longest(const std::vector<PieceTip>& tips) {
  const auto found =
      std::max_element(tips.begin(), tips.end(), [](const PieceTip& a, const PieceTip& b) {
        return a.one_end != b.one_end ? b.one_end : a.beyond < b.beyond - 1e-9;
      });
  return found == tips.end() ? nullptr : &*found;
}

std::vector<PieceTip> tips_of(const Scene& scene, std::size_t size, UnitId unit) {
  const SewnUnit& u = scene.piecing.units.at(unit);
  if (u.strip_set || u.batch || u.foundation) return {};
  return tips_in(scene.checked.pattern, scene.piecing, scene.quantities.sizes.at(size), unit);
}

// The input that has the tip.
const Input* owner(const SewnUnit& unit, const PieceTip& tip) {
  const Seam& seam = unit.seams.at(tip.trim.seam);
  return &unit.inputs.at(seam.first == tip.trim.neighbour ? seam.second : seam.first);
}

Spot reflected(Spot p, Spot on, Spot along) {
  const Spot from = p - on;
  return on + along * (2 * dot(from, along)) - from;
}

}  // namespace

std::optional<PieceTip> tip_to_show(const Scene& scene, std::size_t size, UnitId unit) {
  const std::vector<PieceTip> tips = tips_of(scene, size, unit);
  const PieceTip* tip = longest(tips);
  if (tip == nullptr) return {};
  for (const BlockSewing& block : scene.piecing.sizes.at(size).blocks) {
    const auto here = std::find(block.steps.begin(), block.steps.end(), unit);
    if (here == block.steps.end()) continue;
    for (auto step = block.steps.begin(); step != here; ++step) {
      const std::vector<PieceTip> before = tips_of(scene, size, *step);
      const PieceTip* other = longest(before);
      if (other != nullptr && other->printed == tip->printed && other->degrees == tip->degrees)
        return {};
    }
    return *tip;
  }
  return {};
}

void draw_tip(canvas::DisplayList& list, const Scene& scene, std::size_t size, UnitId unit,
              const PieceTip& tip, Spot at) {
  const SewnUnit& u = scene.piecing.units.at(unit);
  const Seam& seam = u.seams.at(tip.trim.seam);
  const Input& mine = *owner(u, tip);
  const Input& other = u.inputs.at(tip.trim.neighbour);
  const Pattern& pattern = scene.checked.pattern;
  const double q = pattern.seam_allowance.approx() * tip_scale;

  // The corner lies somewhat off the middle, so that there is more of the seam to see.
  const Spot corner = spot(mine.where.apply(tip.trim.corner), tip_scale);
  const Spot along =
      dogear::drawing::unit(spot(mine.where.apply_direction(tip.trim.along_seam), 1));
  const Rect square = Rect::of(at.x, at.y, tip_side, tip_side);
  const Spot by = square.center() - along * (tip_side * 0.16) - corner;
  const Motion move = Motion::move(by.x, by.y);
  const Spot c = corner + by;

  // What lies below, right sides together: laid over along the seam.
  Ring below =
      other.is_piece
          ? moved(cut_ring(scene, size, other.piece, tip_scale), motion(other.where, tip_scale))
          : grown(moved(ring(scene.piecing.units.at(other.unit).outline, tip_scale),
                        motion(other.where, tip_scale)),
                  q);
  below = moved(below, move);
  for (Spot& p : below) p = reflected(p, c, along);
  const CutPiece& cut = *cut_of(scene, size, mine.piece);
  const Ring above = moved(
      moved(ring(as_cut(scene.piecing.pieces.at(mine.piece).shape, cut.cut, pattern.seam_allowance),
                 tip_scale),
            motion(mine.where, tip_scale)),
      move);

  const auto fabric = [&](PieceId piece) -> const Fabric& {
    return pattern.fabrics.at(scene.piecing.pieces.at(piece).fabric);
  };
  list.fill_path(canvas::Path::rect(square), canvas::white);
  const auto cloth = [&](const Ring& r, const canvas::Color& fill) {
    const Ring part = ring_within(r, square);
    if (part.size() > 2) list.fill_path(outline(part), fill);
    const canvas::Path edges = lines_within(r, square);
    if (!edges.empty()) list.stroke_path(edges, ink, edge);
  };
  cloth(below, other.is_piece ? colour(fabric(other.piece)) : offcut);
  cloth(above, tint(fabric(mine.piece)));

  // What of the piece lies beyond the trimming line, which runs with the piece on its right.
  const Spot on = moved({spot(mine.where.apply(tip.trim.line.at), tip_scale)}, move).front();
  const Spot line = dogear::drawing::unit(spot(mine.where.apply_direction(tip.trim.line.along), 1));
  const double side = cross(line, c - on) > 0 ? 1 : -1;
  Ring off;
  for (std::size_t i = 0; i < above.size(); ++i) {
    const Spot a = above[i], b = above[(i + 1) % above.size()];
    const double from = -side * cross(line, a - on), to = -side * cross(line, b - on);
    if (from >= 0) off.push_back(a);
    if ((from < 0) != (to < 0)) off.push_back(a + (b - a) * (from / (from - to)));
  }
  off = ring_within(off, square);
  if (off.size() > 2) {
    list.fill_path(outline(off), canvas::Color::gray(0.55));
    list.stroke_path(outline(off), ink, edge);
  }
  // Along the neighbour's cut edge, as far as the tip goes.
  double least = 1e9, most = -1e9;
  for (const Spot p : off) {
    if (std::abs(cross(line, p - on)) > 0.05) continue;
    least = std::min(least, dot(p - on, line));
    most = std::max(most, dot(p - on, line));
  }
  if (least < most) {
    if (const auto ends = within(on + line * (least - 5), on + line * (most + 5), square))
      cut_line_on_cloth(list, ends->first, ends->second, 2.2);
  }
  const Spot far = spot(seam.where.a, tip_scale) + by;
  const Spot end = length(far - c) > 1 ? far : spot(seam.where.b, tip_scale) + by;
  const double beyond = q / std::max(0.3, std::abs(cross(along, line)));
  if (const auto ends = within(c - along * beyond, end, square))
    stitches(list, ends->first, ends->second);
  list.stroke_path(canvas::Path::rect(square), ink, 0.8);
}

std::optional<Figure> tip_figure(const Scene& scene, std::size_t size, const std::string& use,
                                 std::size_t n, Room room) {
  for (const BlockSewing& block : scene.piecing.sizes.at(size).blocks) {
    if (scene.checked.pattern.uses.at(block.use).id != use) continue;
    if (n < 1 || n > block.steps.size()) return {};
    const UnitId unit = block.steps[n - 1];
    const auto tip = tip_to_show(scene, size, unit);
    if (!tip) return {};
    const Input& other = scene.piecing.units.at(unit).inputs.at(tip->trim.neighbour);
    const std::string piece = scene.piecing.pieces.at(tip->trim.piece).label(scene.checked.pattern);
    return fitted(room, 1, 1, [&](double) {
      canvas::DisplayList list;
      draw_tip(list, scene, size, unit, *tip, {0, 0});
      return finish(std::move(list),
                    scene.words("drawn tip", {{"piece", piece},
                                              {"other", input_words(scene, size, other, false)}}));
    });
  }
  return {};
}

}  // namespace dogear::drawing
