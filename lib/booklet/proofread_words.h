#pragma once
// Words, numbers and names of a passage, sentence by sentence.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "booklet/proofread_text.h"

namespace dogear::editing {

// How a number is spelled: "12", "2½", "2 1/2", "2-1/2", "2.5", "twelve".
enum class Spelling { whole, sign, slash, hyphen, decimal, word };

enum class NameKind { fabric, block, unit, size, bundle };
struct Name {
  NameKind kind = NameKind::fabric;
  std::size_t index = 0;  // fabrics, uses, units of the piecing, sizes, bundles
};

struct Token {
  enum class Kind { word, number, mark, name };
  Kind kind = Kind::word;
  std::size_t begin = 0, end = 0;  // bytes of the passage
  std::string lower;               // word, mark: as it stands, small letters
  Fraction value;                  // number
  Spelling spelling = Spelling::whole;
  int tag = -1;             // the tag a number comes from
  std::vector<Name> names;  // name: all things that are called so
  bool glued = false;       // no blank before it

  bool is(std::string_view text) const { return kind != Kind::number && lower == text; }
  bool is_number() const { return kind == Kind::number; }
};

using Sentence = std::vector<Token>;

// Names as they are printed, each a row of words. "Night Sky" is found in any case but with a
// capital first; names of units, as their block's file spells them.
class Names {
 public:
  void add(std::string_view printed, Name name, bool capital);
  // Tokens from `at` on that spell a name, the longest first; 0 for none. A plural s may follow.
  // Behind "of" or "from", as in "2 yd of rust", a fabric's name may begin with a small letter.
  std::size_t match(const Sentence& words, std::size_t at, std::string_view text,
                    std::vector<Name>& found) const;

 private:
  struct Entry {
    std::vector<std::string> words;  // small letters
    bool capital = true;
    std::vector<Name> names;
  };
  std::map<std::string, std::vector<Entry>, std::less<>> by_first_;
};

std::vector<Sentence> sentences(const Passage& passage, const Names& names);

// Of tokens from `at`: an inch unit that belongs to the number before it ("in", "-inch", the mark),
// as the number of tokens; 0 for none.
std::size_t inch_unit(const Sentence& s, std::size_t at);

std::vector<std::string> name_words(std::string_view printed);  // "Night Sky" -> night, sky

}  // namespace dogear::editing
