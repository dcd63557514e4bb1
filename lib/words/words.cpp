#include "words/words.h"

#include <algorithm>

#include "base/length.h"

namespace dogear {
namespace {

constexpr std::string_view nbsp = "\u00A0";

std::string filled(std::string_view text, WordValues values) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text[at] == '{' ? text.find('}', at) : std::string_view::npos;
    if (end == std::string_view::npos) {
      out += text[at++];
      continue;
    }
    const std::string_view name = text.substr(at + 1, end - at - 1);
    const auto* value =
        std::find_if(values.begin(), values.end(), [&](const auto& v) { return v.first == name; });
    if (value != values.end()) out += value->second;
    at = end + 1;
  }
  return out;
}

// The n-th part between bars; the only part where there are no bars.
std::string_view part(std::string_view text, std::size_t n) {
  if (text.find('|') == std::string_view::npos) return text;
  for (; n > 0; --n) {
    const std::size_t bar = text.find('|');
    if (bar == std::string_view::npos) break;
    text.remove_prefix(bar + 1);
  }
  return text.substr(0, text.find('|'));
}

std::string_view text_of(const Words& words, std::string_view key) {
  const auto found = words.texts.find(key);
  return found == words.texts.end() ? key : std::string_view(found->second);
}

}  // namespace

std::string Words::operator()(std::string_view key, WordValues values) const {
  return filled(text_of(*this, key), values);
}

std::string Words::noun(std::string_view key, long long n) const {
  return std::string(part(text_of(*this, key), n == 1 ? 0 : 1));
}

std::string Words::count(std::string_view key, long long n) const {
  return std::to_string(n) + std::string(nbsp) + noun(key, n);
}

std::string Words::form(std::string_view key, NounForm form, WordValues values) const {
  const std::string_view text = part(text_of(*this, key), static_cast<std::size_t>(form));
  std::string out = filled(text.substr(0, text.find("{a}")), values);
  if (const std::size_t at = text.find("{a}"); at != std::string_view::npos) {
    const std::string rest = filled(text.substr(at + 3), values);
    out += article(rest) + rest;
  }
  return out;
}

std::string Words::list(const std::vector<std::string>& parts) const {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) out += (*this)(i + 1 == parts.size() ? "list last" : "list comma");
    out += parts[i];
  }
  return out;
}

std::string Words::number(long long n) const {
  if (n < 1 || n > 12) return std::to_string(n);
  const std::string names = (*this)("number names");
  std::size_t at = 0;
  for (long long i = 1; i < n; ++i) {
    at = names.find(' ', at);
    if (at++ == std::string::npos) return std::to_string(n);
  }
  return names.substr(at, names.find(' ', at) - at);
}

std::string Words::article(std::string_view next) const {
  const std::size_t letter = next.find_first_not_of(' ');
  const bool second = letter != std::string_view::npos &&
                      text_of(*this, "article an before").find(next[letter]) != std::string::npos;
  return (*this)(second ? "an" : "a");
}

std::string Words::name(const std::string& given) const {
  return (*this)("capitals") == "nouns" ? capital(given) : given;
}

std::string Words::named(std::string_view head, std::string_view name) const {
  const std::string key = std::string(head) + std::string(name);
  return has(key) ? (*this)(key) : std::string(name);
}

std::string Words::inches(const Fraction& f) const { return (*this)("inches", {{"n", pretty(f)}}); }

std::string Words::inches(const Fraction& width, const Fraction& height) const {
  return inches(width) + " × " + inches(height);
}

std::string Words::yards(const Fraction& f) const { return (*this)("yards", {{"n", pretty(f)}}); }

std::string Words::centimetres(const Fraction& inches) const {
  const Fraction cm = (Exact(inches) * Exact::ratio(254, 100)).round_nearest(1);
  return whole_centimetres(cm.num);
}

std::string Words::whole_centimetres(long long cm) const {
  return (*this)("centimeters", {{"n", std::to_string(cm)}});
}

std::string Words::decimal_number(double value, int places) const {
  std::string out = decimal(value, places);
  if (const std::size_t point = out.find('.'); point != std::string::npos)
    out.replace(point, 1, (*this)("decimal point"));
  return out;
}

std::vector<std::string> placeholders(std::string_view text) {
  std::vector<std::string> names;
  for (std::size_t at = text.find('{'); at != std::string_view::npos; at = text.find('{', at + 1)) {
    const std::size_t end = text.find('}', at);
    if (end == std::string_view::npos) break;
    names.emplace_back(text.substr(at + 1, end - at - 1));
  }
  return names;
}

std::string capital(std::string text) {
  if (text.empty()) return text;
  if (text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  } else if (text.size() > 1 && text[0] == '\xC3' && static_cast<unsigned char>(text[1]) >= 0xA0 &&
             text[1] != '\xB7' && text[1] != '\xBF') {
    text[1] = static_cast<char>(text[1] - 0x20);  // à to þ, without ÷ and ÿ
  }
  return text;
}

}  // namespace dogear
