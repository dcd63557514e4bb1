// Blocks on pages.
//
// Goal: pages that are full, with figures as large as that allows. Each page takes the largest
// scale at which its entries fit; the parting costs least by pages, smallness of figures and
// emptiness. best[j] is the least cost of entries 0..j-1, the last of which ends a page or stands
// alone on it. An entry that no scale brings on one page runs on at every scale that is tried, and
// up to two more may follow it on its last page; a page that is mostly empty at the end is shared
// with the next section. Heights are estimates, so the parting only advises the page breaker. Ends
// because each entry is reached from the one before it, in the worst case by a page of its own.

#include "booklet/block_pages.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

namespace dogear::booklet {
namespace {

// pt an inch, of steps; the last two for blocks that else take more than a page.
constexpr std::array<double, 8> scales{16, 14.5, 13, 11.5, 10, 8.5, 7, 6};
constexpr std::size_t shared_scales = 6;  // of those, for several entries on one page
constexpr double of_smallness = 0.004;    // a page, by the square of what the scale is short of
constexpr double of_emptiness_of_page = 0.9;
constexpr double lone = 0.8;                // cost of a page of nothing to sew
constexpr std::size_t most_running_on = 3;  // entries, the first of them longer than a page
// The next section begins on a page of which more than this is empty, and bears part of its cost.
constexpr double mostly_empty = 0.62, shared_with_next = 0.6;

// Entries one after the other on as many pages as they need, the first of them `first` high;
// nothing when a row is higher than a page.
std::vector<double> packed(const std::vector<Reach>& entries, double first, double room,
                           double apart) {
  std::vector<double> pages{0};
  for (const Reach& entry : entries) {
    double start = pages.back() > 0 ? pages.back() + apart : 0;  // of the entry, or of what runs on
    double before = 0;
    for (std::size_t i = 0; i < entry.size(); ++i) {
      const double bottom = pages.size() == 1 ? first : room;
      if (start + entry[i] > bottom) {
        if (pages.back() > 0 || (pages.size() == 1 && first < room)) pages.push_back(0);
        start = -before;
        if (entry[i] - before > room) return {};
      }
      pages.back() = start + entry[i];
      before = entry[i];
    }
  }
  return pages;
}

class Planner {
 public:
  Planner(const BlockPages& pages, const ReachAt& reach)
      : pages_(pages),
        reach_at_(reach),
        n_(pages.compact.size()),
        begun_(std::clamp(pages.begun, 0.0, pages.height)),
        best_(n_ + 1, std::numeric_limits<double>::infinity()),
        last_(n_ + 1) {
    best_[0] = 0;
  }

  std::vector<BlockPage> plan() {
    for (std::size_t i = 0; i < n_; ++i) {
      for (std::size_t j = i + 1; j <= n_ && try_one_page(i, j); ++j) {
      }
      if (fits(i, i + 1, scales.size() - 1)) continue;
      run_on(i);
      if (best_[i + 1] < std::numeric_limits<double>::infinity()) continue;
      // A row of it is higher than a page: the page breaker tells what can be done.
      best_[i + 1] = best_[i] + std::ceil(reach(i, scales.size() - 1).back() / pages_.height);
      last_[i + 1] = {i, i + 1, scales.back(), 0, true};
    }
    std::vector<BlockPage> out;
    for (std::size_t end = n_; end > 0; end = last_[end].begin) out.push_back(last_[end]);
    std::reverse(out.begin(), out.end());
    return out;
  }

 private:
  double room(std::size_t i) const { return pages_.height - (i == 0 ? begun_ : 0); }

  const Reach& reach(std::size_t e, std::size_t s) {
    const auto [at, fresh] = known_.try_emplace({e, s});
    if (fresh) at->second = reach_at_(e, scales[s]);
    return at->second;
  }

  bool fits(std::size_t i, std::size_t j, std::size_t s) {
    double height = pages_.apart * static_cast<double>(j - i - 1);
    for (std::size_t e = i; e < j && height <= room(i); ++e) height += reach(e, s).back();
    return height <= room(i);
  }

  bool try_one_page(std::size_t i, std::size_t j) {
    const std::size_t most = j > i + 1 ? shared_scales : scales.size();
    std::size_t s = 0;
    while (s < most && !fits(i, j, s)) ++s;
    if (s < most) consider(i, j, s);
    return s < most;
  }

  void run_on(std::size_t i) {
    for (std::size_t j = i + 1; j <= std::min(n_, i + most_running_on); ++j) {
      const std::size_t most = j > i + 1 ? scales.size() - 1 : scales.size();
      for (std::size_t s = 0; s < most; ++s) consider(i, j, s);
    }
  }

  void consider(std::size_t i, std::size_t j, std::size_t s) {
    std::vector<Reach> group;
    for (std::size_t e = i; e < j; ++e) group.push_back(reach(e, s));
    const std::vector<double> filled = packed(group, room(i), pages_.height, pages_.apart);
    if (filled.empty()) return;
    const double short_of = scales[0] - scales[s];
    double cost =
        best_[i] + static_cast<double>(filled.size()) * (1 + of_smallness * short_of * short_of);
    for (std::size_t p = 0; p < filled.size(); ++p) {
      const double high = std::max(1.0, p == 0 ? room(i) : pages_.height);
      const double empty = std::max(0.0, 1 - filled[p] / high);
      if (j < n_ || p + 1 < filled.size())
        cost += of_emptiness_of_page * empty * empty;
      else if (p > 0 && empty > mostly_empty)
        cost -= shared_with_next;
    }
    const auto at = pages_.compact.begin();
    if (std::all_of(at + static_cast<std::ptrdiff_t>(i), at + static_cast<std::ptrdiff_t>(j),
                    [](bool compact) { return compact; }))
      cost += lone;
    if (cost >= best_[j]) return;
    best_[j] = cost;
    last_[j] = {i, j, scales[s], room(i) - filled[0], filled.size() > 1};
  }

  const BlockPages& pages_;
  const ReachAt& reach_at_;
  const std::size_t n_;
  const double begun_;
  std::vector<double> best_;
  std::vector<BlockPage> last_;
  std::map<std::pair<std::size_t, std::size_t>, Reach> known_;
};

}  // namespace

std::vector<BlockPage> plan_block_pages(const BlockPages& pages, const ReachAt& reach) {
  return Planner(pages, reach).plan();
}

}  // namespace dogear::booklet
