#include "booklet/words.h"

#include <algorithm>

#include "base/length.h"

namespace dogear {
namespace {
constexpr std::string_view nbsp = "\u00A0";
}

std::string Words::operator()(std::string_view key, WordValues values) const {
  const auto found = texts.find(key);
  const std::string_view text = found == texts.end() ? key : std::string_view(found->second);
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

std::string Words::noun(std::string_view key, long long n) const {
  const std::string both = (*this)(key);
  const std::size_t bar = both.find('|');
  if (bar == std::string::npos) return both;
  return n == 1 ? both.substr(0, bar) : both.substr(bar + 1);
}

std::string Words::count(std::string_view key, long long n) const {
  return std::to_string(n) + std::string(nbsp) + noun(key, n);
}

std::string Words::list(const std::vector<std::string>& parts) const {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) out += i + 1 == parts.size() ? " " + (*this)("and") + " " : ", ";
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
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string inches_by_inches(const Fraction& width, const Fraction& height) {
  return pretty_inches(width) + " × " + pretty_inches(height);
}

std::string yards(const Fraction& f) { return pretty(f) + " yd"; }

std::string centimetres(const Fraction& inches) {
  const Fraction cm = (Exact(inches) * Exact::ratio(254, 100)).round_nearest(1);
  return std::to_string(cm.num) + " cm";
}

}  // namespace dogear
