#include "diag/catalogue.h"

#include <algorithm>
#include <stdexcept>

namespace dogear {

namespace {

bool is_code(std::string_view word) {
  return word.size() == 4 && word[0] == 'D' && std::all_of(word.begin() + 1, word.end(), is_digit);
}

class CodeReader {
 public:
  CodeReader(const std::string& text, std::string& error)
      : lines_(split(text, '\n')), error_(error) {}

  std::optional<CodeEntry> read() {
    if (!headline() || !severity()) return std::nullopt;
    entry_.text = paragraphs();
    if (entry_.text.empty()) return fail("nothing says what the code means");
    if (!heading("## Why it matters")) return std::nullopt;
    entry_.why = paragraphs();
    if (entry_.why.empty()) return fail("nothing says why it matters");
    if (at_ < lines_.size() && lines_[at_] == "## Raised by") {
      ++at_;
      entry_.raised_by = paragraphs();
      if (entry_.raised_by.empty()) return fail("nothing says what raises the code");
    } else if (!example()) {
      return std::nullopt;
    }
    if (at_ < lines_.size()) return fail("nothing is expected here");
    return std::move(entry_);
  }

 private:
  std::nullopt_t fail(const std::string& words) {
    error_ = "line " + std::to_string(at_ + 1) + ": " + words;
    return std::nullopt;
  }

  const std::string& line() const {
    static const std::string none;
    return at_ < lines_.size() ? lines_[at_] : none;
  }
  void skip_blank() {
    while (at_ < lines_.size() && trim(lines_[at_]).empty()) ++at_;
  }

  bool headline() {
    if (!starts_with(line(), "# ") || line().size() < 8 || !is_code(line().substr(2, 4)) ||
        line()[6] != ' ') {
      fail("the first line is \"# D204 A title\"");
      return false;
    }
    entry_.code = line().substr(2, 4);
    entry_.title = trim(line().substr(7));
    ++at_;
    return true;
  }

  bool severity() {
    const std::string judged = "error, by judgement";
    if (line() != "error" && line() != "warning" && line() != judged) {
      fail("the second line is error, " + judged + ", or warning");
      return false;
    }
    entry_.judged = line() == judged;
    entry_.severity = line() == "warning" ? Severity::warning : Severity::error;
    ++at_;
    return true;
  }

  bool heading(const std::string& words) {
    skip_blank();
    if (line() != words) {
      fail('"' + words + "\" is expected here");
      return false;
    }
    ++at_;
    return true;
  }

  // Up to the next heading; the lines of a paragraph are joined.
  std::vector<std::string> paragraphs() {
    std::vector<std::string> all;
    bool open = false;
    for (; at_ < lines_.size() && !starts_with(lines_[at_], "## "); ++at_) {
      const std::string_view words = trim(lines_[at_]);
      if (words.empty()) {
        open = false;
      } else if (open && !starts_with(words, "- ")) {
        all.back() += ' ';
        all.back() += words;
      } else {
        all.emplace_back(words);
        open = true;
      }
    }
    return all;
  }

  std::optional<std::string> named(const std::string& key) {
    if (!starts_with(line(), key)) {
      fail('"' + key + "...\" is expected here");
      return std::nullopt;
    }
    return std::string(trim(lines_[at_++].substr(key.size())));
  }

  // The lines between two fences of backticks.
  std::optional<std::string> fenced(std::string& language) {
    skip_blank();
    const std::size_t ticks = std::min(line().find_first_not_of('`'), line().size());
    if (ticks < 3) {
      fail("lines of source stand between fences of three backticks");
      return std::nullopt;
    }
    const std::string fence(ticks, '`');
    language = lines_[at_++].substr(ticks);
    if (language != "yaml" && language != "markdown") {
      fail("the source is yaml or markdown");
      return std::nullopt;
    }
    std::string text;
    for (; at_ < lines_.size() && lines_[at_] != fence; ++at_) text += lines_[at_] + '\n';
    if (at_ == lines_.size() || text.empty()) {
      fail(text.empty() ? "there is no source in these fences" : "the fence is not closed");
      return std::nullopt;
    }
    ++at_;
    skip_blank();
    return text;
  }

  bool example() {
    if (!heading("## Faulty")) return false;
    CodeExample example;
    auto base = named("base: ");
    auto file = base ? named("file: ") : std::nullopt;
    auto faulty = file ? fenced(example.language) : std::nullopt;
    if (!faulty || !heading("## Mended")) return false;
    std::string language;
    auto mended = fenced(language);
    if (!mended) return false;
    example.base = std::move(*base);
    example.file = std::move(*file);
    example.faulty = std::move(*faulty);
    example.mended = std::move(*mended);
    if (language != example.language || example.faulty == example.mended) {
      fail("faulty and mended source are of one language, and differ");
      return false;
    }
    entry_.example = std::move(example);
    return true;
  }

  std::vector<std::string> lines_;
  std::string& error_;
  std::size_t at_ = 0;
  CodeEntry entry_;
};

}  // namespace

std::optional<CodeEntry> read_code(const std::string& text, std::string& error) {
  return CodeReader(text, error).read();
}

const std::vector<CodeEntry>& code_catalogue() {
  static const std::vector<CodeEntry> all = [] {
    std::vector<CodeEntry> entries;
    for (const auto& [code, text] : code_files()) {
      std::string error;
      auto entry = read_code(text, error);
      if (entry && entry->code != code) error = "the file has another code than its title";
      if (!error.empty()) throw std::logic_error(code + ".md: " + error);
      entries.push_back(std::move(*entry));
    }
    return entries;
  }();
  return all;
}

const CodeEntry* find_code(std::string_view code) {
  const auto& all = code_catalogue();
  const auto found =
      std::lower_bound(all.begin(), all.end(), code,
                       [](const CodeEntry& e, std::string_view c) { return e.code < c; });
  return found != all.end() && found->code == code ? &*found : nullptr;
}

std::string code_stage(std::string_view code) {
  switch (code.size() == 4 ? code[1] : ' ') {
    case '0':
      return "Files, YAML, Markdown, and what is said of messages";
    case '1':
      return "Keys, names and measures";
    case '2':
      return "Does it fit?";
    case '3':
      return "Sewing";
    case '4':
      return "Prose, templates and pages";
    case '5':
      return "Cuts and cloth";
    default:
      return "Output";
  }
}

}  // namespace dogear
