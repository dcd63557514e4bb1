// Some strips are taken out of the plan, chosen by chance (the same chance each time), and their
// pieces laid again: first into what is free elsewhere, then strip by strip, each the one of most
// worth for its height when every piece is worth its size, more or less. What comes out is kept
// where it uses no more cloth, so that the plan wanders among equals until it finds a better one.

#include "stock/improve.h"

#include <algorithm>
#include <numeric>

namespace dogear::stock {

namespace {

constexpr int simple_tries = 100;
constexpr long long simple_work = 2000000;

class Chance {
 public:
  // A number from 0 to most - 1.
  std::size_t below(std::size_t most) {
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;
    return static_cast<std::size_t>((state_ >> 33) % most);
  }

 private:
  std::uint64_t state_ = 88172645463325252U;
};

class Relay {
 public:
  Relay(const Reduced& reduced, Budget& budget, Best& best)
      : reduced_(reduced), budget_(budget), best_(best), values_(reduced) {
    for (const ReducedKind& k : reduced.kinds) {
      long long least = k.height * k.run[0] * 64;
      for (std::size_t n = 2; n <= k.run.size(); ++n) {
        least = std::min(least, k.height * k.run[n - 1] * 64 / static_cast<long long>(n));
      }
      size_.push_back(least);
    }
  }

  void run() {
    std::vector<Strip> present = best_.strips();
    Steps use = use_of(reduced_, present);
    long long idle = 0;
    while (!best_.least() && !budget_.spent() && idle < 4000) {
      ++idle;
      std::vector<Strip> next = present;
      std::vector<long long> need = take_out(next);
      const bool fits = lay(next, need);
      budget_.left -= 3000 + 300 * static_cast<long long>(next.size());
      if (!fits) continue;
      trim(reduced_, needs(reduced_), next);
      lower(reduced_, next);
      const Steps its = use_of(reduced_, next);
      if (its > use) continue;
      if (its < use) idle = 0;
      use = its;
      best_.offer(next);
      present = std::move(next);
    }
  }

  void simplify(int tries) {
    std::vector<Strip> present = best_.strips();
    std::vector<long long> its = best_.merit_of_best();
    for (; tries > 0 && !budget_.spent(); --tries) {
      std::vector<Strip> next = present;
      std::vector<long long> need = take_out(next);
      const auto many = static_cast<long long>(next.size());
      budget_.left -= 3000 + 300 * many + 3 * many * many;
      if (!lay(next, need)) continue;
      trim(reduced_, needs(reduced_), next);
      join(reduced_, next);
      std::vector<long long> merit = stock::merit(reduced_, next);
      if (merit > its) continue;
      its = std::move(merit);
      best_.offer(next);
      present = std::move(next);
    }
  }

 private:
  std::vector<long long> take_out(std::vector<Strip>& strips) {
    const std::size_t many = std::min(strips.size(), 1 + chance_.below(5));
    std::vector<Strip> out;
    for (std::size_t i = 0; i < many; ++i) {
      const auto at = static_cast<std::ptrdiff_t>(chance_.below(strips.size()));
      out.push_back(std::move(strips[static_cast<std::size_t>(at)]));
      strips.erase(strips.begin() + at);
    }
    return cuts_of(reduced_, out);
  }

  bool lay(std::vector<Strip>& strips, std::vector<long long>& need) {
    const bool by_worth = chance_.below(4) != 0;
    if (by_worth && reduced_.cloth(reduced_.last())) {
      if (chance_.below(2) == 0) fill_free(strips, need);
      by_most_worth(strips, need);
    }
    Manner manner;
    manner.down = true;
    manner.order.resize(need.size());
    std::iota(manner.order.begin(), manner.order.end(), std::size_t{0});
    for (std::size_t i = manner.order.size(); i > 1; --i) {
      std::swap(manner.order[i - 1], manner.order[chance_.below(i)]);
    }
    return fill(reduced_, need, manner, strips);
  }

  // Into what is free in the strips there are, and no new ones.
  void fill_free(std::vector<Strip>& strips, std::vector<long long>& need) {
    const std::size_t before = strips.size();
    std::vector<long long> rest = need;
    Manner manner;
    manner.down = true;
    fill(reduced_, rest, manner, strips);
    strips.resize(before);
    need = needs(reduced_);
    const std::vector<long long> laid = cuts_of(reduced_, strips);
    for (std::size_t k = 0; k < need.size(); ++k) need[k] = std::max(need[k] - laid[k], 0LL);
  }

  void by_most_worth(std::vector<Strip>& strips, std::vector<long long>& need) {
    const Source& last = reduced_.sources.back();
    const auto some = [&] {
      return std::any_of(need.begin(), need.end(), [](long long n) { return n > 0; });
    };
    for (int tries = 0; tries < 60 && some(); ++tries) {
      std::vector<long long> worth(need.size(), 0);
      for (std::size_t k = 0; k < need.size(); ++k) {
        if (need[k] > 0 && reduced_.fits(k, reduced_.last())) {
          worth[k] = size_[k] * static_cast<long long>(48 + chance_.below(48)) / 64 + 1;
        }
      }
      // Fewer of some kinds than would fit, or the same few fullest strips came every time.
      std::vector<long long> limits = need;
      for (std::size_t k = 0; k < need.size(); ++k) {
        if (need[k] > 1 && chance_.below(3) == 0) {
          limits[k] = static_cast<long long>(chance_.below(static_cast<std::size_t>(need[k]) + 1));
        }
      }
      const long long before = values_.work();
      values_.set(worth, &limits);
      Strip best;
      long long best_value = 0;
      for (const Steps height : reduced_.heights) {
        Strip strip = values_.build_strip(height, last.length);
        strip.source = reduced_.last();
        std::vector<Strip> one{std::move(strip)};
        trim(reduced_, need, one);
        if (one.empty()) continue;
        lower(reduced_, one);
        long long value = 0;
        const std::vector<long long> cuts = cuts_of(reduced_, one);
        for (std::size_t k = 0; k < cuts.size(); ++k) value += cuts[k] * worth[k];
        value = value * static_cast<long long>(64 + chance_.below(48)) / 64;
        if (best_value == 0 || value * best.height > best_value * one[0].height) {
          best_value = value;
          best = std::move(one[0]);
        }
      }
      budget_.left -= 2 * (values_.work() - before) + 2000;
      if (best_value == 0) continue;
      const std::vector<long long> cuts = cuts_of(reduced_, {best});
      for (std::size_t k = 0; k < cuts.size(); ++k) need[k] -= cuts[k];
      strips.push_back(std::move(best));
    }
  }

  const Reduced& reduced_;
  Budget& budget_;
  Best& best_;
  Values values_;
  std::vector<long long> size_;
  Chance chance_;
};

}  // namespace

void simplify(const Reduced& reduced, Best& best) {
  // A kind alone leaves nothing to choose.
  if (!best.any() || best.strips().size() < 2 || reduced.kinds.size() < 2) return;
  Budget budget{simple_work};
  Relay(reduced, budget, best).simplify(simple_tries);
}

void relay(const Reduced& reduced, Budget& budget, Best& best) {
  if (best.any()) Relay(reduced, budget, best).run();
}

}  // namespace dogear::stock
