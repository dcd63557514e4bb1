#include "source/markdown_guard.h"

#include <algorithm>

namespace dogear {

namespace {

constexpr std::size_t most_columns = 10'000;
constexpr std::size_t most_cells = 10'000;
// The parser reads a paragraph again for every line in it that could be the rule of a table.
constexpr std::size_t most_read_again = std::size_t{8} << 20;

// Curling quotes compares each with every mark before it in the paragraph.
constexpr std::size_t most_marks = 20'000;

// Each special character has a control character of its own; the text holds no others.
constexpr std::string_view special = "!\"&'()*-.:<>[\\]_`|";
constexpr char first_low = 0x01;
constexpr char first_high = 0x0E;
constexpr std::size_t low_count = 8;

char shield(char c) {
  const std::size_t i = special.find(c);
  if (i == std::string_view::npos) return c;
  return static_cast<char>(i < low_count ? first_low + static_cast<int>(i)
                                         : first_high + static_cast<int>(i - low_count));
}

// The line behind its container marks: "> - 1. text" -> "text".
std::string_view behind_marks(std::string_view line, std::size_t& marks) {
  marks = 0;
  for (;;) {
    const std::size_t ink = line.find_first_not_of(" \t");
    if (ink == std::string_view::npos) return {};
    line.remove_prefix(ink);
    std::size_t length = 0;
    if (line[0] == '>') {
      length = 1;
    } else {
      std::size_t digits = 0;
      while (digits < line.size() && digits < 9 && is_digit(line[digits])) ++digits;
      const bool bullet = line[0] == '-' || line[0] == '*' || line[0] == '+';
      const bool number =
          digits > 0 && digits < line.size() && (line[digits] == '.' || line[digits] == ')');
      if (bullet) length = 1;
      if (number) length = digits + 1;
      const bool parted =
          length == line.size() || (length > 0 && (line[length] == ' ' || line[length] == '\t'));
      if (!parted) length = 0;
    }
    if (length == 0) return line;
    line.remove_prefix(length);
    ++marks;
  }
}

// Columns of a line such as |:--|---|, 0 for any other.
std::size_t rule_columns(std::string_view line) {
  if (line.find('-') == std::string_view::npos) return 0;
  if (line.find_first_not_of("|:- \t") != std::string_view::npos) return 0;
  return static_cast<std::size_t>(std::count(line.begin(), line.end(), '|')) + 1;
}

}  // namespace

bool check_markdown_limits(const Lines& lines, Diagnostics& diagnostics) {
  const std::string_view text = lines.text();
  std::size_t cells = 0;       // of all stretches above this one
  std::size_t widest = 0;      // columns of the widest rule in this stretch
  std::size_t first_rule = 0;  // its first line with a rule
  std::size_t stretch = 0;     // where the stretch without a blank line begins
  std::size_t read_again = 0;
  std::size_t marks_seen = 0;  // quotes and emphasis marks in this stretch
  const auto refuse = [&](std::size_t line, const std::string& message) {
    diagnostics.error("D006", lines.span(lines.start(line), lines.end(line)), message);
    return false;
  };
  for (std::size_t i = 0; i < lines.count(); ++i) {
    const std::string_view line = text.substr(lines.start(i), lines.end(i) - lines.start(i));
    if (line.size() > most_columns) {
      return refuse(
          i, "this line is too long: at most " + std::to_string(most_columns) + " bytes are read");
    }
    std::size_t marks = 0;
    const std::string_view content = behind_marks(line, marks);
    const std::size_t columns =
        rule_columns(trim(line)) > 0 ? rule_columns(trim(line)) : rule_columns(trim(content));
    if (columns == 0 && marks > most_nesting) {
      return refuse(i, "quotes and lists are nested too deeply here: at most " +
                           std::to_string(most_nesting) + " levels are read");
    }
    if (trim(content).empty() && columns == 0) {
      if (widest > 0) cells += widest * (i - first_rule + 1);
      widest = 0;
      marks_seen = 0;
      stretch = lines.end(i);
      continue;
    }
    marks_seen += static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char c) {
      return c == '\'' || c == '"' || c == '*' || c == '_';
    }));
    if (marks_seen > most_marks) {
      return refuse(i, "there are too many quotes and stars without a blank line between them");
    }
    if (columns > 0) {
      if (widest == 0) first_rule = i;
      widest = std::max(widest, columns);
      read_again += lines.start(i) - std::min(stretch, lines.start(i));
    }
    if (cells + (widest > 0 ? widest * (i - first_rule + 2) : 0) > most_cells) {
      return refuse(first_rule, "the tables are too large: at most " + std::to_string(most_cells) +
                                    " cells are read in a file");
    }
    if (read_again > most_read_again) {
      return refuse(i, "there are too many lines of dashes without a blank line between them");
    }
  }
  return true;
}

std::string shield_tags(std::string_view text) {
  std::string out(text);
  for (std::size_t open = out.find("{{"); open != std::string::npos;) {
    const std::size_t line_end = std::min(out.find('\n', open), out.size());
    const std::size_t close = out.find("}}", open);
    if (close == std::string::npos || close > line_end) {
      open = out.find("{{", line_end);
      continue;
    }
    for (std::size_t i = open + 2; i < close; ++i) out[i] = shield(out[i]);
    open = out.find("{{", close + 2);
  }
  return out;
}

std::string unshield(std::string_view piece) {
  std::string out(piece);
  for (char& c : out) {
    if (c >= first_low && c < first_low + static_cast<int>(low_count)) {
      c = special[static_cast<std::size_t>(c - first_low)];
    } else if (c >= first_high && c < 0x20) {
      const std::size_t i = static_cast<std::size_t>(c - first_high) + low_count;
      if (i < special.size()) c = special[i];
    }
  }
  return out;
}

}  // namespace dogear
