#include "piecing/press_wish.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace dogear {

namespace {

// Does an edge of the outline lie along the seam, on one of its legs or on its curve?
bool reaches(const Polygon& outline, const Transform& where, const Seam& seam) {
  const auto on_curve = [&](const Point& p) {
    const Point from = p - seam.curve->center;
    return dot(from, from) == seam.curve->squared;
  };
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Segment edge = outline.edge(i);
    const Segment e{where.apply(edge.a), where.apply(edge.b)};
    if (seam.curve) {
      if (on_curve(e.a) && on_curve(e.b)) return true;
      continue;
    }
    for (std::size_t k = 0; k + 1 < seam.path.size(); ++k) {
      if (share_a_stretch(e, {seam.path[k], seam.path[k + 1]})) return true;
    }
  }
  return false;
}

class Wishes {
 public:
  explicit Wishes(const Piecing& piecing) : piecing_(piecing) {}

  std::vector<std::vector<std::optional<Press>>> settle(Diagnostics& d) {
    std::vector<std::vector<std::optional<Press>>> out;
    for (const SewnUnit& unit : piecing_.units) {
      out.emplace_back(unit.seams.size());
      if (!unit.wish) continue;
      for (std::size_t s = 0; s < unit.seams.size(); ++s) out.back()[s] = meet(unit, unit.seams[s]);
    }
    for (const auto& [place, made] : met_) {
      if (made.any) continue;
      const PressWish& wish = *made.wish;
      const std::string role = "`" + wish.role + "`";
      Diagnostic& e =
          made.both
              ? d.error("D361", wish.span,
                        role + " lies on both sides of the seam, so it cannot be pressed " +
                            (wish.how == PressSpec::How::towards ? "towards it" : "away from it"))
              : d.error("D361", wish.span, "no seam of this unit has " + role + " beside it");
      e.hints.push_back(
          "write `to the first`, `to the last`, `open`, or a role that lies along one "
          "side of the seam");
    }
    return out;
  }

 private:
  struct Met {
    const PressWish* wish = nullptr;
    bool any = false;
    bool both = false;
  };

  std::optional<Press> meet(const SewnUnit& unit, const Seam& seam) {
    const PressWish& wish = *unit.wish;
    Met& met = met_[{wish.span.file, wish.span.line, wish.span.column, wish.fabric}];
    met.wish = &wish;
    switch (wish.how) {
      case PressSpec::How::open:
        met.any = true;
        return Press::open;
      case PressSpec::How::to_first:
        met.any = true;
        return Press::to_first;
      case PressSpec::How::to_last:
        met.any = true;
        return Press::to_second;
      case PressSpec::How::towards:
      case PressSpec::How::away:
        break;
    }
    const bool first = has(unit.inputs[seam.first], wish.fabric, seam);
    const bool second = has(unit.inputs[seam.second], wish.fabric, seam);
    if (first == second) {
      met.both = met.both || first;
      return std::nullopt;
    }
    met.any = true;
    return first == (wish.how == PressSpec::How::towards) ? Press::to_first : Press::to_second;
  }

  // Does a patch of the fabric lie along the seam? Only units that reach it are opened.
  bool has(const Input& in, FabricId fabric, const Seam& seam) const {
    if (in.is_piece) {
      const Piece& piece = piecing_.pieces[in.piece];
      return piece.fabric == fabric && reaches(piece.shape, in.where, seam);
    }
    const SewnUnit& unit = piecing_.units[in.unit];
    if (!reaches(unit.outline, in.where, seam)) return false;
    return std::any_of(unit.inputs.begin(), unit.inputs.end(), [&](Input inner) {
      inner.where = inner.where.then(in.where);
      return has(inner, fabric, seam);
    });
  }

  const Piecing& piecing_;
  std::map<std::tuple<std::string, std::size_t, std::size_t, FabricId>, Met> met_;
};

}  // namespace

std::vector<std::vector<std::optional<Press>>> wished_presses(const Piecing& piecing,
                                                              Diagnostics& diagnostics) {
  return Wishes(piecing).settle(diagnostics);
}

}  // namespace dogear
