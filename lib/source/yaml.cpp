// The library keeps neither end positions nor strictness, so this file adds both: the events give
// where a thing starts and what it says, the source text gives where it ends.

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <map>
#include <sstream>
#include <tuple>
#include <utility>

#include "source/limits.h"
#include "source/lines.h"
#include "source/node.h"

namespace dogear {

const Entry* Node::find(std::string_view key) const {
  for (const Entry& e : entries) {
    if (e.key == key) return &e;
  }
  return nullptr;
}

const char* Node::kind_name() const {
  switch (kind) {
    case Kind::scalar:
      return "a text";
    case Kind::list:
      return "a list";
    case Kind::map:
      return "a map";
    case Kind::null:
      break;
  }
  return "nothing";
}

namespace {

constexpr std::size_t most_depth = 40;

struct GivenUp {};

bool blank(char c) { return c == ' ' || c == '\t'; }
bool space(char c) { return blank(c) || c == '\n' || c == '\r'; }
bool hexadecimal(char c) { return is_digit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F'); }

class Builder : public YAML::EventHandler {
 public:
  explicit Builder(const Lines& lines) : lines_(lines), text_(lines.text()) {}

  std::optional<Node> result;
  bool failed() const { return !errors_.empty(); }
  void report(Diagnostics& diagnostics) {
    for (Diagnostic& e : errors_) {
      Diagnostic& d = diagnostics.error(std::move(e.code), std::move(e.span), std::move(e.message));
      d.notes = std::move(e.notes);
      d.hints = std::move(e.hints);
    }
  }

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (++documents_ == 1) return;
    const std::size_t at = offset(mark);
    const std::size_t line = lines_.line_of(at);
    std::size_t above = line;
    while (above > 0 && lines_.start(above) > cursor_ &&
           !starts_with(text_.substr(lines_.start(above)), "---") &&
           !starts_with(text_.substr(lines_.start(above)), "...")) {
      --above;
    }
    if (lines_.start(above) > cursor_) {
      error("D007", lines_.span(lines_.start(above), lines_.end(above)),
            "a second document begins here; one file holds one document",
            "put it into a file of its own, or delete this line");
    } else {
      error("D003", lines_.span(at, lines_.end(line)),
            "this line does not belong to what stands above it",
            "a list has a dash before each item, a map has a key and a colon in each line");
    }
    throw GivenUp{};
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    const std::size_t at = offset(mark);
    Node node;
    std::size_t begin = at;
    std::size_t end = at;
    if (anchor != 0) refuse_property(at);
    for (const std::string_view word : {"~", "null", "Null", "NULL"}) {
      if (starts_with(text_.substr(at), word)) end = at + word.size();
    }
    if (end == at) {
      // Nothing is written: point at the key or at the dash that waits for a value.
      if (!stack_.empty() && stack_.back().has_key) {
        begin = stack_.back().key_begin;
        end = stack_.back().key_end;
        refuse_bare_colour(end);
      } else {
        const std::size_t dash = next_token(cursor_);
        if (dash < text_.size() && text_[dash] == '-') {
          begin = dash;
          end = dash + 1;
          cursor_ = end;
          refuse_bare_colour(end);
        }
      }
    }
    node.span = lines_.span(begin, end);
    add(std::move(node), begin, end);
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    const std::size_t at = offset(mark);
    std::size_t end = at;
    while (end < text_.size() && !space(text_[end]) && text_[end] != ',' && text_[end] != ']' &&
           text_[end] != '}') {
      ++end;
    }
    refuse_alias(at, end);
    Node node;
    node.span = lines_.span(at, end);
    add(std::move(node), at, end);
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    std::size_t begin = offset(mark);
    if (anchor != 0 || (tag != "?" && tag != "!") || at(begin) == '!') {
      refuse_property(begin);
      begin = behind_properties(begin);
    }
    Node node;
    node.kind = Node::Kind::scalar;
    node.text = value;
    node.quoted = at(begin) == '"' || at(begin) == '\'';
    std::size_t end = begin;
    if (node.quoted) {
      end = quote_end(begin);
      if (lines_.line_of(begin) != lines_.line_of(end)) long_quote_ = {begin, end};
    } else if (at(begin) == '|' || at(begin) == '>') {
      end = match(lines_.end(lines_.line_of(begin)), value);
      if (end == begin) end = begin + 1;
    } else {
      end = match(begin, value);
    }
    node.span = lines_.span(begin, end);
    add(std::move(node), begin, end);
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    open(Node::Kind::list, offset(mark), tag, anchor);
  }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    open(Node::Kind::map, offset(mark), tag, anchor);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapEnd() override { close(); }

  // Says in plain words what the library found wrong.
  void broken(const YAML::Exception& exception) {
    const std::string& what = exception.msg;
    namespace msg = YAML::ErrorMsg;
    const std::size_t at = exception.mark.is_null() ? text_.size() : offset(exception.mark);
    const std::size_t line_end = lines_.end(lines_.line_of(at));
    Span span = lines_.span(at, std::min(at + 1, line_end));
    const auto has = [&](std::string_view s) { return what.find(s) != std::string::npos; };
    if (has(msg::UNKNOWN_ANCHOR) || has(msg::CHAR_IN_ALIAS) || has(msg::ALIAS_NOT_FOUND) ||
        has(msg::CHAR_IN_ANCHOR) || has(msg::ANCHOR_NOT_FOUND) || has(msg::ALIAS_CONTENT)) {
      refuse_alias(at, std::min(at + 1, line_end));
      return;
    }
    if (const auto colour = bare_colour(innermost_bracket().value_or(cursor_), at)) {
      refuse_colour(*colour);
      return;
    }
    const std::string_view ahead = text_.substr(lines_.start(lines_.line_of(at)));
    const std::size_t ink = ahead.find_first_not_of(" \t");
    const bool tab = ahead.substr(0, ink).find('\t') != std::string_view::npos;
    if (tab || has(msg::TAB_IN_INDENTATION)) {
      const std::size_t where = lines_.start(lines_.line_of(at)) + std::min(ahead.find('\t'), ink);
      error("D003", lines_.span(where, where + 1), "this line is indented with a tab",
            "a tab cannot indent; use blanks");
    } else if (has(msg::EOF_IN_SCALAR) || has(msg::DOC_IN_SCALAR)) {
      const std::size_t open = unclosed_quote(at);
      error("D003", lines_.span(open, open + 1), "the quote opened here is not closed",
            "put the same quote mark behind the text");
    } else if (has(msg::INVALID_ESCAPE) || has(msg::INVALID_HEX) || has(msg::INVALID_UNICODE)) {
      const std::size_t slash = std::min(text_.rfind('\\', at), at);
      error("D003", lines_.span(slash, at),
            "in double quotes a backslash and what follows it mean nothing here",
            "write two backslashes, or use single quotes");
    } else if (has("end of sequence flow") || has("end of map flow")) {
      flow_not_closed(span);
    } else if (has(msg::FLOW_END)) {
      error("D003", span, "this bracket closes nothing, or not what was opened last",
            "each [ needs a ] and each { needs a }");
    } else if (has(msg::MAP_VALUE)) {
      if (stray_line_above(at)) return;
      error("D003", span, "a colon is not expected here",
            "a text with a colon or # needs quotes; a key stands in a line of its own")
          .hints.push_back("look whether this line is indented like its neighbours");
    } else if (has(msg::CHAR_IN_BLOCK)) {
      error("D003", span, "after | or > the text begins in the next line",
            "put a text that begins with | or > in quotes");
    } else if (has(msg::BLOCK_ENTRY)) {
      error("D003", span, "a list cannot begin in this place",
            "put each item with its dash in a line of its own, below the key");
    } else if (has(msg::UNKNOWN_TOKEN)) {
      error("D003", span, "a text cannot begin with this character", "put the text in quotes");
    } else if (has(msg::END_OF_MAP) || has(msg::END_OF_SEQ)) {
      Diagnostic& d = error("D003", span, "this does not belong to what stands before it");
      if (long_quote_.second > 0 && long_quote_.second == cursor_) {
        d.notes.push_back({lines_.span(long_quote_.first, long_quote_.first + 1),
                           "the text in quotes began here; is its closing quote missing?"});
      } else {
        d.hints.emplace_back("look whether the line is indented like its neighbours");
        const char before = cursor_ > 0 ? text_[cursor_ - 1] : ' ';
        if (before == '"' || before == '\'') {
          d.hints.emplace_back("a text that begins with a quote mark must end with it");
        }
      }
    } else if (has(msg::BAD_FILE) || what.empty()) {
      error("D003", span, "the file cannot be read as YAML");
    } else {
      error("D003", span, "the file cannot be read as YAML here: " + what);
    }
  }

 private:
  struct Frame {
    Node node;
    std::size_t begin = 0;
    std::size_t end = 0;
    bool bracket = false;
    bool has_key = false;
    std::string key;
    std::size_t key_begin = 0;
    std::size_t key_end = 0;
    std::map<std::string, std::size_t> seen;
  };
  using Range = std::pair<std::size_t, std::size_t>;

  Diagnostic& error(std::string code, Span span, std::string message, std::string hint = {}) {
    if (errors_.size() == most_errors) throw GivenUp{};
    Diagnostic& d = errors_.emplace_back();
    d.code = std::move(code);
    d.span = std::move(span);
    d.message = std::move(message);
    if (!hint.empty()) d.hints.push_back(std::move(hint));
    return d;
  }

  std::size_t offset(const YAML::Mark& mark) const {
    if (mark.pos < 0) return 0;
    return std::min(static_cast<std::size_t>(mark.pos), text_.size());
  }
  char at(std::size_t i) const { return i < text_.size() ? text_[i] : '\0'; }

  std::size_t next_token(std::size_t i) const {
    for (; i < text_.size(); ++i) {
      if (text_[i] == '#') i = std::min(text_.find('\n', i), text_.size() - 1);
      if (!space(text_[i]) && text_[i] != '#') break;
    }
    return i;
  }

  std::size_t quote_end(std::size_t begin) {
    const char quote = text_[begin];
    for (std::size_t i = begin + 1; i < text_.size(); ++i) {
      if (quote == '"' && text_[i] == '\\') {
        ++i;
      } else if (text_[i] == quote) {
        if (quote == '"' || at(i + 1) != '\'') return i + 1;
        ++i;
      }
    }
    error("D003", lines_.span(begin, begin + 1), "the quote opened here is not closed",
          "put the same quote mark behind the text");
    return text_.size();
  }

  // Walks the source beside the value; blanks and line ends of both are folded alike.
  std::size_t match(std::size_t begin, std::string_view value) const {
    std::size_t i = begin;
    std::size_t end = begin;
    for (const char c : value) {
      if (space(c)) continue;
      while (i < text_.size() && space(text_[i])) ++i;
      if (at(i) != c) return end;
      end = ++i;
    }
    return end;
  }

  void refuse_alias(std::size_t begin, std::size_t end) {
    const bool star = at(begin) == '*';
    error("D004", lines_.span(begin, end),
          star ? "a text cannot begin with *: in YAML that repeats another part of the file"
               : "a text cannot begin with &: in YAML that names a part of the file",
          "put the text in quotes, or write the repeated part again");
  }

  void refuse_property(std::size_t begin) {
    std::size_t end = begin;
    while (end < text_.size() && !space(text_[end])) ++end;
    if (at(begin) == '&') {
      refuse_alias(begin, end);
    } else {
      error("D004", lines_.span(begin, end),
            "a text cannot begin with !: in YAML that marks a type, which has no use here",
            "put the text in quotes");
    }
  }

  std::size_t behind_properties(std::size_t begin) const {
    while (at(begin) == '&' || at(begin) == '!') {
      while (begin < text_.size() && !space(text_[begin])) ++begin;
      begin = next_token(begin);
    }
    return begin;
  }

  // "#1b2a49" and nothing else up to the end of the line.
  std::optional<Range> bare_colour(std::size_t from, std::size_t to) const {
    for (std::size_t i = from; i < to && i < text_.size(); ++i) {
      if (text_[i] != '#') continue;
      // Elsewhere it is no comment: "#fff" in quotes, or a#b.
      if (i > 0 && !space(text_[i - 1]) &&
          std::string_view("[{,").find(text_[i - 1]) == std::string_view::npos) {
        continue;
      }
      std::size_t end = i + 1;
      while (hexadecimal(at(end))) ++end;
      const std::size_t digits = end - i - 1;
      const char next = at(end);
      if ((digits == 3 || digits == 6) &&
          (end >= text_.size() || space(next) || next == ',' || next == '}' || next == ']')) {
        return Range{i, end};
      }
      i = std::min(text_.find('\n', i), text_.size());
    }
    return std::nullopt;
  }

  std::string quoted_colour(const Range& r) const {
    std::string out = "\"";
    out += text_.substr(r.first, r.second - r.first);
    return out += '"';
  }

  void refuse_bare_colour(std::size_t from) {
    const auto colour = bare_colour(from, lines_.end(lines_.line_of(from)));
    if (colour) refuse_colour(*colour);
  }

  void refuse_colour(const Range& colour) {
    const Span span = lines_.span(colour.first, colour.second);
    if (!errors_.empty() && errors_.back().span == span) return;  // said a moment ago
    error("D003", span, "what follows a # is a comment, so this colour is not read",
          "put it in quotes: " + quoted_colour(colour));
  }

  void too_deep(std::size_t at) {
    error("D006", lines_.span(at, at + 1),
          "this is nested too deeply: at most " + std::to_string(most_depth) + " levels are read");
    throw GivenUp{};
  }

  void open(Node::Kind kind, std::size_t begin, const std::string& tag, YAML::anchor_t anchor) {
    if (anchor != 0 || (tag != "?" && !tag.empty())) {
      refuse_property(begin);
      begin = behind_properties(begin);
    }
    if (stack_.size() >= most_depth) too_deep(begin);
    Frame frame;
    frame.node.kind = kind;
    frame.begin = begin;
    frame.end = begin;
    frame.bracket = kind == Node::Kind::map ? at(begin) == '{' : at(begin) == '[';
    cursor_ = std::max(cursor_, frame.bracket ? begin + 1 : begin);
    stack_.push_back(std::move(frame));
  }

  void close() {
    Frame frame = std::move(stack_.back());
    stack_.pop_back();
    if (frame.bracket) {
      const char bracket = frame.node.kind == Node::Kind::map ? '}' : ']';
      std::size_t i = next_token(cursor_);
      while (at(i) == ',' || at(i) == ':') i = next_token(i + 1);
      frame.end = at(i) == bracket ? i + 1 : cursor_;
    }
    frame.node.span = lines_.span(frame.begin, frame.end);
    add(std::move(frame.node), frame.begin, frame.end);
  }

  void add(Node node, std::size_t begin, std::size_t end) {
    cursor_ = std::max(cursor_, end);
    if (stack_.empty()) {
      result = std::move(node);
      return;
    }
    Frame& frame = stack_.back();
    if (frame.node.kind == Node::Kind::list) {
      frame.end = std::max(frame.end, end);
      frame.node.items.push_back(std::move(node));
      return;
    }
    if (!frame.has_key) {
      add_key(frame, node, begin, end);
      return;
    }
    frame.has_key = false;
    frame.end = std::max(frame.end, end);
    frame.node.entries.push_back(
        {std::move(frame.key), lines_.span(frame.key_begin, frame.key_end), {std::move(node)}});
  }

  void add_key(Frame& frame, const Node& node, std::size_t begin, std::size_t end) {
    frame.has_key = true;
    frame.key = node.text;
    frame.key_begin = begin;
    frame.key_end = end;
    if (node.kind == Node::Kind::null) {
      error("D003", lines_.span(begin, std::max(end, begin + 1)),
            begin == end ? "there is no key before this colon"
                         : "this word means nothing in YAML and cannot be a key",
            begin == end ? "write the key, such as title, before the colon"
                         : "put the key in quotes");
      return;
    }
    if (node.kind != Node::Kind::scalar) {
      error("D003", node.span,
            std::string("a key must be a text, and this is ") + node.kind_name());
      return;
    }
    std::size_t i = end;
    while (blank(at(i))) ++i;
    if (at(i) != ':') {
      error("D003", node.span, "there is no colon behind the key " + node.text,
            frame.bracket ? "a list is written in square brackets: [a, b]"
                          : "write a colon and a blank between the key and its value");
      return;
    }
    const auto [first, is_new] = frame.seen.emplace(node.text, begin);
    if (!is_new) {
      Diagnostic& d = error("D005", node.span, "the key " + node.text + " is written twice",
                            "keep one of the two");
      d.notes.push_back({lines_.span(first->second, first->second + (end - begin)),
                         "it is written here for the first time"});
    }
  }

  // The quote behind the last thing that was read, for a text that runs to the end of the file.
  std::size_t unclosed_quote(std::size_t before) const {
    const std::size_t quote = text_.find_first_of("\"'", cursor_);
    return quote < before ? quote : std::min(before, text_.size());
  }

  std::optional<std::size_t> innermost_bracket() const {
    const auto frame =
        std::find_if(stack_.rbegin(), stack_.rend(), [](const Frame& f) { return f.bracket; });
    if (frame != stack_.rend()) return frame->begin;
    return std::nullopt;
  }

  void flow_not_closed(const Span& span) {
    const auto bracket = innermost_bracket();
    if (!bracket) {
      error("D003", span, "a bracket is opened and not closed");
      return;
    }
    const std::size_t begin = *bracket;
    // What seemed wrong inside is a consequence.
    const Span from = lines_.span(begin, begin);
    std::erase_if(errors_, [&](const Diagnostic& d) {
      return d.code == "D003" &&
             std::tie(d.span.line, d.span.column) >= std::tie(from.line, from.column);
    });
    Diagnostic& d = error("D003", lines_.span(begin, begin + 1),
                          std::string("the bracket ") + text_[begin] + " opened here is not closed",
                          "close it, or write the comma that is missing between two of its parts");
    d.notes.push_back({span, "reading stopped here"});
  }

  // "a: 1 / b / c: 2" or "b:2 / c: 3": the library stumbles over the colon below the line that has
  // none, or none with a blank behind it.
  bool stray_line_above(std::size_t colon) {
    std::size_t line = lines_.line_of(colon);
    if (line == 0) return false;
    const auto of = [&](std::size_t l) {
      return text_.substr(lines_.start(l), lines_.end(l) - lines_.start(l));
    };
    const std::size_t indent = of(line).find_first_not_of(' ');
    do {
      --line;
    } while (line > 0 && trim(of(line)).empty());
    const std::string_view above = of(line);
    const std::string_view said = trim(above);
    if (lines_.start(line) < cursor_ || said.empty() || above.find_first_not_of(' ') != indent ||
        said.front() == '#' || said.front() == '-') {
      return false;
    }
    const std::size_t begin = lines_.start(line) + above.find_first_not_of(' ');
    if (const std::size_t mark = said.find(':'); mark != std::string_view::npos) {
      const std::string key(said.substr(0, mark)), value(said.substr(mark + 1));
      const bool stuck = !key.empty() && !value.empty() && value.find(':') == std::string::npos &&
                         value.front() != ' ' && value.front() != '\t' && value.front() != '/';
      if (stuck)
        error("D003", lines_.span(begin, begin + mark + 1),
              join({"there is no blank behind the colon of `", key, "`"}, ""),
              join({"write `", key, ": ", value, "`"}, ""));
      return stuck;
    }
    error("D003", lines_.span(begin, begin + said.size()),
          "there is no colon behind the key " + std::string(said),
          "write a colon and a blank between the key and its value");
    return true;
  }

  const Lines& lines_;
  std::string_view text_;
  std::vector<Frame> stack_;
  std::size_t cursor_ = 0;  // behind the last thing that was read
  std::size_t documents_ = 0;
  std::vector<Diagnostic> errors_;
  Range long_quote_{0, 0};
};

}  // namespace

std::optional<Node> read_yaml(const std::string& file, const std::string& text,
                              Diagnostics& diagnostics) {
  const Lines lines(file, without_byte_order_mark(text));
  if (!check_text(lines, most_bytes, diagnostics)) return std::nullopt;
  Builder builder(lines);
  std::istringstream stream{std::string(lines.text())};
  try {
    YAML::Parser parser(stream);
    while (parser.HandleNextDocument(builder)) {
    }
  } catch (const YAML::Exception& e) {
    try {
      builder.broken(e);
    } catch (const GivenUp&) {
    }
  } catch (const GivenUp&) {
  }
  if (builder.failed()) {
    builder.report(diagnostics);
    return std::nullopt;
  }
  if (!builder.result) {
    builder.result.emplace();
    builder.result->span = lines.span(0, 0);
  }
  return std::move(builder.result);
}

}  // namespace dogear
