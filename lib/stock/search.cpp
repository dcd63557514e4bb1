// Column generation leaves fractions of strips. Diving takes all whole ones, then the strip with
// the largest fraction, and solves again for what is still needed; at every step first fit
// completes the plan. Where the greedy way misses the least price, the search goes against the
// first choice at a few places, first at one, then at two (limited discrepancies).

#include "stock/search.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace dogear::stock {

namespace {

constexpr double near = 1e-6;
constexpr Steps no_end = std::numeric_limits<Steps>::max();

struct State {
  Master master;
  std::vector<long long> need;
  std::vector<long long> sheets;
  std::vector<Strip> strips;
};

class Dive {
 public:
  Dive(const Reduced& reduced, Budget& budget, Best& best)
      : reduced_(reduced), budget_(budget), best_(best) {}

  // `against`: how many times yet the first choice is passed over.
  void go(State state, int against, int depth) {
    while (!done()) {
      state.master.solve(budget_, no_end, true);
      if (!promises(state)) return;
      std::vector<double> values = state.master.values();
      bool whole = false;
      for (std::size_t c = 0; c < values.size(); ++c) {
        for (auto n = static_cast<long long>(std::floor(values[c] + near)); n > 0; --n) {
          whole |= take(state, c);
        }
      }
      if (whole) {
        if (complete(state)) return;
        state.master.reduce_to(state.need, state.sheets);
        continue;
      }
      std::vector<std::size_t> choices;
      for (std::size_t c = 0; c < values.size(); ++c) {
        if (values[c] > near) choices.push_back(c);
      }
      if (choices.empty()) return;
      std::stable_sort(choices.begin(), choices.end(),
                       [&](std::size_t a, std::size_t b) { return values[a] > values[b] + near; });
      std::size_t pick = 0;
      if (against > 0 && depth < 8) {
        const auto most =
            std::min<std::size_t>(choices.size() - 1, static_cast<std::size_t>(against));
        for (std::size_t other = 1; other <= most && !done(); ++other) {
          State copy = state;
          if (!take(copy, choices[other])) continue;
          if (complete(copy)) continue;
          copy.master.reduce_to(copy.need, copy.sheets);
          go(std::move(copy), against - static_cast<int>(other), depth + 1);
        }
        ++depth;
      }
      while (pick < choices.size() && !take(state, choices[pick])) ++pick;
      if (pick == choices.size() || complete(state)) return;
      state.master.reduce_to(state.need, state.sheets);
    }
  }

 private:
  bool done() const { return best_.least() || budget_.spent(); }

  Steps use(const State& state) const { return use_of(reduced_, state.strips); }

  // Whether what is fixed and the fractions of the rest could cost less than the best plan.
  bool promises(const State& state) const {
    if (!best_.any() || !state.master.complete()) return true;
    const auto more = static_cast<Steps>(std::ceil(state.master.use() - 1e-5));
    return reduced_.price(reduced_.round_up(use(state) + more)) < best_.price();
  }

  // Cuts one strip or sheet of a column as far as it is needed; false where nothing of it is.
  bool take(State& state, std::size_t column) {
    const Column& c = state.master.columns()[column];
    if (c.source < reduced_.last() && state.sheets[c.source] <= 0) return false;
    std::vector<Strip> strips = c.strips;
    std::vector<long long> need = state.need;
    for (Strip& s : strips) s.sheet = 0;
    trim(reduced_, need, strips);
    const std::vector<long long> cuts = cuts_of(reduced_, strips);
    bool some = false;
    for (std::size_t k = 0; k < cuts.size(); ++k) {
      state.need[k] -= cuts[k];
      some |= cuts[k] > 0;
    }
    if (!some) return false;
    const long long sheet = sheets_of(reduced_, state.strips)[c.source];
    for (Strip& s : strips) {
      if (!reduced_.cloth(c.source)) s.sheet = sheet;
      state.strips.push_back(std::move(s));
    }
    if (c.source < reduced_.last()) --state.sheets[c.source];
    return true;
  }

  // Offers the plan that first fit makes of it; true where nothing more is needed.
  bool complete(const State& state) {
    for (const bool whole : {false, true}) {
      std::vector<long long> need = state.need;
      std::vector<Strip> strips = state.strips;
      Manner manner;
      manner.down = true;
      manner.whole = whole;
      if (fill(reduced_, need, manner, strips)) best_.offer(std::move(strips));
      budget_.left -= static_cast<long long>(state.strips.size() * 4);
    }
    return std::all_of(state.need.begin(), state.need.end(), [](long long n) { return n == 0; });
  }

  const Reduced& reduced_;
  Budget& budget_;
  Best& best_;
};

}  // namespace

void Best::offer(std::vector<Strip> strips) {
  const Source& last = reduced_.sources.back();
  const Steps use = use_of(reduced_, strips);
  if (last.height && last.had && use > *last.had) return;
  if (any() && reduced_.price(use) > merit_[0]) {
    trim(reduced_, needs(reduced_), strips);
    if (reduced_.price(use_of(reduced_, strips)) > merit_[0]) return;
  }
  trim(reduced_, needs(reduced_), strips);
  join(reduced_, strips);
  for (int lowered = 0; lowered < 2; ++lowered) {
    if (lowered == 1) lower(reduced_, strips);
    std::vector<long long> merit = stock::merit(reduced_, strips);
    if (!any() || merit < merit_) {
      merit_ = std::move(merit);
      strips_ = strips;
    }
  }
}

void dive(const Reduced& reduced, std::vector<Column> columns, Budget& budget, Best& best) {
  Master master(reduced, needs(reduced), limited_sheets(reduced));
  for (Column& c : columns) master.add(std::move(c));
  master.add_plain();
  master.reduce_to(needs(reduced), limited_sheets(reduced));
  const State start{std::move(master), needs(reduced), limited_sheets(reduced), {}};
  for (int against = 0; against < 6 && !best.least() && !budget.spent(); ++against) {
    Dive(reduced, budget, best).go(start, against, 0);
  }
}

}  // namespace dogear::stock
