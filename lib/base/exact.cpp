#include "base/exact.h"

#include <algorithm>
#include <boost/multiprecision/cpp_int.hpp>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace dogear {

using boost::multiprecision::cpp_int;
__extension__ typedef __int128 Int128;

struct Exact::Wide {
  std::array<cpp_int, 4> n;
  cpp_int den = 1;
};

namespace {

// Products of two numbers below this bound, summed with the field's coefficients, fit 128 bits.
constexpr std::int64_t small_limit = std::int64_t{1} << 60;

constexpr std::array<double, 4> roots{1.0, 1.4142135623730951, 1.7320508075688772,
                                      2.4494897427831779};

bool fits(Int128 v) { return v < small_limit && v > -small_limit; }

Int128 gcd128(Int128 a, Int128 b) {
  if (a < 0) a = -a;
  if (b < 0) b = -b;
  // Most numbers are small, and 64-bit division is several times faster.
  constexpr auto word = static_cast<Int128>(std::numeric_limits<std::int64_t>::max());
  while (b != 0) {
    if (a <= word && b <= word) {
      return std::gcd(static_cast<std::int64_t>(a), static_cast<std::int64_t>(b));
    }
    const Int128 r = a % b;
    a = b;
    b = r;
  }
  return a;
}

Int128 divisor(Int128 a, Int128 b) { return gcd128(a, b); }
std::int64_t divisor(std::int64_t a, std::int64_t b) { return std::gcd(a, b); }

// Divides out what numerators and denominator share.
template <class Number>
void reduce(std::array<Number, 4>& n, Number& den) {
  Number g = den;
  for (std::size_t i = 0; i < 4 && g != 1; ++i) {
    if (n[i] != 0) g = divisor(g, n[i]);
  }
  if (g == 1) return;
  den /= g;
  for (Number& v : n) {
    if (v != 0) v /= g;
  }
}

bool fit(const std::array<Int128, 4>& n, Int128 den) {
  return fits(den) && fits(n[0]) && fits(n[1]) && fits(n[2]) && fits(n[3]);
}

// Nearly all numbers of a pattern are this small: sums and products of two of them, with the
// field's coefficients, fit 64 bits, whose division is several times faster.
constexpr std::int64_t tiny_limit = std::int64_t{1} << 28;

bool is_tiny(const std::array<std::int64_t, 4>& n, std::int64_t den) {
  const auto tiny = [](std::int64_t v) { return v < tiny_limit && v > -tiny_limit; };
  return tiny(den) && tiny(n[0]) && tiny(n[1]) && tiny(n[2]) && tiny(n[3]);
}

int sign_of(const cpp_int& v) { return v.sign(); }

// The sign of a + b√2.
int sign2(const cpp_int& a, const cpp_int& b) {
  const int sa = sign_of(a);
  const int sb = sign_of(b);
  if (sa == sb || sb == 0) return sa;
  if (sa == 0) return sb;
  const cpp_int difference = a * a - 2 * b * b;
  return sa * sign_of(difference);
}

// The sign of (a + b√2) + (c + d√2)√3: where the halves disagree, their squares decide.
int sign4(const std::array<cpp_int, 4>& n) {
  const int s1 = sign2(n[0], n[1]);
  const int s2 = sign2(n[2], n[3]);
  if (s1 == s2 || s2 == 0) return s1;
  if (s1 == 0) return s2;
  const cpp_int p = n[0] * n[0] + 2 * n[1] * n[1] - 3 * (n[2] * n[2] + 2 * n[3] * n[3]);
  const cpp_int q = 2 * n[0] * n[1] - 6 * n[2] * n[3];
  return s1 * sign2(p, q);
}

}  // namespace

Fraction Fraction::of(std::int64_t num, std::int64_t den) {
  if (den < 0) {
    num = -num;
    den = -den;
  }
  const std::int64_t g = std::gcd(num, den);
  return g == 0 ? Fraction{0, 1} : Fraction{num / g, den / g};
}

Exact::Exact(Fraction f) {
  const Fraction low = Fraction::of(f.num, f.den);
  if (fits(low.num) && fits(low.den)) {
    n_[0] = low.num;
    den_ = low.den;
  } else {
    Wide w;
    w.n[0] = low.num;
    w.den = low.den;
    *this = narrow(std::move(w));
  }
}

Exact Exact::ratio(std::int64_t num, std::int64_t den) { return Exact(Fraction::of(num, den)); }

Exact Exact::sqrt2() {
  Exact e;
  e.n_[1] = 1;
  return e;
}
Exact Exact::sqrt3() {
  Exact e;
  e.n_[2] = 1;
  return e;
}
Exact Exact::sqrt6() {
  Exact e;
  e.n_[3] = 1;
  return e;
}

Exact::Wide Exact::widen() const {
  if (wide_) return *wide_;
  Wide w;
  for (std::size_t i = 0; i < 4; ++i) w.n[i] = n_[i];
  w.den = den_;
  return w;
}

Exact Exact::narrow(Wide w) {
  if (w.den < 0) {
    w.den = -w.den;
    for (auto& v : w.n) v = -v;
  }
  cpp_int g = w.den;
  for (const auto& v : w.n) g = boost::multiprecision::gcd(g, v);
  if (g > 1) {
    w.den /= g;
    for (auto& v : w.n) v /= g;
  }
  const cpp_int limit = small_limit;
  const bool small = w.den < limit && std::all_of(w.n.begin(), w.n.end(), [&](const cpp_int& v) {
                       return v < limit && v > -limit;
                     });
  Exact e;
  if (small) {
    for (std::size_t i = 0; i < 4; ++i) e.n_[i] = static_cast<std::int64_t>(w.n[i]);
    e.den_ = static_cast<std::int64_t>(w.den);
  } else {
    e.wide_ = std::make_shared<const Wide>(std::move(w));
  }
  return e;
}

Exact Exact::operator-() const {
  if (wide_) return Exact(0) - *this;
  Exact e = *this;
  for (std::int64_t& v : e.n_) v = -v;
  return e;
}

Exact operator+(const Exact& a, const Exact& b) {
  if (!a.wide_ && !b.wide_) {
    if (is_tiny(a.n_, a.den_) && is_tiny(b.n_, b.den_)) {
      Exact e;
      const bool alike = a.den_ == b.den_;
      const std::int64_t of_a = alike ? 1 : b.den_, of_b = alike ? 1 : a.den_;
      for (std::size_t i = 0; i < 4; ++i) e.n_[i] = a.n_[i] * of_a + b.n_[i] * of_b;
      e.den_ = a.den_ * of_a;
      reduce(e.n_, e.den_);
      return e;
    }
    std::array<Int128, 4> n{};
    Int128 den = 0;
    if (a.den_ == b.den_) {
      for (std::size_t i = 0; i < 4; ++i) n[i] = Int128{a.n_[i]} + b.n_[i];
      den = a.den_;
    } else {
      for (std::size_t i = 0; i < 4; ++i) {
        n[i] = Int128{a.n_[i]} * b.den_ + Int128{b.n_[i]} * a.den_;
      }
      den = Int128{a.den_} * b.den_;
    }
    reduce(n, den);
    if (fit(n, den)) {
      Exact e;
      for (std::size_t i = 0; i < 4; ++i) e.n_[i] = static_cast<std::int64_t>(n[i]);
      e.den_ = static_cast<std::int64_t>(den);
      return e;
    }
  }
  Exact::Wide x = a.widen();
  const Exact::Wide y = b.widen();
  for (std::size_t i = 0; i < 4; ++i) x.n[i] = x.n[i] * y.den + y.n[i] * x.den;
  x.den *= y.den;
  return Exact::narrow(std::move(x));
}

Exact operator-(const Exact& a, const Exact& b) {
  if (!b.wide_) {
    Exact negative = b;
    for (auto& v : negative.n_) v = -v;
    return a + negative;
  }
  Exact::Wide w = *b.wide_;
  for (auto& v : w.n) v = -v;
  return a + Exact::narrow(std::move(w));
}

namespace {

// (x0 + x1√2 + x2√3 + x3√6)(y0 + y1√2 + y2√3 + y3√6), numerators alone.
template <class Result, class X, class Y>
std::array<Result, 4> multiply(const X& x, const Y& y) {
  const auto at = [](const auto& v, std::size_t i) { return Result(v[i]); };
  return {
      at(x, 0) * at(y, 0) + 2 * (at(x, 1) * at(y, 1)) + 3 * (at(x, 2) * at(y, 2)) +
          6 * (at(x, 3) * at(y, 3)),
      at(x, 0) * at(y, 1) + at(x, 1) * at(y, 0) + 3 * (at(x, 2) * at(y, 3) + at(x, 3) * at(y, 2)),
      at(x, 0) * at(y, 2) + at(x, 2) * at(y, 0) + 2 * (at(x, 1) * at(y, 3) + at(x, 3) * at(y, 1)),
      at(x, 0) * at(y, 3) + at(x, 3) * at(y, 0) + at(x, 1) * at(y, 2) + at(x, 2) * at(y, 1)};
}

}  // namespace

Exact operator*(const Exact& a, const Exact& b) {
  if (a.is_zero() || b.is_zero()) return {};
  if (!a.wide_ && !b.wide_) {
    if (is_tiny(a.n_, a.den_) && is_tiny(b.n_, b.den_)) {
      Exact e;
      e.n_ = multiply<std::int64_t>(a.n_, b.n_);
      e.den_ = a.den_ * b.den_;
      reduce(e.n_, e.den_);
      return e;
    }
    std::array<Int128, 4> n = multiply<Int128>(a.n_, b.n_);
    Int128 den = Int128{a.den_} * b.den_;
    reduce(n, den);
    if (fit(n, den)) {
      Exact e;
      for (std::size_t i = 0; i < 4; ++i) e.n_[i] = static_cast<std::int64_t>(n[i]);
      e.den_ = static_cast<std::int64_t>(den);
      return e;
    }
  }
  const Exact::Wide x = a.widen();
  const Exact::Wide y = b.widen();
  Exact::Wide w;
  w.n = multiply<cpp_int>(x.n, y.n);
  w.den = x.den * y.den;
  return Exact::narrow(std::move(w));
}

Exact operator/(const Exact& a, const Exact& b) {
  if (b.is_zero()) throw std::domain_error("division by zero");
  if (const auto by = b.as_fraction()) return a * Exact(Fraction{by->den, by->num});
  // Multiplying by the conjugates over √3 and then over √2 leaves a rational divisor.
  Exact::Wide by3 = b.widen();
  by3.n[2] = -by3.n[2];
  by3.n[3] = -by3.n[3];
  const Exact conjugate3 = Exact::narrow(std::move(by3));
  const Exact in_root2 = b * conjugate3;
  Exact::Wide by2 = in_root2.widen();
  by2.n[1] = -by2.n[1];
  const Exact conjugate2 = Exact::narrow(std::move(by2));
  Exact::Wide divisor = (in_root2 * conjugate2).widen();
  Exact::Wide inverse;
  inverse.n[0] = divisor.den;
  inverse.den = divisor.n[0];
  return a * conjugate3 * conjugate2 * Exact::narrow(std::move(inverse));
}

bool operator==(const Exact& a, const Exact& b) {
  if (!a.wide_ && !b.wide_) return a.n_ == b.n_ && a.den_ == b.den_;
  if (!a.wide_ || !b.wide_) return false;
  return a.wide_->n == b.wide_->n && a.wide_->den == b.wide_->den;
}

std::strong_ordering operator<=>(const Exact& a, const Exact& b) {
  if (a == b) return std::strong_ordering::equal;
  if (!a.wide_ && !b.wide_ && is_tiny(a.n_, a.den_) && is_tiny(b.n_, b.den_)) {
    Exact difference;  // times both denominators, which are above zero
    for (std::size_t i = 0; i < 4; ++i) difference.n_[i] = a.n_[i] * b.den_ - b.n_[i] * a.den_;
    return difference.sign() < 0 ? std::strong_ordering::less : std::strong_ordering::greater;
  }
  return (a - b).sign() < 0 ? std::strong_ordering::less : std::strong_ordering::greater;
}

bool Exact::is_zero() const {
  return !wide_ && n_[0] == 0 && n_[1] == 0 && n_[2] == 0 && n_[3] == 0;
}

int Exact::sign() const {
  if (!wide_) {
    double value = 0;
    double size = 0;
    for (std::size_t i = 0; i < 4; ++i) {
      const double term = static_cast<double>(n_[i]) * roots[i];
      value += term;
      size += std::abs(term);
    }
    // Each term is right to a few ulp, so eight ulp of the sum of sizes bounds the error.
    const double bound = 8 * std::numeric_limits<double>::epsilon() * size;
    if (value > bound) return 1;
    if (value < -bound) return -1;
    if (is_zero()) return 0;
  }
  return sign4(widen().n);
}

double Exact::approx() const {
  if (!wide_) {
    double value = 0;
    for (std::size_t i = 0; i < 4; ++i) value += static_cast<double>(n_[i]) * roots[i];
    return value / static_cast<double>(den_);
  }
  double value = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const boost::multiprecision::cpp_rational term(wide_->n[i], wide_->den);
    value += static_cast<double>(term) * roots[i];
  }
  return value;
}

bool Exact::is_rational() const {
  if (wide_) return wide_->n[1] == 0 && wide_->n[2] == 0 && wide_->n[3] == 0;
  return n_[1] == 0 && n_[2] == 0 && n_[3] == 0;
}

std::optional<Fraction> Exact::as_fraction() const {
  if (wide_ || !is_rational()) return std::nullopt;
  return Fraction{n_[0], den_};
}

Fraction Exact::round_down(std::int64_t step) const {
  const Exact scaled = *this * Exact(step);
  auto k = static_cast<std::int64_t>(std::floor(scaled.approx()));
  while (Exact(k) > scaled) --k;
  while (Exact(k + 1) <= scaled) ++k;
  return Fraction::of(k, step);
}

Fraction Exact::round_up(std::int64_t step) const {
  const Fraction below = (-*this).round_down(step);
  return Fraction::of(-below.num, below.den);
}

Fraction Exact::round_nearest(std::int64_t step) const {
  return (*this + ratio(1, 2 * step)).round_down(step);
}

std::size_t Exact::hash() const {
  std::size_t h = 1469598103934665603ULL;
  const auto mix = [&h](std::uint64_t v) {
    h ^= v + 0x9e3779b97f4a7c15ULL + (h << 6U) + (h >> 2U);
    h *= 1099511628211ULL;
  };
  if (wide_) {
    for (const auto& v : wide_->n) mix(boost::multiprecision::hash_value(v));
    mix(boost::multiprecision::hash_value(wide_->den));
    return h;
  }
  for (const auto v : n_) mix(static_cast<std::uint64_t>(v));
  mix(static_cast<std::uint64_t>(den_));
  return h;
}

std::string Exact::text() const {
  static constexpr std::array<const char*, 4> names{"", "√2", "√3", "√6"};
  const Wide w = widen();
  std::string out;
  for (std::size_t i = 0; i < 4; ++i) {
    if (w.n[i] == 0) continue;
    const cpp_int g = boost::multiprecision::gcd(w.n[i], w.den);
    const cpp_int num = w.n[i] / g;
    const cpp_int den = w.den / g;
    const cpp_int size = num < 0 ? cpp_int(-num) : num;
    if (!out.empty()) {
      out += num < 0 ? " - " : " + ";
    } else if (num < 0) {
      out += "-";
    }
    const bool bare_root = i > 0 && size == 1 && den == 1;
    if (!bare_root) out += size.str();
    if (den != 1) out += "/" + den.str();
    out += names[i];
  }
  return out.empty() ? "0" : out;
}

Exact abs(const Exact& e) { return e.sign() < 0 ? -e : e; }
Exact min(const Exact& a, const Exact& b) { return b < a ? b : a; }
Exact max(const Exact& a, const Exact& b) { return a < b ? b : a; }

}  // namespace dogear
