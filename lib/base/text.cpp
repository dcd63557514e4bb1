#include "base/text.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace dogear {

namespace {

constexpr char32_t replacement = 0xFFFD;

// Length of the valid sequence at `at`, or 0 when there is none; fills the code point.
std::size_t sequence(std::string_view text, std::size_t at, char32_t& out) {
  const auto byte = [&](std::size_t i) {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : static_cast<unsigned char>(0);
  };
  const unsigned char head = byte(at);
  if (head < 0x80) {
    out = head;
    return 1;
  }
  std::size_t length = 0;
  char32_t value = 0;
  char32_t least = 0;
  if (head >= 0xC2 && head <= 0xDF) {
    length = 2, value = head & 0x1Fu, least = 0x80;
  } else if (head >= 0xE0 && head <= 0xEF) {
    length = 3, value = head & 0x0Fu, least = 0x800;
  } else if (head >= 0xF0 && head <= 0xF4) {
    length = 4, value = head & 0x07u, least = 0x10000;
  } else {
    return 0;
  }
  for (std::size_t i = 1; i < length; ++i) {
    const unsigned char next = byte(at + i);
    if ((next & 0xC0u) != 0x80u) return 0;
    value = (value << 6) | (next & 0x3Fu);
  }
  if (value < least || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF)) return 0;
  out = value;
  return length;
}

}  // namespace

std::optional<std::size_t> bad_utf8(std::string_view text) {
  char32_t ignored = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequence(text, at, ignored);
    if (length == 0) return at;
    at += length;
  }
  return std::nullopt;
}

bool is_utf8(std::string_view text) { return !bad_utf8(text); }

char32_t next_code_point(std::string_view text, std::size_t& at) {
  char32_t out = replacement;
  const std::size_t length = sequence(text, at, out);
  at += std::max<std::size_t>(length, 1);
  return length == 0 ? replacement : out;
}

std::u32string code_points(std::string_view text) {
  std::u32string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) out.push_back(next_code_point(text, at));
  return out;
}

std::string utf8(char32_t c) {
  const auto byte = [](char32_t v) { return static_cast<char>(static_cast<unsigned char>(v)); };
  std::string out;
  if (c > 0x10FFFF || (c >= 0xD800 && c <= 0xDFFF)) c = replacement;
  if (c < 0x80) {
    out += byte(c);
  } else if (c < 0x800) {
    out += byte(0xC0 | (c >> 6));
    out += byte(0x80 | (c & 0x3F));
  } else if (c < 0x10000) {
    out += byte(0xE0 | (c >> 12));
    out += byte(0x80 | ((c >> 6) & 0x3F));
    out += byte(0x80 | (c & 0x3F));
  } else {
    out += byte(0xF0 | (c >> 18));
    out += byte(0x80 | ((c >> 12) & 0x3F));
    out += byte(0x80 | ((c >> 6) & 0x3F));
    out += byte(0x80 | (c & 0x3F));
  }
  return out;
}

std::string utf8(std::u32string_view points) {
  std::string out;
  for (const char32_t c : points) out += utf8(c);
  return out;
}

bool is_control(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c <= 0x9F) || c == 0x200E || c == 0x200F ||
         (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0x2028 || c == 0x2029;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool starts_with(std::string_view text, std::string_view head) {
  return text.substr(0, head.size()) == head;
}

std::string_view trim(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  for (;;) {
    const std::size_t end = text.find(separator);
    parts.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

std::string one_line(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
  return text;
}

std::string join(const std::vector<std::string>& parts, std::string_view between) {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) out += between;
    out += parts[i];
  }
  return out;
}

std::string slug(std::string_view text) {
  std::string out;
  for (const char c : lower(text)) {
    if (is_digit(c) || (c >= 'a' && c <= 'z')) {
      out += c;
    } else if (c == '\'') {
      continue;  // "Nan's Porch" -> "nans-porch"
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
  }
  if (!out.empty() && out.back() == '-') out.pop_back();
  return out;
}

std::string escaped(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_code_point(text, at);
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default: {
        const bool control = c < 0x20 && c != '\t' && c != '\n';
        const bool none = c == 0xFFFE || c == 0xFFFF || (c >= 0x7F && c < 0xA0);
        out += control || none ? "\uFFFD" : utf8(c);
      }
    }
  }
  return out;
}

std::size_t edit_distance(std::string_view left, std::string_view right) {
  const std::u32string a = code_points(left);
  const std::u32string b = code_points(right);
  std::vector<std::size_t> before(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0u : 1u);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        row[j] = std::min(row[j], before[j - 2] + 1);
      }
    }
    before.swap(last);
    last.swap(row);
  }
  return last[b.size()];
}

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
  constexpr std::size_t longest = 64;
  if (word.size() > longest) return "";
  const std::string wanted = lower(word);
  const std::size_t letters = code_points(wanted).size();
  const std::size_t limit = letters < 2 ? 0 : std::max<std::size_t>(1, letters / 3);
  std::string best;
  std::size_t best_distance = limit + 1;
  for (const std::string& name : known) {
    if (name.empty() || name.size() > 2 * longest) continue;
    const std::string lowered = lower(name);
    const std::size_t size = code_points(lowered).size();
    // Letters that one has more than the other are all edits.
    if (std::max(size, letters) - std::min(size, letters) >= best_distance) continue;
    const std::size_t distance = edit_distance(wanted, lowered);
    if (distance < best_distance) {
      best = name;
      best_distance = distance;
    }
  }
  return best;
}

std::string decimal(double value, int places) {
  std::array<char, 512> buffer{};
  const auto result = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                    std::chars_format::fixed, std::clamp(places, 0, 100));
  std::string out(buffer.data(), result.ptr);
  if (out.find('.') != std::string::npos) {
    out.erase(out.find_last_not_of('0') + 1);
    if (out.back() == '.') out.pop_back();
  }
  return out == "-0" ? "0" : out;
}

}  // namespace dogear
