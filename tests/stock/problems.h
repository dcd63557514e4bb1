#pragma once
// Problems for the tests: made in few words, at random, or read from a file.

#include <cstdint>
#include <string>
#include <vector>

#include "stock/stock.h"

namespace dogear::stock {

// Random numbers that are the same everywhere.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : state_(seed * 2654435761U + 12345) {}
  long long up_to(long long most) {  // 0 ... most
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;
    return static_cast<long long>((state_ >> 33) % static_cast<std::uint64_t>(most + 1));
  }
  long long between(long long least, long long most) { return least + up_to(most - least); }

 private:
  std::uint64_t state_;
};

// Pieces `height` high and `length` long, side by side.
Kind plain(Steps height, Steps length, long long need, Steps longest);
// The first takes `first`, each after it `pitch`.
Kind nested(Steps height, Steps first, Steps pitch, long long need, Steps longest);

Source cloth(Steps width);
Source sheets(Steps length, Steps height, long long had);

// Prices in steps of `step`: what is begun is paid.
std::function<long long(Steps)> in_steps_of(Steps step);

struct Published {
  std::string name;
  Steps capacity = 0;
  std::vector<std::pair<Steps, long long>> lengths;  // with their counts
  long long optimum = 0;
  Problem problem() const;  // rolls are sheets of height 1
  long long pieces() const;
};

std::vector<Published> published(const std::string& folder);

// First fit, longest first, kind by kind into strips of its own height: written apart from the
// solver. The height of all strips.
Steps first_fit_cloth(const Problem& problem);

}  // namespace dogear::stock
