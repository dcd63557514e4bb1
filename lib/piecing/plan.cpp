#include <algorithm>
#include <set>

#include "geom/partition.h"
#include "piecing/catalogue.h"
#include "piecing/mirror.h"
#include "piecing/press.h"

namespace dogear {

namespace {

class Planner {
 public:
  Planner(const CheckedPattern& checked, Diagnostics& d)
      : checked_(checked), d_(d), catalogue_(piecing_) {}

  std::optional<Piecing> plan() {
    const std::size_t before = d_.error_count();
    for (const CheckedSize& size : checked_.sizes) plan_size(size);
    if (d_.error_count() > before) return std::nullopt;
    find_mirror_twins(piecing_);
    letter_pieces(piecing_);
    for (const CheckedSize& size : checked_.sizes) count_both_ways(size);
    if (d_.error_count() > before) return std::nullopt;
    plan_pressing(checked_, piecing_);
    return std::move(piecing_);
  }

 private:
  // How a part is had: a piece to cut or a unit to sew; nothing when it cannot be sewn.
  std::optional<Input> input_of(PartId id, bool in_strip_set = false) {
    if (!in_strip_set) {
      if (const auto known = memo_.find(id); known != memo_.end()) return known->second;
    }
    const Part& part = checked_.parts[id];
    if (part.is_patch) {
      const Input piece = catalogue_.piece(part, in_strip_set);
      if (!in_strip_set) memo_.emplace(id, piece);
      return piece;
    }
    std::vector<Input> inputs;
    for (const Placed& child : part.parts) {
      auto in = input_of(child.part, part.strip_set);
      if (!in) {
        memo_.emplace(id, std::nullopt);
        return std::nullopt;
      }
      in->where = in->where.then(child.where);
      inputs.push_back(*in);
    }
    std::vector<std::size_t> all(inputs.size());
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
    auto made = sew(part, inputs, all, part.name, 0);
    memo_.emplace(id, made);
    return made;
  }

  std::optional<Input> sew(const Part& part, const std::vector<Input>& inputs,
                           const std::vector<std::size_t>& set, const std::string& name,
                           int depth) {
    if (set.size() == 1) return inputs[set.front()];
    auto cut = split(set, part.meetings);
    if (!cut) {
      report_set_in(part, set);
      return std::nullopt;
    }
    order(*cut, part);
    SewnUnit unit;
    unit.name = name;
    unit.strip_set = part.strip_set && depth == 0;
    unit.span = part.span;
    std::vector<Polygon> outlines;
    for (const std::size_t i : set) {
      const Placed& p = part.parts[i];
      outlines.push_back(p.where.apply(checked_.parts[p.part].outline));
    }
    unit.outline = depth == 0 ? part.outline : join(outlines).outline.value_or(part.outline);
    std::size_t section = 0;
    for (const auto& group : cut->groups) {
      if (group.size() > 1) ++section;
      const std::string inner =
          part.shape_words == "bordered top"
              ? (name == "outer sashing" ? "center with side sashing" : "center with side borders")
              : name + " section " + std::to_string(section);
      const auto in = sew(part, inputs, group, inner, depth + 1);
      if (!in) return std::nullopt;
      unit.inputs.push_back(*in);
    }
    for (const Split::Join& j : cut->joins) {
      Seam seam;
      seam.first = j.a;
      seam.second = j.b;
      seam.where = j.where;
      seam.span = part.span;
      seam.first_has_bias = has_bias(unit.inputs[j.a], j.where);
      seam.second_has_bias = has_bias(unit.inputs[j.b], j.where);
      unit.seams.push_back(std::move(seam));
    }
    return catalogue_.unit(std::move(unit));
  }

  // Groups from left to right, or from top to bottom where the seams run across.
  void order(Split& cut, const Part& part) {
    const Segment& first = cut.joins.front().where;
    const bool down = (first.a.y == first.b.y);
    std::vector<Exact> at;
    for (const auto& group : cut.groups) {
      Exact sum = 0;
      for (const std::size_t i : group) {
        const Box b = bounds(part.parts[i].where.apply(checked_.parts[part.parts[i].part].outline));
        const Exact middle = down ? b.least.y + b.most.y : b.least.x + b.most.x;
        sum += middle;
      }
      at.push_back(sum / Exact(static_cast<long long>(group.size())));
    }
    std::vector<std::size_t> index(cut.groups.size());
    for (std::size_t i = 0; i < index.size(); ++i) index[i] = i;
    std::stable_sort(index.begin(), index.end(),
                     [&](std::size_t a, std::size_t b) { return at[a] < at[b]; });
    std::vector<std::size_t> rank(index.size());
    std::vector<std::vector<std::size_t>> groups;
    for (std::size_t i = 0; i < index.size(); ++i) {
      rank[index[i]] = i;
      groups.push_back(cut.groups[index[i]]);
    }
    cut.groups = std::move(groups);
    for (Split::Join& j : cut.joins) {
      j.a = rank[j.a];
      j.b = rank[j.b];
      if (j.a > j.b) std::swap(j.a, j.b);
    }
    std::stable_sort(cut.joins.begin(), cut.joins.end(),
                     [](const auto& l, const auto& r) { return l.b < r.b; });
  }

  // Does a bias edge of the input lie along the seam? Only units that reach the seam are opened.
  bool has_bias(const Input& in, const Segment& seam) const {
    if (in.is_piece) {
      for (const EdgeGrain& e : edges(piecing_, {in.piece, in.where})) {
        if (e.thread == Thread::bias && lies_along(e.where, seam)) return true;
      }
      return false;
    }
    const SewnUnit& unit = piecing_.units[in.unit];
    bool reaches = false;
    for (std::size_t i = 0; i < unit.outline.size() && !reaches; ++i) {
      const Segment e = unit.outline.edge(i);
      reaches = lies_along({in.where.apply(e.a), in.where.apply(e.b)}, seam);
    }
    if (!reaches) return false;
    return std::any_of(unit.inputs.begin(), unit.inputs.end(), [&](Input inner) {
      inner.where = inner.where.then(in.where);
      return has_bias(inner, seam);
    });
  }

  // Do an edge and a seam share more than a point?
  static bool lies_along(const Segment& edge, const Segment& seam) {
    const Point along = seam.b - seam.a;
    if (!cross(along, edge.a - seam.a).is_zero() || !cross(along, edge.b - seam.a).is_zero()) {
      return false;
    }
    const Exact a = dot(along, edge.a - seam.a);
    const Exact b = dot(along, edge.b - seam.a);
    return max(a, b).sign() > 0 && min(a, b) < dot(along, along);
  }

  void report_set_in(const Part& part, const std::vector<std::size_t>& set) {
    const auto point = set_in_point(set, part.meetings);
    std::string place;
    if (point) {
      place = ": the corner " + about_inches(point->x, 8) + " from the left and " +
              about_inches(point->y, 8) + " from the top would need a set-in seam";
    }
    Diagnostic& e =
        d_.error("D301", part.span, "`" + part.name + "` cannot be sewn in straight seams" + place);
    std::set<std::pair<std::size_t, std::size_t>> named;
    for (const std::size_t i : set) {
      const Span& s = checked_.parts[part.parts[i].part].span;
      if (point && e.notes.size() < 4 && touches(part, i, *point) &&
          named.emplace(s.line, s.column).second) {
        e.notes.push_back({s, "this part meets that corner"});
      }
    }
    e.hints.push_back("build it from halves or rows, so that every seam runs from edge to edge");
  }

  bool touches(const Part& part, std::size_t i, const Point& p) const {
    const Polygon shape = part.parts[i].where.apply(checked_.parts[part.parts[i].part].outline);
    return std::find(shape.corners.begin(), shape.corners.end(), p) != shape.corners.end();
  }

  void reach(UnitId unit, std::set<UnitId>& seen) const {
    if (!seen.insert(unit).second) return;
    for (const Input& in : piecing_.units[unit].inputs) {
      if (!in.is_piece) reach(in.unit, seen);
    }
  }

  void plan_size(const CheckedSize& size) {
    SizeSewing out;
    out.size = size.size;
    const SizeDef& def = checked_.pattern.sizes[size.size];
    const auto top = input_of(size.top);
    std::map<std::size_t, long long> how_many;
    for (const BlockPlace& p : size.places) ++how_many[p.use];
    std::set<UnitId> claimed;
    for (const auto& [use, count] : how_many) {
      const PartId part = checked_.block_parts[use];
      BlockSewing block;
      block.use = use;
      block.blocks = count;
      std::vector<std::optional<Input>> finals;
      if (def.setting == Setting::rows) {
        finals.push_back(input_of(part));
      } else {
        for (const Placed& half : checked_.parts[part].parts) finals.push_back(input_of(half.part));
      }
      std::set<UnitId> reached;
      for (const auto& in : finals) {
        if (!in || in->is_piece) continue;
        reach(in->unit, reached);
        if (std::find(block.finals.begin(), block.finals.end(), in->unit) == block.finals.end()) {
          block.finals.push_back(in->unit);
        }
      }
      for (const UnitId unit : reached) {
        (claimed.insert(unit).second ? block.steps : block.shared).push_back(unit);
      }
      out.blocks.push_back(std::move(block));
    }
    if (!top) return;
    if (top->is_piece) {
      d_.error("D302", def.span, "this size has nothing to sew: its top is a single patch");
      return;
    }
    out.top = top->unit;
    std::set<UnitId> all;
    reach(out.top, all);
    for (const UnitId unit : all) {
      if (!claimed.contains(unit)) out.assembly.push_back(unit);
    }
    // A unit's parts are filed before it, so one pass from the top down counts everything.
    out.make[out.top] = 1;
    const std::vector<UnitId> from_the_top(all.rbegin(), all.rend());
    for (const UnitId unit : from_the_top) {
      const long long n = out.make[unit];
      for (const Input& in : piecing_.units[unit].inputs) {
        if (in.is_piece) {
          out.pieces[in.piece] += n;
        } else {
          out.make[in.unit] += n;
        }
      }
    }
    piecing_.sizes.push_back(std::move(out));
  }

  // Pieces drawn (walking the top) must equal pieces sewn (counted down through "Make N").
  void count_both_ways(const CheckedSize& size) {
    const auto count = [](auto& sums, FabricId fabric, const Polygon& shape, long long n) {
      auto& slot = sums[{fabric, area(shape)}];
      slot += n;
    };
    std::map<std::pair<FabricId, Exact>, long long> by_patch;
    std::map<PartId, long long> patches;
    for (const FlatPatch& p : flatten(checked_, size.top)) ++patches[p.patch];
    for (const auto& [patch, n] : patches) {
      count(by_patch, checked_.parts[patch].fabric, checked_.parts[patch].outline, n);
    }
    std::map<std::pair<FabricId, Exact>, long long> by_piece;
    for (const auto& [piece, n] : piecing_.sizes[size.size].pieces) {
      count(by_piece, piecing_.pieces[piece].fabric, piecing_.pieces[piece].shape, n);
    }
    if (by_patch != by_piece) {
      d_.error("D303", checked_.pattern.sizes[size.size].span,
               "the pieces drawn and the pieces sewn do not agree; please report this");
    }
  }

  const CheckedPattern& checked_;
  Diagnostics& d_;
  Piecing piecing_;
  Catalogue catalogue_;
  std::map<PartId, std::optional<Input>> memo_;
};

}  // namespace

std::optional<Piecing> plan_piecing(const CheckedPattern& checked, Diagnostics& diagnostics) {
  return Planner(checked, diagnostics).plan();
}

std::string Piece::label(const Pattern& pattern) const {
  return letter + std::to_string(pattern.fabrics[fabric].number) + (reversed ? "R" : "");
}

std::vector<PlacedPiece> flatten(const Piecing& piecing, UnitId unit) {
  std::vector<PlacedPiece> out;
  const auto walk = [&](const auto& self, UnitId id, const Transform& where) -> void {
    for (const Input& in : piecing.units[id].inputs) {
      const Transform t = in.where.then(where);
      if (in.is_piece) {
        out.push_back({in.piece, t});
      } else {
        self(self, in.unit, t);
      }
    }
  };
  walk(walk, unit, Transform{});
  return out;
}

std::vector<EdgeGrain> edges(const Piecing& piecing, const PlacedPiece& placed) {
  std::vector<EdgeGrain> out;
  const Polygon& shape = piecing.pieces[placed.piece].shape;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Segment e = shape.edge(i);
    const bool straight = e.a.x == e.b.x || e.a.y == e.b.y;
    out.push_back({{placed.where.apply(e.a), placed.where.apply(e.b)},
                   straight ? Thread::straight : Thread::bias});
  }
  return out;
}

}  // namespace dogear
