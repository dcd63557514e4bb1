// The shortest edit script by growing paths along diagonals (E. W. Myers, An O(ND) Difference
// Algorithm and Its Variations, 1986). Goal: the fewest lines taken out and put in.
//
// Write k = x - y for the diagonal of the point (x, y): x old and y new lines are behind us. With
// d edits the furthest x on each diagonal from -d to d follows from those with d - 1 edits: one
// line taken out comes from diagonal k - 1, one put in from k + 1, and equal lines are free. The
// furthest points of every d are kept, so that the path is found again from the end.

#include "compile/line_diff.h"

#include <algorithm>

namespace dogear {

namespace {

constexpr long most_edits = 1000;

class Paths {
 public:
  Paths(const std::vector<std::string>& was, const std::vector<std::string>& now, std::size_t start,
        std::size_t was_end, std::size_t now_end)
      : was_(was),
        now_(now),
        start_(start),
        n_(static_cast<long>(was_end - start)),
        m_(static_cast<long>(now_end - start)) {}

  // The edits from the first to the last, as points before each; false beyond `most_edits`.
  bool find() {
    for (long d = 0; d <= std::min(n_ + m_, most_edits); ++d) {
      std::vector<long> row(static_cast<std::size_t>(2 * d + 1), 0);
      for (long k = -d; k <= d; k += 2) {
        const long x = slide(k, d == 0 ? 0 : step(d, k));
        row[static_cast<std::size_t>(k + d)] = x;
        if (x >= n_ && x - k >= m_) {
          rows_.push_back(std::move(row));
          return true;
        }
      }
      rows_.push_back(std::move(row));
    }
    return false;
  }

  std::vector<Hunk> hunks() {
    std::vector<Hunk> out;
    long k = n_ - m_;
    for (long d = static_cast<long>(rows_.size()) - 1; d > 0; --d) {
      const bool put_in = from_above(d, k);
      const long before = put_in ? k + 1 : k - 1;
      const long old_x = furthest(d - 1, before);
      add(out, old_x, old_x - before, put_in);
      k = before;
    }
    std::reverse(out.begin(), out.end());
    return out;
  }

 private:
  long furthest(long d, long k) const {
    if (k < -d || k > d) return -1;
    return rows_[static_cast<std::size_t>(d)][static_cast<std::size_t>(k + d)];
  }

  // Whether the dth edit onto diagonal k puts a line in (from k + 1) or takes one out.
  bool from_above(long d, long k) const {
    return k == -d || (k != d && furthest(d - 1, k - 1) < furthest(d - 1, k + 1));
  }

  long step(long d, long k) const {
    return from_above(d, k) ? furthest(d - 1, k + 1) : furthest(d - 1, k - 1) + 1;
  }

  long slide(long k, long x) const {
    while (x < n_ && x - k < m_ &&
           was_[start_ + static_cast<std::size_t>(x)] ==
               now_[start_ + static_cast<std::size_t>(x - k)]) {
      ++x;
    }
    return x;
  }

  // Edits come from last to first; neighbours make one hunk.
  void add(std::vector<Hunk>& out, long x, long y, bool put_in) const {
    const auto was = start_ + static_cast<std::size_t>(x);
    const auto now = start_ + static_cast<std::size_t>(y);
    if (!out.empty() && out.back().was == was + (put_in ? 0 : 1) &&
        out.back().now == now + (put_in ? 1 : 0)) {
      Hunk& last = out.back();
      last.was = was;
      last.now = now;
      ++(put_in ? last.come : last.gone);
      return;
    }
    out.push_back({was, put_in ? 0u : 1u, now, put_in ? 1u : 0u});
  }

  const std::vector<std::string>&was_, &now_;
  std::size_t start_;
  long n_, m_;
  std::vector<std::vector<long>> rows_;  // by number of edits, then by diagonal
};

}  // namespace

std::vector<Hunk> diff_lines(const std::vector<std::string>& was,
                             const std::vector<std::string>& now) {
  std::size_t start = 0, was_end = was.size(), now_end = now.size();
  while (start < was_end && start < now_end && was[start] == now[start]) ++start;
  while (was_end > start && now_end > start && was[was_end - 1] == now[now_end - 1]) {
    --was_end;
    --now_end;
  }
  if (start == was_end && start == now_end) return {};
  Paths paths(was, now, start, was_end, now_end);
  if (!paths.find()) return {{start, was_end - start, start, now_end - start}};
  return paths.hunks();
}

}  // namespace dogear
