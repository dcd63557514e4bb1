#include "stock/layout.h"

#include <algorithm>
#include <map>
#include <set>

namespace dogear::stock {

namespace {

bool same(const Run& a, const Run& b) {
  return a.kind == b.kind && a.cuts == b.cuts && a.length == b.length;
}

bool same(const Row& a, const Row& b) {
  return a.height == b.height &&
         std::equal(a.runs.begin(), a.runs.end(), b.runs.begin(), b.runs.end(),
                    [](const Run& x, const Run& y) { return same(x, y); });
}

bool same(const Stretch& a, const Stretch& b) {
  return a.length == b.length &&
         std::equal(a.rows.begin(), a.rows.end(), b.rows.begin(), b.rows.end(),
                    [](const Row& x, const Row& y) { return same(x, y); });
}

bool same(const Strip& a, const Strip& b) {
  return a.source == b.source && a.height == b.height &&
         std::equal(a.stretches.begin(), a.stretches.end(), b.stretches.begin(), b.stretches.end(),
                    [](const Stretch& x, const Stretch& y) { return same(x, y); });
}

// Makes one run of each kind in a row where that is no longer.
void join_runs(const Reduced& reduced, Row& row) {
  std::vector<Run> runs;
  for (const Run& run : row.runs) {
    const ReducedKind& kind = reduced.kinds[run.kind];
    const auto before = std::find_if(runs.begin(), runs.end(), [&](const Run& r) {
      const auto cuts = static_cast<std::size_t>(r.cuts + run.cuts);
      return r.kind == run.kind && cuts <= kind.run.size() &&
             kind.run[cuts - 1] <= r.length + run.length;
    });
    if (before == runs.end()) {
      runs.push_back(run);
    } else {
      before->cuts += run.cuts;
      before->length = kind.length(before->cuts);
    }
  }
  row.runs = std::move(runs);
}

Steps length_of(const Row& row) {
  Steps sum = 0;
  for (const Run& r : row.runs) sum += r.length;
  return sum;
}

bool rows_alike(const Stretch& a, const Stretch& b) {
  return std::equal(a.rows.begin(), a.rows.end(), b.rows.begin(), b.rows.end(),
                    [](const Row& x, const Row& y) { return x.height == y.height; });
}

// As short as its rows allow, with the longest of equally high rows first.
void tighten(const Reduced& reduced, Stretch& stretch) {
  Steps longest = 0;
  for (Row& row : stretch.rows) {
    join_runs(reduced, row);
    longest = std::max(longest, length_of(row));
  }
  stretch.length = longest;
  std::stable_sort(stretch.rows.begin(), stretch.rows.end(), [](const Row& a, const Row& b) {
    return a.height != b.height ? a.height > b.height : length_of(a) > length_of(b);
  });
}

}  // namespace

std::vector<long long> cuts_of(const Reduced& reduced, const std::vector<Strip>& strips) {
  std::vector<long long> out(reduced.kinds.size(), 0);
  for (const Strip& strip : strips) {
    for (const Stretch& stretch : strip.stretches) {
      for (const Row& row : stretch.rows) {
        for (const Run& run : row.runs) out[run.kind] += run.cuts;
      }
    }
  }
  return out;
}

std::vector<long long> sheets_of(const Reduced& reduced, const std::vector<Strip>& strips) {
  std::vector<long long> out(reduced.sources.size(), 0);
  for (const Strip& s : strips) {
    if (!reduced.cloth(s.source)) out[s.source] = std::max(out[s.source], s.sheet + 1);
  }
  return out;
}

Steps use_of(const Reduced& reduced, const std::vector<Strip>& strips) {
  if (!reduced.cloth(reduced.last())) return sheets_of(reduced, strips)[reduced.last()];
  Steps sum = 0;
  for (const Strip& s : strips) {
    if (s.source == reduced.last()) sum += s.height;
  }
  return sum;
}

std::vector<long long> merit(const Reduced& reduced, const std::vector<Strip>& strips) {
  std::set<Steps> heights;  // of strips, and of rows to which they are cut down
  long long cuts = 0;       // one along the strip is as much work as two across
  long long different = 0;
  long long stretches = 0;
  for (std::size_t i = 0; i < strips.size(); ++i) {
    const Strip& strip = strips[i];
    heights.insert(strip.height);
    ++cuts;
    for (const Stretch& stretch : strip.stretches) {
      Steps high = 0;
      for (const Row& row : stretch.rows) {
        high += row.height;
        heights.insert(row.height);
        cuts += static_cast<long long>(row.runs.size()) + 2;
      }
      if (high == strip.height) cuts -= 2;
    }
    stretches += static_cast<long long>(strip.stretches.size());
    if (i == 0 || !same(strip, strips[i - 1])) ++different;
  }
  const Steps use = use_of(reduced, strips);
  std::vector<long long> out{reduced.price(use)};
  const std::vector<long long> sheets = sheets_of(reduced, strips);
  for (std::size_t s = reduced.last(); s-- > 0;) out.push_back(sheets[s]);
  for (const long long m : {static_cast<long long>(heights.size()), cuts, different,
                            static_cast<long long>(use), stretches}) {
    out.push_back(m);
  }
  return out;
}

void trim(const Reduced& reduced, std::vector<long long> need, std::vector<Strip>& strips) {
  for (Strip& strip : strips) {
    for (Stretch& stretch : strip.stretches) {
      for (Row& row : stretch.rows) {
        for (Run& run : row.runs) {
          run.cuts = std::min(run.cuts, need[run.kind]);
          need[run.kind] -= run.cuts;
          run.length = run.cuts == 0 ? 0 : reduced.kinds[run.kind].length(run.cuts);
        }
        std::erase_if(row.runs, [](const Run& r) { return r.cuts == 0; });
      }
      std::erase_if(stretch.rows, [](const Row& r) { return r.runs.empty(); });
      tighten(reduced, stretch);
    }
    std::erase_if(strip.stretches, [](const Stretch& s) { return s.rows.empty(); });
  }
  std::erase_if(strips, [](const Strip& s) { return s.stretches.empty(); });
  std::map<std::pair<std::size_t, long long>, long long> numbers;
  std::vector<long long> next(reduced.sources.size(), 0);
  for (Strip& strip : strips) {
    if (reduced.cloth(strip.source)) continue;
    const auto [at, fresh] = numbers.try_emplace({strip.source, strip.sheet}, 0);
    if (fresh) at->second = next[strip.source]++;
    strip.sheet = at->second;
  }
}

void lower(const Reduced& reduced, std::vector<Strip>& strips) {
  for (Strip& strip : strips) {
    if (!reduced.cloth(strip.source)) continue;
    Steps highest = 0;
    for (const Stretch& stretch : strip.stretches) {
      Steps high = 0;
      for (const Row& row : stretch.rows) high += row.height;
      highest = std::max(highest, high);
    }
    strip.height = highest;
  }
}

void join(const Reduced& reduced, std::vector<Strip>& strips) {
  for (Strip& strip : strips) {
    std::vector<Stretch> joined;
    for (Stretch& stretch : strip.stretches) {
      bool done = false;
      for (Stretch& before : joined) {
        if (!rows_alike(before, stretch)) continue;
        Stretch both = before;
        for (std::size_t r = 0; r < both.rows.size(); ++r) {
          auto& runs = both.rows[r].runs;
          runs.insert(runs.end(), stretch.rows[r].runs.begin(), stretch.rows[r].runs.end());
        }
        tighten(reduced, both);
        if (both.length > before.length + stretch.length) continue;
        before = std::move(both);
        done = true;
        break;
      }
      if (!done) joined.push_back(std::move(stretch));
    }
    strip.stretches = std::move(joined);
  }
  std::stable_sort(strips.begin(), strips.end(), [](const Strip& a, const Strip& b) {
    if (a.source != b.source) return a.source < b.source;
    if (a.sheet != b.sheet) return a.sheet < b.sheet;
    return a.height > b.height;
  });
  // Equal strips together, in the order of the first of them.
  std::vector<Strip> grouped;
  std::vector<bool> taken(strips.size(), false);
  for (std::size_t i = 0; i < strips.size(); ++i) {
    if (taken[i]) continue;
    for (std::size_t j = i; j < strips.size(); ++j) {
      if (taken[j] || (j != i && !same(strips[i], strips[j]))) continue;
      taken[j] = true;
      grouped.push_back(strips[j]);
    }
  }
  strips = std::move(grouped);
}

}  // namespace dogear::stock
