#pragma once
// Small helpers for UTF-8 text. Nothing here asks the locale.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace dogear {

// The byte where strict UTF-8 first breaks (overlong forms and surrogates count), or nothing.
std::optional<std::size_t> bad_utf8(std::string_view text);
bool is_utf8(std::string_view text);

// Decodes one code point at `at` (which must be below text.size()) and moves `at` behind it.
// A byte that does not fit becomes U+FFFD and moves `at` by one.
char32_t next_code_point(std::string_view text, std::size_t& at);
std::u32string code_points(std::string_view text);
std::string utf8(char32_t code_point);
std::string utf8(std::u32string_view code_points);

// A character that has no picture and may steer a terminal or reorder a line.
bool is_control(char32_t c);

bool is_digit(char c);
bool starts_with(std::string_view text, std::string_view head);
std::string_view trim(std::string_view text);  // ASCII blanks, tabs and line ends
std::string lower(std::string_view text);      // ASCII letters only
std::vector<std::string> split(std::string_view text, char separator);  // empty parts are kept
// Line ends become blanks.
std::string one_line(std::string text);
std::string join(const std::vector<std::string>& parts, std::string_view between);
// "Harbor Lights" -> "harbor-lights": ASCII letters and digits; all else parts words.
std::string slug(std::string_view text);

// As text or an attribute of XML and HTML; characters they forbid become U+FFFD.
std::string escaped(std::string_view text);

// Insertions, deletions, changes and swaps of neighbours that turn one word into the other.
std::size_t edit_distance(std::string_view a, std::string_view b);
// The name among `known` nearest to `word` (small edit distance), or "" when none is near.
std::string nearest(std::string_view word, const std::vector<std::string>& known);

// Decimal with at most `places` digits, no trailing zeros, never locale dependent.
std::string decimal(double value, int places);

}  // namespace dogear
