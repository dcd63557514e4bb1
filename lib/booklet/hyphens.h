#pragma once
// Where English words may be hyphenated.

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/files.h"

namespace dogear {

class Hyphens {
 public:
  // A dictionary in libhyphen's format; one that cannot be read hyphenates nothing.
  explicit Hyphens(const std::string& dictionary);
  // Byte offsets within `word` (ASCII letters only) where it may be parted.
  const std::vector<std::size_t>& points(std::string_view word) const;
  bool empty() const { return dict_ == nullptr; }

 private:
  std::shared_ptr<void> dict_;
  mutable std::unordered_map<std::string, std::vector<std::size_t>> known_;
};

inline constexpr const char* hyphen_dictionary = "/usr/share/hyphen/hyph_en_US.dic";

}  // namespace dogear
