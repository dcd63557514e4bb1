#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "base/exact.h"

using namespace dogear;

namespace {

Exact number(int a, int b, int c, int d, int den) {
  return (Exact(a) + Exact(b) * Exact::sqrt2() + Exact(c) * Exact::sqrt3() +
          Exact(d) * Exact::sqrt6()) /
         Exact(den);
}

// Steps through many small numbers of the field, the same on every machine.
class Numbers {
 public:
  Exact next() {
    const auto coefficient = [&] { return static_cast<int>(random_() % 41) - 20; };
    const int a = coefficient();
    const int b = coefficient();
    const int c = coefficient();
    const int d = coefficient();
    return number(a, b, c, d, 1 + static_cast<int>(random_() % 16));
  }

 private:
  std::mt19937 random_{7};
};

}  // namespace

TEST_CASE("roots multiply into each other") {
  CHECK(Exact::sqrt2() * Exact::sqrt2() == Exact(2));
  CHECK(Exact::sqrt3() * Exact::sqrt3() == Exact(3));
  CHECK(Exact::sqrt2() * Exact::sqrt3() == Exact::sqrt6());
  CHECK(Exact::sqrt6() * Exact::sqrt6() == Exact(6));
  CHECK(Exact(1) / Exact::sqrt2() == Exact::sqrt2() / Exact(2));
  CHECK(Exact::ratio(2, 4) == Exact::ratio(1, 2));
  CHECK(Exact::ratio(1, -2) == Exact::ratio(-1, 2));
}

TEST_CASE("the field's laws hold, exactly") {
  Numbers numbers;
  for (int i = 0; i < 500; ++i) {
    const Exact a = numbers.next();
    const Exact b = numbers.next();
    const Exact c = numbers.next();
    REQUIRE(a + b - b == a);
    REQUIRE(a * (b + c) == a * b + a * c);
    REQUIRE((a * b) * c == a * (b * c));
    REQUIRE(a - a == Exact(0));
    if (!b.is_zero()) REQUIRE(a / b * b == a);
    REQUIRE((a + b).hash() == (b + a).hash());
    REQUIRE((a * b).approx() == Approx(a.approx() * b.approx()).margin(1e-9));
    REQUIRE(((a <=> b) == std::strong_ordering::less) == (b > a));
    REQUIRE((a - b).sign() == -(b - a).sign());
  }
}

TEST_CASE("the sign is right however near zero the number is") {
  // Each step is a better fraction for the root of 2, from alternating sides.
  std::int64_t p = 1;
  std::int64_t q = 1;
  int expected = -1;
  for (int i = 0; i < 40; ++i) {
    REQUIRE((Exact::ratio(p, q) - Exact::sqrt2()).sign() == expected);
    REQUIRE((Exact::ratio(p, q) < Exact::sqrt2()) == (expected < 0));
    const std::int64_t next = p + 2 * q;
    q = p + q;
    p = next;
    expected = -expected;
  }
  // (√2 + √3)² = 5 + 2√6, so this difference is nothing at all.
  const Exact sum = Exact::sqrt2() + Exact::sqrt3();
  CHECK((sum * sum - Exact(5) - Exact(2) * Exact::sqrt6()).is_zero());
  // √2 + √3 is just above 3.146; three squarings make the difference tiny.
  Exact tiny = sum - Exact(3) - Exact::ratio(146, 1000);
  for (int i = 0; i < 3; ++i) tiny *= tiny;
  CHECK(tiny.sign() == 1);
  CHECK((-tiny).sign() == -1);
}

TEST_CASE("numbers that outgrow 64 bits stay exact and come back") {
  const Exact a = number(7, -3, 5, 11, 13);
  Exact power = 1;
  for (int i = 0; i < 40; ++i) power *= a;
  CHECK(power != Exact(1));
  CHECK(power > Exact(0));
  Exact back = power;
  for (int i = 0; i < 39; ++i) back /= a;
  CHECK(back == a);
  CHECK(back.hash() == a.hash());
  CHECK(back.text() == a.text());
  CHECK_FALSE((power - power + a) < a);
  const Exact large = Exact::ratio(INT64_MAX, 1);
  CHECK(large + large > large);
  CHECK(large + large - large == large);
  CHECK((large * large).as_fraction() == std::nullopt);
  CHECK(large * large / large == large);
}

TEST_CASE("rounding goes the way it says, also below nothing") {
  CHECK(Exact::sqrt2().round_up(8) == Fraction{3, 2});        // 1.41421 -> 1 4/8
  CHECK(Exact::sqrt2().round_down(8) == Fraction{11, 8});     // 1 3/8
  CHECK(Exact::sqrt2().round_nearest(8) == Fraction{11, 8});  // nearer than 1 1/2
  CHECK(Exact::sqrt2().round_nearest(16) == Fraction{23, 16});
  CHECK((-Exact::sqrt2()).round_up(8) == Fraction{-11, 8});
  CHECK((-Exact::sqrt2()).round_down(8) == Fraction{-3, 2});
  CHECK(Exact::ratio(5, 8).round_up(8) == Fraction{5, 8});
  CHECK(Exact::ratio(5, 8).round_down(8) == Fraction{5, 8});
  CHECK(Exact::ratio(-5, 8).round_down(2) == Fraction{-1, 1});
  Numbers numbers;
  for (int i = 0; i < 200; ++i) {
    const Exact a = numbers.next();
    const Exact up = a.round_up(8);
    const Exact down = a.round_down(8);
    REQUIRE(up >= a);
    REQUIRE(down <= a);
    REQUIRE(up - down <= Exact::ratio(1, 8));
    REQUIRE(abs(Exact(a.round_nearest(8)) - a) <= Exact::ratio(1, 16));
  }
}

TEST_CASE("rationals are told from the rest") {
  CHECK(Exact::ratio(3, 4).as_fraction() == Fraction{3, 4});
  CHECK(Exact::sqrt2().as_fraction() == std::nullopt);
  CHECK((Exact::sqrt2() * Exact::sqrt2()).is_rational());
  CHECK_FALSE(Exact::sqrt6().is_rational());
  CHECK(Exact(Fraction{6, 8}) == Exact::ratio(3, 4));
  CHECK(Fraction::of(6, -8) == Fraction{-3, 4});
  CHECK(max(Exact::sqrt2(), Exact::sqrt3()) == Exact::sqrt3());
  CHECK(min(Exact(-1), Exact(2)) == Exact(-1));
  CHECK(abs(Exact(-1)) == Exact(1));
}
