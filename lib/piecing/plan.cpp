#include <algorithm>
#include <set>

#include "check/picture.h"
#include "piecing/as_used.h"
#include "piecing/batch_unit.h"
#include "piecing/catalogue.h"
#include "piecing/foundation.h"
#include "piecing/grain.h"
#include "piecing/mirror.h"
#include "piecing/mitre.h"
#include "piecing/order.h"
#include "piecing/press.h"

namespace dogear {

namespace {

class Planner {
 public:
  Planner(const CheckedPattern& checked, Diagnostics& d)
      : checked_(checked), d_(d), catalogue_(piecing_) {}

  std::optional<Piecing> plan() {
    const std::size_t before = d_.error_count();
    at_start_ = before;
    for (const CheckedSize& size : checked_.sizes) plan_size(size);
    if (d_.error_count() > before) return std::nullopt;
    find_mirror_twins(piecing_);
    letter_pieces(piecing_);
    for (const CheckedSize& size : checked_.sizes) count_both_ways(size);
    if (d_.error_count() > before) return std::nullopt;
    plan_pressing(checked_, piecing_, d_);
    if (d_.error_count() > before) return std::nullopt;
    turn_as_used(piecing_);
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
    if (part.foundation) {
      const auto unit = foundation_unit(checked_, id, catalogue_, d_);
      memo_.emplace(id, unit);
      return unit;
    }
    if (part.batch) {
      const Input unit = batch_unit(checked_, part, catalogue_);
      memo_.emplace(id, unit);
      return unit;
    }
    auto made =
        part.parts.size() == 1 ? input_of(part.parts.front().part, part.strip_set) : sew_whole(id);
    if (made && part.parts.size() == 1) made->where = made->where.then(part.parts.front().where);
    memo_.emplace(id, made);
    return made;
  }

  // The parts of a whole as they go into its sewing: where a part cannot be sewn by itself, its own
  // parts stand in its place.
  struct Opened {
    std::vector<Placed> parts;
    std::vector<Span> spans;
    std::vector<Input> inputs;
    std::vector<Polygon> outlines;
    std::vector<Meeting> meetings;
  };

  std::optional<Input> sew_whole(PartId id) {
    const Part& part = checked_.parts[id];
    Opened open{part.parts, part.part_spans, {}, {}, part.meetings};
    open.spans.resize(open.parts.size());
    for (bool first = true;; first = false) {
      open.inputs.clear();
      open.outlines.clear();
      for (const Placed& p : open.parts) {
        open.outlines.push_back(p.where.apply(checked_.parts[p.part].outline));
      }
      if (!first) open.meetings = fit(open.outlines, part.outline).meetings;
      std::vector<std::size_t> to_open;
      for (std::size_t i = 0; i < open.parts.size(); ++i) {
        const Placed& child = open.parts[i];
        auto in = input_of(child.part, part.strip_set);
        if (!in) {
          to_open.push_back(i);
          in.emplace();
        }
        in->where = in->where.then(child.where);
        open.inputs.push_back(*in);
      }
      if (to_open.empty()) {
        if (!part.sewing.lines.empty()) {
          const auto draw = [&](const Point& at) { return set_in_drawing(part.name, open, at); };
          const auto order =
              written_order(open.meetings, open.spans, part.sewing, part.name, draw, d_);
          return order ? std::optional(sew(part, open, *order, part.name, 0)) : std::nullopt;
        }
        if (part.mitred) {
          return sew(part, open, mitred_order(open.meetings, open.parts.size()), part.name, 0);
        }
        const OrderAnswer answer = find_order(question(part, open));
        if (answer.order) return sew(part, open, *answer.order, part.name, 0);
        for (const std::size_t i : answer.stuck) {
          if (can_open(open.parts[i].part)) to_open.push_back(i);
        }
        if (to_open.empty()) {
          failures_[id] = {answer.at, open, answer.stuck};
          return std::nullopt;
        }
      }
      const bool openable = std::all_of(to_open.begin(), to_open.end(), [&](std::size_t i) {
        return can_open(open.parts[i].part);
      });
      if (!openable || part.mitred || !part.sewing.lines.empty()) return std::nullopt;
      dissolve(open, to_open);
    }
  }

  bool can_open(PartId id) const {
    const Part& part = checked_.parts[id];
    return !part.is_patch && !part.strip_set && !part.batch && !part.mitred && !part.foundation &&
           part.sewing.lines.empty();
  }

  void dissolve(Opened& open, const std::vector<std::size_t>& which) const {
    std::vector<Placed> parts;
    std::vector<Span> spans;
    for (std::size_t i = 0; i < open.parts.size(); ++i) {
      const Placed& p = open.parts[i];
      if (std::find(which.begin(), which.end(), i) == which.end()) {
        parts.push_back(p);
        spans.push_back(open.spans[i]);
        continue;
      }
      for (const Placed& inner : checked_.parts[p.part].parts) {
        parts.push_back({inner.part, inner.where.then(p.where)});
        spans.push_back(open.spans[i]);
      }
    }
    open.parts = std::move(parts);
    open.spans = std::move(spans);
  }

  OrderQuestion question(const Part& part, const Opened& open) {
    views_.clear();
    for (std::size_t i = 0; i < open.inputs.size(); ++i) {
      const Input& in = open.inputs[i];
      views_.push_back({in.is_piece ? 2 * in.piece : 2 * in.unit + 1, open.outlines[i]});
    }
    OrderQuestion q{open.meetings, views_, {}, {}, part.sewing.set_in};
    q.bias = [this, &open](std::size_t i, const Meeting& m) {
      return has_bias(open.inputs[i], m.where);
    };
    if (part.sewing.columns) q.lead = *part.sewing.columns ? 1U : 0U;
    return q;
  }

  Input sew(const Part& part, const Opened& open, const SewingStep& step, const std::string& name,
            int depth) {
    if (step.parts.size() == 1) return open.inputs[step.parts.front()];
    SewingStep ordered = step;
    order(ordered, open);
    SewnUnit unit;
    unit.name = name;
    unit.strip_set = part.strip_set && depth == 0;
    unit.span = part.span;
    unit.wish = part.press;
    std::vector<Polygon> outlines;
    for (const std::size_t i : step.parts) outlines.push_back(open.outlines[i]);
    unit.outline = depth == 0 ? part.outline : join(outlines).outline.value_or(part.outline);
    std::size_t section = 0;
    for (const SewingStep& group : ordered.groups) {
      if (group.parts.size() > 1) ++section;
      const std::string inner =
          part.shape_words == "bordered top"
              ? (name == "outer sashing" ? "center with side sashing" : "center with side borders")
              : name + " section " + std::to_string(section);
      unit.inputs.push_back(sew(part, open, group, inner, depth + 1));
    }
    for (const SewingStep::Join& j : ordered.joins) {
      Seam seam;
      seam.first = j.a;
      seam.second = j.b;
      seam.where = {j.path.front(), j.path.back()};
      seam.kind = j.kind;
      seam.path = j.path;
      seam.span = j.span.line > 0 ? j.span : part.span;
      // A mitre is sewn across strips that are not cut on the diagonal before.
      for (std::size_t k = 0; k + 1 < j.path.size() && j.kind != SeamKind::mitre; ++k) {
        tell_bias(seam, unit.inputs[j.a], unit.inputs[j.b], {j.path[k], j.path[k + 1]});
      }
      seam.curve = j.curve;
      if (seam.curve) seam.first_has_bias = seam.second_has_bias = seam.bias_meets = true;
      unit.seams.push_back(std::move(seam));
    }
    return catalogue_.unit(std::move(unit));
  }

  // Groups from left to right, or from top to bottom where the seams run across.
  static void order(SewingStep& step, const Opened& open) {
    const std::vector<Point>& first = step.joins.front().path;
    const bool down = first.front().y == first.back().y;
    std::vector<Exact> at;
    for (const SewingStep& group : step.groups) {
      Exact sum = 0;
      for (const std::size_t i : group.parts) {
        const Box b = bounds(open.outlines[i]);
        sum += down ? b.least.y + b.most.y : b.least.x + b.most.x;
      }
      at.push_back(sum / Exact(static_cast<long long>(group.parts.size())));
    }
    std::vector<std::size_t> index(step.groups.size());
    for (std::size_t i = 0; i < index.size(); ++i) index[i] = i;
    std::stable_sort(index.begin(), index.end(),
                     [&](std::size_t a, std::size_t b) { return at[a] < at[b]; });
    std::vector<std::size_t> rank(index.size());
    std::vector<SewingStep> groups;
    for (std::size_t i = 0; i < index.size(); ++i) {
      rank[index[i]] = i;
      groups.push_back(std::move(step.groups[index[i]]));
    }
    step.groups = std::move(groups);
    for (SewingStep::Join& j : step.joins) {
      j.a = rank[j.a];
      j.b = rank[j.b];
      if (j.a > j.b) std::swap(j.a, j.b);
    }
    std::stable_sort(step.joins.begin(), step.joins.end(), [](const auto& l, const auto& r) {
      const auto last = [](SeamKind k) { return k == SeamKind::finish || k == SeamKind::mitre; };
      const bool lf = last(l.kind);
      const bool rf = last(r.kind);
      return lf != rf ? rf : l.b < r.b;
    });
  }

  using Stretches = std::vector<std::pair<Exact, Exact>>;  // along a seam, from - to

  // Where bias edges of the input lie along the seam. Only units that reach the seam are opened.
  void bias_along(const Input& in, const Segment& seam, Stretches& out) const {
    if (in.is_piece) {
      const Point along = seam.b - seam.a;
      for (const EdgeGrain& e : edges(piecing_, {in.piece, in.where})) {
        if (e.thread != Thread::bias || !share_a_stretch(e.where, seam)) continue;
        const Exact from = dot(along, e.where.a - seam.a);
        const Exact to = dot(along, e.where.b - seam.a);
        out.emplace_back(min(from, to), max(from, to));
      }
      return;
    }
    const SewnUnit& unit = piecing_.units[in.unit];
    bool reaches = false;
    for (std::size_t i = 0; i < unit.outline.size() && !reaches; ++i) {
      const Segment e = unit.outline.edge(i);
      reaches = share_a_stretch({in.where.apply(e.a), in.where.apply(e.b)}, seam);
    }
    if (!reaches) return;
    for (Input inner : unit.inputs) {
      inner.where = inner.where.then(in.where);
      bias_along(inner, seam, out);
    }
  }

  bool has_bias(const Input& in, const Segment& seam) const {
    Stretches found;
    bias_along(in, seam, found);
    return !found.empty();
  }

  // Which sides of a leg of the seam are bias, and whether bias meets bias.
  void tell_bias(Seam& seam, const Input& first, const Input& second, const Segment& leg) const {
    Stretches a;
    Stretches b;
    bias_along(first, leg, a);
    bias_along(second, leg, b);
    seam.first_has_bias = seam.first_has_bias || !a.empty();
    seam.second_has_bias = seam.second_has_bias || !b.empty();
    std::sort(a.begin(), a.end());
    std::sort(b.begin(), b.end());
    for (std::size_t i = 0, k = 0; i < a.size() && k < b.size();) {
      if (max(a[i].first, b[k].first) < min(a[i].second, b[k].second)) {
        seam.bias_meets = true;
        return;
      }
      ++(a[i].second < b[k].second ? i : k);
    }
  }

  struct Failure {
    std::optional<Point> at;
    Opened open;
    std::vector<std::size_t> stuck;
  };

  // Names the innermost wholes that cannot be sewn.
  void report_failures(PartId id, std::set<PartId>& told) {
    if (!told.insert(id).second) return;
    const auto known = memo_.find(id);
    if (known == memo_.end() || known->second) return;
    bool inner = false;
    for (const Placed& p : checked_.parts[id].parts) {
      const auto child = memo_.find(p.part);
      if (child == memo_.end() || child->second) continue;
      inner = true;
      report_failures(p.part, told);
    }
    const auto failure = failures_.find(id);
    if (!inner && failure != failures_.end()) {
      report_set_in(checked_.parts[id], failure->second);
    }
  }

  void report_set_in(const Part& part, const Failure& failure) {
    const auto& point = failure.at;
    std::string place;
    if (point) {
      place = ": the corner " + about_inches(point->x, 8) + " from the left and " +
              about_inches(point->y, 8) + " from the top would need a set-in seam";
    }
    Diagnostic& e =
        d_.error("D301", part.span, "`" + part.name + "` cannot be sewn in straight seams" + place);
    std::set<std::pair<std::size_t, std::size_t>> named;
    for (const std::size_t i : failure.stuck) {
      const Span& s = checked_.parts[failure.open.parts[i].part].span;
      const auto& corners = failure.open.outlines[i].corners;
      if (point && e.notes.size() < 4 &&
          std::find(corners.begin(), corners.end(), *point) != corners.end() &&
          named.emplace(s.line, s.column).second) {
        e.notes.push_back({s, "this part meets that corner"});
      }
    }
    e.hints.push_back("build it from halves or rows, so that every seam runs from edge to edge");
    e.hints.push_back(part.sewing.set_in
                          ? "`set-in: yes` sets in single parts, in wholes of 36 parts at most"
                          : "where a partial or set-in seam is meant, add `set-in: yes` to it");
    if (point) e.picture = set_in_drawing(part.name, failure.open, *point);
  }

  std::shared_ptr<const ProblemPicture> set_in_drawing(const std::string& name, const Opened& open,
                                                       const Point& at) const {
    std::vector<std::string> names;
    for (const Placed& p : open.parts) names.push_back(checked_.parts[p.part].name);
    return set_in_picture(name, names, open.outlines, open.meetings, at);
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
      if (def.setting == Setting::rows || def.setting == Setting::on_point) {
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
    if (!top) {
      std::set<PartId> told;
      report_failures(size.top, told);
      if (d_.error_count() == at_start_) {
        d_.error("D301", def.span, "this size cannot be sewn in straight seams");
      }
      return;
    }
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
  std::size_t at_start_ = 0;  // errors
  Piecing piecing_;
  Catalogue catalogue_;
  std::map<PartId, std::optional<Input>> memo_;
  std::map<PartId, Failure> failures_;
  std::vector<PartView> views_;  // of the question asked last
};

}  // namespace

std::optional<Piecing> plan_piecing(const CheckedPattern& checked, Diagnostics& diagnostics) {
  auto piecing = Planner(checked, diagnostics).plan();
  if (piecing) check_grain(checked, diagnostics);
  return piecing;
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
  const Piece& piece = piecing.pieces[placed.piece];
  const Polygon& shape = piece.shape;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Segment e = shape.edge(i);
    const Point along = e.b - e.a;
    Thread thread = thread_along(along);
    if (piece.along && thread != Thread::bias) {
      thread = thread == Thread::lengthwise ? Thread::crosswise : Thread::lengthwise;
    }
    out.push_back({{placed.where.apply(e.a), placed.where.apply(e.b)}, thread, degrees_off(along)});
  }
  return out;
}

}  // namespace dogear
