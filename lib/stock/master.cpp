#include "stock/master.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace dogear::stock {

namespace {

__extension__ using Wide = __int128;

// Uses beyond this are bounded by the ratio alone.
constexpr std::size_t most_raised = 50000;
constexpr double missing_cost = 100;
constexpr long long scale = 1LL << 30;  // worth of what costs 1 in the simplex

}  // namespace

Column column_of(const Reduced& reduced, std::vector<Strip> strips) {
  Column out;
  out.source = strips.at(0).source;
  out.height = reduced.cloth(out.source) ? strips[0].height : 0;
  const std::vector<long long> cuts = cuts_of(reduced, strips);
  for (std::size_t k = 0; k < cuts.size(); ++k) {
    if (cuts[k] > 0) out.cuts.emplace_back(k, cuts[k]);
  }
  out.strips = std::move(strips);
  return out;
}

Master::Master(const Reduced& reduced, std::vector<long long> need, std::vector<long long> sheets,
               std::vector<Tall> tall, Least least)
    : reduced_(reduced),
      need_(std::move(need)),
      sheets_(std::move(sheets)),
      tall_(std::move(tall)),
      least_(least),
      unit_(reduced.cloth(reduced.last()) && least == Least::use
                ? static_cast<double>(reduced.highest())
                : 1),
      worth_unit_(scale / static_cast<long long>(unit_)),
      values_(reduced),
      simplex_(right(), missing_cost),
      weight_(tall_.size(), 0) {}

std::vector<double> Master::right() const {
  std::vector<double> out;
  for (const long long n : need_) out.push_back(static_cast<double>(n));
  for (const long long n : sheets_) out.push_back(-static_cast<double>(n));
  for (const Tall& t : tall_) out.push_back(static_cast<double>(t.strips));
  return out;
}

bool Master::fits_need(const Column& column) const {
  if (column.source < reduced_.last() && sheets_[column.source] <= 0) return false;
  return std::all_of(column.cuts.begin(), column.cuts.end(),
                     [&](const auto& cut) { return cut.second <= need_[cut.first]; });
}

void Master::add(Column column) {
  Simplex::Sparse entries;
  for (const auto& [kind, cuts] : column.cuts) {
    entries.emplace_back(kind, static_cast<double>(cuts));
  }
  double cost = 0;
  if (column.source < reduced_.last()) {
    entries.emplace_back(need_.size() + column.source, -1.0);
  } else if (least_ == Least::strips || column.height == 0) {
    cost = 1;
  } else {
    cost = static_cast<double>(column.height) / unit_;
    for (std::size_t t = 0; t < tall_.size(); ++t) {
      if (column.height >= tall_[t].height) {
        entries.emplace_back(need_.size() + sheets_.size() + t, 1.0);
      }
    }
  }
  simplex_.add(std::move(entries), cost);
  columns_.push_back(std::move(column));
}

void Master::add_plain() {
  for (std::size_t k = 0; k < reduced_.kinds.size(); ++k) {
    const ReducedKind& kind = reduced_.kinds[k];
    const Source& source = reduced_.sources.back();
    if (need_[k] == 0 || !reduced_.fits(k, reduced_.last())) continue;
    const long long n = kind.cuts_in(source.length);
    Strip strip;
    strip.source = reduced_.last();
    strip.height = kind.height;
    strip.stretches = {{kind.length(n), {{kind.height, {{k, n, kind.length(n)}}}}}};
    add(column_of(reduced_, {strip}));
  }
}

// What the pieces at their present worth prove.
Bound Master::present_bound() {
  Bound b;
  b.worth = worth_;
  Wide whole = 0;
  for (std::size_t k = 0; k < need_.size(); ++k) whole += static_cast<Wide>(worth_[k]) * need_[k];
  for (std::size_t s = 0; s < sheets_.size(); ++s) {
    b.most.push_back(values_.sheet(s));
    b.per.push_back(1);
    whole -= static_cast<Wide>(b.most[s]) * sheets_[s];
  }
  const Source& last = reduced_.sources.back();
  long long most = 0;
  Steps per = 1;
  if (last.height) {
    most = values_.sheet(reduced_.last());
  } else if (least_ == Least::strips) {
    most = values_.strip(reduced_.highest(), last.length);
  } else {
    for (const Steps height : reduced_.strip_heights) {
      long long value = values_.strip(height, last.length);
      for (std::size_t t = 0; t < tall_.size(); ++t) {
        if (height >= tall_[t].height) value += weight_[t];
      }
      if (static_cast<Wide>(value) * per > static_cast<Wide>(most) * height) {
        most = value;
        per = height;
      }
    }
    for (std::size_t t = 0; t < tall_.size(); ++t) {
      whole += static_cast<Wide>(weight_[t]) * tall_[t].strips;
    }
  }
  b.most.push_back(most);
  b.per.push_back(per);
  if (whole > 0 && most > 0) b.use = static_cast<Steps>((whole * per + most - 1) / most);
  b.tall = tall_;
  for (std::size_t t = 0; t < tall_.size(); ++t) b.tall[t].weight = weight_[t];
  return b;
}

Bound Master::bound_of(const std::vector<long long>& worth) {
  worth_ = worth;
  values_.set(worth_);
  return present_bound();
}

// Without what is not needed, where it helps even so.
bool Master::add_within(Strip strip, long long cost, bool within) {
  if (within) {
    std::vector<Strip> less{strip};
    trim(reduced_, need_, less);
    lower(reduced_, less);
    Column column = column_of(reduced_, less);
    long long value = 0;
    for (const auto& [kind, cuts] : column.cuts) value += cuts * worth_[kind];
    for (std::size_t t = 0; t < tall_.size(); ++t) {
      if (column.height >= tall_[t].height) value += weight_[t];
    }
    const long long its = column.height == strip.height ? cost : column.height * worth_unit_;
    if (value > its + its / 10000000) {
      add(std::move(column));
      return true;
    }
  }
  add(column_of(reduced_, {std::move(strip)}));
  return true;
}

bool Master::generate_strips(const std::vector<Steps>& heights, bool within) {
  const Source& last = reduced_.sources.back();
  bool found = false;
  for (const Steps height : heights) {
    long long value = values_.strip(height, last.length);
    for (std::size_t t = 0; t < tall_.size(); ++t) {
      if (height >= tall_[t].height) value += weight_[t];
    }
    const long long cost = least_ == Least::strips ? scale : height * worth_unit_;
    if (value <= cost + cost / 10000000) continue;
    Strip strip = values_.build_strip(height, last.length);
    strip.source = reduced_.last();
    if (strip.stretches.empty()) continue;
    found |= add_within(std::move(strip), cost, within);
  }
  return found;
}

bool Master::generate(bool within) {
  const std::vector<double>& duals = simplex_.duals();
  const auto worth = [](double dual) {
    return std::max(0LL, static_cast<long long>(std::llround(dual * scale)));
  };
  worth_.assign(need_.size(), 0);
  for (std::size_t k = 0; k < need_.size(); ++k) {
    if (need_[k] > 0) worth_[k] = worth(duals[k]);
  }
  for (std::size_t t = 0; t < tall_.size(); ++t) {
    weight_[t] = worth(duals[need_.size() + sheets_.size() + t]);
  }
  values_.set(worth_, within ? &need_ : nullptr);
  bool found = false;
  const auto sheet = [&](std::size_t source, long long cost) {
    if (values_.sheet(source) <= cost + scale / 10000000) return;
    std::vector<Strip> strips = values_.build_sheet(source);
    if (strips.empty()) return;
    add(column_of(reduced_, std::move(strips)));
    found = true;
  };
  for (std::size_t s = 0; s < sheets_.size(); ++s) {
    if (sheets_[s] > 0) sheet(s, worth(duals[need_.size() + s]));
  }
  if (!reduced_.cloth(reduced_.last())) {
    sheet(reduced_.last(), scale);
  } else if (least_ == Least::strips) {
    found |= generate_strips({reduced_.highest()}, within);
  } else {
    found |= generate_strips(reduced_.heights, within);
    if (!found && reduced_.strip_heights.size() > reduced_.heights.size()) {
      found |= generate_strips(reduced_.strip_heights, within);
    }
  }
  return found;
}

// A knapsack over strips: what so much cloth can be worth, height by height, until it is enough.
void Master::raise(Bound& bound) {
  const std::size_t last = reduced_.last();
  if (!reduced_.cloth(last) || least_ == Least::strips) return;
  values_.set(bound.worth);
  Wide whole = 0;
  for (std::size_t k = 0; k < need_.size(); ++k)
    whole += static_cast<Wide>(bound.worth[k]) * need_[k];
  for (std::size_t s = 0; s < sheets_.size(); ++s) {
    whole -= static_cast<Wide>(bound.most[s]) * sheets_[s];
  }
  for (const Tall& t : bound.tall) whole += static_cast<Wide>(t.weight) * t.strips;
  std::vector<std::pair<Steps, Wide>> strips;
  for (const Steps height : reduced_.strip_heights) {
    Wide value = values_.strip(height, reduced_.sources[last].length);
    for (const Tall& t : bound.tall) value += height >= t.height ? t.weight : 0;
    if (value > 0) strips.emplace_back(height, value);
  }
  std::vector<Wide> worth{0};
  while (worth.back() < whole && !strips.empty() && worth.size() < most_raised) {
    const auto use = static_cast<Steps>(worth.size());
    Wide best = worth.back();
    for (const auto& [height, value] : strips) {
      if (height > use) break;
      best = std::max(best, worth[static_cast<std::size_t>(use - height)] + value);
    }
    worth.push_back(best);
  }
  bound.use = std::max(bound.use, static_cast<Steps>(worth.size()) - 1);
}

bool Master::solve(Budget& budget, Steps enough, bool within) {
  // Valuing every strip height is dear where there are many.
  const bool dear = reduced_.strip_heights.size() > reduced_.heights.size();
  for (long long round = 1;; ++round) {
    const long long before = values_.work() + simplex_.work();
    const bool ran = simplex_.run(20000);
    const bool found = generate(within);
    const bool last = !found || !ran || budget.left <= values_.work() + simplex_.work() - before;
    if (!within && (last || !dear || round % 8 == 0)) {
      Bound present = present_bound();
      if (bound_.worth.empty() || present.use > bound_.use) bound_ = std::move(present);
    }
    budget.left -= values_.work() + simplex_.work() - before;
    if (!within && bound_.use >= enough) return true;
    if (!found || !ran) return ran;
    if (budget.spent()) return false;
  }
}

void Master::reduce_to(const std::vector<long long>& need, const std::vector<long long>& sheets) {
  need_ = need;
  sheets_ = sheets;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    if (!fits_need(columns_[c])) simplex_.forbid(c);
  }
  simplex_.set_right(right());
}

}  // namespace dogear::stock
