// Abbreviations that the booklet uses and does not explain.

#include <algorithm>
#include <array>

#include "base/text.h"
#include "booklet/proofread_claims.h"
#include "booklet/proofread_edit.h"

namespace dogear::editing {
namespace {

// With vowels, so that they look like words, or in small letters behind a number.
constexpr std::array<std::string_view, 11> known_large{"LOF", "SA",  "EPP", "SID",  "BOM", "FE",
                                                       "RSU", "WSU", "LAQ", "QAYG", "WOF"};
constexpr std::array<std::string_view, 4> known_small{"ft", "oz", "sq", "ea"};
constexpr std::array<std::string_view, 14> everyday{"TV",  "PDF", "DVD", "CD",  "PS",  "NB", "PM",
                                                    "DMC", "XL",  "XS",  "SMS", "GPS", "HB", "RGB"};

// "HST" of "HSTs", or nothing when the word is no abbreviation.
std::string abbreviation(std::string_view word) {
  if (word.size() > 1 && word.back() == 's') word.remove_suffix(1);
  if (word.size() < 2 || word.size() > 5) return {};
  for (const char c : word)
    if (c < 'A' || c > 'Z') return {};
  if (std::find(known_large.begin(), known_large.end(), word) != known_large.end())
    return std::string(word);
  if (std::find(everyday.begin(), everyday.end(), word) != everyday.end()) return {};
  if (word.find_first_of("AEIOUY") != std::string_view::npos) return {};
  if (word.find_first_not_of("MDCLXVI") == std::string_view::npos) return {};  // a numeral
  return std::string(word);
}

// "WOF (width of fabric)", "width of fabric (WOF)", "WOF: ...", "WOF means ...", "WOF | ...".
bool explains(const Sentence& s, std::size_t i) {
  const bool bracketed = i > 0 && s[i - 1].is("(") && i + 1 < s.size() && s[i + 1].is(")") && i > 2;
  const bool followed =
      i + 1 < s.size() && (is_one_of(s[i + 1], {"(", ":", "=", "|", "means", "\u2013", "\u2014"}) ||
                           (s[i + 1].is("stands") && i + 2 < s.size() && s[i + 2].is("for")) ||
                           (s[i + 1].is("is") && i + 2 < s.size() && s[i + 2].is("short")));
  return bracketed || followed;
}

}  // namespace

void check_abbreviations(const Edit& edit) {
  struct Used {
    Span span;
    std::vector<std::string> sizes;
  };
  std::map<std::string, Used> open;
  for (std::size_t nth = 0; nth < edit.sizes.size(); ++nth) {
    std::map<std::string, Span> used;
    std::set<std::string> explained;
    for (const Text& text : edit.texts) {
      for (const Passage& passage : text.passages[nth]) {
        for (const Sentence& s : sentences(passage, edit.names)) {
          for (std::size_t i = 0; i < s.size(); ++i) {
            const Token& t = s[i];
            if (t.kind != Token::Kind::word) continue;
            const std::string_view word =
                std::string_view(passage.text).substr(t.begin, t.end - t.begin);
            std::string name = abbreviation(word);
            const bool measure =
                i > 0 && s[i - 1].is_number() &&
                std::find(known_small.begin(), known_small.end(), word) != known_small.end();
            if (measure) name = std::string(word);
            if (name.empty()) continue;
            if (explains(s, i)) explained.insert(name);
            used.emplace(name, text.source.span(passage, t.begin, t.end));
          }
        }
      }
    }
    for (const auto& [name, span] : used) {
      if (explained.contains(name) || edit.words.texts.contains("meaning of " + name)) continue;
      Used& u = open[name];
      if (u.sizes.empty()) u.span = span;
      u.sizes.push_back(edit.known[nth].size_def().id);
    }
  }
  for (const auto& [name, used] : open) {
    const bool all = used.sizes.size() == edit.sizes.size();
    edit.diagnostics
        .warning("D454", used.span,
                 "`" + name + "` is explained nowhere in the booklet" +
                     (all ? "" : " of the size `" + join(used.sizes, "`, `") + "`"))
        .hints.push_back(name[0] >= 'a'
                             ? "say it in full, or explain it where it first stands"
                             : "say it in full where it first stands, with the letters in "
                               "brackets: `width of fabric (WOF)`");
  }
}

}  // namespace dogear::editing
