// Sewing in straight seams is cutting in straight lines, backwards.
//
// Goal: parts that tile a region are sewn two at a time, each seam one straight stretch that runs
// from edge to edge of what is sewn. Read backwards, the last seam cuts the region in two connected
// halves along one straight segment, and so on down to single parts.
//
// Formally: for a connected set S of parts without a hole, a cut is a straight run of meetings
// whose removal leaves exactly two connected sets A and B. S can be sewn if it is one part, or has
// a cut whose A and B can be sewn.
//
// Why greed is complete: suppose S can be sewn by the tree T, and let c be any cut of S into A and
// B. Take T's last seam t. Its line meets c's line in at most one point, so what t leaves in A is a
// single stretch, and it is either empty (A lies on one side of t) or a cut of A. Following T
// downwards and dropping the empty stretches gives a tree that sews A, and likewise B. So no cut is
// ever wrong, no search backtracks, and if some stage finds no cut the design cannot be sewn in
// straight seams. Taste alone decides among cuts: those that do not cross each other are taken
// together, so that a row of nine patches is one step and not eight; which direction leads is
// chosen in piecing/order.cpp.
//
// How cuts are found: the region has no hole, so by Jordan's curve theorem a run of meetings parts
// it in two exactly when both its ends lie on the region's rim and nothing between them does. And
// the rim needs no geometry: go once round a vertex inside the region, and every part there is met
// twice, on its way in and on its way out; on the rim the first and the last part are met once. So
// a vertex lies on the rim when some part has an odd number of meetings that end there. Two cuts
// cross when they share a vertex off the rim.
//
// An arc that edges follow counts as a line of its own. A straight line may meet an arc twice, so
// with curves every order found can be sewn, but that one is always found is proved for straight
// seams alone.
//
// Cost: the lines are sorted once for a whole. After that a set of n parts is split in n log n, and
// a top of n patches in rows in two passes. Removing each run in turn and counting what hangs
// together was the first way: n√n for each set. Trying lines through pairs of corners was left: n²
// candidates, nearly all of which cross a patch.

#include "geom/partition.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <unordered_map>
#include <unordered_set>

#include "geom/arcs.h"

namespace dogear {

namespace {

class Sets {
 public:
  explicit Sets(std::size_t n) : parent_(n) { std::iota(parent_.begin(), parent_.end(), 0U); }
  std::size_t find(std::size_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  void unite(std::size_t a, std::size_t b) { parent_[find(a)] = find(b); }

 private:
  std::vector<std::size_t> parent_;
};

// A line; or a curve, by its center and its radius squared.
struct LineKey {
  Exact dx, dy, offset;
  Exact squared = 0;
  auto operator<=>(const LineKey&) const = default;
};

struct KeyHash {
  std::size_t operator()(const LineKey& l) const {
    return l.dx.hash() ^ (l.dy.hash() * 3) ^ (l.offset.hash() * 7) ^ (l.squared.hash() * 11);
  }
  std::size_t operator()(const Point& p) const { return p.x.hash() ^ (p.y.hash() * 5); }
};

LineKey line_of(const Point& a, const Point& b) {
  const Point d = b - a;
  if (d.x.is_zero()) return {Exact(0), Exact(1), a.x, {}};
  if (d.y.is_zero()) return {Exact(1), Exact(0), a.y, {}};
  const Exact slope = d.y / d.x;
  return {Exact(1), slope, a.y - slope * a.x, {}};
}

// A stretch of a meeting's line or curve: along curves clockwise, along lines from the least end.
Segment along(const Meeting& m) {
  const Segment& s = m.where;
  const bool forth =
      m.curve ? cross(s.a - m.curve->center, s.b - m.curve->center).sign() > 0 : s.a < s.b;
  return forth ? s : Segment{s.b, s.a};
}

LineKey key_of(const Meeting& m, const Segment& s) {
  if (m.curve) return {m.curve->center.x, m.curve->center.y, 0, m.curve->squared};
  return line_of(s.a, s.b);
}

}  // namespace

Partition::Partition(const std::vector<Meeting>& meetings) {
  std::unordered_map<LineKey, std::uint32_t, KeyHash> line_ids;
  std::vector<const LineKey*> lines;
  std::unordered_map<Point, std::uint32_t, KeyHash> vertex_ids;
  const auto vertex = [&](const Point& p) {
    const auto [slot, fresh] =
        vertex_ids.try_emplace(p, static_cast<std::uint32_t>(vertices_.size()));
    if (fresh) vertices_.push_back(p);
    return slot->second;
  };
  edges_.reserve(meetings.size());
  for (std::size_t m = 0; m < meetings.size(); ++m) {
    const Segment stretch = along(meetings[m]);
    const Point& from = stretch.a;
    const Point& to = stretch.b;
    const auto [slot, fresh] = line_ids.try_emplace(key_of(meetings[m], stretch),
                                                    static_cast<std::uint32_t>(lines.size()));
    if (fresh) lines.push_back(&slot->first);
    edges_.push_back({static_cast<std::uint32_t>(meetings[m].a),
                      static_cast<std::uint32_t>(meetings[m].b), vertex(from), vertex(to),
                      slot->second, 0, m});
  }
  std::vector<std::uint32_t> order(lines.size());
  std::iota(order.begin(), order.end(), 0U);
  std::sort(order.begin(), order.end(), [&](auto l, auto r) { return *lines[l] < *lines[r]; });
  std::vector<std::uint32_t> place(lines.size());
  std::vector<Direction> direction(lines.size());
  std::map<std::pair<Exact, Exact>, Direction> slanted;  // by slope; curves by their size
  curves_.resize(lines.size());
  for (std::uint32_t i = 0; i < order.size(); ++i) {
    const LineKey& line = *lines[order[i]];
    place[order[i]] = i;
    const bool curved = !line.squared.is_zero();
    if (curved) curves_[i] = Arc{{line.dx, line.dy}, line.squared};
    const Direction other = static_cast<Direction>(2 + slanted.size());
    const auto slant = std::pair(line.squared, curved ? Exact(0) : line.dy);
    direction[order[i]] = !curved && line.dx.is_zero() ? 1
                          : !curved && line.dy.is_zero()
                              ? 0
                              : slanted.try_emplace(slant, other).first->second;
  }
  for (Edge& e : edges_) {
    e.direction = direction[e.line];
    e.line = place[e.line];
  }
  std::sort(edges_.begin(), edges_.end(), [&](const Edge& l, const Edge& r) {
    if (l.line != r.line) return l.line < r.line;
    if (l.from == r.from) return false;
    const auto& curve = curves_[l.line];
    return curve ? comes_before(curve->center, vertices_[l.from], vertices_[r.from])
                 : vertices_[l.from] < vertices_[r.from];
  });
  // A curve that runs on past its first direction begins where it really begins.
  for (auto first = edges_.begin(); first != edges_.end();) {
    const auto last =
        std::find_if(first, edges_.end(), [&](const Edge& e) { return e.line != first->line; });
    if (curves_[first->line]) {
      auto start = first;
      while (start != last && start->from == (start == first ? last - 1 : start - 1)->to) ++start;
      if (start != last) std::rotate(first, start, last);
    }
    first = last;
  }
}

Subset Partition::subset(std::vector<std::size_t> parts) const {
  Subset out{std::move(parts), {}};
  const std::unordered_set<std::size_t> in(out.parts.begin(), out.parts.end());
  for (std::uint32_t i = 0; i < edges_.size(); ++i) {
    if (!in.contains(edges_[i].a) || !in.contains(edges_[i].b)) continue;
    out.edges.push_back(i);
  }
  return out;
}

Subset Partition::with_open(Subset set, std::size_t meeting) const {
  std::erase_if(set.edges, [&](std::uint32_t i) { return edges_[i].meeting == meeting; });
  return set;
}

Subset Partition::without(Subset set, std::size_t part) const {
  std::erase(set.parts, part);
  std::erase_if(set.edges,
                [&](std::uint32_t i) { return edges_[i].a == part || edges_[i].b == part; });
  return set;
}

// The vertices of a set that lie on its rim, ascending.
std::vector<std::uint32_t> Partition::rim(const Subset& set) const {
  std::vector<std::pair<std::uint32_t, std::uint32_t>> ends;  // vertex, part
  ends.reserve(set.edges.size() * 4);
  for (const std::uint32_t i : set.edges) {
    const Edge& e = edges_[i];
    for (const std::uint32_t v : {e.from, e.to}) {
      ends.emplace_back(v, e.a);
      ends.emplace_back(v, e.b);
    }
  }
  std::sort(ends.begin(), ends.end());
  std::vector<std::uint32_t> out;
  for (std::size_t i = 0; i < ends.size();) {
    std::size_t j = i;
    while (j < ends.size() && ends[j] == ends[i]) ++j;
    const std::uint32_t v = ends[i].first;
    if ((j - i) % 2 == 1 && (out.empty() || out.back() != v)) out.push_back(v);
    i = j;
  }
  return out;
}

std::vector<Partition::Range> Partition::ranges(const Subset& set) const {
  const std::vector<std::uint32_t> edge = rim(set);
  const auto on_rim = [&](std::uint32_t v) {
    return std::binary_search(edge.begin(), edge.end(), v);
  };
  std::vector<Range> out;
  const auto& e = set.edges;
  for (std::size_t i = 0; i < e.size();) {
    if (!on_rim(edges_[e[i]].from)) {
      ++i;
      continue;
    }
    std::size_t j = i;
    while (!on_rim(edges_[e[j]].to) && j + 1 < e.size() &&
           edges_[e[j + 1]].line == edges_[e[i]].line && edges_[e[j + 1]].from == edges_[e[j]].to) {
      ++j;
    }
    if (on_rim(edges_[e[j]].to)) out.push_back({i, j + 1, edges_[e[i]].direction});
    i = j + 1;
  }
  return out;
}

Segment Partition::where(const Subset& set, const Range& r) const {
  return {vertices_[edges_[set.edges[r.first]].from], vertices_[edges_[set.edges[r.last - 1]].to]};
}

void Partition::rank(const Subset& set, std::vector<Range>& cuts,
                     std::optional<Direction> lead) const {
  std::map<Direction, std::size_t> how_many;
  for (const Range& r : cuts) ++how_many[r.direction];
  const auto key = [&](const Range& r) {
    const int first = lead && r.direction == *lead ? 0 : 1;
    const Direction way = std::min<Direction>(r.direction, 2);
    return std::tuple(first, way, set.edges.size() - how_many[r.direction]);
  };
  std::stable_sort(cuts.begin(), cuts.end(),
                   [&](const Range& a, const Range& b) { return key(a) < key(b); });
}

std::vector<Direction> Partition::directions(const Subset& set) const {
  std::vector<Range> found = ranges(set);
  rank(set, found, {});
  std::vector<Direction> out;
  for (const Range& r : found) {
    if (std::find(out.begin(), out.end(), r.direction) == out.end()) out.push_back(r.direction);
  }
  return out;
}

std::optional<Split> Partition::split(const Subset& set, std::optional<Direction> lead) const {
  std::vector<Range> found = ranges(set);
  if (found.empty()) return std::nullopt;
  rank(set, found, lead);

  std::vector<char> sewn_last(set.edges.size(), 0);
  std::unordered_set<std::uint32_t> inner;  // vertices within the cuts taken
  std::vector<Range> taken;
  for (const Range& r : found) {
    bool crosses = false;
    for (std::size_t k = r.first; k + 1 < r.last && !crosses; ++k) {
      crosses = inner.contains(edges_[set.edges[k]].to);
    }
    if (crosses) continue;
    for (std::size_t k = r.first; k < r.last; ++k) {
      sewn_last[k] = 1;
      if (k + 1 < r.last) inner.insert(edges_[set.edges[k]].to);
    }
    taken.push_back(r);
  }

  std::vector<std::size_t> sorted = set.parts;
  std::sort(sorted.begin(), sorted.end());
  const auto index = [&](std::size_t part) {
    return static_cast<std::size_t>(std::lower_bound(sorted.begin(), sorted.end(), part) -
                                    sorted.begin());
  };
  Sets sets(sorted.size());
  for (std::size_t k = 0; k < set.edges.size(); ++k) {
    if (sewn_last[k] == 0) {
      sets.unite(index(edges_[set.edges[k]].a), index(edges_[set.edges[k]].b));
    }
  }
  Split out;
  std::vector<std::size_t> group(sorted.size(), sorted.size());  // by root
  for (const std::size_t part : set.parts) {
    std::size_t& g = group[sets.find(index(part))];
    if (g == sorted.size()) {
      g = out.groups.size();
      out.groups.emplace_back();
    }
    out.groups[g].parts.push_back(part);
  }
  const auto group_of = [&](std::size_t part) { return group[sets.find(index(part))]; };
  for (std::size_t k = 0; k < set.edges.size(); ++k) {
    if (sewn_last[k] != 0) continue;
    out.groups[group_of(edges_[set.edges[k]].a)].edges.push_back(set.edges[k]);
  }
  for (const Range& r : taken) {
    const Edge& e = edges_[set.edges[r.first]];
    out.joins.push_back({group_of(e.a), group_of(e.b), where(set, r), curves_[e.line]});
  }
  return out;
}

std::optional<Point> Partition::set_in_point(const Subset& set) const {
  // At a set-in corner three or more seams end and none of them runs straight through.
  std::map<Point, std::vector<Point>> ends;
  for (const std::uint32_t i : set.edges) {
    const Point& from = vertices_[edges_[i].from];
    const Point& to = vertices_[edges_[i].to];
    ends[from].push_back(to - from);
    ends[to].push_back(from - to);
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
  if (fallback || set.edges.empty()) return fallback;
  return vertices_[edges_[set.edges.front()].from];
}

std::vector<Point> Partition::rim_points(const Subset& set) const {
  std::vector<Point> out;
  for (const std::uint32_t v : rim(set)) out.push_back(vertices_[v]);
  return out;
}

std::vector<std::size_t> Partition::meetings(const Subset& set) const {
  std::vector<std::size_t> out;
  for (const std::uint32_t i : set.edges) out.push_back(edges_[i].meeting);
  return out;
}

}  // namespace dogear
