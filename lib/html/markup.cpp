#include "html/markup.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "canvas/font.h"

namespace dogear::html {
namespace {

// Fractions that are one character, which every reader speaks: "one half", "seven eighths".
std::string one_character(const std::string& num, const std::string& den) {
  static const std::map<std::string, std::string, std::less<>> known{
      {"1/2", "½"}, {"1/3", "⅓"}, {"2/3", "⅔"}, {"1/4", "¼"}, {"3/4", "¾"}, {"1/8", "⅛"},
      {"3/8", "⅜"}, {"5/8", "⅝"}, {"7/8", "⅞"}, {"1/6", "⅙"}, {"5/6", "⅚"}};
  const auto found = known.find(num + '/' + den);
  return found == known.end() ? "" : found->second;
}

bool is_bold(canvas::FontId font) {
  return font == canvas::FontId::text_bold || font == canvas::FontId::sans_bold;
}

bool is_safe(std::string_view address) {
  std::string lower(address);
  std::transform(lower.begin(), lower.end(), lower.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return starts_with(lower, "https://") || starts_with(lower, "http://") ||
         starts_with(lower, "mailto:");
}

struct Look {
  bool bold = false, italic = false;
  std::string href;
  bool operator==(const Look&) const = default;
};

Look look_of(const booklet::TextStyle& style, std::string_view prefix) {
  Look look{is_bold(style.font), style.font == canvas::FontId::text_italic, ""};
  if (!style.destination.empty())
    look.href = '#' + std::string(prefix) + style.destination;
  else if (is_safe(style.uri))
    look.href = style.uri;
  return look;
}

}  // namespace

std::string attribute(std::string_view name, std::string_view value) {
  return ' ' + std::string(name) + "=\"" + escaped(value) + '"';
}

namespace {

// One word, within which no line breaks: "2½ in × 4½ in".
std::string word(std::string_view text) {
  std::string out;
  std::size_t at = 0;
  const auto plain = [&](std::string_view part) {
    for (const char c : part) out += c == ' ' ? std::string("\u00A0") : std::string(1, c);
  };
  for (const canvas::FractionSpan& f : canvas::find_fractions(text)) {
    plain(escaped(text.substr(at, f.begin - at)));
    out += f.whole;
    if (const std::string one = one_character(f.num, f.den); !one.empty()) {
      out += "<span class=\"frac\">" + one + "</span>";
    } else {
      // A thin space keeps the whole number apart where the text is copied or spoken.
      out += (f.whole.empty() ? "" : "\u2009") + std::string("<span class=\"frac\"><sup>") + f.num +
             "</sup>\u2044<sub>" + f.den + "</sub></span>";
    }
    at = f.end;
  }
  plain(escaped(text.substr(at)));
  return out;
}

}  // namespace

std::string words(std::string_view text) {
  std::string out = text.starts_with(' ') ? " " : "";
  for (const std::string& one : canvas::words(text)) {
    if (!out.empty() && out.back() != ' ') out += ' ';
    out += word(one);
  }
  if (text.ends_with(' ') && !out.ends_with(' ')) out += ' ';
  return out;
}

std::string runs(const booklet::Runs& all, std::string_view prefix) {
  std::string out;
  for (std::size_t i = 0; i < all.size();) {
    if (all[i].line_break) {
      out += "<br/>";
      ++i;
      continue;
    }
    const Look look = look_of(all[i].style, prefix);
    std::string text;
    for (; i < all.size() && !all[i].line_break && look_of(all[i].style, prefix) == look; ++i)
      text += all[i].text;
    if (text.empty()) continue;
    std::string inner = words(text);
    if (look.italic) inner = "<em>" + inner + "</em>";
    if (look.bold) inner = "<strong>" + inner + "</strong>";
    if (!look.href.empty()) {
      const bool outside = look.href[0] != '#';
      inner = "<a" + attribute("href", look.href) +
              (outside ? " rel=\"noopener noreferrer\"" : "") + '>' + inner + "</a>";
    }
    out += inner;
  }
  return out;
}

}  // namespace dogear::html
