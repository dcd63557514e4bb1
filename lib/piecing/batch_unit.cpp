#include "piecing/batch_unit.h"

#include <algorithm>

#include "model/shapes.h"

namespace dogear {

namespace {

Seam seam(std::size_t first, std::size_t second, const Segment& where, const Span& span) {
  // No bias edge is sewn: the pieces are cut apart, or trimmed, once the seam is there.
  Seam s;
  s.first = first;
  s.second = second;
  s.where = where;
  s.path = {where.a, where.b};
  s.span = span;
  return s;
}

// Four triangles round a middle: two pairs, then one seam across both.
std::vector<Seam> crossed_seams(const Part& part) {
  std::vector<Seam> out;
  std::vector<Point> ends;
  for (const Meeting& m : part.meetings) {
    if (m.a / 2 == m.b / 2) {
      out.push_back(seam(m.a, m.b, m.where, part.span));
    } else {
      ends.insert(ends.end(), {m.where.a, m.where.b});
    }
  }
  const auto [least, most] = std::minmax_element(ends.begin(), ends.end());
  out.push_back(seam(0, 3, {*least, *most}, part.span));
  return out;
}

}  // namespace

Input batch_unit(const CheckedPattern& checked, const Part& part, Catalogue& catalogue) {
  const Batch& batch = *part.batch;
  const Exact both = checked.pattern.seam_allowance * Exact(2);
  SewnUnit unit;
  unit.name = part.name;
  unit.outline = part.outline;
  unit.span = part.span;
  unit.batch = SewnBatch{batch.kind, batch.method, batch.yield, batch.oversize, {}};
  for (const Batch::Cut& cut : batch.cuts) {
    Part piece;
    piece.outline = rectangle(cut.width - both, cut.height - both);
    piece.shape_words = cut.width == cut.height ? "square" : "rectangle";
    piece.is_patch = true;
    piece.fabric = cut.fabric;
    piece.directional = checked.pattern.fabrics[cut.fabric].directional;
    piece.span = part.span;
    unit.batch->takes.push_back({catalogue.piece(piece, false).piece, cut.count});
  }
  for (std::size_t i = 0; i < part.parts.size(); ++i) {
    const Placed& placed = part.parts[i];
    Input in =
        catalogue.batch_patch(checked.parts[placed.part], unit.batch->takes[batch.from[i]].piece);
    in.where = in.where.then(placed.where);
    unit.inputs.push_back(in);
  }
  if (batch.kind == ReadyMade::quarter_square) {
    unit.seams = crossed_seams(part);
  } else {
    for (const Meeting& m : part.meetings) {
      unit.seams.push_back(seam(m.a, m.b, m.where, part.span));
    }
  }
  return catalogue.unit(std::move(unit));
}

}  // namespace dogear
