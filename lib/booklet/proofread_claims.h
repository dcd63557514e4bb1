#pragma once
// Numbers in the words that say what was computed: found in each size, judged over all of them.

#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "booklet/proofread_known.h"

namespace dogear::editing {

// A sentence of the designer's as one size prints it.
struct Reading {
  const Source& source;
  const Passage& passage;
  const Sentence& sentence;
  const Known& known;
  const Names& names;
  std::vector<std::size_t> uses;  // of the blocks that the file is printed with
};

struct Claim {
  // A cut that was not computed may be her own, so it is a warning; the others are errors.
  enum class About { count, size, cloth, cut, seam };
  About about = About::count;
  std::size_t begin = 0, end = 0;  // bytes of the passage
  Fraction value;
  int tag = -1;        // the tag that gives the number, -1 where it is written by hand
  std::string what;    // "strips of Night Sky"
  Values candidates;   // what it may be; never empty
  bool whole = false;  // the tag would print all that is spanned, its unit as well
};

void find_counts(const Reading& reading, std::vector<Claim>& claims);
void find_measures(const Reading& reading, std::vector<Claim>& claims);

class Claims {
 public:
  void add(const Reading& reading, const Claim& claim);
  void report(Diagnostics& diagnostics) const;

 private:
  struct OfSize {
    std::string size;
    Claim claim;
    bool right = false;
  };
  struct Place {
    Span span;
    std::string written;  // as it stands in the source
    std::string tag;      // the tag's name
    std::vector<OfSize> sizes;
  };
  static void judge(const Place& place, Diagnostics& diagnostics);

  std::map<std::tuple<std::string, std::size_t, std::size_t>, Place> places_;
};

// ---- what both finders use

bool is_one_of(const Token& token, std::initializer_list<std::string_view> words);
bool any_of(const Sentence& s, std::size_t begin, std::size_t end,
            std::initializer_list<std::string_view> words);
// The end of the clause that holds the token: the next comma, bracket or end of the sentence.
std::size_t clause_end(const Sentence& s, std::size_t at);
// Words before or after that make a number a part, a guess or another thing's. A measure of each is
// the measure of all.
bool is_hedged(const Sentence& s, std::size_t number, std::size_t end, bool is_measure = false);
// Fabrics that the sentence names before a token, in order, each once.
std::vector<FabricId> fabrics_in(const Sentence& s, std::size_t begin, std::size_t end);
// The one fabric that the heading or the paragraph above the list names, if it is one.
std::vector<FabricId> fabric_above(const Reading& reading);

}  // namespace dogear::editing
