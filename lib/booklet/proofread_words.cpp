#include "booklet/proofread_words.h"

#include <algorithm>
#include <array>
#include <cstdint>

#include "base/text.h"
#include "canvas/font.h"

namespace dogear::editing {
namespace {

constexpr std::array<std::string_view, 11> number_words{
    "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"};

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// Letters of other alphabets are letters here; signs such as × and ″ are not.
bool is_letter(char32_t c) {
  if (c < 0x80) return is_letter(static_cast<char>(c));
  return c >= 0xC0 && c != 0xD7 && c != 0xF7 && !(c >= 0x2000 && c < 0x2C00) && c < 0xFE00;
}

bool is_blank(char32_t c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == 0xA0 || c == 0x2009 ||
         c == 0x202F || c == 0x200A;
}

bool is_apostrophe(char32_t c) { return c == '\'' || c == 0x2019; }

std::optional<std::int64_t> whole(std::string_view digits) {
  if (digits.empty() || digits.size() > 9) return {};
  std::int64_t n = 0;
  for (const char c : digits) n = n * 10 + (c - '0');
  return n;
}

class Tokens {
 public:
  explicit Tokens(const Passage& p) : p_(p), text_(p.text) {
    for (const canvas::FractionSpan& f : canvas::find_fractions(text_)) fractions_.push_back(f);
  }

  std::vector<Token> read() {
    std::size_t fraction = 0;
    for (std::size_t at = 0; at < text_.size();) {
      while (fraction < fractions_.size() && fractions_[fraction].begin < at) ++fraction;
      if (fraction < fractions_.size() && fractions_[fraction].begin == at) {
        at = read_fraction(fractions_[fraction]);
        continue;
      }
      std::size_t next = at;
      const char32_t c = next_code_point(text_, next);
      if (is_blank(c)) {
        blank_ = true;
        at = next;
      } else if (c < 0x80 && is_digit(static_cast<char>(c))) {
        at = read_digits(at);
      } else if (is_letter(c)) {
        at = read_word(at);
      } else {
        push(Token::Kind::mark, at, next).lower = std::string(text_.substr(at, next - at));
        at = next;
      }
    }
    return std::move(out_);
  }

 private:
  Token& push(Token::Kind kind, std::size_t begin, std::size_t end) {
    Token& t = out_.emplace_back();
    t.kind = kind;
    t.begin = begin;
    t.end = end;
    t.tag = p_.tag[begin];
    t.glued = !blank_ && begin > 0;
    blank_ = false;
    return t;
  }

  std::size_t read_fraction(const canvas::FractionSpan& f) {
    const auto num = whole(f.num), den = whole(f.den), all = f.whole.empty() ? 0 : whole(f.whole);
    Token& t = push(Token::Kind::number, f.begin, f.end);
    const std::string_view text = text_.substr(f.begin, f.end - f.begin);
    if (num && den && all && *den != 0) t.value = Fraction::of(*all * *den + *num, *den);
    const bool slash = text.find('/') != std::string_view::npos;
    t.spelling = !slash                                     ? Spelling::sign
                 : text.find('-') != std::string_view::npos ? Spelling::hyphen
                                                            : Spelling::slash;
    return f.end;
  }

  std::size_t read_digits(std::size_t at) {
    std::size_t end = at;
    std::string digits;
    bool decimal = false, odd = false;
    std::int64_t den = 1;
    while (end < text_.size()) {
      const char c = text_[end];
      const bool more = end + 1 < text_.size() && is_digit(text_[end + 1]);
      if (is_digit(c)) {
        digits += c;
        if (decimal) den *= 10;
      } else if (c == ',' && more && end + 3 < text_.size() && !decimal) {
        // "1,200": a comma before three digits.
      } else if (c == '.' && more && !decimal) {
        decimal = true;
      } else if ((c == '.' || c == ':' || c == '/') && more) {
        odd = true;  // a date, a time or a version
      } else {
        break;
      }
      ++end;
    }
    std::size_t next = end;
    const char32_t after = end < text_.size() ? next_code_point(text_, next) : U' ';
    // "3rd", "1920s", "4x" and "A3" are words; so are "60°" and "12%".
    if (is_letter(after) && after != 'x') odd = true;
    if (after == 0xB0 || after == '%') odd = true;
    const auto n = whole(digits);
    if (odd || !n || digits.size() > 7) {
      while (end < text_.size() && (is_letter(text_[end]) || is_digit(text_[end]))) ++end;
      push(Token::Kind::word, at, end).lower = lower(text_.substr(at, end - at));
      return end;
    }
    Token& t = push(Token::Kind::number, at, end);
    t.value = Fraction::of(*n, den);
    t.spelling = decimal ? Spelling::decimal : Spelling::whole;
    return end;
  }

  std::size_t read_word(std::size_t at) {
    std::size_t end = at;
    while (end < text_.size()) {
      std::size_t next = end;
      const char32_t c = next_code_point(text_, next);
      if (is_letter(c) || (c < 0x80 && is_digit(static_cast<char>(c)))) {
        end = next;
        continue;
      }
      std::size_t behind = next;
      if (!is_apostrophe(c) || next >= text_.size() || !is_letter(next_code_point(text_, behind)))
        break;
      end = next;
    }
    const std::string word = lower(text_.substr(at, end - at));
    const auto* number = std::find(number_words.begin(), number_words.end(), word);
    if (number == number_words.end()) {
      push(Token::Kind::word, at, end).lower = word;
      return end;
    }
    Token& t = push(Token::Kind::number, at, end);
    t.lower = word;
    t.value = {2 + (number - number_words.begin()), 1};
    t.spelling = Spelling::word;
    return end;
  }

  const Passage& p_;
  std::string_view text_;
  std::vector<canvas::FractionSpan> fractions_;
  std::vector<Token> out_;
  bool blank_ = true;
};

bool begins_large(std::string_view text, const Token& t) {
  const char c = text[t.begin];
  return (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}

// Whether "of" or "from" stands before, as behind an amount.
bool of_amount(const Sentence& all, std::size_t at) {
  if (at > 0 && (all[at - 1].is("the") || all[at - 1].is("your"))) --at;
  return at > 1 && (all[at - 1].is("of") || all[at - 1].is("from"));
}

}  // namespace

std::vector<std::string> name_words(std::string_view printed) {
  Passage p;
  p.text = std::string(printed);
  p.tag.assign(p.text.size(), -1);
  std::vector<std::string> words;
  for (const Token& t : Tokens(p).read())
    words.push_back(lower(printed.substr(t.begin, t.end - t.begin)));
  return words;
}

void Names::add(std::string_view printed, Name name, bool capital) {
  std::vector<std::string> words = name_words(printed);
  if (words.empty()) return;
  auto& all = by_first_[words.front()];
  for (Entry& e : all) {
    if (e.words == words && e.capital == capital) {
      e.names.push_back(name);
      return;
    }
  }
  all.push_back({std::move(words), capital, {name}});
}

std::size_t Names::match(const Sentence& all, std::size_t at, std::string_view text,
                         std::vector<Name>& found) const {
  std::size_t longest = 0;
  const auto is_fabric = [](const Entry& e) {
    return std::all_of(e.names.begin(), e.names.end(),
                       [](const Name& name) { return name.kind == NameKind::fabric; });
  };
  const auto spelled = [&](const Token& t) { return lower(text.substr(t.begin, t.end - t.begin)); };
  const auto try_first = [&](const std::string& first) {
    const auto entries = by_first_.find(first);
    if (entries == by_first_.end()) return;
    for (const Entry& e : entries->second) {
      const std::size_t n = e.words.size();
      if (at + n > all.size() || n < longest ||
          (e.capital && !begins_large(text, all[at]) && !(is_fabric(e) && of_amount(all, at))))
        continue;
      bool same = true;
      for (std::size_t k = 0; k < n && same; ++k) {
        const std::string word = spelled(all[at + k]);
        const bool last = k + 1 == n;
        same = word == e.words[k] ||
               (last && (word == e.words[k] + "s" || word == e.words[k] + "es" ||
                         word == e.words[k] + "'s" || word == e.words[k] + "\u2019s"));
      }
      if (!same) continue;
      if (n > longest) found.clear();
      longest = n;
      found.insert(found.end(), e.names.begin(), e.names.end());
    }
  };
  const std::string first = spelled(all[at]);
  try_first(first);
  // One word in the plural or with 's.
  for (const std::string_view tail : {"s", "es", "'s", "\u2019s"})
    if (first.size() > tail.size() && first.ends_with(tail))
      try_first(first.substr(0, first.size() - tail.size()));
  return longest;
}

std::vector<Sentence> sentences(const Passage& p, const Names& names) {
  const Sentence all = Tokens(p).read();
  const std::string_view text = p.text;
  std::vector<Sentence> out(1);
  for (std::size_t i = 0; i < all.size();) {
    std::vector<Name> found;
    const std::size_t n = names.match(all, i, text, found);
    // A number in a name is one only where the whole name stands.
    if (n > 0 && !(n == 1 && all[i].is_number())) {
      Token t = all[i];
      t.kind = Token::Kind::name;
      t.end = all[i + n - 1].end;
      t.lower = lower(text.substr(t.begin, t.end - t.begin));
      t.names = std::move(found);
      out.back().push_back(std::move(t));
      i += n;
      continue;
    }
    const Token& t = all[i++];
    const bool stop = t.is(".") || t.is("!") || t.is("?") || t.is(";");
    const bool ends =
        stop && (i == all.size() ||
                 (!all[i].glued && (t.is(";") || !t.is(".") || begins_large(text, all[i]) ||
                                    is_digit(text[all[i].begin]))));
    if (!ends) {
      out.back().push_back(t);
    } else if (!out.back().empty()) {
      out.emplace_back();
    }
  }
  if (out.back().empty()) out.pop_back();
  return out;
}

std::size_t inch_unit(const Sentence& s, std::size_t at) {
  std::size_t i = at;
  const bool hyphen = i < s.size() && s[i].is("-") && s[i].glued;
  if (hyphen) ++i;
  if (i >= s.size()) return 0;
  for (const char* unit : {"inch", "inches"})
    if (s[i].is(unit)) return i - at + 1;
  if (s[i].is("in")) {
    // "Make 12 in all" speaks of no inches.
    constexpr std::array<std::string_view, 16> nouns{
        "the",  "all",  "a",     "an",  "each", "every", "your",  "total",
        "this", "that", "these", "its", "one",  "order", "pairs", "place"};
    const bool preposition =
        i + 1 < s.size() && std::find(nouns.begin(), nouns.end(), s[i + 1].lower) != nouns.end();
    return preposition && !hyphen ? 0 : i - at + 1;
  }
  if (hyphen || !s[i].glued) return 0;
  for (const char* mark : {"\"", "\u2033", "\u201D"})
    if (s[i].is(mark)) return 1;
  return 0;
}

}  // namespace dogear::editing
