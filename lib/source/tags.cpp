#include "source/limits.h"
#include "source/lines.h"
#include "source/markdown.h"
#include "source/markdown_guard.h"

namespace dogear {

namespace {

constexpr std::string_view sigils = "#^/";
constexpr std::string_view refused_sigils = "!>&{=<$@%*~";

class TagReader {
 public:
  TagReader(const Lines& lines, Diagnostics& diagnostics)
      : lines_(lines), text_(lines.text()), diagnostics_(diagnostics) {}

  std::vector<Tag> read() {
    for (std::size_t at = 0; at < text_.size() && errors_ < most_errors;) {
      const std::size_t open = text_.find("{{", at);
      const std::size_t close = text_.find("}}", at);
      if (open == std::string_view::npos && close == std::string_view::npos) break;
      if (close < open) {
        std::size_t end = close + 2;
        while (end < text_.size() && text_[end] == '}') ++end;
        error("D011", close, end, "nothing is open that these braces could close",
              "a value is written with two braces on each side: {{name}}");
        at = end;
        continue;
      }
      at = tag(open, close);
    }
    for (std::size_t i : open_) {
      if (errors_ >= most_errors) break;
      const Tag& tag = tags_[i];
      report("D012", tag.span, "the section " + tag.name + " is opened here and not closed",
             "write {{/" + tag.name + "}} where it ends");
    }
    return std::move(tags_);
  }

 private:
  Diagnostic& report(const char* code, const Span& span, std::string message, std::string hint) {
    ++errors_;
    Diagnostic& d = diagnostics_.error(code, span, std::move(message));
    d.hints.push_back(std::move(hint));
    return d;
  }
  Diagnostic& error(const char* code, std::size_t begin, std::size_t end, std::string message,
                    std::string hint) {
    return report(code, lines_.span(begin, end), std::move(message), std::move(hint));
  }

  // Reads the tag whose braces open at `open`; returns where reading goes on.
  std::size_t tag(std::size_t open, std::size_t close) {
    const std::size_t inside = open + 2;
    const std::size_t line_end = lines_.end(lines_.line_of(open));
    const std::size_t again = text_.find("{{", inside + (at(inside) == '{' ? 1 : 0));
    if (close > line_end || again < close) {
      error("D011", open, inside, "these braces are not closed in their line",
            "a value is written with two braces on each side: {{name}}");
      return inside;
    }
    std::size_t end = close + 2;
    std::string_view name = trim(text_.substr(inside, close - inside));
    Tag tag;
    if (!name.empty() && refused_sigils.find(name.front()) != std::string_view::npos) {
      while (at(end) == '}') ++end;
      error("D011", open, end, std::string("a tag cannot begin with ") + name.front(),
            "a tag is a name, or a name behind #, ^ or /");
      return end;
    }
    if (!name.empty() && sigils.find(name.front()) != std::string_view::npos) {
      tag.sigil = name.front();
      name = trim(name.substr(1));
    }
    if (name.empty() || name.find_first_of("{}") != std::string_view::npos) {
      error("D011", open, end, name.empty() ? "this tag has no name" : "a name holds no braces",
            "a value is written with two braces on each side: {{name}}");
      return end;
    }
    tag.name = std::string(name);
    tag.span = lines_.span(open, end);
    tags_.push_back(std::move(tag));
    section(tags_.size() - 1);
    return end;
  }

  void section(std::size_t index) {
    const Tag& tag = tags_[index];
    if (tag.sigil == '#' || tag.sigil == '^') {
      if (open_.size() == most_nesting) {
        report("D006", tag.span, "sections are nested too deeply here",
               "at most " + std::to_string(most_nesting) + " levels are read");
      }
      open_.push_back(index);
    } else if (tag.sigil == '/') {
      if (open_.empty()) {
        report("D012", tag.span, "no section called " + tag.name + " is open here",
               "a section begins with {{#" + tag.name + "}}");
        return;
      }
      const Tag& opened = tags_[open_.back()];
      if (opened.name != tag.name) {
        report("D012", tag.span,
               "this closes " + tag.name + ", but the section that is open is " + opened.name,
               "sections close in the reverse order of their opening")
            .notes.push_back({opened.span, opened.name + " is opened here"});
        // Closing an outer section closes what was left open in it.
        std::size_t outer = open_.size();
        while (outer > 0 && tags_[open_[outer - 1]].name != tag.name) --outer;
        if (outer > 0) open_.resize(outer - 1);
        return;
      }
      open_.pop_back();
    }
  }

  char at(std::size_t i) const { return i < text_.size() ? text_[i] : '\0'; }

  const Lines& lines_;
  std::string_view text_;
  Diagnostics& diagnostics_;
  std::vector<Tag> tags_;
  std::vector<std::size_t> open_;  // sections, as places in tags_
  std::size_t errors_ = 0;
};

}  // namespace

std::vector<Tag> find_tags(const std::string& file, const std::string& text,
                           Diagnostics& diagnostics) {
  const Lines lines(file, without_byte_order_mark(text));
  return TagReader(lines, diagnostics).read();
}

}  // namespace dogear
