#include "source/lines.h"

#include <algorithm>
#include <utility>

namespace dogear {

namespace {

bool starts_character(char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }

std::string hexadecimal(unsigned value) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string out;
  for (unsigned shift = 16; shift > 0; shift -= 4) out += digits[(value >> (shift - 4)) & 0xFu];
  return out;
}

}  // namespace

Lines::Lines(std::string file, std::string_view text) : file_(std::move(file)), text_(text) {
  starts_.push_back(0);
  std::size_t characters = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i % stride == 0) characters_.push_back(characters);
    if (starts_character(text[i])) ++characters;
    if (text[i] == '\n') starts_.push_back(i + 1);
  }
  if (text.size() % stride == 0) characters_.push_back(characters);
}

std::size_t Lines::characters_before(std::size_t offset) const {
  std::size_t count = characters_[offset / stride];
  for (std::size_t i = offset - offset % stride; i < offset; ++i) {
    if (starts_character(text_[i])) ++count;
  }
  return count;
}

std::size_t Lines::line_of(std::size_t offset) const {
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
  return static_cast<std::size_t>(after - starts_.begin()) - 1;
}

std::size_t Lines::start(std::size_t line) const {
  return line < starts_.size() ? starts_[line] : text_.size();
}

std::size_t Lines::end(std::size_t line) const {
  if (line + 1 >= starts_.size()) return text_.size();
  std::size_t end = starts_[line + 1] - 1;
  if (end > starts_[line] && text_[end - 1] == '\r') --end;
  return end;
}

Span Lines::span(std::size_t begin, std::size_t end) const {
  begin = std::min(begin, text_.size());
  end = std::clamp(end, begin, text_.size());
  const std::size_t first = line_of(begin);
  const std::size_t last = line_of(end);
  return {file_, first + 1, characters_before(begin) - characters_before(starts_[first]) + 1,
          last + 1, characters_before(end) - characters_before(starts_[last]) + 1};
}

std::string_view without_byte_order_mark(std::string_view text) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  if (starts_with(text, mark)) text.remove_prefix(mark.size());
  return text;
}

bool check_text(const Lines& lines, std::size_t most_bytes, Diagnostics& diagnostics) {
  const std::string_view text = lines.text();
  if (text.size() > most_bytes) {
    diagnostics
        .error(
            "D006", lines.whole_file(),
            "the file is too large: at most " + std::to_string(most_bytes / 1024) + " KiB are read")
        .hints.push_back("put a part of it into a file of its own");
    return false;
  }
  if (const auto bad = bad_utf8(text)) {
    diagnostics.error("D002", lines.span(*bad, *bad + 1), "the file is not UTF-8 text here")
        .hints.push_back("save the file again with the encoding UTF-8");
    return false;
  }
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    const bool line_end = c == '\n' || (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n');
    if ((c >= 0x20 && c != 0x7F) || c == '\t' || line_end) continue;
    diagnostics
        .error("D002", lines.span(i, i + 1),
               c == '\r' ? "a carriage return stands alone here"
                         : "the file is not plain text: it holds the control character U+" +
                               hexadecimal(c))
        .hints.push_back(c == '\r' ? "save the file again with Unix or Windows line ends"
                                   : "delete the character, or save the file as plain text");
    return false;
  }
  return true;
}

}  // namespace dogear
