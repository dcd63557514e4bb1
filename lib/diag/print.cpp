#include "diag/print.h"

#include <algorithm>

namespace dogear {

namespace {

constexpr std::size_t widest = 160;  // a longer source line is shown in part
constexpr std::size_t context = 60;  // characters shown before the span of such a line
constexpr std::size_t gutter = 5;

struct Palette {
  std::string_view error, warning, note, strong, dim, off;
};
constexpr Palette plain_palette{"", "", "", "", "", ""};
constexpr Palette ansi_palette{"\x1b[1;31m", "\x1b[1;35m", "\x1b[1;36m",
                               "\x1b[1m",    "\x1b[2m",    "\x1b[0m"};

// Nothing in a pattern file may steer the terminal that shows it.
std::string tame(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_code_point(text, at);
    if (c == '\n') {
      out += ' ';
    } else {
      out += is_control(c) ? "?" : utf8(c);
    }
  }
  return out;
}

class Printer {
 public:
  Printer(const Sources& sources, const Palette& palette) : sources_(sources), p_(palette) {}

  void diagnostic(const Diagnostic& d, const std::string& drawn_by) {
    const std::string_view colour = d.severity == Severity::error     ? p_.error
                                    : d.severity == Severity::warning ? p_.warning
                                                                      : p_.note;
    const std::string_view word = d.severity == Severity::error     ? "error"
                                  : d.severity == Severity::warning ? "warning"
                                                                    : "note";
    headline(d.span, word, colour, d.message, d.code);
    source_line(d.span, colour);
    for (const Note& n : d.notes) {
      headline(n.span, "note", p_.note, n.message, "");
      source_line(n.span, p_.note);
    }
    for (const std::string& hint : d.hints) {
      out_ += "  ";
      paint(p_.strong, "hint:");
      out_ += ' ';
      out_ += tame(hint);
      out_ += '\n';
    }
    if (drawn_by.empty()) return;
    out_ += "  ";
    paint(p_.strong, "drawn by:");
    out_ += ' ';
    out_ += tame(drawn_by);
    out_ += '\n';
  }

  void accepted(std::size_t count) {
    if (count == 0) return;
    out_ += std::to_string(count) + (count == 1 ? " warning" : " warnings") + " accepted\n";
  }

  std::string take() { return std::move(out_); }

 private:
  void paint(std::string_view colour, std::string_view text) {
    out_ += colour;
    out_ += text;
    if (!colour.empty()) out_ += p_.off;
  }

  void headline(const Span& span, std::string_view word, std::string_view colour,
                std::string_view message, std::string_view code) {
    if (!span.file.empty()) {
      std::string place = tame(span.file) + ":";
      if (span.line > 0) {
        place += std::to_string(span.line) + ":" + std::to_string(span.column) + ":";
      }
      paint(p_.strong, place);
      out_ += ' ';
    }
    paint(colour, std::string(word) + ":");
    out_ += ' ';
    out_ += tame(message);
    if (!code.empty()) {
      out_ += " [";
      out_ += tame(code);
      out_ += ']';
    }
    out_ += '\n';
  }

  void source_line(const Span& span, std::string_view colour) {
    const std::string* text = sources_.text(span.file);
    if (text == nullptr || span.line == 0) return;
    const std::u32string line = code_points(sources_.line(span.file, span.line));
    const std::size_t begin = std::min(std::max<std::size_t>(span.column, 1) - 1, line.size());
    std::size_t end = span.end_line == span.line ? span.end_column - 1 : line.size();
    if (span.end_line < span.line || span.end_column == 0) end = begin + 1;
    end = std::clamp(end, begin, line.size());

    std::size_t from = 0;
    std::size_t to = line.size();
    if (line.size() > widest) {
      from = begin > context ? begin - context : 0;
      to = std::min(line.size(), from + widest);
    }
    const std::string_view before = from > 0 ? "…" : "";
    std::string shown(before);
    std::string under(from > 0 ? " " : "");
    for (std::size_t i = from; i < to; ++i) {
      const bool tab = line[i] == '\t';
      shown += tab ? "\t" : is_control(line[i]) ? "?" : utf8(line[i]);
      if (i < begin) under += tab ? '\t' : ' ';
    }
    if (to < line.size()) shown += "…";
    while (!shown.empty() && (shown.back() == ' ' || shown.back() == '\t')) shown.pop_back();

    std::string number = std::to_string(span.line);
    if (number.size() < gutter) number.insert(0, gutter - number.size(), ' ');
    paint(p_.dim, number + " |");
    if (!shown.empty()) out_ += ' ';
    out_ += shown;
    out_ += '\n';
    paint(p_.dim, std::string(number.size(), ' ') + " |");
    const std::size_t shown_end = std::min(end, to);
    const std::size_t length = shown_end > begin ? shown_end - begin : 1;
    std::string caret(length, '~');
    caret.front() = '^';
    out_ += ' ';
    out_ += under;
    paint(colour, caret);
    out_ += '\n';
  }

  const Sources& sources_;
  const Palette& p_;
  std::string out_;
};

// In quotes where the shell would not take it as one word.
std::string for_shell(const std::string& path) {
  const bool plain = std::all_of(path.begin(), path.end(), [](char c) {
    return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           std::string_view("-._/+,@").find(c) != std::string_view::npos ||
           static_cast<unsigned char>(c) >= 0x80;
  });
  if (plain && !path.empty()) return path;
  std::string out = "'";
  for (const char c : path) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

}  // namespace

std::string print_for_people(const Diagnostics& diagnostics, const Sources& sources, bool colour,
                             const std::string& folder) {
  Printer printer(sources, colour ? ansi_palette : plain_palette);
  std::size_t problem = 0;
  for (const Diagnostic& d : diagnostics.all()) {
    if (d.accepted) continue;
    std::string drawn_by;
    if (d.picture != nullptr) {
      drawn_by = "dogear draw " + for_shell(folder) + " problem:" + std::to_string(++problem);
    }
    printer.diagnostic(d, drawn_by);
  }
  printer.accepted(diagnostics.accepted_count());
  return printer.take();
}

}  // namespace dogear
