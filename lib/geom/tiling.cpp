// Fit by cancelling boundaries.
//
// Goal: decide exactly whether parts tile an outline. A clockwise simple polygon is the set where
// its winding number is 1. If the directed edges of all parts, taken together, cancel to the
// directed edges of the outline, then the parts' winding numbers add up to the outline's, which is
// 1 inside and 0 outside: every point inside lies in exactly one part. Conversely, a gap or an
// overlap leaves an edge that nothing cancels. So no area is compared and no tolerance is needed.
//
// Edges are grouped by the line they lie on; on each line a sweep over the sorted end points
// counts how many edges run forth and back on each elementary stretch. Cost: n log n for n edges.
// Clipping polygons in pairs was tried on paper and left: n² and it needs a tolerance.

#include "geom/tiling.h"

#include <algorithm>
#include <map>
#include <unordered_map>

#include "geom/arcs.h"

namespace dogear {

namespace {

constexpr std::size_t outline_id = static_cast<std::size_t>(-1);

struct Line {
  Exact dx, dy, offset;
  bool operator==(const Line&) const = default;
};

struct LineHash {
  std::size_t operator()(const Line& l) const {
    return l.dx.hash() ^ (l.dy.hash() * 3) ^ (l.offset.hash() * 7);
  }
};

struct Run {
  Exact from, to;  // positions along the line, from < to
  bool forth = true;
  std::size_t part = 0;
};

struct OnLine {
  std::vector<Run> runs;
  Point origin;  // a point of the line, and its position
  Exact origin_at;
};

Line line_of(const Segment& s) {
  const Point d = s.b - s.a;
  if (d.x.is_zero()) return {Exact(0), Exact(1), -s.a.x};
  if (d.y.is_zero()) return {Exact(1), Exact(0), s.a.y};
  const Exact slope = d.y / d.x;
  return {Exact(1), slope, s.a.y - slope * s.a.x};
}

class Sweep {
 public:
  void add(const Polygon& p, std::size_t id, bool reversed) {
    for (std::size_t i = 0; i < p.size(); ++i) {
      Segment s = p.edge(i);
      if (reversed) std::swap(s.a, s.b);
      const Line line = line_of(s);
      const auto [slot, fresh] = index_.try_emplace(line, lines_.size());
      if (fresh) lines_.push_back({line, {}});
      const auto at = [&line](const Point& q) { return line.dx.is_zero() ? q.y : q.x; };
      Run run{at(s.a), at(s.b), true, id};
      if (run.to < run.from) {
        std::swap(run.from, run.to);
        run.forth = false;
      }
      lines_[slot->second].second.push_back(std::move(run));
    }
  }

  Fit sweep() {
    Fit out;
    for (auto& [line, runs] : lines_) sweep_line(line, runs, out);
    return out;
  }

 private:
  static Point point_at(const Line& line, const Exact& t) {
    if (line.dx.is_zero()) return {-line.offset, t};
    if (line.dy.is_zero()) return {t, line.offset};
    return {t, line.dy * t + line.offset};
  }

  static void sweep_line(const Line& line, std::vector<Run>& runs, Fit& out) {
    std::vector<Exact> stops;
    for (const Run& r : runs) {
      stops.push_back(r.from);
      stops.push_back(r.to);
    }
    std::sort(stops.begin(), stops.end());
    stops.erase(std::unique(stops.begin(), stops.end()), stops.end());
    std::sort(runs.begin(), runs.end(), [](const Run& a, const Run& b) { return a.from < b.from; });
    std::vector<const Run*> active;
    std::size_t next = 0;
    const std::size_t first_meeting = out.meetings.size();
    const std::size_t first_misfit = out.misfits.size();
    for (std::size_t i = 0; i + 1 < stops.size(); ++i) {
      std::erase_if(active, [&](const Run* r) { return r->to <= stops[i]; });
      while (next < runs.size() && runs[next].from <= stops[i]) active.push_back(&runs[next++]);
      if (active.empty()) continue;
      record(line, stops[i], stops[i + 1], active, out, first_meeting, first_misfit);
    }
  }

  static void record(const Line& line, const Exact& from, const Exact& to,
                     const std::vector<const Run*>& active, Fit& out, std::size_t first_meeting,
                     std::size_t first_misfit) {
    int balance = 0;
    for (const Run* r : active) balance += r->forth ? 1 : -1;
    const Segment where{point_at(line, from), point_at(line, to)};
    if (balance != 0) {
      std::vector<std::size_t> parts;
      for (const Run* r : active) {
        if (r->part != outline_id) parts.push_back(r->part);
      }
      if (out.misfits.size() > first_misfit) {
        Misfit& last = out.misfits.back();
        if (last.where.b == where.a && last.balance == balance && last.parts == parts) {
          last.where.b = where.b;
          return;
        }
      }
      out.misfits.push_back({where, balance, std::move(parts)});
      return;
    }
    if (active.size() != 2) return;
    const Run* a = active[0];
    const Run* b = active[1];
    if (a->part == outline_id || b->part == outline_id) return;
    if (a->part > b->part) std::swap(a, b);
    Meeting m{a->part, b->part, where};
    if (!a->forth) std::swap(m.where.a, m.where.b);
    for (std::size_t k = out.meetings.size(); k > first_meeting; --k) {
      Meeting& last = out.meetings[k - 1];
      if (last.a != m.a || last.b != m.b) continue;
      if (last.where.b == m.where.a) {
        last.where.b = m.where.b;
        return;
      }
      if (last.where.a == m.where.b) {
        last.where.a = m.where.a;
        return;
      }
    }
    out.meetings.push_back(std::move(m));
  }

  std::vector<std::pair<Line, std::vector<Run>>> lines_;
  std::unordered_map<Line, std::size_t, LineHash> index_;
};

// Follows unmatched edges into loops; an edge with balance -1 runs the other way.
std::vector<Polygon> loops(const std::vector<Misfit>& edges) {
  std::multimap<Point, Point> from;
  for (const Misfit& m : edges) {
    for (int k = 0; k < std::abs(m.balance); ++k) {
      if (m.balance > 0) {
        from.emplace(m.where.a, m.where.b);
      } else {
        from.emplace(m.where.b, m.where.a);
      }
    }
  }
  std::vector<Polygon> out;
  while (!from.empty()) {
    Polygon loop;
    auto it = from.begin();
    const Point start = it->first;
    while (it != from.end()) {
      loop.corners.push_back(it->first);
      const Point next = it->second;
      from.erase(it);
      if (next == start) break;
      it = from.find(next);
    }
    out.push_back(std::move(loop));
  }
  return out;
}

}  // namespace

namespace {

void mark_curves(std::vector<Meeting>& meetings, const std::vector<Polygon>& parts) {
  for (Meeting& m : meetings) {
    if (parts[m.a].arcs.empty() || parts[m.b].arcs.empty()) continue;
    m.curve = arc_of(m.where, parts[m.a].arcs);
  }
}

}  // namespace

Fit fit(const std::vector<Polygon>& parts, const Polygon& outline) {
  Sweep sweep;
  for (std::size_t i = 0; i < parts.size(); ++i) sweep.add(parts[i], i, false);
  sweep.add(outline, outline_id, true);
  Fit out = sweep.sweep();
  mark_curves(out.meetings, parts);
  return out;
}

Joined join(const std::vector<Polygon>& parts) {
  Sweep sweep;
  for (std::size_t i = 0; i < parts.size(); ++i) sweep.add(parts[i], i, false);
  Joined out;
  out.fit = sweep.sweep();
  mark_curves(out.fit.meetings, parts);
  std::vector<Polygon> found = loops(out.fit.misfits);
  if (found.size() != 1) return out;
  for (const Polygon& p : parts) {
    for (const Arc& arc : p.arcs) {
      for (std::size_t i = 0; i < found.front().size(); ++i) {
        if (!arc_of(found.front().edge(i), {arc})) continue;
        found.front().arcs.push_back(arc);
        break;
      }
    }
  }
  Polygon outline = tidy(found.front());
  if (area(found.front()).sign() <= 0 || !is_simple(outline)) return out;
  out.outline = std::move(outline);
  out.fit.misfits.clear();
  return out;
}

}  // namespace dogear
