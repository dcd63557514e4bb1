#include "drawing/template_parts.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/text.h"
#include "drawing/foundation.h"
#include "drawing/matching.h"
#include "drawing/strips.h"

namespace dogear::drawing {
namespace {

// The outward normal where a spot lies on the outline, of both edges at a corner; edges run
// clockwise.
Spot outward(const Ring& r, Spot p) {
  double nearest = std::numeric_limits<double>::max();
  Spot out{0, -1};
  for (std::size_t i = 0; i < r.size(); ++i) {
    const Spot a = r[i], b = r[(i + 1) % r.size()];
    const Spot d = unit(b - a);
    const double along = std::clamp(dot(p - a, d), 0.0, length(b - a));
    const double away = length(p - (a + d * along));
    const Spot normal{d.y, -d.x};
    if (away > nearest + 1e-6) continue;
    out = away < nearest - 1e-6 ? normal : out + normal;
    nearest = std::min(nearest, away);
  }
  return unit(out);
}

long long count_of(const Scene& scene, std::size_t size, PieceId id) {
  long long count = 0;
  for (const CutPiece& cut : scene.quantities.sizes.at(size).pieces)
    count += cut.piece == id ? cut.count : 0;
  return count;
}

}  // namespace

TemplateParts template_parts(const Scene& scene, std::size_t size, const TemplateUse& use,
                             double scale, bool standing) {
  if (use.foundation) return foundation_parts(scene, *use.foundation, scale, standing);
  const Piece& front = scene.piecing.pieces.at(use.pieces.front());
  TemplateParts parts;
  const Motion turn = standing ? Motion{0, 1, -1, 0, 0, 0} : Motion{};
  parts.cut = moved(ring(cut_of(scene, size, use.pieces.front())->cut.cut_shape, scale), turn);
  const Ring seam = ring(front.shape, scale);
  parts.seam = moved(seam, turn);
  if (standing) parts.thread = {0, 1};
  const double allowance = scene.checked.pattern.seam_allowance.approx() * scale;
  const double width = bounds(front.shape).width().approx();
  std::vector<Spot> spots;
  for (const PieceId id : use.pieces) {
    const Piece& piece = scene.piecing.pieces.at(id);
    parts.labels.push_back(std::to_string(count_of(scene, size, id)) + " × " +
                           piece.label(scene.checked.pattern));
    parts.names += (parts.names.empty() ? "" : ", ") + piece.label(scene.checked.pattern);
    for (Spot p : matching_spots(scene, size, id)) {
      if (piece.reversed != front.reversed) p.x = width - p.x;
      const auto near = [&](Spot q) { return length(p - q) < 0.02; };
      if (std::none_of(spots.begin(), spots.end(), near)) spots.push_back(p);
    }
  }
  for (const Spot p : spots) {
    const Spot from = p * scale;
    const Spot to = from + outward(seam, from) * allowance;
    parts.marks.emplace_back(turn.apply(from), turn.apply(to));
  }
  return parts;
}

void draw_outlines(canvas::DisplayList& list, const TemplateParts& parts) {
  list.shape(outline(parts.cut), canvas::Style::filled(canvas::white));
  list.stroke_path(outline(parts.cut), ink, cut_width);
  list.stroke_path(outline(parts.seam), ink, seam_width, {3.2, 2.2});
}

void draw_marks(canvas::DisplayList& list, const TemplateParts& parts) {
  for (const auto& [from, to] : parts.marks)
    list.stroke_path(canvas::Path::segment(from, to), ink, 1.2);
}

std::optional<Rect> put_labels(Labels& labels, const Ring& ring,
                               const std::vector<std::string>& lines) {
  LabelStyle style;
  style.largest = 15;
  style.smallest = 8;
  if (const auto plate = labels.put_inside(ring, join(lines, ",  "), style)) return plate;
  style.smallest = smallest_label;
  std::optional<Rect> first;
  for (const std::string& line : lines) {
    const auto plate = labels.put_inside(ring, line, style);
    if (!plate) labels.put_outside(deepest(ring), line, style);
    if (!first) first = plate;
  }
  return first;
}

void draw_test_squares(canvas::DisplayList& list, const canvas::FontSet& fonts, Spot at) {
  constexpr double words = 9;
  list.stroke_path(canvas::Path::rect(at.x, at.y, square_cm, square_cm), ink, cut_width);
  list.stroke_path(canvas::Path::rect(at.x, at.y, true_size, true_size), ink, cut_width);
  const auto middle = [&](double x, double y, const std::string& said) {
    const double width = fonts.width(canvas::FontId::sans_bold, words, said);
    write(list, fonts, x - width / 2, y + words * 0.36, words, said, canvas::FontId::sans_bold);
  };
  middle(at.x + true_size / 2, at.y + true_size / 2, "1 in");
  middle(at.x + (true_size + square_cm) / 2, at.y + (true_size + square_cm) / 2, "5 cm");
}

}  // namespace dogear::drawing
