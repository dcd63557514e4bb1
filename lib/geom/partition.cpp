// Sewing in straight seams is cutting in straight lines, backwards.
//
// Goal: parts that tile a region are sewn two at a time, each seam one straight stretch that runs
// from edge to edge of what is sewn. Read backwards, the last seam cuts the region in two connected
// halves along one straight segment, and so on down to single parts.
//
// Formally: for a connected set S of parts, a cut is a straight run of meetings whose removal
// leaves exactly two connected sets A and B. S can be sewn if it is one part, or has a cut whose A
// and B can be sewn.
//
// Why greed is complete: suppose S can be sewn by the tree T, and let c be any cut of S into A and
// B. Take T's last seam t. Its line meets c's line in at most one point, so what t leaves in A is a
// single stretch, and it is either empty (A lies on one side of t) or a cut of A. Following T
// downwards and dropping the empty stretches gives a tree that sews A, and likewise B. So no cut is
// ever wrong, no search backtracks, and if some stage finds no cut the design cannot be sewn in
// straight seams. Taste alone decides among cuts: those that do not cross each other are taken
// together, so that a row of nine patches is one step and not eight.
//
// Cost: one pass over the meetings for each straight run, so about n√n for a top of n patches in
// rows, where the rows are cut apart in the first pass. Trying lines through pairs of corners was
// left: n² candidates, nearly all of which cross a patch.

#include "geom/partition.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

namespace dogear {

namespace {

class Sets {
 public:
  explicit Sets(std::size_t n) : parent_(n) { std::iota(parent_.begin(), parent_.end(), 0U); }
  std::size_t find(std::size_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  bool unite(std::size_t a, std::size_t b) {
    a = find(a);
    b = find(b);
    parent_[a] = b;
    return a != b;
  }

 private:
  std::vector<std::size_t> parent_;
};

struct LineKey {
  Exact dx, dy, offset;
  auto operator<=>(const LineKey&) const = default;
};

// The meetings among a set, parts renumbered 0..n-1.
struct Local {
  struct Edge {
    std::size_t a, b, meeting;
    Point from, to;  // from < to
    LineKey line;
  };
  std::size_t count = 0;
  std::vector<Edge> edges;
};

LineKey line_of(const Point& a, const Point& b) {
  const Point d = b - a;
  if (d.x.is_zero()) return {Exact(0), Exact(1), a.x};
  const Exact slope = d.y / d.x;
  return {Exact(1), slope, a.y - slope * a.x};
}

Local localise(const std::vector<std::size_t>& set, const std::vector<Meeting>& meetings) {
  std::map<std::size_t, std::size_t> index;
  for (const std::size_t part : set) index.emplace(part, index.size());
  Local local;
  local.count = set.size();
  for (std::size_t m = 0; m < meetings.size(); ++m) {
    const auto a = index.find(meetings[m].a);
    const auto b = index.find(meetings[m].b);
    if (a == index.end() || b == index.end()) continue;
    const Point& p = meetings[m].where.a;
    const Point& q = meetings[m].where.b;
    Local::Edge e{a->second, b->second, m, std::min(p, q), std::max(p, q), {}};
    e.line = line_of(e.from, e.to);
    local.edges.push_back(std::move(e));
  }
  std::sort(local.edges.begin(), local.edges.end(), [](const auto& l, const auto& r) {
    if (l.line != r.line) return l.line < r.line;
    return l.from < r.from;
  });
  return local;
}

// The connected sets that remain when edges [first, last) are unsewn.
Sets without(const Local& local, std::size_t first, std::size_t last) {
  Sets sets(local.count);
  for (std::size_t i = 0; i < local.edges.size(); ++i) {
    if (i < first || i >= last) sets.unite(local.edges[i].a, local.edges[i].b);
  }
  return sets;
}

std::size_t components(const Local& local, std::size_t first, std::size_t last) {
  Sets sets(local.count);
  std::size_t n = local.count;
  for (std::size_t i = 0; i < local.edges.size(); ++i) {
    if (i < first || i >= last) n -= sets.unite(local.edges[i].a, local.edges[i].b) ? 1 : 0;
  }
  return n;
}

struct Range {
  std::size_t first, last;  // edges of Local
};

std::vector<Range> cut_ranges(const Local& local) {
  std::vector<Range> out;
  const auto& edges = local.edges;
  for (std::size_t i = 0; i < edges.size();) {
    std::size_t j = i + 1;
    while (j < edges.size() && edges[j].line == edges[i].line && edges[j].from == edges[j - 1].to) {
      ++j;
    }
    Sets sets = without(local, i, j);
    if (components(local, i, j) > 1) {
      // Along the run, each stretch between the same two remaining sets may be a cut by itself.
      const auto sides = [&](std::size_t k) {
        const std::size_t a = sets.find(edges[k].a);
        const std::size_t b = sets.find(edges[k].b);
        return std::pair(std::min(a, b), std::max(a, b));
      };
      for (std::size_t k = i; k < j;) {
        const std::pair<std::size_t, std::size_t> here = sides(k);
        std::size_t l = k + 1;
        while (l < j && sides(l) == here) ++l;
        if (here.first != here.second && components(local, k, l) == 2) {
          out.push_back({k, l});
        }
        k = l;
      }
    }
    i = j;
  }
  return out;
}

Segment where(const Local& local, const Range& r) {
  return {local.edges[r.first].from, local.edges[r.last - 1].to};
}

// Rank of a direction for sewing: rows first, then columns, then slanted seams.
int rank(const LineKey& line) {
  if (line.dx.is_zero()) return 1;
  return line.dy.is_zero() ? 0 : 2;
}

}  // namespace

std::vector<Cut> straight_cuts(const std::vector<std::size_t>& set,
                               const std::vector<Meeting>& meetings) {
  const Local local = localise(set, meetings);
  std::vector<Cut> out;
  for (const Range& r : cut_ranges(local)) {
    Cut cut;
    cut.where = where(local, r);
    for (std::size_t k = r.first; k < r.last; ++k) cut.meetings.push_back(local.edges[k].meeting);
    out.push_back(std::move(cut));
  }
  return out;
}

std::optional<Split> split(const std::vector<std::size_t>& set,
                           const std::vector<Meeting>& meetings) {
  const Local local = localise(set, meetings);
  std::vector<Range> cuts = cut_ranges(local);
  if (cuts.empty()) return std::nullopt;

  // Parallel cuts never cross; the direction with the best rank and then the most cuts leads.
  std::map<std::pair<Exact, Exact>, int> how_many;
  const auto direction = [&](const Range& r) {
    const LineKey& line = local.edges[r.first].line;
    return std::pair(line.dx, line.dy);
  };
  for (const Range& r : cuts) ++how_many[direction(r)];
  std::stable_sort(cuts.begin(), cuts.end(), [&](const Range& a, const Range& b) {
    const int ra = rank(local.edges[a.first].line);
    const int rb = rank(local.edges[b.first].line);
    if (ra != rb) return ra < rb;
    return how_many[direction(a)] > how_many[direction(b)];
  });

  std::vector<bool> sewn_last(local.edges.size(), false);
  std::vector<Range> taken;
  for (const Range& r : cuts) {
    // A cut crosses one already taken when its edges lie on both sides of it.
    Sets sets(local.count);
    for (std::size_t i = 0; i < local.edges.size(); ++i) {
      if (!sewn_last[i]) sets.unite(local.edges[i].a, local.edges[i].b);
    }
    const std::size_t home = sets.find(local.edges[r.first].a);
    bool crosses = false;
    for (std::size_t k = r.first; k < r.last && !crosses; ++k) {
      crosses = sets.find(local.edges[k].a) != home || sets.find(local.edges[k].b) != home;
    }
    if (crosses) continue;
    for (std::size_t k = r.first; k < r.last; ++k) sewn_last[k] = true;
    taken.push_back(r);
  }

  Sets sets(local.count);
  for (std::size_t i = 0; i < local.edges.size(); ++i) {
    if (!sewn_last[i]) sets.unite(local.edges[i].a, local.edges[i].b);
  }
  Split out;
  std::map<std::size_t, std::size_t> group_of;
  for (std::size_t i = 0; i < local.count; ++i) {
    const auto [slot, fresh] = group_of.try_emplace(sets.find(i), out.groups.size());
    if (fresh) out.groups.emplace_back();
    out.groups[slot->second].push_back(set[i]);
  }
  for (const Range& r : taken) {
    out.joins.push_back({group_of[sets.find(local.edges[r.first].a)],
                         group_of[sets.find(local.edges[r.first].b)], where(local, r)});
  }
  return out;
}

std::optional<Point> set_in_point(const std::vector<std::size_t>& set,
                                  const std::vector<Meeting>& meetings) {
  const Local local = localise(set, meetings);
  // At a set-in corner three or more seams end and none of them runs straight through.
  std::map<Point, std::vector<Point>> ends;
  for (const auto& e : local.edges) {
    ends[e.from].push_back(e.to - e.from);
    ends[e.to].push_back(e.from - e.to);
  }
  std::optional<Point> fallback;
  for (const auto& [corner, directions] : ends) {
    if (directions.size() < 3) continue;
    if (!fallback) fallback = corner;
    bool straight = false;
    for (std::size_t i = 0; i < directions.size(); ++i) {
      for (std::size_t j = i + 1; j < directions.size(); ++j) {
        straight = straight || (cross(directions[i], directions[j]).is_zero() &&
                                dot(directions[i], directions[j]).sign() < 0);
      }
    }
    if (!straight) return corner;
  }
  if (fallback || local.edges.empty()) return fallback;
  return local.edges.front().from;
}

}  // namespace dogear
