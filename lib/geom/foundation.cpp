// Sewing orders on a paper foundation.
//
// The paper has the seam lines printed on it. A patch is laid right sides together on what is sewn,
// sewn along one printed line, and flipped over it; what it covers lies beyond the line, and its
// seam crosses the allowances of all seams that end on it. So a patch P can be sewn to the patches
// U that are there if and only if
//   1. P and U meet along one straight stretch s: one segment, all of their common boundary,
//   2. P lies on one side of the line through s, since cloth flipped over a line covers no more,
//   and
//   3. U hangs together, as it is sewn on one paper before P comes.
// U need not be convex, and may reach beyond the line elsewhere: it is not sewn there.
//
// The order is found backwards. Call P removable from a set R of patches if P can be sewn to R
// without P. An order of R is a row of removals down to one patch. Whichever is taken does not
// matter: of two patches P and Q removable from R, P is still removable once Q is gone, unless the
// two are all of R.
//   Proof. The section is a disc, a simple polygon without holes. By (1) and (3) s is a chord of R:
// it runs from rim to rim and meets the rim nowhere between, for a notch of the rim that ended in
// s would part U. So P and U are discs as well, and all sets that are reached by removals are. Let
// s and t be the chords of P and Q. If P and Q do not meet, Q's going takes nothing from s. If they
// meet, they do so along s and along t, which thus lie on one line and overlap. A chord ends where
// its line first leaves R, so s = t; P is all of R on one side of it and Q all on the other.
// So the search takes any removable patch and never goes back; where it is stuck there is no order.
// It costs n² looks at a patch's meetings.
//
// Freedom is used for an order that is natural to sew: of the removable patches, one that touches
// the patch removed before (the paper is worked from one end to the other), then one whose seam is
// parallel to the seam before (opposite sides before the paper is turned), then the one written
// last. Of the last two that patch comes first to which others are sewn along seams of another
// direction: the center of a square in a square, or the goose before its sky. Same patches, same
// order.

#include "geom/foundation.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace dogear {

namespace {

struct Stretch {
  Exact from, to;
  std::size_t other = 0;
};

// Around a center, near the patch before, level with its seam, written late.
using Rank = std::tuple<bool, bool, bool, std::size_t>;

bool parallel(const Segment& a, const Segment& b) { return cross(a.b - a.a, b.b - b.a).is_zero(); }

}  // namespace

std::optional<FoundationSeam> Foundation::seam(std::size_t patch,
                                               const std::vector<bool>& there) const {
  std::optional<Segment> line;
  std::vector<Stretch> along;
  std::map<std::size_t, Exact> lengths;
  for (const Meeting& m : meetings_) {
    if (m.a != patch && m.b != patch) continue;
    const std::size_t other = m.a == patch ? m.b : m.a;
    if (!there[other]) continue;
    if (m.curve) return std::nullopt;
    if (!line) line = m.where;
    const Point d = line->b - line->a;
    if (!cross(d, m.where.a - line->a).is_zero() || !cross(d, m.where.b - line->a).is_zero()) {
      return std::nullopt;
    }
    const Exact a = dot(d, m.where.a - line->a);
    const Exact b = dot(d, m.where.b - line->a);
    along.push_back({min(a, b), max(a, b), other});
    lengths[other] += max(a, b) - min(a, b);
  }
  if (!line || !hangs_together(there)) return std::nullopt;
  const Point d = line->b - line->a;
  int side = 0;
  for (const Point& c : patches_[patch].corners) {
    const int s = cross(d, c - line->a).sign();
    if (s != 0 && s == -side) return std::nullopt;
    if (s != 0) side = s;
  }
  std::sort(along.begin(), along.end(), [](const Stretch& a, const Stretch& b) {
    return std::tie(a.from, a.to, a.other) < std::tie(b.from, b.to, b.other);
  });
  for (std::size_t i = 0; i + 1 < along.size(); ++i) {
    if (along[i].to != along[i + 1].from) return std::nullopt;
  }
  FoundationSeam out;
  out.patch = patch;
  const Exact all = dot(d, d);
  out.where = {line->a + d * (along.front().from / all), line->a + d * (along.back().to / all)};
  out.against = lengths.begin()->first;
  for (const auto& [other, length] : lengths) {
    if (lengths[out.against] < length) out.against = other;
  }
  return out;
}

bool Foundation::hangs_together(const std::vector<bool>& there) const {
  std::vector<bool> seen(there.size(), false);
  std::vector<std::size_t> open;
  for (std::size_t i = 0; i < there.size() && open.empty(); ++i) {
    if (there[i]) open.push_back(i);
  }
  if (open.empty()) return false;
  seen[open.front()] = true;
  while (!open.empty()) {
    const std::size_t p = open.back();
    open.pop_back();
    for (const Meeting& m : meetings_) {
      if (m.a != p && m.b != p) continue;
      const std::size_t other = m.a == p ? m.b : m.a;
      if (!there[other] || seen[other]) continue;
      seen[other] = true;
      open.push_back(other);
    }
  }
  return seen == there;
}

bool Foundation::touch(std::size_t a, std::size_t b) const {
  return std::any_of(meetings_.begin(), meetings_.end(), [&](const Meeting& m) {
    return (m.a == a && m.b == b) || (m.a == b && m.b == a);
  });
}

Foundation::Answer Foundation::order(const std::vector<std::size_t>& first,
                                     const std::vector<std::size_t>& later) const {
  std::vector<bool> there(patches_.size(), false);
  for (const std::size_t p : first) there[p] = true;
  for (const std::size_t p : later) there[p] = true;
  std::vector<std::size_t> left = later;
  std::sort(left.begin(), left.end());
  std::vector<FoundationSeam> removed;
  // The very first patch is sewn to nothing.
  const std::size_t stay = first.empty() ? 1 : 0;
  const auto is_center = [&](std::size_t p, const Segment& own) {
    return std::any_of(removed.begin(), removed.end(), [&](const FoundationSeam& r) {
      return r.against == p && !parallel(r.where, own);
    });
  };
  while (left.size() > stay) {
    std::optional<FoundationSeam> best;
    Rank rank;
    for (const std::size_t p : left) {
      there[p] = false;
      auto s = seam(p, there);
      there[p] = true;
      if (!s) continue;
      const bool around = stay == 1 && left.size() == 2 && is_center(s->against, s->where);
      const bool near = !removed.empty() && touch(p, removed.back().patch);
      const bool level = !removed.empty() && parallel(s->where, removed.back().where);
      const Rank own{around, near, level, p};
      if (best && own < rank) continue;
      rank = own;
      best = std::move(s);
    }
    if (!best) return {{}, {}, left};
    there[best->patch] = false;
    std::erase(left, best->patch);
    removed.push_back(std::move(*best));
  }
  Answer out;
  out.order = left;
  out.seams.assign(removed.rbegin(), removed.rend());
  for (const FoundationSeam& s : out.seams) out.order.push_back(s.patch);
  return out;
}

Foundation::Answer Foundation::order() const {
  std::vector<std::size_t> all(patches_.size());
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
  return order({}, all);
}

std::optional<std::vector<std::size_t>> Foundation::halves() const {
  for (const Meeting& m : meetings_) {
    const Point d = m.where.b - m.where.a;
    std::vector<std::size_t> left, right;
    bool crossed = false;
    for (std::size_t p = 0; p < patches_.size() && !crossed; ++p) {
      int side = 0;
      for (const Point& c : patches_[p].corners) {
        const int s = cross(d, c - m.where.a).sign();
        crossed = crossed || (s != 0 && s == -side);
        if (s != 0) side = s;
      }
      (side < 0 ? left : right).push_back(p);
    }
    if (crossed || left.empty() || right.empty()) continue;
    if (order({}, left).order.empty() || order({}, right).order.empty()) continue;
    return left;
  }
  return std::nullopt;
}

std::vector<Point> Foundation::turns(std::size_t patch,
                                     const std::vector<std::size_t>& others) const {
  std::vector<Segment> mine;
  for (const Meeting& m : meetings_) {
    if (m.a != patch && m.b != patch) continue;
    const std::size_t other = m.a == patch ? m.b : m.a;
    if (std::find(others.begin(), others.end(), other) != others.end()) mine.push_back(m.where);
  }
  std::vector<Point> out;
  for (std::size_t i = 0; i < mine.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      if (parallel(mine[i], mine[k])) continue;
      for (const Point& p : {mine[i].a, mine[i].b}) {
        const bool joint = p == mine[k].a || p == mine[k].b;
        if (joint && std::find(out.begin(), out.end(), p) == out.end()) out.push_back(p);
      }
    }
  }
  return out;
}

}  // namespace dogear
