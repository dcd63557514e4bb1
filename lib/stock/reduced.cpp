#include "stock/reduced.h"

#include <algorithm>
#include <numeric>

namespace dogear::stock {

namespace {

// Whether n cuts always take n times the length of one, so that runs may be parted freely.
bool plain(const std::vector<Steps>& run) {
  for (std::size_t n = 0; n < run.size(); ++n) {
    if (run[n] != static_cast<Steps>(n + 1) * run[0]) return false;
  }
  return true;
}

bool usable(const Kind& kind) {
  if (kind.height <= 0 || kind.run.empty() || kind.run[0] <= 0) return false;
  return std::is_sorted(kind.run.begin(), kind.run.end());
}

bool fits_one(const Kind& kind, const std::vector<Source>& sources) {
  return std::any_of(sources.begin(), sources.end(), [&](const Source& s) {
    return kind.run[0] <= s.length && (!s.height || kind.height <= *s.height) &&
           (!s.had || *s.had > 0);
  });
}

void merge_in(std::vector<ReducedKind>& kinds, const Kind& kind, std::size_t index, Steps longest) {
  std::vector<Steps> run;
  for (const Steps r : kind.run) {
    if (r <= longest) run.push_back(r);
  }
  const auto alike = std::find_if(kinds.begin(), kinds.end(), [&](const ReducedKind& k) {
    return k.height == kind.height && k.run == run && plain(run);
  });
  if (alike != kinds.end()) {
    alike->need += kind.need;
    alike->from.push_back(index);
    return;
  }
  kinds.push_back({kind.height, std::move(run), kind.need, {index}});
}

}  // namespace

long long ReducedKind::cuts_in(Steps length) const {
  return std::upper_bound(run.begin(), run.end(), length) - run.begin();
}

bool Reduced::fits(std::size_t kind, std::size_t source) const {
  const Source& s = sources[source];
  return kinds[kind].run[0] <= s.length && (!s.height || kinds[kind].height <= *s.height);
}

long long Reduced::price(Steps use) const {
  const Steps true_use = cloth(last()) ? use * height_unit : use;
  return problem->price ? problem->price(true_use) : true_use;
}

Steps Reduced::round_up(Steps use) const {
  return cloth(last()) ? next_sum(heights, use) : std::max<Steps>(use, 0);
}

std::optional<Reduced> reduce(const Problem& problem, std::vector<std::size_t>& misfits) {
  Reduced out;
  out.problem = &problem;
  for (const Source& s : problem.sources) {
    if (!s.had || *s.had > 0) out.longest = std::max(out.longest, s.length);
  }
  for (std::size_t i = 0; i < problem.kinds.size(); ++i) {
    const Kind& kind = problem.kinds[i];
    if (kind.need <= 0) continue;
    if (!usable(kind) || !fits_one(kind, problem.sources)) {
      misfits.push_back(i);
    } else {
      merge_in(out.kinds, kind, i, out.longest);
    }
  }
  if (!misfits.empty()) return std::nullopt;
  std::stable_sort(out.kinds.begin(), out.kinds.end(),
                   [](const ReducedKind& a, const ReducedKind& b) {
                     return a.height != b.height ? a.height > b.height : a.run[0] > b.run[0];
                   });
  Steps length_unit = 0;
  Steps height_unit = 0;
  for (const ReducedKind& k : out.kinds) {
    height_unit = std::gcd(height_unit, k.height);
    for (const Steps r : k.run) length_unit = std::gcd(length_unit, r);
  }
  out.length_unit = std::max<Steps>(length_unit, 1);
  out.height_unit = std::max<Steps>(height_unit, 1);
  for (ReducedKind& k : out.kinds) {
    k.height /= out.height_unit;
    for (Steps& r : k.run) r /= out.length_unit;
    out.heights.push_back(k.height);
  }
  out.longest /= out.length_unit;
  out.sources = problem.sources;
  for (Source& s : out.sources) {
    s.length /= out.length_unit;
    if (s.height) *s.height /= out.height_unit;
  }
  std::sort(out.heights.begin(), out.heights.end());
  out.heights.erase(std::unique(out.heights.begin(), out.heights.end()), out.heights.end());
  std::vector<bool> sum(static_cast<std::size_t>(out.highest() + 1), false);
  sum[0] = true;
  for (std::size_t h = 1; h < sum.size(); ++h) {
    for (const Steps height : out.heights) {
      const auto down = static_cast<std::size_t>(height);
      if (down <= h && sum[h - down]) sum[h] = true;
    }
    if (sum[h]) out.strip_heights.push_back(static_cast<Steps>(h));
  }
  return out;
}

std::vector<Strip> expand(const Reduced& reduced, std::vector<Strip> strips) {
  std::vector<std::size_t> turn(reduced.kinds.size(), 0);
  std::vector<long long> left;
  for (const Kind& k : reduced.problem->kinds) left.push_back(std::max(k.need, 0LL));
  for (Strip& strip : strips) {
    strip.height *= reduced.height_unit;
    for (Stretch& stretch : strip.stretches) {
      stretch.length *= reduced.length_unit;
      for (Row& row : stretch.rows) {
        row.height *= reduced.height_unit;
        std::vector<Run> runs;
        for (const Run& run : row.runs) {
          const ReducedKind& kind = reduced.kinds[run.kind];
          long long cuts = run.cuts;
          std::size_t& at = turn[run.kind];
          while (cuts > 0 && at < kind.from.size()) {
            const std::size_t from = kind.from[at];
            const long long n = std::min(cuts, left[from]);
            if (n > 0) runs.push_back({from, n, kind.length(n) * reduced.length_unit});
            cuts -= n;
            left[from] -= n;
            if (left[from] == 0) ++at;
          }
        }
        row.runs = std::move(runs);
      }
    }
  }
  return strips;
}

Steps next_sum(const std::vector<Steps>& heights, Steps use) {
  if (use <= 0 || heights.empty()) return 0;
  // Reachable sums, up to the highest beyond `use`: one of them is a sum of the lowest alone.
  const Steps most = use + heights.front();
  std::vector<bool> sum(static_cast<std::size_t>(most + 1), false);
  sum[0] = true;
  for (Steps s = 1; s <= most; ++s) {
    for (const Steps h : heights) {
      if (h > s) break;
      if (sum[static_cast<std::size_t>(s - h)]) {
        sum[static_cast<std::size_t>(s)] = true;
        break;
      }
    }
    if (s >= use && sum[static_cast<std::size_t>(s)]) return s;
  }
  return most;
}

}  // namespace dogear::stock
