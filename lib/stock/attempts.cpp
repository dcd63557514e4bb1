#include "stock/attempts.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace dogear::stock {

namespace {

// Kinds by a measure, the greatest first; those that do not fit the last source before all others.
template <class Measure>
std::vector<std::size_t> order_by(const Reduced& reduced, Measure measure) {
  std::vector<std::size_t> out(reduced.kinds.size());
  std::iota(out.begin(), out.end(), std::size_t{0});
  std::stable_sort(out.begin(), out.end(), [&](std::size_t a, std::size_t b) {
    const bool last_a = reduced.fits(a, reduced.last());
    const bool last_b = reduced.fits(b, reduced.last());
    return last_a != last_b ? last_b : measure(reduced.kinds[a]) > measure(reduced.kinds[b]);
  });
  return out;
}

}  // namespace

std::vector<long long> first_fits(const Reduced& reduced, Best& best) {
  std::vector<std::vector<std::size_t>> orders;
  orders.push_back(order_by(reduced, [](const ReducedKind&) { return 0; }));
  orders.push_back(order_by(reduced, [](const ReducedKind& k) { return k.run[0]; }));
  orders.push_back(
      order_by(reduced, [](const ReducedKind& k) { return k.height * k.run[0] * k.need; }));
  std::vector<long long> left;
  for (std::size_t o = 0; o < orders.size(); ++o) {
    for (const bool down : {false, true}) {
      for (const bool whole : {false, true}) {
        Manner manner{whole, down, {}, orders[o]};
        std::vector<long long> need = needs(reduced);
        std::vector<Strip> strips;
        if (fill(reduced, need, manner, strips)) best.offer(std::move(strips));
        if (left.empty()) left = need;
      }
    }
  }
  return left;
}

void few_heights(const Reduced& reduced, Best& best) {
  const std::size_t heights = reduced.heights.size();
  if (heights < 2) return;
  std::vector<std::vector<Steps>> choices;
  if (heights <= 7) {
    for (std::size_t set = 0; set < (std::size_t{1} << (heights - 1)); ++set) {
      std::vector<Steps> some;
      for (std::size_t h = 0; h + 1 < heights; ++h) {
        if ((set >> h & 1) != 0) some.push_back(reduced.heights[h]);
      }
      some.push_back(reduced.highest());
      choices.push_back(std::move(some));
    }
  } else {
    for (std::size_t every = 2; every <= heights; every *= 2) {
      std::vector<Steps> some;
      for (std::size_t h = heights; h > 0; h = h > every ? h - every : 0) {
        some.push_back(reduced.heights[h - 1]);
      }
      std::reverse(some.begin(), some.end());
      choices.push_back(std::move(some));
    }
  }
  for (std::vector<Steps>& some : choices) {
    for (const bool whole : {false, true}) {
      Manner manner{whole, true, some, order_by(reduced, [](const ReducedKind&) { return 0; })};
      std::vector<long long> need = needs(reduced);
      std::vector<Strip> strips;
      if (fill(reduced, need, manner, strips)) best.offer(std::move(strips));
    }
  }
}

Steps enough(const Reduced& reduced, const Best& best) {
  if (!best.any()) return std::numeric_limits<Steps>::max();
  Steps low = 0;
  Steps high = use_of(reduced, best.strips());
  while (low < high) {
    const Steps middle = low + (high - low) / 2;
    if (reduced.price(reduced.round_up(middle)) >= best.price()) {
      high = middle;
    } else {
      low = middle + 1;
    }
  }
  return low;
}

}  // namespace dogear::stock
