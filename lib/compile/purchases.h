#pragma once
// What has to be bought for one quilt of a size, source by source.

#include <optional>
#include <string>
#include <vector>

#include "compile/plan.h"

namespace dogear {

struct BundlePurchase {
  std::size_t bundle = 0;  // Pattern::bundles
  long long count = 0;
};

// Yardage of a fabric, or sheets of one kind.
struct ClothPurchase {
  FabricId fabric = 0;
  ClothSource::Kind kind = ClothSource::Kind::yardage;  // never a bundle
  Fraction yards;                                       // yardage: as printed, all allowances in it
  long long centimetres = 0;
  long long sheets = 0;  // other kinds
  Exact length;          // usable width of yardage; of a sheet along which its strips run
  Exact height;          // of a sheet
  std::vector<std::string> uses;
};

struct Purchases {
  std::vector<BundlePurchase> bundles;
  std::vector<ClothPurchase> cloth;  // in order of use
};

Purchases purchases(const Plan& plan, std::size_t size);

// "42 in", "18 in x 21 in": what the cloth measures across, as it is asked for in a shop.
std::string cloth_measure(const ClothPurchase& cloth);
// "1 1/8 yd", "2 fat quarters".
std::string amount(const ClothPurchase& cloth);
// "2 strips each of Brass, Kelp and Slate".
std::string bundle_words(const Pattern& pattern, std::size_t bundle);

}  // namespace dogear
