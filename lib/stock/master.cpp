#include "stock/master.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace dogear::stock {

namespace {

__extension__ using Wide = __int128;

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

Master::Master(const Reduced& reduced, std::vector<long long> need, std::vector<long long> sheets)
    : reduced_(reduced),
      need_(std::move(need)),
      sheets_(std::move(sheets)),
      unit_(reduced.cloth(reduced.last()) ? static_cast<double>(reduced.highest()) : 1),
      worth_unit_(scale / static_cast<long long>(unit_)),
      values_(reduced),
      simplex_(right(), missing_cost) {}

std::vector<double> Master::right() const {
  std::vector<double> out;
  for (const long long n : need_) out.push_back(static_cast<double>(n));
  for (const long long n : sheets_) out.push_back(-static_cast<double>(n));
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
  } else {
    cost = column.height == 0 ? 1 : static_cast<double>(column.height) / unit_;
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
  } else {
    for (const Steps height : reduced_.strip_heights) {
      const long long value = values_.strip(height, last.length);
      if (static_cast<Wide>(value) * per > static_cast<Wide>(most) * height) {
        most = value;
        per = height;
      }
    }
  }
  b.most.push_back(most);
  b.per.push_back(per);
  if (whole > 0 && most > 0) b.use = static_cast<Steps>((whole * per + most - 1) / most);
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
    const long long value = values_.strip(height, last.length);
    const long long cost = height * worth_unit_;
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
  } else {
    found |= generate_strips(reduced_.heights, within);
    if (!found && reduced_.strip_heights.size() > reduced_.heights.size()) {
      found |= generate_strips(reduced_.strip_heights, within);
    }
  }
  return found;
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
