#include "diag/comments.h"

#include <algorithm>

namespace dogear {

namespace {

constexpr std::string_view blanks = " \t\r";
constexpr std::size_t longest = 10'000;  // bytes of a line of Markdown; a longer one is refused

bool blank(char c) { return c == ' ' || c == '\t'; }

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u;
  }));
}

// Walks a text line by line and keeps the comments that are found in it.
class Finder {
 public:
  Finder(const std::string& file, std::string_view text) : file_(file), text_(text) {}

  bool next() {
    if (at_ > text_.size() || (at_ == text_.size() && number_ > 0)) return false;
    begin_ = at_;
    const std::size_t end = std::min(text_.find('\n', begin_), text_.size());
    at_ = end + 1;
    line_ = text_.substr(begin_, end - begin_);
    if (!line_.empty() && line_.back() == '\r') line_.remove_suffix(1);
    ++number_;
    return true;
  }
  std::string_view line() const { return line_; }

  // Of this line; `alone` when nothing else stands on it.
  void keep(std::size_t from, std::size_t to, bool alone) {
    const std::string_view raw = line_.substr(from, to - from);
    const std::size_t ink = std::min(raw.find_first_not_of(blanks), raw.size());
    Comment comment;
    comment.text = trim(raw);
    const std::size_t column = characters(line_.substr(0, from + ink)) + 1;
    comment.span = {file_, number_, column, number_, column + characters(comment.text)};
    comment.alone = alone;
    comment.on_top = top_ && alone;
    found_.push_back(std::move(comment));
  }
  void below_content() { top_ = false; }
  std::vector<Comment> take() { return std::move(found_); }

 private:
  const std::string& file_;
  std::string_view text_, line_;
  std::size_t begin_ = 0, at_ = 0, number_ = 0;
  bool top_ = true;
  std::vector<Comment> found_;
};

// One line after the other; what is open at the end of a line is open in the next.
class YamlComments {
 public:
  YamlComments(const std::string& file, std::string_view text) : finder_(file, text) {}

  std::vector<Comment> find() {
    while (finder_.next()) {
      const std::string_view line = finder_.line();
      const std::size_t ink = line.find_first_not_of(blanks);
      if (ink == std::string_view::npos) continue;
      if (in_block_ && ink > block_parent_) continue;
      in_block_ = false;
      read(line, ink);
    }
    return finder_.take();
  }

 private:
  void read(std::string_view line, std::size_t ink) {
    std::size_t i = quote_ == '\0' ? ink : close(line, 0);
    char before = i == ink ? '\n' : quote_closed_;  // the last character that is no blank
    std::size_t end = line.size();
    while (i < line.size()) {
      const char c = line[i];
      if (blank(c)) {
        ++i;
        continue;
      }
      const bool parted = i == 0 || blank(line[i - 1]) || opens(line[i - 1]);
      if (c == '#' && parted) {
        if (i > ink) finder_.below_content();
        finder_.keep(i + 1, line.size(), i == ink);
        end = i;
        break;
      }
      if ((c == '"' || c == '\'') && parted &&
          (before == '\n' || before == ':' || before == '-' || before == '?' || opens(before))) {
        quote_ = c;
        i = close(line, i + 1);
        before = c;
        continue;
      }
      before = c;
      ++i;
    }
    if (end > ink) finder_.below_content();
    if (quote_ == '\0') text_block(line.substr(0, end), ink);
  }

  static bool opens(char c) { return c == '[' || c == '{' || c == ','; }

  // Where reading goes on behind the open quote's end; the line's end when it stays open.
  std::size_t close(std::string_view line, std::size_t i) {
    for (; i < line.size(); ++i) {
      if (quote_ == '"' && line[i] == '\\') {
        ++i;
      } else if (line[i] == quote_) {
        if (quote_ == '\'' && i + 1 < line.size() && line[i + 1] == '\'') {
          ++i;
          continue;
        }
        quote_closed_ = quote_;
        quote_ = '\0';
        return i + 1;
      }
    }
    return line.size();
  }

  // "key: |" or "- >-": the deeper lines that follow are text, whatever stands in them.
  void text_block(std::string_view line, std::size_t ink) {
    line = line.substr(0, line.find_last_not_of(blanks) + 1);
    const std::size_t mark = line.find_last_of(" \t");
    const std::string_view last = mark == std::string_view::npos ? line : line.substr(mark + 1);
    if (last.empty() || (last[0] != '|' && last[0] != '>') || last.size() > 3 ||
        last.substr(1).find_first_not_of("+-123456789") != std::string_view::npos) {
      return;
    }
    std::size_t column = ink;  // of the key, or of the last dash where there is none
    while (column + 1 < line.size() && line[column] == '-' && blank(line[column + 1])) {
      const std::size_t next = line.find_first_not_of(blanks, column + 1);
      if (next + last.size() == line.size()) break;
      column = next;
    }
    if (ink + last.size() == line.size()) return;  // neither key nor dash before it
    in_block_ = true;
    block_parent_ = column;
  }

  Finder finder_;
  char quote_ = '\0';
  char quote_closed_ = '"';
  bool in_block_ = false;
  std::size_t block_parent_ = 0;
};

class MarkdownComments {
 public:
  MarkdownComments(const std::string& file, std::string_view text) : finder_(file, text) {}

  std::vector<Comment> find() {
    while (finder_.next()) {
      const std::string_view line = finder_.line();
      const std::string_view words = trim(line);
      if (words.empty() || fenced(words)) continue;
      if (in_comment_) {  // it began in a line above and holds nothing for us
        const std::size_t end = line.find("-->");
        in_comment_ = end == std::string_view::npos;
        continue;
      }
      if (line.size() <= longest) read(line, words);
    }
    return finder_.take();
  }

 private:
  bool fenced(std::string_view words) {
    const char mark = words[0];
    const std::size_t run =
        mark == '`' || mark == '~' ? std::min(words.find_first_not_of(mark), words.size()) : 0;
    if (fence_ > 0) {
      if (mark == fence_mark_ && run >= fence_ && run == words.size()) fence_ = 0;
      return true;
    }
    if (run < 3 || in_comment_ || words.substr(run).find('`') != std::string_view::npos) {
      return false;
    }
    fence_ = run;
    fence_mark_ = mark;
    finder_.below_content();
    return true;
  }

  void read(std::string_view line, std::string_view words) {
    const std::size_t first = words.find("-->");
    const bool alone =
        starts_with(words, "<!--") && first != std::string_view::npos && first + 3 == words.size();
    for (std::size_t i = 0; i < line.size();) {
      if (line[i] == '`') {
        const std::size_t run = std::min(line.find_first_not_of('`', i), line.size()) - i;
        i = behind_code(line, i + run, run);
      } else if (starts_with(line.substr(i), "<!--")) {
        const std::size_t end = line.find("-->", i + 4);
        if (end == std::string_view::npos) {
          in_comment_ = true;
          break;
        }
        if (!alone) finder_.below_content();
        finder_.keep(i + 4, end, alone);
        i = end + 3;
      } else {
        ++i;
      }
    }
    if (!alone) finder_.below_content();
  }

  // A run of backticks opens code where the same run closes it.
  static std::size_t behind_code(std::string_view line, std::size_t from, std::size_t run) {
    for (std::size_t i = line.find('`', from); i != std::string_view::npos;) {
      const std::size_t end = std::min(line.find_first_not_of('`', i), line.size());
      if (end - i == run) return end;
      i = line.find('`', end);
    }
    return from;
  }

  Finder finder_;
  std::size_t fence_ = 0;  // marks of the open fence
  char fence_mark_ = '`';
  bool in_comment_ = false;
};

}  // namespace

std::vector<Comment> yaml_comments(const std::string& file, std::string_view text) {
  return YamlComments(file, text).find();
}

std::vector<Comment> markdown_comments(const std::string& file, std::string_view text) {
  return MarkdownComments(file, text).find();
}

bool is_acceptance(std::string_view comment) {
  constexpr std::string_view word = "accept";
  comment = trim(comment);
  if (lower(comment.substr(0, word.size())) != word) return false;
  comment.remove_prefix(word.size());
  if (comment.empty() || comment[0] == ':') return true;
  if (!blank(comment[0])) return false;
  // "accept the default" and "accept 5 strips" are sentences; "accept D5" and "accept 551: so" not.
  comment = trim(comment);
  const std::string_view first = comment.substr(0, comment.find_first_of(" \t:,"));
  if (first.empty()) return true;
  if (!std::any_of(first.begin(), first.end(), is_digit)) return false;
  return first[0] == 'D' || first[0] == 'd' || comment.find(':') != std::string_view::npos;
}

bool is_acceptance_markup(std::string_view html) {
  html = trim(html);
  if (!starts_with(html, "<!--") || html.size() < 7 || html.find("-->", 4) != html.size() - 3) {
    return false;
  }
  if (html.find('\n') != std::string_view::npos) return false;
  return is_acceptance(html.substr(4, html.size() - 7));
}

}  // namespace dogear
