// Which order of straight seams?
//
// geom/partition.cpp proves that any cut may be taken, so every choice here is a matter of taste
// and none can lose an order. At each stage a set has cuts in one direction or more, and the
// direction that leads decides which groups come about: a square of sixteen patches may be sewn as
// four rows or as four columns, and where the rows are alike but the columns are not, rows are one
// step made four times. So a small set is tried with each of its directions in the lead and the
// tree with the fewest different steps wins; two steps are the same when one set of parts lies like
// the other, turned or not. Where that is a draw, the tree wins that leaves the least length of
// bias edge open in what has to be handled between steps. Every set is judged once (they are
// remembered by their parts), and after `most_sets` of them the usual order is taken: rows, then
// columns, then slanted seams.
//
// Where no straight cut is left and the designer allows it, a partial seam is tried, then a set-in
// one. A partial seam is a slit: leave one run of meetings open from the rim inwards, so that its
// inner end counts as rim too, and cut on as before; if that succeeds, the seam in line with the
// slit is begun and left open, and the slit is finished when both its sides are there. A set-in
// part is one whose meetings with all others are one bent path: the others are ordered without it.

#include "piecing/order.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace dogear {

namespace {

constexpr std::size_t small_set = 36;
constexpr std::size_t most_sets = 400;

std::vector<std::size_t> sorted(std::vector<std::size_t> v) {
  std::sort(v.begin(), v.end());
  return v;
}

double length(const Segment& s) {
  const Point d = s.b - s.a;
  return std::sqrt(dot(d, d).approx());
}

bool in_line(const Segment& a, const Segment& b) {
  const Point d = a.b - a.a;
  return cross(d, b.a - a.a).is_zero() && cross(d, b.b - a.a).is_zero();
}

class Search {
 public:
  explicit Search(const OrderQuestion& q) : q_(q), partition_(q.meetings) {}

  OrderAnswer answer() {
    std::vector<std::size_t> all(q_.parts.size());
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
    // Most wholes leave no choice; only where one does are their trees judged.
    const Subset whole = partition_.subset(all);
    auto found = best(whole);
    if (found && choice_) {
      judging_ = true;
      memo_.clear();
      found = best(whole);
    }
    OrderAnswer out;
    if (found) {
      out.order = found->tree;
    } else {
      out.stuck = stuck_;
      out.at = at_;
    }
    return out;
  }

 private:
  struct Found {
    SewingStep tree;
    std::set<std::size_t> looks;  // of its steps
    double open_bias = 0;         // inches, summed over its steps
  };

  // A set with a slit has its parts, but fewer meetings.
  using Key = std::pair<std::vector<std::size_t>, std::vector<std::uint32_t>>;
  static Key key_of(const Subset& set) { return {sorted(set.parts), set.edges}; }

  std::optional<Found> best(const Subset& set) {
    if (set.parts.size() == 1) return Found{{set.parts, {}, {}}, {}, 0};
    const bool small = q_.parts.size() <= small_set;
    if (small) {
      const auto known = memo_.find(key_of(set));
      if (known != memo_.end()) return known->second;
    }
    std::optional<Found> found;
    if (!judging_ || memo_.size() >= most_sets) {
      found = along(set, q_.lead);
      if (found && small && !q_.lead && !choice_) choice_ = partition_.directions(set).size() > 1;
    } else {
      for (const Direction d : partition_.directions(set)) {
        auto other = along(set, d);
        if (!other) break;  // no direction will do what this one cannot
        if (!found || better(*other, *found)) found = std::move(other);
      }
    }
    if (!found && q_.set_in && small) found = with_slit(set);
    if (!found && q_.set_in && small) found = with_set_in(set);
    if (!found && stuck_.empty()) {
      stuck_ = set.parts;
      at_ = partition_.set_in_point(set);
    }
    if (small) memo_.emplace(key_of(set), found);
    return found;
  }

  static bool better(const Found& a, const Found& b) {
    if (a.looks.size() != b.looks.size()) return a.looks.size() < b.looks.size();
    return std::llround(a.open_bias * 1000) < std::llround(b.open_bias * 1000);
  }

  std::optional<Found> along(const Subset& set, std::optional<Direction> lead) {
    const auto cut = partition_.split(set, lead);
    if (!cut || cut->joins.size() + 1 != cut->groups.size()) return std::nullopt;
    Found out;
    out.tree.parts = set.parts;
    for (const Subset& group : cut->groups) {
      auto inner = best(group);
      if (!inner) return std::nullopt;
      out.looks.merge(inner->looks);
      out.open_bias += inner->open_bias;
      out.tree.groups.push_back(std::move(inner->tree));
    }
    for (const Split::Join& j : cut->joins) {
      out.tree.joins.push_back({j.a, j.b, {j.where.a, j.where.b}, SeamKind::straight, {}, j.curve});
    }
    judge(out);
    return out;
  }

  void judge(Found& found) {
    if (!judging_) return;
    found.looks.insert(look(found.tree.parts));
    found.open_bias += open_bias(found.tree.parts);
  }

  // Sets of parts that lie alike, turned or not, have one number.
  std::size_t look(const std::vector<std::size_t>& parts) {
    using Look = std::vector<std::pair<std::size_t, Polygon>>;
    std::optional<Look> least;
    for (const int turn : {0, 4, 6, 8, 12, 16, 18, 20}) {
      const Transform t = Transform::turned(turn);
      Look look;
      std::optional<Point> corner;
      for (const std::size_t i : parts) {
        look.emplace_back(q_.parts[i].look, t.apply(q_.parts[i].outline));
        const Point l = bounds(look.back().second).least;
        corner = corner ? Point{min(corner->x, l.x), min(corner->y, l.y)} : l;
      }
      const Transform home = Transform::moved(Point{} - *corner);
      for (auto& [id, outline] : look) outline = tidy(home.apply(outline));
      std::sort(look.begin(), look.end());
      if (!least || look < *least) least = std::move(look);
    }
    return looks_.try_emplace(std::move(*least), looks_.size()).first->second;
  }

  // The bias edges of a set that are still to be sewn to something.
  double open_bias(const std::vector<std::size_t>& parts) const {
    const std::set<std::size_t> in(parts.begin(), parts.end());
    double sum = 0;
    for (const Meeting& m : q_.meetings) {
      const bool a = in.contains(m.a);
      const bool b = in.contains(m.b);
      if (a != b && q_.bias(a ? m.a : m.b, m)) sum += length(m.where);
    }
    return sum;
  }

  // -- partial seams ---------------------------------------------------------------------------

  std::optional<Found> with_slit(const Subset& set) {
    const std::vector<std::size_t> ids = partition_.meetings(set);
    const std::vector<Point> rim = partition_.rim_points(set);
    const auto on_rim = [&](const Point& p) {
      return std::find(rim.begin(), rim.end(), p) != rim.end();
    };
    for (const std::size_t slit : ids) {
      const Segment& where = q_.meetings[slit].where;
      if (on_rim(where.a) == on_rim(where.b)) continue;  // it opens from the rim inwards
      const Point& inner = on_rim(where.a) ? where.b : where.a;
      for (const std::size_t begun : ids) {
        const Meeting& s = q_.meetings[slit];
        const Meeting& b = q_.meetings[begun];
        if (slit == begun || (b.where.a != inner && b.where.b != inner)) continue;
        const bool shares = s.a == b.a || s.a == b.b || s.b == b.a || s.b == b.b;
        if (!shares || !in_line(s.where, b.where)) continue;
        auto found = along(partition_.with_open(set, slit), std::nullopt);
        if (!found) continue;
        if (finish(found->tree, s, b)) return found;
      }
    }
    return std::nullopt;
  }

  static bool holds(const SewingStep& step, std::size_t part) {
    return std::find(step.parts.begin(), step.parts.end(), part) != step.parts.end();
  }

  // Marks the seam begun and adds the one that finishes it, where the slit's two sides meet.
  bool finish(SewingStep& tree, const Meeting& slit, const Meeting& begun) {
    const Point v = slit.where.a == begun.where.a || slit.where.a == begun.where.b ? slit.where.a
                                                                                   : slit.where.b;
    const Point end = v == slit.where.a ? slit.where.b : slit.where.a;
    SewingStep* home = &tree;
    for (bool deeper = true; deeper;) {
      deeper = false;
      for (SewingStep& g : home->groups) {
        if (holds(g, slit.a) && holds(g, slit.b)) {
          home = &g;
          deeper = true;
          break;
        }
      }
    }
    const auto group = [&](std::size_t part) {
      std::size_t k = 0;
      while (!holds(home->groups[k], part)) ++k;
      return k;
    };
    if (!mark(*home, begun, v)) return false;
    SewingStep::Join join{group(slit.a), group(slit.b), {v, end}, SeamKind::finish, {}};
    if (join.a > join.b) std::swap(join.a, join.b);
    home->joins.push_back(std::move(join));
    return true;
  }

  // Finds the seam along `begun` that ends at v and marks it partial, its open end last.
  bool mark(SewingStep& step, const Meeting& begun, const Point& v) {
    for (SewingStep::Join& j : step.joins) {
      if (j.path.size() != 2 || !in_line({j.path[0], j.path[1]}, begun.where)) continue;
      if (j.path[0] == v) std::swap(j.path[0], j.path[1]);
      if (j.path[1] != v) continue;
      j.kind = SeamKind::partial;
      return true;
    }
    return std::any_of(step.groups.begin(), step.groups.end(), [&](SewingStep& g) {
      return holds(g, begun.a) && holds(g, begun.b) && mark(g, begun, v);
    });
  }

  // -- set-in seams ----------------------------------------------------------------------------

  std::optional<Found> with_set_in(const Subset& set) {
    struct Candidate {
      std::size_t part;
      std::vector<Point> path;
    };
    std::map<std::size_t, std::vector<Segment>> around;  // by part
    for (const std::size_t m : partition_.meetings(set)) {
      around[q_.meetings[m].a].push_back(q_.meetings[m].where);
      around[q_.meetings[m].b].push_back(q_.meetings[m].where);
    }
    std::vector<Candidate> candidates;
    for (const std::size_t part : set.parts) {
      if (auto path = one_path(around[part])) candidates.push_back({part, std::move(*path)});
    }
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](const auto& a, const auto& b) { return a.path.size() < b.path.size(); });
    for (const Candidate& c : candidates) {
      const std::vector<std::size_t> before = stuck_;
      auto inner = best(partition_.without(set, c.part));
      if (!inner) {
        stuck_ = before;
        continue;
      }
      Found out;
      out.looks = inner->looks;
      out.open_bias = inner->open_bias;
      out.tree.parts = set.parts;
      out.tree.groups.push_back(std::move(inner->tree));
      out.tree.groups.push_back({{c.part}, {}, {}});
      out.tree.joins.push_back({0, 1, c.path, SeamKind::set_in, {}});
      judge(out);
      return out;
    }
    return std::nullopt;
  }

  const OrderQuestion& q_;
  Partition partition_;
  std::map<Key, std::optional<Found>> memo_;
  std::map<std::vector<std::pair<std::size_t, Polygon>>, std::size_t> looks_;
  std::vector<std::size_t> stuck_;
  std::optional<Point> at_;
  bool choice_ = false;   // some set can be cut in more directions than one
  bool judging_ = false;  // trees are compared
};

}  // namespace

std::optional<std::vector<Point>> one_path(const std::vector<Segment>& segments) {
  std::map<Point, std::vector<Point>> next;
  for (const Segment& s : segments) {
    next[s.a].push_back(s.b);
    next[s.b].push_back(s.a);
  }
  const auto end = std::find_if(next.begin(), next.end(),
                                [](const auto& entry) { return entry.second.size() == 1; });
  if (end == next.end()) return std::nullopt;
  std::vector<Point> path{end->first};
  std::size_t used = 0;
  for (Point at = end->first;;) {
    auto& ways = next[at];
    if (path.size() > 1) std::erase(ways, path[path.size() - 2]);
    if (ways.size() != 1) {
      if (!ways.empty()) return std::nullopt;
      break;
    }
    at = ways.front();
    path.push_back(at);
    if (++used > segments.size()) return std::nullopt;
  }
  if (used != segments.size()) return std::nullopt;
  std::vector<Point> out;
  for (std::size_t i = 0; i < path.size(); ++i) {
    const bool inner = i > 0 && i + 1 < path.size();
    if (inner && cross(path[i] - out.back(), path[i + 1] - path[i]).is_zero()) continue;
    out.push_back(path[i]);
  }
  return out;
}

OrderAnswer find_order(const OrderQuestion& question) { return Search(question).answer(); }

}  // namespace dogear
