#pragma once
// Exact numbers of the form a + b√2 + c√3 + d√6 with rational a, b, c, d.
//
// Closed under + - * / and under turning by multiples of 15°, canonical, so two numbers are equal
// exactly when their stored forms are. Lengths are in inches unless a name says otherwise.

#include <array>
#include <compare>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>

namespace dogear {

// A printed measure: an ordinary fraction in lowest terms, den > 0.
struct Fraction {
  std::int64_t num = 0;
  std::int64_t den = 1;

  static Fraction of(std::int64_t num, std::int64_t den);
  double approx() const { return static_cast<double>(num) / static_cast<double>(den); }
  bool operator==(const Fraction&) const = default;
};

class Exact {
 public:
  Exact() = default;
  template <std::integral T>
  Exact(T whole) : Exact(Fraction{static_cast<std::int64_t>(whole), 1}) {}  // reads as a number
  Exact(Fraction f);
  static Exact ratio(std::int64_t num, std::int64_t den);
  static Exact sqrt2();
  static Exact sqrt3();
  static Exact sqrt6();

  Exact operator-() const;
  Exact& operator+=(const Exact& o) { return *this = *this + o; }
  Exact& operator-=(const Exact& o) { return *this = *this - o; }
  Exact& operator*=(const Exact& o) { return *this = *this * o; }
  Exact& operator/=(const Exact& o) { return *this = *this / o; }
  friend Exact operator+(const Exact& a, const Exact& b);
  friend Exact operator-(const Exact& a, const Exact& b);
  friend Exact operator*(const Exact& a, const Exact& b);
  friend Exact operator/(const Exact& a, const Exact& b);  // b must not be zero
  friend bool operator==(const Exact& a, const Exact& b);
  friend std::strong_ordering operator<=>(const Exact& a, const Exact& b);

  int sign() const;  // -1, 0 or 1, always right
  bool is_zero() const;
  double approx() const;  // nearest double to within a few ulp
  bool is_rational() const;
  std::optional<Fraction> as_fraction() const;  // only for rationals that fit
  // The least / greatest multiple of 1/step that is not below / not above this number.
  Fraction round_up(std::int64_t step) const;
  Fraction round_down(std::int64_t step) const;
  Fraction round_nearest(std::int64_t step) const;
  std::size_t hash() const;
  std::string text() const;  // for tests and messages: "1/2 + 3/4√3"

 private:
  struct Wide;
  // Small form: value = (n[0] + n[1]√2 + n[2]√3 + n[3]√6) / den, den > 0, in lowest terms.
  // Where 64 bits do not suffice, wide_ holds the number and the small form is unused.
  std::array<std::int64_t, 4> n_{0, 0, 0, 0};
  std::int64_t den_ = 1;
  std::shared_ptr<const Wide> wide_;

  Wide widen() const;
  static Exact narrow(Wide w);
};

Exact abs(const Exact& e);
Exact min(const Exact& a, const Exact& b);
Exact max(const Exact& a, const Exact& b);

}  // namespace dogear

template <>
struct std::hash<dogear::Exact> {
  std::size_t operator()(const dogear::Exact& e) const { return e.hash(); }
};
