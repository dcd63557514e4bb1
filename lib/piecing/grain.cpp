// A patch of one fabric can be turned on its cloth before it is cut: its place in the block stays,
// but other edges of it come to lie on the threads. Which edges are straight depends on the turn
// modulo 90° alone, so there are six ways to cut a shape, and the best is found by trying all.
//
// All patches of a unit are cut alike, so a turn is judged by every place the unit has. Three
// things count, in this order: edges on the outside of a quilt top, edges on the outside of a
// block, and seams whose two edges are both bias. A turn is suggested only where it
//   - makes an outer edge straight, and lets no outer edge that is straight now become bias; or
//   - makes one side of a seam of two bias edges straight, and lets an edge become bias only inside
//     the unit that the patch is sewn into, against a straight edge that holds it;
// and only where the turned shape can be cut from a strip. So half-square triangles whose long
// edges meet bring no warning: each of their turns only moves the bias to the outside.
#include "piecing/grain.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "base/text.h"

namespace dogear {

Thread thread_along(const Point& d) {
  if (d.y.is_zero()) return Thread::crosswise;
  return d.x.is_zero() ? Thread::lengthwise : Thread::bias;
}

double degrees_off(const Point& d) {
  if (thread_along(d) != Thread::bias) return 0;
  const double x = std::abs(d.x.approx());
  const double y = std::abs(d.y.approx());
  return std::atan2(std::min(x, y), std::max(x, y)) * 180 / 3.14159265358979323846;
}

namespace {

constexpr int ways = 6;  // turns of 15° that differ in which edges are straight

bool is_straight(const Point& d, int turn) {
  return thread_along(Transform::turned(turn).apply_direction(d)) != Thread::bias;
}

// Can a strip give this shape? Squares halved or quartered, and shapes that reach from one edge of
// the strip to the other.
bool lies_on_strip(const Polygon& p) {
  const Box box = bounds(p);
  if (p.size() == 3) {
    for (std::size_t i = 0; i < 3; ++i) {
      const Point a = p.at(i + 1) - p.at(i);
      const Point b = p.at(i + 2) - p.at(i + 1);
      if (!dot(a, b).is_zero() || dot(a, a) != dot(b, b)) continue;
      return thread_along(a) != Thread::bias || thread_along(p.at(i) - p.at(i + 2)) != Thread::bias;
    }
  }
  bool level = false;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Segment e = p.edge(i);
    const Exact rise = abs(e.b.y - e.a.y);
    if (rise.is_zero()) {
      level = true;
    } else if (rise != box.height()) {
      return false;
    }
  }
  return level;
}

bool on_box(const Segment& e, const Box& box) {
  const auto both = [](const Exact& a, const Exact& b, const Exact& at) {
    return a == at && b == at;
  };
  return both(e.a.x, e.b.x, box.least.x) || both(e.a.x, e.b.x, box.most.x) ||
         both(e.a.y, e.b.y, box.least.y) || both(e.a.y, e.b.y, box.most.y);
}

// What one edge of a unit's patch is, in all the places the unit has.
struct EdgeUse {
  bool outside_top = false;
  bool outside_block = false;
  bool beside_bias = false;  // sewn to a bias edge
  bool unit_edge = false;    // on the outline of the unit that the patch is sewn into
};

class GrainCheck {
 public:
  GrainCheck(const CheckedPattern& checked, Diagnostics& d) : checked_(checked), d_(d) {}

  void run() {
    for (const CheckedSize& size : checked_.sizes) {
      const Part& top = checked_.parts[size.top];
      walk_rim(size.top, Transform{}, bounds(top.outline), true);
      for (const BlockPlace& p : size.places) blocks_.insert(p.use);
    }
    for (const std::size_t use : blocks_) look_at_block(use);
    for (const auto& [part, edges] : uses_) judge(part, edges);
    look_at_prints();
  }

 private:
  std::vector<EdgeUse>& uses(PartId part) {
    std::vector<EdgeUse>& edges = uses_[part];
    edges.resize(checked_.parts[part].outline.size());
    return edges;
  }

  // Only parts that touch the rim are opened.
  void walk_rim(PartId id, const Transform& where, const Box& rim, bool of_top) {
    const Part& part = checked_.parts[id];
    bool touches = false;
    for (std::size_t i = 0; i < part.outline.size(); ++i) {
      const Segment e = part.outline.edge(i);
      if (!on_box({where.apply(e.a), where.apply(e.b)}, rim)) continue;
      touches = true;
      if (!part.is_patch) break;
      EdgeUse& use = uses(id)[i];
      (of_top ? use.outside_top : use.outside_block) = true;
    }
    if (!touches) return;
    for (const Placed& child : part.parts)
      walk_rim(child.part, child.where.then(where), rim, of_top);
  }

  void look_at_block(std::size_t use) {
    const PartId id = checked_.block_parts[use];
    const Part& block = checked_.parts[id];
    // The edges of a block with slanted sides cannot all be straight, and its neighbours are sewn
    // to them at once.
    if (is_rectangle(block.outline)) walk_rim(id, Transform{}, bounds(block.outline), false);
    const std::vector<FlatPatch> patches = flatten(checked_, id);
    for (const FlatPatch& p : patches) home_.emplace(p.patch, use);
    look_at_seams(id, patches);
  }

  void look_at_seams(PartId block, const std::vector<FlatPatch>& patches) {
    if (std::none_of(patches.begin(), patches.end(),
                     [&](const FlatPatch& p) { return may_turn(p.patch); })) {
      return;
    }
    std::vector<Polygon> outlines;
    for (const FlatPatch& p : patches) {
      outlines.push_back(p.where.apply(checked_.parts[p.patch].outline));
    }
    const Fit found = fit(outlines, checked_.parts[block].outline);
    const std::vector<std::size_t> papers = papers_of(block);
    for (const Meeting& m : found.meetings) {
      // Paper holds both edges.
      if (papers[m.a] != 0 && papers[m.a] == papers[m.b]) continue;
      const Point along = m.where.b - m.where.a;
      const auto bias = [&](std::size_t i) {
        return thread_along(patches[i].where.inverse().apply_direction(along)) == Thread::bias;
      };
      const bool bias_a = bias(m.a), bias_b = bias(m.b);
      if (bias_b) mark(patches[m.a], m.where, &EdgeUse::beside_bias);
      if (bias_a) mark(patches[m.b], m.where, &EdgeUse::beside_bias);
    }
    std::set<PartId> seen;
    mark_unit_edges(block, seen);
  }

  // For each patch in the order of flatten() the paper it is sewn on, from 1; 0 for none.
  std::vector<std::size_t> papers_of(PartId block) const {
    std::vector<std::size_t> out;
    std::size_t papers = 0;
    const auto walk = [&](const auto& self, PartId id, std::size_t paper) -> void {
      const Part& part = checked_.parts[id];
      if (part.foundation && paper == 0) paper = ++papers;
      if (part.is_patch) out.push_back(paper);
      for (const Placed& child : part.parts) self(self, child.part, paper);
    };
    walk(walk, block, 0);
    return out;
  }

  // The edges of each unit's patches that lie on the unit's outline.
  void mark_unit_edges(PartId id, std::set<PartId>& seen) {
    if (!seen.insert(id).second) return;
    const Part& part = checked_.parts[id];
    for (const Placed& child : part.parts) {
      mark_unit_edges(child.part, seen);
      if (part.parts.size() < 2) continue;
      FlatPatch patch{child.part, child.where};
      while (checked_.parts[patch.patch].parts.size() == 1) {
        const Placed& only = checked_.parts[patch.patch].parts.front();
        patch = {only.part, only.where.then(patch.where)};
      }
      if (!checked_.parts[patch.patch].is_patch) continue;
      for (std::size_t i = 0; i < part.outline.size(); ++i) {
        mark(patch, part.outline.edge(i), &EdgeUse::unit_edge);
      }
    }
  }

  // Marks the edges of a patch that share more than a point with this stretch.
  void mark(const FlatPatch& p, const Segment& stretch, bool EdgeUse::*flag) {
    const Transform back = p.where.inverse();
    const Point from = back.apply(stretch.a);
    const Point along = back.apply(stretch.b) - from;
    const Polygon& outline = checked_.parts[p.patch].outline;
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const Segment e = outline.edge(i);
      if (!cross(along, e.a - from).is_zero() || !cross(along, e.b - from).is_zero()) continue;
      const Exact a = dot(along, e.a - from);
      const Exact b = dot(along, e.b - from);
      if (max(a, b).sign() > 0 && min(a, b) < dot(along, along)) uses(p.patch)[i].*flag = true;
    }
  }

  // Units cut by themselves; a directional print has its own rule.
  bool may_turn(PartId id) const {
    const Part& part = checked_.parts[id];
    return !part.name.empty() && !part.directional;
  }

  // The unit's name in the source; its mirror image is made from it.
  static std::string unit_name(const Part& part) {
    constexpr std::string_view reversed = "reversed ";
    return starts_with(part.name, reversed) ? part.name.substr(reversed.size()) : part.name;
  }
  // The grain of a mirror image runs the other way round.
  static int written(const Part& part, int turn) {
    return unit_name(part) == part.name ? turn : (24 - turn) % 24;
  }

  void judge(PartId id, const std::vector<EdgeUse>& edges) {
    if (!may_turn(id)) return;
    const Part& part = checked_.parts[id];
    for (int rule = 0; rule < 3; ++rule) {
      for (int turn = 1; turn < ways; ++turn) {
        if (!helps(part.outline, edges, turn, rule)) continue;
        const auto grain = grain_for(part, turn);
        if (!grain) continue;
        report(id, rule, *grain);
        return;
      }
    }
  }

  // Rules: 0 outside of a top, 1 outside of a block, 2 bias sewn to bias.
  static bool helps(const Polygon& p, const std::vector<EdgeUse>& edges, int turn, int rule) {
    bool gain = false;
    for (std::size_t i = 0; i < p.size(); ++i) {
      const Point d = p.at(i + 1) - p.at(i);
      const bool now = is_straight(d, 0);
      const bool then = is_straight(d, turn);
      const EdgeUse& use = edges[i];
      const bool outside = use.outside_top || use.outside_block;
      const bool loss = now && !then;
      if (loss && (outside || (rule == 2 && (use.unit_edge || use.beside_bias)))) return false;
      const bool wanted = rule == 0   ? use.outside_top && !use.outside_block
                          : rule == 1 ? use.outside_block
                                      : use.beside_bias;
      gain = gain || (wanted && then && !now);
    }
    return gain;
  }

  // The `grain` that turns the patch so, in degrees, when a strip can give it.
  static std::optional<int> grain_for(const Part& part, int turn) {
    std::optional<int> best;
    for (const int t : {turn, turn + ways}) {
      if (!lies_on_strip(Transform::turned(t).apply(part.outline))) continue;
      const int degrees = written(part, (part.grain + 24 - t) % 12) * 15 % 180;
      if (!best || degrees < *best) best = degrees;
    }
    return best;
  }

  void report(PartId id, int rule, int grain) {
    static constexpr std::array codes{"D352", "D351", "D353"};
    const Part& part = checked_.parts[id];
    const auto home = home_.find(id);
    const std::string block = home == home_.end() ? "" : checked_.pattern.uses[home->second].title;
    std::string words = "an edge of `" + unit_name(part) + "` ";
    if (rule == 0) words += "that lies at the outer edge of the quilt top is cut on the bias";
    if (rule == 1)
      words += "that lies at the outer edge of the block " + block + " is cut on the bias";
    if (rule == 2) words += "that is cut on the bias is sewn to another bias edge in " + block;
    if (!said_.emplace(part.span.file, part.span.line, part.span.column, rule).second) return;
    Diagnostic& e =
        d_.warning(codes[static_cast<std::size_t>(rule)], part.span,
                   words + (rule == 2 ? ": neither holds the other" : " and will stretch"));
    e.hints.push_back("write `grain: " + std::to_string(grain) + "` on `" + unit_name(part) +
                      "`: cut that way, the edge lies on a thread");
  }

  // How often each patch lies each way in a top; parts are made before the wholes that hold them.
  std::vector<std::array<long long, 24>> turns_in(PartId top) const {
    std::vector<std::array<long long, 24>> turns(top + 1, std::array<long long, 24>{});
    turns[top][0] = 1;
    for (PartId id = top + 1; id-- > 0;) {
      for (const Placed& child : checked_.parts[id].parts) {
        for (std::size_t t = 0; t < 24; ++t) {
          const auto to = (t + static_cast<std::size_t>(child.where.turn)) % 24;
          turns[child.part][to] += turns[id][t];
        }
      }
    }
    return turns;
  }

  void look_at_prints() {
    const auto& fabrics = checked_.pattern.fabrics;
    if (std::none_of(fabrics.begin(), fabrics.end(),
                     [](const Fabric& f) { return f.directional; })) {
      return;
    }
    for (const CheckedSize& size : checked_.sizes) {
      const auto turns = turns_in(size.top);
      for (PartId id = 0; id < turns.size(); ++id) {
        const Part& part = checked_.parts[id];
        if (part.is_patch && part.directional) report_print(part, seen_upright(part, turns[id]));
      }
    }
  }

  // Turns counted from where the print stands upright: of a strip cut along the length that is a
  // quarter turn.
  static std::array<long long, 24> seen_upright(const Part& part, std::array<long long, 24> turns) {
    if (part.along) std::rotate(turns.begin(), turns.begin() + 6, turns.end());
    return turns;
  }

  void report_print(const Part& part, const std::array<long long, 24>& turns) {
    long long all = 0;
    std::vector<std::size_t> wrong;
    for (std::size_t t = 0; t < 24; ++t) {
      all += turns[t];
      if (t > 0 && turns[t] > 0) wrong.push_back(t);
    }
    if (wrong.empty()) return;
    const long long bad = all - turns[0];
    std::vector<std::string> lies;
    for (const std::size_t t : wrong) {
      const std::string how = t == 12             ? "on its head"
                              : t == 6 || t == 18 ? "on its side"
                                                  : "aslant";
      if (std::find(lies.begin(), lies.end(), how) == lies.end()) lies.push_back(how);
    }
    if (!said_.emplace(part.span.file, part.span.line, part.span.column, 3).second) return;
    const std::string pieces =
        all == 1     ? "its one piece"
        : bad == all ? "all its " + std::to_string(all) + " pieces"
                     : std::to_string(bad) + " of its " + std::to_string(all) + " pieces";
    Diagnostic& e = d_.warning("D356", part.span,
                               (part.border         ? "a border here"
                                : part.name.empty() ? "a piece here"
                                                    : "`" + unit_name(part) + "`") +
                                   " is cut of " + checked_.pattern.fabrics[part.fabric].name +
                                   ", a directional print: " + pieces + " would show the print " +
                                   join(lies, " or "));
    if (part.border) {
      e.hints.push_back("leave `cut` out, and the print stands upright in all four borders");
    } else if (part.name.empty()) {
      e.hints.push_back("do not turn the unit that holds it, or choose another fabric for it");
    } else if (wrong.size() == 1 && turns[0] == 0) {
      e.hints.push_back("write `grain: " + std::to_string(grain_upright(part, wrong[0])) +
                        "` on `" + unit_name(part) + "`: cut that way, the print stands upright");
    } else {
      std::string grains;
      for (const std::size_t t : wrong) {
        if (!grains.empty()) grains += ", ";
        grains += "`grain: " + std::to_string(grain_upright(part, t)) + "` for the " +
                  std::to_string(turns[t]) + " that lie " +
                  (t == 12 ? "on their head" : "turned " + std::to_string(t * 15));
      }
      e.hints.push_back("make a unit of its own for each way it lies, with " + grains);
    }
  }

  // A patch that lies turned by `t` stands upright when it is cut turned as much the other way.
  static int grain_upright(const Part& part, std::size_t t) {
    return written(part, (part.grain + 24 - static_cast<int>(t)) % 24) * 15;
  }

  const CheckedPattern& checked_;
  Diagnostics& d_;
  std::set<std::size_t> blocks_;
  std::map<PartId, std::vector<EdgeUse>> uses_;
  std::map<PartId, std::size_t> home_;
  std::set<std::tuple<std::string, int, int, int>> said_;
};

}  // namespace

void check_grain(const CheckedPattern& checked, Diagnostics& diagnostics) {
  GrainCheck(checked, diagnostics).run();
}

}  // namespace dogear
