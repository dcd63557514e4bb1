// Fractions and words in running text.

#include <algorithm>
#include <array>
#include <optional>

#include "base/text.h"
#include "canvas/font.h"

namespace dogear::canvas {
namespace {

struct Vulgar {
  char32_t character;
  std::string_view num, den;
};

constexpr std::array<Vulgar, 19> vulgars{{
    {0xBC, "1", "4"},   {0xBD, "1", "2"},    {0xBE, "3", "4"},   {0x2150, "1", "7"},
    {0x2151, "1", "9"}, {0x2152, "1", "10"}, {0x2153, "1", "3"}, {0x2154, "2", "3"},
    {0x2155, "1", "5"}, {0x2156, "2", "5"},  {0x2157, "3", "5"}, {0x2158, "4", "5"},
    {0x2159, "1", "6"}, {0x215A, "5", "6"},  {0x215B, "1", "8"}, {0x215C, "3", "8"},
    {0x215D, "5", "8"}, {0x215E, "7", "8"},  {0x2189, "0", "3"},
}};

const Vulgar* vulgar(char32_t c) {
  const auto* found = std::lower_bound(vulgars.begin(), vulgars.end(), c,
                                       [](const Vulgar& v, char32_t x) { return v.character < x; });
  return found != vulgars.end() && found->character == c ? found : nullptr;
}

bool digit(char c) { return c >= '0' && c <= '9'; }
bool high(char c) { return static_cast<unsigned char>(c) >= 0x80; }
bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

constexpr std::string_view fraction_slash = "\u2044";

// Bytes of the slash at `at`, or 0.
std::size_t slash_at(std::string_view text, std::size_t at) {
  if (at < text.size() && text[at] == '/') return 1;
  return text.substr(at, 3) == fraction_slash ? 3 : 0;
}

// Bytes of a gap between a whole number and its fraction that ends just before `end`, or 0.
std::size_t gap_before(std::string_view text, std::size_t end) {
  if (end >= 1 && (text[end - 1] == ' ' || text[end - 1] == '-')) return 1;
  if (end >= 2 && text.substr(end - 2, 2) == "\u00A0") return 2;
  if (end >= 3) {
    const std::string_view last = text.substr(end - 3, 3);
    if (last == "\u2009" || last == "\u202F" || last == "\u200A") return 3;
  }
  return 0;
}

// Whether a number may start right after this character. A letter, a decimal point or a slash makes
// it part of something else; a multiplication sign, quotation mark or dash does not.
bool may_precede(char32_t c) {
  if (c < 0x80) {
    const char ascii = static_cast<char>(c);
    return !digit(ascii) && !letter(ascii) && ascii != '.' && ascii != ',' && ascii != '/';
  }
  return c == 0xD7 || c == 0xA0 || (c >= 0x2000 && c < 0x2070 && c != 0x2044);
}

// Looks left of a fraction for its whole number and widens the span over it.
void take_whole(std::string_view text, std::size_t floor, FractionSpan& span) {
  const std::size_t gap = gap_before(text, span.begin);
  const std::size_t end = span.begin - gap;
  std::size_t begin = end;
  while (begin > floor && digit(text[begin - 1])) --begin;
  if (begin == end || end - begin > 4) return;
  if (begin > 0) {
    std::size_t at = begin - 1;
    while (at > 0 && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80) --at;
    if (!may_precede(next_code_point(text, at))) return;
  }
  span.whole = text.substr(begin, end - begin);
  span.begin = begin;
}

std::optional<FractionSpan> plain_fraction(std::string_view text, std::size_t at,
                                           std::size_t floor) {
  if (at > floor) {
    const char before = text[at - 1];
    if (digit(before) || letter(before) || before == '.' || before == ',' || before == '/')
      return {};
    if (at >= 3 && text.substr(at - 3, 3) == fraction_slash) return {};
  }
  std::size_t i = at;
  while (i < text.size() && digit(text[i])) ++i;
  const std::size_t slash = slash_at(text, i);
  if (slash == 0 || i - at > 3 || text[at] == '0') return {};
  std::size_t end = i + slash;
  const std::size_t den = end;
  while (end < text.size() && digit(text[end])) ++end;
  const std::size_t den_digits = end - den;
  if (den_digits == 0 || den_digits > 3 || text[den] == '0') return {};
  if (den_digits == 1 && text[den] == '1') return {};
  if (slash_at(text, end) != 0) return {};
  if (end + 1 < text.size() && text[end] == '.' && digit(text[end + 1])) return {};
  return FractionSpan{at, end, "", std::string(text.substr(at, i - at)),
                      std::string(text.substr(den, den_digits))};
}

// ---- words

bool breaking_space(char32_t c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == 0x2003 || c == 0x2002;
}

bool ends_in_number(std::string_view word) {
  constexpr std::string_view inch_mark = "\u2033";
  if (word.ends_with(inch_mark)) word.remove_suffix(inch_mark.size());
  if (word.empty()) return false;
  if (digit(word.back())) return true;
  const std::vector<FractionSpan> spans = find_fractions(word);
  return !spans.empty() && spans.back().end == word.size();
}

bool is_number(std::string_view word) {
  return !word.empty() && std::all_of(word.begin(), word.end(), digit);
}

bool starts_with_number(std::string_view word) {
  if (word.empty()) return false;
  if (digit(word[0])) return true;
  std::size_t at = 0;
  return vulgar(next_code_point(word, at)) != nullptr;
}

bool is_unit(std::string_view word) {
  while (!word.empty() && std::string_view(".,;:)").find(word.back()) != std::string_view::npos)
    word.remove_suffix(1);
  static constexpr std::array<std::string_view, 17> units{
      "cm", "ft",  "in", "inch",   "inches", "mm",   "pt",   "yard", "yards",
      "yd", "yds", "\"", "\u2033", "m",      "Zoll", "Yard", "Stück"};
  return std::find(units.begin(), units.end(), word) != units.end();
}

// "Make 6", "step 2": the number is the word's own.
bool asks_for_number(std::string_view word) {
  static constexpr std::array<std::string_view, 14> asking{
      "Make", "make",    "fabric",   "set",   "step",  "steps", "row",
      "Row",  "Schritt", "Schritte", "Stoff", "Reihe", "Seite", "Bild"};
  return std::find(asking.begin(), asking.end(), word) != asking.end();
}

bool begins_with_fraction(std::string_view word) {
  const std::vector<FractionSpan> spans = find_fractions(word);
  return !spans.empty() && spans.front().begin == 0 && spans.front().whole.empty();
}

bool belongs_to(std::string_view before, std::string_view after) {
  constexpr std::string_view times = "\u00D7";
  const std::size_t space = before.rfind(' ');
  const std::string_view last = space == std::string_view::npos ? before : before.substr(space + 1);
  if (after == times) return ends_in_number(last) || is_unit(last);
  if (last == times) return starts_with_number(after);
  if (is_number(last) && begins_with_fraction(after)) return true;
  if (asks_for_number(last) && starts_with_number(after)) return true;
  return ends_in_number(last) && is_unit(after);
}

}  // namespace

std::vector<FractionSpan> find_fractions(std::string_view text) {
  std::vector<FractionSpan> spans;
  std::size_t floor = 0;
  std::size_t at = 0;
  while (at < text.size()) {
    const char c = text[at];
    std::optional<FractionSpan> span;
    std::size_t next = at + 1;
    if (digit(c)) {
      span = plain_fraction(text, at, floor);
      if (!span)
        while (next < text.size() && digit(text[next])) ++next;
    } else if (high(c)) {
      next = at;
      if (const Vulgar* v = vulgar(next_code_point(text, next)))
        span = FractionSpan{at, next, "", std::string(v->num), std::string(v->den)};
    }
    if (span) {
      next = span->end;
      take_whole(text, floor, *span);
      floor = next;
      spans.push_back(std::move(*span));
    }
    at = next;
  }
  return spans;
}

std::string normal_fractions(std::string_view text) {
  std::string out;
  std::size_t at = 0;
  for (const FractionSpan& span : find_fractions(text)) {
    out += text.substr(at, span.begin - at);
    if (!span.whole.empty()) out += span.whole + " ";
    out += span.num + "/" + span.den;
    at = span.end;
  }
  out += text.substr(at);
  return out;
}

std::vector<std::string> words(std::string_view text) {
  std::vector<std::string> out;
  std::string word;
  const auto finish = [&] {
    if (word.empty()) return;
    if (!out.empty() && belongs_to(out.back(), word))
      out.back() += " " + word;
    else
      out.push_back(word);
    word.clear();
  };
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = at;
    if (breaking_space(next_code_point(text, at)))
      finish();
    else
      word += text.substr(begin, at - begin);
  }
  finish();
  return out;
}

}  // namespace dogear::canvas
