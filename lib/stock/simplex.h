#pragma once
// A small dense revised simplex for the master of column generation: least cost such that every
// row's sum reaches its right side. Columns may be added, forbidden and right sides changed
// between runs; it goes on from where it stood.

#include <cstddef>
#include <utility>
#include <vector>

namespace dogear::stock {

class Simplex {
 public:
  using Sparse = std::vector<std::pair<std::size_t, double>>;

  // One row for each right side. What no column covers costs `missing` a unit.
  Simplex(std::vector<double> right, double missing);

  std::size_t add(Sparse column, double cost);  // the column's number
  // A forbidden column is driven out, if it can be.
  void forbid(std::size_t column);
  void set_right(const std::vector<double>& right);

  // False where it gave up after `most` exchanges.
  bool run(long long most);

  const std::vector<double>& duals() const { return duals_; }
  std::vector<double> values() const;  // by column
  double cost() const;
  double missing() const;  // units that no column covers
  std::size_t columns() const { return columns_.size() - own_; }
  long long work() const { return work_; }

 private:
  struct Column {
    Sparse entries;
    double cost = 0;
    bool may_enter = true;
    bool missing = false;
  };

  void price();
  void exchange(std::size_t row, std::size_t column, const std::vector<double>& direction);
  void rebuild();
  std::vector<double> direction(const Column& column) const;
  void solve_right();

  std::size_t rows_;
  std::size_t own_;  // columns of its own: surplus, then missing units
  double missing_cost_;
  std::vector<double> right_;
  std::vector<Column> columns_;
  std::vector<Column> basis_columns_;  // as they stand in the basis
  std::vector<long long>
      basis_;  // number of the column; -1: one turned round where its value fell below nothing
  std::vector<bool> in_basis_;
  std::vector<double> inverse_;  // row by row
  std::vector<double> at_;       // values of the basis
  std::vector<double> duals_;
  long long since_rebuild_ = 0;
  long long work_ = 0;
};

}  // namespace dogear::stock
