#pragma once
// How measures are spelled in lists: "2 1/2 in", "1 1/8 yd", "105 cm".

#include <string>

#include "base/length.h"

namespace dogear::list_words {

inline std::string inches(const Fraction& f) { return plain_inches(f); }
inline std::string by(const Fraction& width, const Fraction& height) {
  return plain_inches(width) + " x " + plain_inches(height);
}
inline std::string yards(const Fraction& f) { return plain(f) + " yd"; }
inline std::string centimetres(long long cm) { return std::to_string(cm) + " cm"; }
// "3 strips", "1 strip".
inline std::string count(long long n, const std::string& one, const std::string& many) {
  return std::to_string(n) + ' ' + (n == 1 ? one : many);
}

}  // namespace dogear::list_words
