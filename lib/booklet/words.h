#pragma once
// The words the program itself writes, from templates/words-en.yaml, and how lists are said.

#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/exact.h"

namespace dogear {

using WordValues = std::initializer_list<std::pair<std::string_view, std::string>>;

class Words {
 public:
  std::map<std::string, std::string, std::less<>> texts;

  // The text with each {name} replaced. The loader has proved that every key is there.
  std::string operator()(std::string_view key, WordValues values = {}) const;
  // Of "strip|strips" the one that goes with n.
  std::string noun(std::string_view key, long long n) const;
  // The same after the number: "1 strip", "3 strips".
  std::string count(std::string_view key, long long n) const;
  // "A3, B1 and C2".
  std::string list(const std::vector<std::string>& parts) const;
  // "two", "three" up to twelve, then digits.
  std::string number(long long n) const;
};

std::vector<std::string> placeholders(std::string_view text);  // names between braces, in order
std::string capital(std::string text);                         // first ASCII letter raised

// Measures as the booklet prints them.
std::string inches_by_inches(const Fraction& width, const Fraction& height);  // "2½ in × 4½ in"
std::string yards(const Fraction& f);                                         // "1⅛ yd"
std::string centimetres(const Fraction& inches);  // nearest whole: "152 cm"

}  // namespace dogear
