#pragma once
// Column generation: the least use of the last source when strips may be cut in fractions, and
// from its duals the worth of each piece and the bound.

#include "stock/layout.h"
#include "stock/simplex.h"
#include "stock/values.h"

namespace dogear::stock {

struct Column {
  std::size_t source = 0;
  Steps height = 0;           // of the strip; 0: a sheet
  std::vector<Strip> strips;  // one for cloth, those of one sheet otherwise
  std::vector<std::pair<std::size_t, long long>> cuts;  // by kind
};

Column column_of(const Reduced& reduced, std::vector<Strip> strips);

// What may still be spent, in steps of work.
struct Budget {
  long long left = 0;
  bool spent() const { return left <= 0; }
};

class Master {
 public:
  Master(const Reduced& reduced, std::vector<long long> need, std::vector<long long> sheets);

  void add(Column column);
  // A strip full of each kind alone, so that every kind has a column.
  void add_plain();

  // Generates columns until none helps, the budget is spent, or the bound reaches `enough`.
  // `within`: only plans without overproduction, as far as that is easy to see; no bound is made.
  bool solve(Budget& budget, Steps enough, bool within);

  // Asks for less than before: forbids columns that hold too much.
  void reduce_to(const std::vector<long long>& need, const std::vector<long long>& sheets);

  // What these worths prove.
  Bound bound_of(const std::vector<long long>& worth);

  const std::vector<Column>& columns() const { return columns_; }
  std::vector<double> values() const { return simplex_.values(); }
  double use() const { return simplex_.cost() * unit_; }
  bool complete() const { return simplex_.missing() < 1e-6; }
  // The best bound met, in reduced units, not yet rounded up to a sum; worths by reduced kind.
  const Bound& bound() const { return bound_; }

 private:
  bool fits_need(const Column& column) const;
  Bound present_bound();
  bool generate(bool within);
  bool generate_strips(const std::vector<Steps>& heights, bool within);
  bool add_within(Strip strip, long long cost, bool within);
  std::vector<double> right() const;

  const Reduced& reduced_;
  std::vector<long long> need_;
  std::vector<long long> sheets_;  // left of each source but the last
  double unit_;                    // use that costs 1 in the simplex
  long long worth_unit_;           // worth of a step of use
  Values values_;
  std::vector<Column> columns_;
  Simplex simplex_;
  std::vector<long long> worth_;
  Bound bound_;
};

}  // namespace dogear::stock
