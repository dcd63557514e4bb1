// The corner of a mitred border, and the square from which bias binding is cut.

#include "base/length.h"
#include "drawing/figures.h"
#include "drawing/marks.h"

namespace dogear::drawing {
namespace {

constexpr double to_result = 34;  // pt from what is sewn to what it becomes

const Piece* mitred_piece(const Scene& scene, std::size_t size) {
  for (const CutPiece& cut : scene.quantities.sizes.at(size).pieces) {
    const Piece& piece = scene.piecing.pieces.at(cut.piece);
    if (piece.mitred) return &piece;
  }
  return nullptr;
}

}  // namespace

bool has_mitre(const Scene& scene, std::size_t size) {
  return mitred_piece(scene, size) != nullptr;
}

std::optional<Figure> mitre_figure(const Scene& scene, std::size_t size, Room room) {
  const Piece* piece = mitred_piece(scene, size);
  if (piece == nullptr) return {};
  const Fabric& fabric = scene.checked.pattern.fabrics.at(piece->fabric);
  const std::string alt = scene.words("drawn mitre");
  // Any border's corner looks alike, so it is drawn as wide as is clear.
  const double wide = 2, over = 2.9, inside = 3.4;
  return fitted(room, 18, 6, [&](double scale) {
    canvas::DisplayList list;
    const double w = wide * scale, o = over * scale, in = inside * scale;
    const auto quilt = [&](double x) {
      canvas::Style style = canvas::Style::filled(offcut);
      style.stroke = ink;
      style.width = edge;
      list.shape(canvas::Path::rect(x, w, in, in), style);
    };
    // Strips that hang over: the upper one lies across the one at the right.
    const double corner = in;  // the quilt's upper right corner is at (corner, w)
    quilt(0);
    list.shape(outline(Ring{{corner, w - (o - w)},
                            {corner + w, w - (o - w)},
                            {corner + w, w + in},
                            {corner, w + in}}),
               cloth(fabric));
    list.shape(outline(Ring{{0, 0}, {corner + o, 0}, {corner + o, w}, {0, w}}), cloth(fabric));
    drawn_line(list, {corner, w}, {corner + w, 0});
    stitches(list, {corner, w}, {corner + w, 0});
    seam_stop(list, {corner, w});
    becomes(list, {corner + o + to_result / 2, w + in / 2}, 20);
    const double x = corner + o + to_result;
    quilt(x);
    const double c = x + in;
    list.shape(outline(Ring{{x, 0}, {c + w, 0}, {c, w}, {x, w}}), cloth(fabric));
    list.shape(outline(Ring{{c + w, 0}, {c + w, w + in}, {c, w + in}, {c, w}}), cloth(fabric));
    const Spot across = unit({1, 1});
    press_open(list, {c + w / 2, w / 2}, across);
    press_arrow(list, {x + in / 2, w}, {0, -1});
    press_arrow(list, {c, w + in / 2}, {1, 0});
    return finish(std::move(list), alt);
  });
}

std::optional<Figure> bias_figure(const Scene& scene, std::size_t size, Room room) {
  const std::optional<Binding>& binding = scene.quantities.sizes.at(size).binding;
  if (!binding || !binding->square) return {};
  const Fabric& fabric = scene.checked.pattern.fabrics.at(binding->fabric);
  const double side = binding->square->approx(), strip = binding->strip.approx();
  const std::string measure = scene.words.inches(*binding->square);
  const std::string alt = scene.words(
      "drawn bias binding", {{"square", measure}, {"strip", scene.words.inches(binding->strip)}});
  return fitted(room, 8, 1.5, [&](double scale) {
    canvas::DisplayList list;
    Labels labels(scene.fonts);
    const double s = side * scale;
    canvas::Style pale_cloth = canvas::Style::filled(tint(fabric));
    pale_cloth.stroke = ink;
    pale_cloth.width = edge;
    list.shape(outline(Ring{{0, 0}, {s, 0}, {s, s}, {0, s}}), pale_cloth);
    cut_line(list, {{0, s}, {s, 0}});
    measure_line(list, {0, -6}, {s, -6});
    LabelStyle plain;
    plain.font = canvas::FontId::sans;
    labels.put_at({s / 2, -6}, measure, 7, plain);
    // The halves meet along a straight edge; the long edges of the sheet are bias.
    const double x = s + to_result;
    becomes(list, {s + to_result / 2, s / 2}, 20);
    const Ring sheet{{x, s}, {x + s, 0}, {x + 2 * s, 0}, {x + s, s}};
    list.shape(outline(sheet), pale_cloth);
    seam_line(list, {x + s, 0}, {x + s, s});
    const Spot along = unit({1, -1});
    // Lines parallel to the slanted, bias ends.
    const double step = strip * scale * 1.4142135623730951;
    for (double at = step; at < s - 0.5; at += step) {
      drawn_line(list, {x + at, s}, Spot{x + at, s} + along * (s * 1.4142135623730951));
    }
    labels.paint(list);
    return finish(std::move(list), alt);
  });
}

}  // namespace dogear::drawing
