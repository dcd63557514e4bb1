#include "stock/simplex.h"

#include <algorithm>
#include <cmath>

namespace dogear::stock {

namespace {

constexpr double tiny = 1e-9;
constexpr long long rebuild_after = 150;

}  // namespace

Simplex::Simplex(std::vector<double> right, double missing)
    : rows_(right.size()), own_(2 * right.size()), missing_cost_(missing), right_(right) {
  for (std::size_t r = 0; r < rows_; ++r) columns_.push_back({{{r, -1.0}}, 0, true, false});
  for (std::size_t r = 0; r < rows_; ++r) {
    columns_.push_back({{{r, 1.0}}, missing_cost_, true, true});
  }
  in_basis_.assign(columns_.size(), false);
  inverse_.assign(rows_ * rows_, 0);
  at_.assign(rows_, 0);
  for (std::size_t r = 0; r < rows_; ++r) {
    const bool lacks = right_[r] > 0;
    const std::size_t c = lacks ? rows_ + r : r;
    basis_.push_back(static_cast<long long>(c));
    basis_columns_.push_back(columns_[c]);
    in_basis_[c] = true;
    inverse_[r * rows_ + r] = lacks ? 1 : -1;
    at_[r] = std::abs(right_[r]);
  }
  price();
}

std::size_t Simplex::add(Sparse column, double cost) {
  columns_.push_back({std::move(column), cost, true, false});
  in_basis_.push_back(false);
  return columns_.size() - 1 - own_;
}

void Simplex::forbid(std::size_t column) {
  const std::size_t c = column + own_;
  if (!columns_[c].may_enter) return;
  columns_[c].may_enter = false;
  for (std::size_t r = 0; r < rows_; ++r) {
    if (basis_[r] == static_cast<long long>(c)) {
      basis_columns_[r].cost = columns_[c].cost + missing_cost_;
    }
  }
}

void Simplex::solve_right() {
  for (std::size_t r = 0; r < rows_; ++r) {
    double sum = 0;
    for (std::size_t i = 0; i < rows_; ++i) sum += inverse_[r * rows_ + i] * right_[i];
    at_[r] = std::abs(sum) < tiny ? 0 : sum;
  }
  work_ += static_cast<long long>(rows_ * rows_);
}

// Where a value falls below nothing its column is turned round and made dear, so that the basis
// stays one to go on from, and the turned column leaves as soon as another can take its place.
void Simplex::set_right(const std::vector<double>& right) {
  right_ = right;
  solve_right();
  for (std::size_t r = 0; r < rows_; ++r) {
    if (at_[r] >= 0) continue;
    at_[r] = -at_[r];
    Column& column = basis_columns_[r];
    for (auto& [row, entry] : column.entries) entry = -entry;
    column.cost = missing_cost_;
    column.missing = true;
    if (basis_[r] >= 0) in_basis_[static_cast<std::size_t>(basis_[r])] = false;
    basis_[r] = -1;
    for (std::size_t i = 0; i < rows_; ++i) inverse_[r * rows_ + i] *= -1;
  }
}

void Simplex::price() {
  duals_.assign(rows_, 0);
  for (std::size_t r = 0; r < rows_; ++r) {
    const double cost = basis_columns_[r].cost;
    if (cost == 0) continue;
    for (std::size_t i = 0; i < rows_; ++i) duals_[i] += cost * inverse_[r * rows_ + i];
  }
  work_ += static_cast<long long>(rows_ * rows_);
}

std::vector<double> Simplex::direction(const Column& column) const {
  std::vector<double> out(rows_, 0);
  for (std::size_t r = 0; r < rows_; ++r) {
    double sum = 0;
    for (const auto& [row, entry] : column.entries) sum += inverse_[r * rows_ + row] * entry;
    out[r] = sum;
  }
  return out;
}

void Simplex::exchange(std::size_t row, std::size_t column, const std::vector<double>& direction) {
  const double pivot = direction[row];
  double* const own = &inverse_[row * rows_];
  for (std::size_t i = 0; i < rows_; ++i) own[i] /= pivot;
  const double step = at_[row] / pivot;
  for (std::size_t r = 0; r < rows_; ++r) {
    if (r == row || direction[r] == 0) continue;
    double* const other = &inverse_[r * rows_];
    const double factor = direction[r];
    for (std::size_t i = 0; i < rows_; ++i) other[i] -= factor * own[i];
    at_[r] -= factor * step;
    if (at_[r] < tiny) at_[r] = 0;
    work_ += static_cast<long long>(rows_);
  }
  at_[row] = step;
  if (basis_[row] >= 0) in_basis_[static_cast<std::size_t>(basis_[row])] = false;
  basis_[row] = static_cast<long long>(column);
  basis_columns_[row] = columns_[column];
  in_basis_[column] = true;
}

// The inverse again from the basis, so that what rounding adds up to stays small.
void Simplex::rebuild() {
  since_rebuild_ = 0;
  std::vector<double> matrix(rows_ * rows_, 0);
  for (std::size_t c = 0; c < rows_; ++c) {
    for (const auto& [row, entry] : basis_columns_[c].entries) matrix[row * rows_ + c] = entry;
  }
  std::vector<double> inverse(rows_ * rows_, 0);
  for (std::size_t r = 0; r < rows_; ++r) inverse[r * rows_ + r] = 1;
  for (std::size_t c = 0; c < rows_; ++c) {
    std::size_t best = c;
    for (std::size_t r = c + 1; r < rows_; ++r) {
      if (std::abs(matrix[r * rows_ + c]) > std::abs(matrix[best * rows_ + c])) best = r;
    }
    const double pivot = matrix[best * rows_ + c];
    if (std::abs(pivot) < tiny) return;  // the running inverse is the better one
    for (std::size_t i = 0; i < rows_; ++i) {
      std::swap(matrix[best * rows_ + i], matrix[c * rows_ + i]);
      std::swap(inverse[best * rows_ + i], inverse[c * rows_ + i]);
    }
    for (std::size_t i = 0; i < rows_; ++i) {
      matrix[c * rows_ + i] /= pivot;
      inverse[c * rows_ + i] /= pivot;
    }
    for (std::size_t r = 0; r < rows_; ++r) {
      const double factor = matrix[r * rows_ + c];
      if (r == c || factor == 0) continue;
      for (std::size_t i = 0; i < rows_; ++i) {
        matrix[r * rows_ + i] -= factor * matrix[c * rows_ + i];
        inverse[r * rows_ + i] -= factor * inverse[c * rows_ + i];
      }
    }
  }
  inverse_ = std::move(inverse);
  work_ += static_cast<long long>(rows_ * rows_ * rows_);
  solve_right();
  for (double& value : at_) value = std::max(value, 0.0);
}

bool Simplex::run(long long most) {
  long long standing = 0;  // exchanges in a row that moved nothing
  bool exact = true;       // duals are fresh, not carried on from exchange to exchange
  price();
  for (long long exchanges = 0;; ++exchanges) {
    if (exchanges >= most) return false;
    const bool first = standing > 40 + static_cast<long long>(rows_);  // then nothing goes round
    std::size_t entering = columns_.size();
    double least = -1e-7 * std::max(1.0, missing_cost_ / 1000);
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      if (in_basis_[c] || !columns_[c].may_enter) continue;
      double reduced = columns_[c].cost;
      for (const auto& [row, entry] : columns_[c].entries) reduced -= duals_[row] * entry;
      work_ += 2;
      if (reduced < least) {
        entering = c;
        if (first) break;
        least = reduced;
      }
    }
    if (entering == columns_.size()) {
      if (exact) return true;
      price();
      exact = true;
      continue;
    }
    double reduced = columns_[entering].cost;
    for (const auto& [row, entry] : columns_[entering].entries) reduced -= duals_[row] * entry;
    const std::vector<double> along = direction(columns_[entering]);
    std::size_t leaving = rows_;
    double step = 0;
    for (std::size_t r = 0; r < rows_; ++r) {
      if (along[r] <= 1e-7) continue;
      const double ratio = at_[r] / along[r];
      const bool closer = leaving == rows_ || ratio < step - tiny;
      const bool level = !closer && ratio <= step + tiny;
      if (closer || (level && (first ? basis_[r] < basis_[leaving] : along[r] > along[leaving]))) {
        leaving = r;
        step = closer ? ratio : std::min(step, ratio);
      }
    }
    if (leaving == rows_) return true;  // only where rounding has spoilt the basis
    standing = step > tiny ? 0 : standing + 1;
    exchange(leaving, entering, along);
    for (std::size_t i = 0; i < rows_; ++i) duals_[i] += reduced * inverse_[leaving * rows_ + i];
    exact = false;
    if (++since_rebuild_ >= rebuild_after) {
      rebuild();
      price();
    }
  }
}

std::vector<double> Simplex::values() const {
  std::vector<double> out(columns(), 0);
  for (std::size_t r = 0; r < rows_; ++r) {
    if (basis_[r] >= static_cast<long long>(own_)) {
      out[static_cast<std::size_t>(basis_[r]) - own_] += at_[r];
    }
  }
  return out;
}

double Simplex::cost() const {
  double sum = 0;
  for (std::size_t r = 0; r < rows_; ++r) sum += basis_columns_[r].cost * at_[r];
  return sum;
}

double Simplex::missing() const {
  double sum = 0;
  for (std::size_t r = 0; r < rows_; ++r) {
    if (basis_columns_[r].missing) sum += at_[r];
  }
  return sum;
}

}  // namespace dogear::stock
