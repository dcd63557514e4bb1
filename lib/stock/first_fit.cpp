// First fit, longest first, with what a quilter does besides: the ends of higher strips are cut
// down for lower pieces, and rows are laid where a stretch has room above its rows.

#include <algorithm>
#include <map>
#include <numeric>

#include "stock/layout.h"

namespace dogear::stock {

namespace {

Steps used_length(const Strip& strip) {
  Steps sum = 0;
  for (const Stretch& s : strip.stretches) sum += s.length;
  return sum;
}

Steps used_length(const Row& row) {
  Steps sum = 0;
  for (const Run& r : row.runs) sum += r.length;
  return sum;
}

Steps used_height(const Stretch& stretch) {
  Steps sum = 0;
  for (const Row& r : stretch.rows) sum += r.height;
  return sum;
}

class Filler {
 public:
  Filler(const Reduced& reduced, const Manner& manner, std::vector<Strip>& strips)
      : reduced_(reduced), manner_(manner), strips_(strips), sheets_(reduced.sources.size()) {
    for (const Strip& s : strips_) {
      used_.push_back(used_length(s));
      if (reduced_.cloth(s.source)) continue;
      auto& sheets = sheets_[s.source];
      const auto at = static_cast<std::size_t>(s.sheet);
      if (at >= sheets.size()) sheets.resize(at + 1, *reduced_.sources[s.source].height);
      sheets[at] -= s.height;
    }
  }

  bool lay(std::size_t kind, long long& left) {
    const ReducedKind& k = reduced_.kinds[kind];
    const long long in_full = most_in_full(k);
    while (manner_.whole && in_full > 0 && left > in_full) {
      if (!open(kind, left)) break;
    }
    for (std::size_t s = 0; s < strips_.size() && left > 0; ++s) put(s, kind, left);
    while (left > 0 && open(kind, left)) {
    }
    return left == 0;
  }

 private:
  long long most_in_full(const ReducedKind& k) const {
    const Source& last = reduced_.sources.back();
    return last.height && *last.height < k.height ? 0 : k.cuts_in(last.length);
  }

  // Rows of a kind one above the other on a length: as few cuts a row as they need.
  std::vector<Row> rows(std::size_t kind, Steps height, Steps length, long long left) const {
    const ReducedKind& k = reduced_.kinds[kind];
    const long long deep = height / k.height;
    long long across = k.cuts_in(length);
    std::vector<Row> out;
    if (deep == 0 || across == 0) return out;
    across = std::min(across, (left + deep - 1) / deep);
    for (long long r = 0; r < deep && left > 0; ++r) {
      const long long n = std::min(across, left);
      out.push_back({k.height, {{kind, n, k.length(n)}}});
      left -= n;
    }
    return out;
  }

  bool enough(long long cuts, long long left) const {
    return cuts > 0 && (!manner_.whole || cuts == left);
  }

  static long long cuts(const std::vector<Row>& rows) {
    long long sum = 0;
    for (const Row& r : rows) sum += r.runs[0].cuts;
    return sum;
  }

  void put(std::size_t s, std::size_t kind, long long& left) {
    const ReducedKind& k = reduced_.kinds[kind];
    Strip& strip = strips_[s];
    if (strip.height < k.height) return;
    const bool own = strip.height == k.height;
    if (!own && !manner_.down) return;
    if (!own) put_above(strip, kind, left);
    if (left > 0) put_at_end(s, kind, left);
  }

  // In the rows of a stretch that reach not all along, and above its rows.
  void put_above(Strip& strip, std::size_t kind, long long& left) {
    const ReducedKind& k = reduced_.kinds[kind];
    for (Stretch& stretch : strip.stretches) {
      for (Row& row : stretch.rows) {
        if (row.height != k.height || left == 0) continue;
        const long long n = std::min(left, k.cuts_in(stretch.length - used_length(row)));
        if (!enough(n, left)) continue;
        row.runs.push_back({kind, n, k.length(n)});
        left -= n;
      }
      if (left == 0) return;
      std::vector<Row> more = rows(kind, strip.height - used_height(stretch), stretch.length, left);
      if (!enough(cuts(more), left)) continue;
      left -= cuts(more);
      for (Row& r : more) stretch.rows.push_back(std::move(r));
    }
  }

  void put_at_end(std::size_t s, std::size_t kind, long long& left) {
    Strip& strip = strips_[s];
    const Steps room = reduced_.sources[strip.source].length - used_[s];
    std::vector<Row> more = rows(kind, strip.height, room, left);
    if (!enough(cuts(more), left)) return;
    const Steps length = more[0].runs[0].length;
    left -= cuts(more);
    used_[s] += length;
    const bool full = strip.height == more[0].height;
    if (full && !strip.stretches.empty() && strip.stretches.back().rows.size() == 1 &&
        strip.stretches.back().rows[0].height == strip.height) {
      strip.stretches.back().length += length;
      strip.stretches.back().rows[0].runs.push_back(more[0].runs[0]);
    } else {
      strip.stretches.push_back({length, std::move(more)});
    }
  }

  // A new strip from the first source that has room for one.
  bool open(std::size_t kind, long long& left) {
    const Steps needed = reduced_.kinds[kind].height;
    for (std::size_t s = 0; s < reduced_.sources.size(); ++s) {
      if (!reduced_.fits(kind, s)) continue;
      const Source& source = reduced_.sources[s];
      Strip strip;
      strip.source = s;
      strip.height = needed;
      if (reduced_.cloth(s)) {
        const auto allowed =
            std::lower_bound(manner_.heights.begin(), manner_.heights.end(), needed);
        if (allowed != manner_.heights.end()) strip.height = *allowed;
      } else {
        auto& sheets = sheets_[s];
        std::size_t at = 0;
        while (at < sheets.size() && sheets[at] < needed) ++at;
        if (at == sheets.size()) {
          if (source.had && static_cast<long long>(at) >= *source.had) continue;
          sheets.push_back(*source.height);
        }
        const auto allowed =
            std::lower_bound(manner_.heights.begin(), manner_.heights.end(), needed);
        if (allowed != manner_.heights.end() && *allowed <= sheets[at]) strip.height = *allowed;
        sheets[at] -= strip.height;
        strip.sheet = static_cast<long long>(at);
      }
      strips_.push_back(std::move(strip));
      used_.push_back(0);
      std::vector<Row> first = rows(kind, strips_.back().height, source.length, left);
      left -= cuts(first);
      used_.back() = first[0].runs[0].length;
      strips_.back().stretches.push_back({used_.back(), std::move(first)});
      return true;
    }
    return false;
  }

  const Reduced& reduced_;
  const Manner& manner_;
  std::vector<Strip>& strips_;
  std::vector<std::vector<Steps>> sheets_;  // by source: height left on each that is begun
  std::vector<Steps> used_;                 // by strip
};

}  // namespace

bool fill(const Reduced& reduced, std::vector<long long>& need, const Manner& manner,
          std::vector<Strip>& strips) {
  Filler filler(reduced, manner, strips);
  std::vector<std::size_t> order = manner.order;
  if (order.empty()) {
    order.resize(need.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
  }
  bool all = true;
  for (const std::size_t k : order) {
    if (need[k] > 0 && !filler.lay(k, need[k])) all = false;
  }
  return all;
}

}  // namespace dogear::stock
