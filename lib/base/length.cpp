#include "base/length.h"

#include "base/length_pattern.h"

#include <array>
#include <numeric>

namespace dogear {

namespace {

constexpr std::int64_t most = 1'000'000;  // the greatest whole, numerator, denominator accepted
constexpr std::size_t decimal_places = 6;

struct Vulgar {
  std::string_view text;
  std::int64_t num;
  std::int64_t den;
};
constexpr std::array<Vulgar, 18> vulgars{{{"½", 1, 2},
                                          {"⅓", 1, 3},
                                          {"⅔", 2, 3},
                                          {"¼", 1, 4},
                                          {"¾", 3, 4},
                                          {"⅛", 1, 8},
                                          {"⅜", 3, 8},
                                          {"⅝", 5, 8},
                                          {"⅞", 7, 8},
                                          {"⅕", 1, 5},
                                          {"⅖", 2, 5},
                                          {"⅗", 3, 5},
                                          {"⅘", 4, 5},
                                          {"⅙", 1, 6},
                                          {"⅚", 5, 6},
                                          {"⅐", 1, 7},
                                          {"⅑", 1, 9},
                                          {"⅒", 1, 10}}};
constexpr std::size_t vulgars_printed = 9;  // text fonts often lack the others

struct UnitName {
  std::string_view text;
  Unit unit;
};
constexpr std::array<UnitName, 26> unit_names{{
    {"in", Unit::inch},
    {"inch", Unit::inch},
    {"inches", Unit::inch},
    {"in.", Unit::inch},
    {"\"", Unit::inch},
    {"″", Unit::inch},
    {"”", Unit::inch},
    {"yd", Unit::yard},
    {"yard", Unit::yard},
    {"yards", Unit::yard},
    {"yd.", Unit::yard},
    {"yds", Unit::yard},
    {"ft", Unit::foot},
    {"foot", Unit::foot},
    {"feet", Unit::foot},
    {"ft.", Unit::foot},
    {"cm", Unit::centimetre},
    {"centimetre", Unit::centimetre},
    {"centimetres", Unit::centimetre},
    {"centimeter", Unit::centimetre},
    {"centimeters", Unit::centimetre},
    {"mm", Unit::millimetre},
    {"millimetre", Unit::millimetre},
    {"millimetres", Unit::millimetre},
    {"millimeter", Unit::millimetre},
    {"millimeters", Unit::millimetre},
}};

Fraction inches_in(Unit unit) {
  switch (unit) {
    case Unit::yard:
      return {36, 1};
    case Unit::foot:
      return {12, 1};
    case Unit::centimetre:
      return {50, 127};
    case Unit::millimetre:
      return {5, 127};
    case Unit::inch:
    case Unit::none:
      break;
  }
  return {1, 1};
}

class Reader {
 public:
  Reader(std::string_view text, LengthError& error) : text_(text), error_(error) { error_ = {}; }

  bool number(Fraction& out) {
    blanks();
    if (at_end()) return fail("a number is expected here, and there is nothing");
    if (peek('-') || ahead("\u2212")) return fail("a negative number has no meaning here");
    Fraction first;
    if (vulgar(first)) return finish(first, out);
    if (peek('.') && digit_at(at_ + 1)) return fractional(0, out);
    std::int64_t whole = 0;
    if (!digit_at(at_)) return fail("a number is expected here");
    if (!digits(whole)) return false;
    if (peek('.') && digit_at(at_ + 1)) return fractional(whole, out);
    if (peek(',') && digit_at(at_ + 1)) {
      return fail("a comma does not part the decimals", "write a point, as in 6.5 cm");
    }
    if (slash()) return denominator(whole, out);
    return mixed(whole, out);
  }

  std::size_t position() const { return at_; }
  bool at_end() const { return at_ >= text_.size(); }
  std::string_view rest() const { return text_.substr(at_); }

  void blanks() {
    for (;;) {
      if (peek(' ') || peek('\t') || peek('\r') || peek('\n')) {
        ++at_;
      } else if (!skip("\u00A0") && !skip("\u2009") && !skip("\u202F")) {
        return;
      }
    }
  }

  bool fail(std::string message, std::string hint = {}) {
    error_ = {at_, std::move(message), std::move(hint)};
    return false;
  }

 private:
  bool peek(char c) const { return !at_end() && text_[at_] == c; }
  bool digit_at(std::size_t i) const { return i < text_.size() && is_digit(text_[i]); }
  bool ahead(std::string_view s) const { return starts_with(rest(), s); }
  bool skip(std::string_view s) {
    if (!ahead(s)) return false;
    at_ += s.size();
    return true;
  }

  bool digits(std::int64_t& value) {
    const std::size_t begin = at_;
    value = 0;
    for (; digit_at(at_); ++at_) {
      value = value * 10 + (text_[at_] - '0');
      if (value > most) {
        at_ = begin;
        return fail("this number is too large");
      }
    }
    return true;
  }

  // The decimals behind `whole`; the reader stands on the point.
  bool fractional(std::int64_t whole, Fraction& out) {
    ++at_;
    const std::size_t begin = at_;
    std::int64_t num = whole;
    std::int64_t den = 1;
    for (; digit_at(at_); ++at_) {
      if (at_ - begin == decimal_places) {
        return fail("at most " + std::to_string(decimal_places) + " decimals are read");
      }
      num = num * 10 + (text_[at_] - '0');
      den *= 10;
    }
    const Fraction value = Fraction::of(num, den);
    if (slash()) return fail("a fraction is made of whole numbers");
    const std::size_t end = at_;
    blanks();
    Fraction extra;
    if (digit_at(at_) || vulgar(extra)) {
      at_ = end;
      return fail("a decimal number cannot have a fraction behind it", "write either 2.5 or 2 1/2");
    }
    return finish(value, out);
  }

  bool slash() {
    const std::size_t begin = at_;
    while (peek(' ')) ++at_;
    if (skip("/") || skip("⁄")) {
      while (peek(' ')) ++at_;
      return true;
    }
    at_ = begin;
    return false;
  }

  bool denominator(std::int64_t num, Fraction& out) {
    if (!digit_at(at_)) return fail("a number is expected below the fraction line");
    const std::size_t begin = at_;
    std::int64_t den = 0;
    if (!digits(den)) return false;
    if (den == 0) {
      at_ = begin;
      return fail("a fraction cannot have 0 below the line");
    }
    if (peek('/') || ahead("⁄")) return fail("a fraction has one line only");
    return finish(Fraction::of(num, den), out);
  }

  // What may follow a whole number: " 1/2", "-1/2", "½", or nothing.
  bool mixed(std::int64_t whole, Fraction& out) {
    const std::size_t end = at_;
    blanks();
    bool dash = false;
    for (const std::string_view mark : {"-", "\u2010", "\u2011", "\u2013"}) {
      if (!dash && skip(mark)) dash = true;
    }
    if (dash) blanks();
    const std::size_t begin = at_;
    Fraction part;
    if (!vulgar(part)) {
      if (!digit_at(at_)) {
        at_ = end;
        if (dash) return fail("a number or a unit is expected here");
        return finish(Fraction::of(whole, 1), out);
      }
      std::int64_t num = 0;
      if (!digits(num)) return false;
      if (!slash()) {
        at_ = begin;
        if (dash) return fail("one length is expected, not a range");
        return fail("two numbers stand side by side", "a fraction is written as in 2 1/2 in");
      }
      if (!denominator(num, part)) return false;
    }
    if (part.num >= part.den) {
      at_ = begin;
      return fail("the fraction behind a whole number must be less than 1");
    }
    return finish(Fraction::of(whole * part.den + part.num, part.den), out);
  }

  bool vulgar(Fraction& out) {
    for (const Vulgar& v : vulgars) {
      if (skip(v.text)) {
        out = Fraction::of(v.num, v.den);
        return true;
      }
    }
    return false;
  }

  bool finish(const Fraction& value, Fraction& out) {
    out = value;
    return true;
  }

  std::string_view text_;
  LengthError& error_;
  std::size_t at_ = 0;
};

std::optional<Unit> unit_named(std::string_view word) {
  for (const UnitName& u : unit_names) {
    if (u.text == word) return u.unit;
  }
  if (word == "'" || word == "′" || word == "’") return Unit::foot;
  return std::nullopt;
}

std::string unit_hint(std::string_view word) {
  std::vector<std::string> known;
  for (const UnitName& u : unit_names) {
    if (u.text.size() > 1 && u.text.back() != '.' && u.text.back() >= 'a') {
      known.emplace_back(u.text);
    }
  }
  const std::string close = nearest(word, known);
  if (!close.empty()) return "did you mean " + close + "?";
  return "the units are in, yd, ft, cm and mm";
}

// Sign, whole part and the rest of a fraction, taken apart for printing.
struct Parts {
  bool negative = false;
  std::uint64_t whole = 0;
  std::uint64_t num = 0;
  std::uint64_t den = 1;
};

Parts parts_of(const Fraction& f) {
  Parts p;
  p.negative = f.num < 0;
  const std::uint64_t size =
      p.negative ? 0 - static_cast<std::uint64_t>(f.num) : static_cast<std::uint64_t>(f.num);
  const auto den = static_cast<std::uint64_t>(f.den);
  const std::uint64_t common = std::gcd(size, den);
  p.den = common == 0 ? 1 : den / common;
  const std::uint64_t num = common == 0 ? size : size / common;
  p.whole = num / p.den;
  p.num = num % p.den;
  return p;
}

}  // namespace

std::optional<Length> parse_length(std::string_view text, LengthError& error) {
  Reader reader(text, error);
  Fraction number;
  if (!reader.number(number)) return std::nullopt;
  reader.blanks();
  if (reader.at_end()) {
    reader.fail("a length needs a unit, such as in or cm", "write " + plain(number) + " in");
    return std::nullopt;
  }
  const std::string_view word = trim(reader.rest());
  const std::string name = lower(word);
  const std::optional<Unit> unit = unit_named(name);
  if (!unit) {
    const std::string first = name.substr(0, name.find_first_of(" \t0123456789"));
    if (first.size() < name.size() && unit_named(first)) {
      reader.fail("nothing may follow the unit of a length");
    } else {
      reader.fail("there is no unit called " + std::string(word), unit_hint(name));
    }
    return std::nullopt;
  }
  const Fraction factor = inches_in(*unit);
  const Exact inches = Exact::ratio(number.num * factor.num, number.den * factor.den);
  if (inches > Exact(most)) {
    reader.fail("this length is too large");
    return std::nullopt;
  }
  return Length{inches, *unit};
}

std::optional<Fraction> parse_number(std::string_view text, LengthError& error) {
  Reader reader(text, error);
  Fraction number;
  if (!reader.number(number)) return std::nullopt;
  reader.blanks();
  if (!reader.at_end()) {
    if (unit_named(lower(trim(reader.rest())))) {
      reader.fail("a count of grid units takes no unit of length");
    } else {
      reader.fail("nothing may follow the number here");
    }
    return std::nullopt;
  }
  return number;
}

std::string length_pattern() {
  const std::string blank = "[ \\t\\r\\n\u00A0\u2009\u202F]*";
  std::string some;  // of the fractions that are one character
  for (const Vulgar& v : vulgars) some += v.text;
  const std::string vulgar = "[" + some + "]";
  const std::string fraction = "[0-9]+ *[/\u2044] *[0-9]+";
  std::string units = "'|\u2032|\u2019";
  for (const UnitName& u : unit_names) {
    units += '|';
    for (const char c : u.text) {
      if (c >= 'a' && c <= 'z') {
        units += {'[', c, static_cast<char>(c - 'a' + 'A'), ']'};
      } else {
        units += c == '.' ? "\\." : std::string(1, c);
      }
    }
  }
  return join(
      {"^", blank, "([0-9]*\\.[0-9]+|", fraction, "|[0-9]+", blank, "[-\u2010\u2011\u2013]?", blank,
       "(", vulgar, "|", fraction, ")|[0-9]+|", vulgar, ")", blank, "(", units, ")[ \\t\\r\\n]*$"},
      "");
}

std::string plain(const Fraction& f) {
  const Parts p = parts_of(f);
  std::string out = p.negative ? "-" : "";
  if (p.num == 0) return out + std::to_string(p.whole);
  if (p.whole > 0) out += std::to_string(p.whole) + " ";
  return out + std::to_string(p.num) + "/" + std::to_string(p.den);
}

std::string pretty(const Fraction& f) {
  const Parts p = parts_of(f);
  std::string out = p.negative ? "\u2212" : "";
  if (p.whole > 0 || p.num == 0) out += std::to_string(p.whole);
  if (p.num == 0) return out;
  for (std::size_t i = 0; i < vulgars_printed; ++i) {
    const Vulgar& v = vulgars[i];
    if (static_cast<std::uint64_t>(v.num) == p.num && static_cast<std::uint64_t>(v.den) == p.den) {
      return out + std::string(v.text);
    }
  }
  if (p.whole > 0) out += "\u2009";
  return out + std::to_string(p.num) + "\u2044" + std::to_string(p.den);
}

std::string plain_inches(const Fraction& f) { return plain(f) + " in"; }

std::string pretty_inches(const Fraction& f) { return pretty(f) + " in"; }

std::string about_inches(const Exact& inches, std::int64_t step) {
  const Fraction f = inches.round_nearest(step);
  return (Exact(f) == inches ? "" : "about ") + plain_inches(f);
}

}  // namespace dogear
