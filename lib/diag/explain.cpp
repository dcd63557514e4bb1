#include "diag/explain.h"

#include <algorithm>

namespace dogear {

namespace {

constexpr std::size_t width = 78;

std::string severity_word(const CodeEntry& entry) {
  return entry.severity == Severity::error ? "error" : "warning";
}

// Lines of at most `width` characters; an item's later lines stand under its first word.
void wrap(std::string& out, const std::string& paragraph) {
  const bool item = starts_with(paragraph, "- ");
  std::size_t column = 0;
  for (const std::string& word : split(paragraph, ' ')) {
    const std::size_t length = code_points(word).size();
    if (column > 0 && column + 1 + length > width) {
      out += item ? "\n  " : "\n";
      column = item ? 2 : 0;
    } else if (column > 0) {
      out += ' ';
      ++column;
    }
    out += word;
    column += length;
  }
  out += '\n';
}

void section(std::string& out, const std::string& heading,
             const std::vector<std::string>& paragraphs) {
  out += '\n' + heading + '\n';
  for (std::size_t i = 0; i < paragraphs.size(); ++i) {
    if (i > 0 && !starts_with(paragraphs[i], "- ")) out += '\n';
    wrap(out, paragraphs[i]);
  }
}

void source(std::string& out, const std::string& heading, const std::string& lines) {
  out += '\n' + heading + '\n';
  for (const std::string& line : split(lines.substr(0, lines.size() - 1), '\n')) {
    out += line.empty() ? "\n" : "    " + line + '\n';
  }
}

std::string fenced(const CodeExample& example, const std::string& lines) {
  std::string fence = "```";
  while (lines.find(fence) != std::string::npos) fence += '`';
  return fence + example.language + '\n' + lines + fence + '\n';
}

std::string joined(const std::vector<std::string>& paragraphs) {
  std::string out;
  for (const std::string& p : paragraphs) {
    if (!out.empty() && !starts_with(p, "- ")) out += '\n';
    wrap(out, p);
  }
  return out;
}

}  // namespace

std::string explain_code(const CodeEntry& entry) {
  std::string out;
  wrap(out, entry.code + " (" + severity_word(entry) + "): " + entry.title);
  out += '\n';
  out += joined(entry.text);
  section(out, "Why it matters", entry.why);
  if (entry.example) {
    source(out, "Faulty, in " + entry.example->file, entry.example->faulty);
    source(out, "Mended", entry.example->mended);
  } else {
    section(out, "Raised by", entry.raised_by);
  }
  if (entry.judged)
    section(out, "Where it is wrong",
            {"dogear judges words here. If yours mean another thing, accept it "
             "alone on the line above: <!-- accept " +
             entry.code + ": why -->"});
  return out;
}

std::string list_codes() {
  std::string out;
  std::string stage;
  for (const CodeEntry& entry : code_catalogue()) {
    if (code_stage(entry.code) != stage) {
      if (!out.empty()) out += '\n';
      stage = code_stage(entry.code);
      out += stage + '\n';
    }
    out += "  " + entry.code + "  " + entry.title;
    if (entry.severity == Severity::warning) out += " (warning)";
    out += '\n';
  }
  return out;
}

std::string catalogue_as_markdown() {
  std::string out =
      "# What the messages mean\n\n"
      "Every message ends with a code in brackets, such as [D204]. `dogear explain D204` prints "
      "what\n"
      "stands here. The page is written by `dogear explain --as markdown` from the files in\n"
      "`lib/diag/codes/`; a test compares the two.\n\n"
      "An error stops the booklet. A warning does not, and can be accepted at its place with a\n"
      "reason: [the language](language.md#accepting-a-warning). So can an error that judges "
      "words.\n";
  std::string stage;
  for (const CodeEntry& entry : code_catalogue()) {
    if (code_stage(entry.code) != stage) {
      stage = code_stage(entry.code);
      out += "\n## " + stage + '\n';
    }
    out += "\n### " + entry.code + ' ' + entry.title + '\n';
    if (entry.severity == Severity::warning) out += "*A warning.*\n\n";
    if (entry.judged) out += "*An error by judgement of your words: it can be accepted.*\n\n";
    out += joined(entry.text);
    out += '\n';
    std::vector<std::string> why = entry.why;
    why.front() = "*Why it matters:* " + why.front();
    out += joined(why);
    out += '\n';
    if (entry.example) {
      out += "Faulty, in `" + entry.example->file + "`, and mended:\n\n";
      out += fenced(*entry.example, entry.example->faulty);
      out += fenced(*entry.example, entry.example->mended);
    } else {
      std::vector<std::string> raised = entry.raised_by;
      raised.front() = "*Raised by:* " + raised.front();
      out += joined(raised);
    }
  }
  return out;
}

const CodeEntry* find_spoken_code(std::string_view words, std::string& near) {
  std::string code(trim(words));
  if (!code.empty() && code[0] == 'd') code[0] = 'D';
  if (!code.empty() && is_digit(code[0])) code.insert(0, 1, 'D');
  const CodeEntry* found = find_code(code);
  near.clear();
  if (found != nullptr) return found;
  std::vector<std::string> known;
  for (const CodeEntry& entry : code_catalogue()) known.push_back(entry.code);
  near = nearest(code, known);
  return nullptr;
}

}  // namespace dogear
