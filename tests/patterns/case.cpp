#include "case.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "base/text.h"

namespace dogear::test {

namespace {

namespace fs = std::filesystem;

std::string whole(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error(path.string() + " cannot be read");
  return {std::istreambuf_iterator<char>(in), {}};
}

std::map<std::string, std::string> read_base(const fs::path& folder) {
  if (!fs::is_directory(folder)) throw std::runtime_error("there is no base " + folder.string());
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) {
      files[entry.path().lexically_relative(folder).string()] = whole(entry.path());
    }
  }
  return files;
}

// The first word of `rest`, which loses it.
std::string take_word(std::string_view& rest) {
  rest = trim(rest);
  const std::size_t end = std::min(rest.find(' '), rest.size());
  std::string word(rest.substr(0, end));
  rest = trim(rest.substr(end));
  return word;
}

class Reader {
 public:
  Reader(const std::string& text, std::string bases) : bases_(std::move(bases)) {
    lines_ = split(text, '\n');
    if (!lines_.empty() && lines_.back().empty()) lines_.pop_back();
  }

  Case read() {
    preamble();
    while (at_ < lines_.size()) {
      const std::string head = lines_[at_];
      if (starts_with(head, "--- ")) {
        ++at_;
        file(head.substr(4));
      } else if (starts_with(head, "=== ")) {
        expectation();
      } else {
        fail("neither --- nor ===");
      }
    }
    return std::move(case_);
  }

 private:
  std::string bases_;
  std::vector<std::string> lines_;
  std::size_t at_ = 0;
  Case case_;

  [[noreturn]] void fail(const std::string& words) const {
    throw std::runtime_error("line " + std::to_string(at_ + 1) + ": " + words);
  }

  bool at_head() const {
    return at_ >= lines_.size() || starts_with(lines_[at_], "--- ") ||
           starts_with(lines_[at_], "=== ");
  }

  void preamble() {
    bool words = false;
    for (; !at_head(); ++at_) {
      const std::string& line = lines_[at_];
      if (starts_with(line, "base: ")) {
        case_.files = read_base(fs::path(bases_) / line.substr(6));
      } else if (!line.empty()) {
        words = true;
      }
    }
    if (!words) fail("the case does not say what it shows");
  }

  void file(const std::string& head) {
    const std::size_t comma = head.find(", ");
    const std::string path = head.substr(0, comma);
    const std::string how = comma == std::string::npos ? "" : head.substr(comma + 2);
    if (how == "changed") {
      change(path);
    } else if (how == "removed") {
      if (case_.files.erase(path) == 0) fail("the base has no " + path);
      while (!at_head()) ++at_;
    } else if (how.empty()) {
      std::string& text = case_.files[path] = "";
      std::size_t blank = 0;  // blank lines before the next head belong to nothing
      for (; !at_head(); ++at_) {
        blank = lines_[at_].empty() ? blank + 1 : 0;
        text += lines_[at_] + '\n';
      }
      text.resize(text.size() - blank);
    } else {
      fail("a file may be \"changed\" or \"removed\", not \"" + how + '"');
    }
  }

  // Consecutive - lines, found once in the file, give way to the + lines after them.
  void change(const std::string& path) {
    const auto found = case_.files.find(path);
    if (found == case_.files.end()) fail("the base has no " + path);
    while (!at_head()) {
      if (lines_[at_].empty()) {
        ++at_;
        continue;
      }
      const std::string before = marked('-');
      const std::string after = marked('+');
      if (before.empty()) fail("lines starting with - come first");
      std::string text = '\n' + found->second;
      const std::size_t where = text.find('\n' + before);
      if (where == std::string::npos) fail("the lines above are not in " + path);
      if (text.find('\n' + before, where + 1) != std::string::npos) {
        fail("the lines above are in " + path + " more than once");
      }
      found->second = text.replace(where + 1, before.size(), after).substr(1);
    }
  }

  std::string marked(char mark) {
    std::string text;
    for (; !at_head() && !lines_[at_].empty() && lines_[at_][0] == mark; ++at_) {
      if (lines_[at_].size() > 1 && lines_[at_][1] != ' ') fail("a blank follows the mark");
      text += lines_[at_].size() > 1 ? lines_[at_].substr(2) : "";
      text += '\n';
    }
    return text;
  }

  void expectation() {
    Expected expected;
    expected.line = at_ + 1;
    const std::string line = lines_[at_++].substr(4);
    std::string_view rest = line;
    expected.severity = take_word(rest);
    expected.code = take_word(rest);
    expected.place = take_word(rest);
    expected.words = rest;
    if (expected.severity != "error" && expected.severity != "warning" &&
        expected.severity != "accepted") {
      fail("an expectation starts with error, warning or accepted");
    }
    if (expected.words.empty()) fail("an expectation needs words of the message");
    for (; !at_head(); ++at_) {
      std::string_view more = trim(lines_[at_]);
      if (more.empty()) continue;
      const std::string kind = take_word(more);
      if (kind == "hint") {
        expected.hints.emplace_back(more);
      } else if (kind == "note") {
        std::string place = take_word(more);
        expected.notes.emplace_back(std::move(place), std::string(more));
      } else {
        fail("neither note nor hint");
      }
    }
    case_.expected.push_back(std::move(expected));
  }
};

std::string place_of(const Span& span) {
  if (span.file.empty()) return "-";
  std::string place = span.file;
  if (starts_with(place, case_folder + '/')) place.erase(0, case_folder.size() + 1);
  if (span.line == 0) return place;
  return place + ':' + std::to_string(span.line) + ':' + std::to_string(span.column);
}

std::string severity_of(const Diagnostic& given) {
  if (given.accepted) return "accepted";
  return given.severity == Severity::error ? "error" : "warning";
}

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

bool fits(const Expected& expected, const Diagnostic& given) {
  return expected.severity == severity_of(given) && expected.code == given.code &&
         expected.place == place_of(given.span) && has(given.message, expected.words) &&
         std::all_of(expected.notes.begin(), expected.notes.end(),
                     [&](const auto& note) {
                       return std::any_of(
                           given.notes.begin(), given.notes.end(), [&](const Note& n) {
                             return place_of(n.span) == note.first && has(n.message, note.second);
                           });
                     }) &&
         std::all_of(expected.hints.begin(), expected.hints.end(), [&](const std::string& hint) {
           return std::any_of(given.hints.begin(), given.hints.end(),
                              [&](const std::string& h) { return has(h, hint); });
         });
}

std::string spelled(const Diagnostic& given) {
  std::string text = "=== " + severity_of(given) + ' ' + given.code + ' ' + place_of(given.span) +
                     ' ' + given.message + '\n';
  for (const Note& note : given.notes) {
    text += "    note " + place_of(note.span) + ' ' + note.message + '\n';
  }
  for (const std::string& hint : given.hints) text += "    hint " + hint + '\n';
  return text;
}

}  // namespace

Case read_case(const std::string& text, const std::string& bases) {
  return Reader(text, bases).read();
}

std::string compare(const std::vector<Expected>& expected, const Diagnostics& given) {
  std::string words;
  std::vector<bool> used(given.all().size());
  for (const Expected& wanted : expected) {
    bool found = false;
    for (std::size_t i = 0; i < used.size() && !found; ++i) {
      if (used[i] || !fits(wanted, given.all()[i])) continue;
      used[i] = found = true;
    }
    if (!found) {
      words += "expected at line " + std::to_string(wanted.line) +
               " of the case, did not come: " + wanted.code + ' ' + wanted.place + ' ' +
               wanted.words + '\n';
    }
  }
  for (std::size_t i = 0; i < used.size(); ++i) {
    if (!used[i]) words += "came, was not expected:\n" + spelled(given.all()[i]);
  }
  return words;
}

std::string as_expected(const Diagnostics& given) {
  std::string text;
  for (const Diagnostic& each : given.all()) text += spelled(each);
  return text;
}

}  // namespace dogear::test
