#pragma once
// The words the program itself writes, from templates/words-*.yaml: one file a language.
//
// A text has {placeholders}. A text that is counted has two forms with a bar between them,
// "strip|strips"; a noun of what is sewn has one form, or five: see NounForm.

#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/exact.h"

namespace dogear {

using WordValues = std::initializer_list<std::pair<std::string_view, std::string>>;

// "Lantern block", "a Lantern block" as what is sewn, "a Lantern block" as what something is sewn
// to or becomes, "the Lantern block" as what something lies towards, "Lantern blocks". Languages
// with cases tell the second from the third.
enum class NounForm { bare, object, to, towards, many };

class Words {
 public:
  std::string language = "en";  // BCP 47
  std::map<std::string, std::string, std::less<>> texts;

  // The text with each {name} replaced. The loader has proved that every key is there.
  std::string operator()(std::string_view key, WordValues values = {}) const;
  bool has(std::string_view key) const { return texts.find(key) != texts.end(); }
  // Of "strip|strips" the one that goes with n.
  std::string noun(std::string_view key, long long n) const;
  // The same after the number: "1 strip", "3 strips".
  std::string count(std::string_view key, long long n) const;
  // Of a noun's forms that one; {a} becomes the article that `name` takes.
  std::string form(std::string_view key, NounForm form, WordValues values = {}) const;
  // "A3, B1 and C2".
  std::string list(const std::vector<std::string>& parts) const;
  // "two", "three" up to twelve, then digits.
  std::string number(long long n) const;
  // "a" or "an", by the first letter that follows; "" in languages that have no such pair.
  std::string article(std::string_view next) const;
  // A name as it stands in a sentence: where nouns have capitals, so has it.
  std::string name(const std::string& given) const;
  // The text of `head` + `name` where there is one, else the name as it is: names of shapes, of
  // purposes, of columns.
  std::string named(std::string_view head, std::string_view name) const;

  // Measures as the booklet prints them.
  std::string inches(const Fraction& f) const;                              // "2½ in"
  std::string inches(const Fraction& width, const Fraction& height) const;  // "2½ in × 4½ in"
  std::string yards(const Fraction& f) const;                               // "1⅛ yd"
  std::string centimetres(const Fraction& inches) const;                    // "152 cm"
  std::string whole_centimetres(long long cm) const;                        // "105 cm"
  std::string decimal_number(double value, int places) const;               // "1.375"
};

std::vector<std::string> placeholders(std::string_view text);  // names between braces, in order
std::string capital(std::string text);                         // first letter raised

}  // namespace dogear
