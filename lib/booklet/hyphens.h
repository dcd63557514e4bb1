#pragma once
// Where the words of a language may be hyphenated.

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace dogear {

// Not safe to use from several threads at once, as words are kept: each has another().
class Hyphens {
 public:
  // A dictionary in libhyphen's format; one that cannot be read hyphenates nothing. Where all nouns
  // are written with a capital, a capital does not make a name.
  explicit Hyphens(const std::string& dictionary, bool nouns_have_capitals = false);
  Hyphens another() const;  // of the same dictionary
  // Byte offsets within `word` (letters of Latin-1 only, in UTF-8) where it may be parted.
  const std::vector<std::size_t>& points(std::string_view word) const;
  bool empty() const { return dict_ == nullptr; }
  bool nouns_have_capitals() const { return nouns_have_capitals_; }

 private:
  Hyphens() = default;
  std::shared_ptr<void> dict_;
  bool latin1_ = false;  // how the dictionary is written, else UTF-8
  bool nouns_have_capitals_ = false;
  mutable std::unordered_map<std::string, std::vector<std::size_t>> known_;
};

// The bytes of the letter of Latin-1 that begins at `at`; 0 where there is none.
std::size_t letter_at(std::string_view text, std::size_t at);

}  // namespace dogear
