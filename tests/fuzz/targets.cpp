#include "fuzz/targets.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>

#include "base/length.h"
#include "booklet/template.h"
#include "compile/compare.h"
#include "compile/compile.h"
#include "compile/ledger.h"
#include "compile/lines_of.h"
#include "diag/catalogue.h"
#include "diag/print.h"
#include "diag/report.h"
#include "source/markdown.h"
#include "source/node.h"
#include "support/pattern_files.h"
#include "support/project.h"

namespace dogear::fuzz {

namespace {

void must(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "broken promise: %s\n", what);
  std::abort();
}

// A span of the source lies in it, from its begin to its end.
void must_lie_in(const Span& span, const Sources& sources) {
  if (span.line == 0) return;
  const std::string* text = sources.text(span.file);
  if (text == nullptr) return;
  const auto lines = 1 + static_cast<std::size_t>(std::count(text->begin(), text->end(), '\n'));
  must(span.line <= lines + 1 && span.end_line <= lines + 1, "a span ends within its file");
  must(span.end_line > span.line || (span.end_line == span.line && span.end_column >= span.column),
       "a span ends behind its begin");
}

// Every message can be explained, shows places that are there, and can be printed in every form.
void must_be_sound(Diagnostics& diagnostics, const Sources& sources) {
  for (const Diagnostic& d : diagnostics.all()) {
    const CodeEntry* entry = find_code(d.code);
    must(entry != nullptr, "a message's code is in the catalogue");
    must(!d.message.empty(), "a message says something");
    must_lie_in(d.span, sources);
    for (const Note& note : d.notes) must_lie_in(note.span, sources);
  }
  diagnostics.sort();
  print_for_people(diagnostics, sources, true);
  const ReportFacts facts{"0", "p", "/p", diagnostics.has_errors() ? 1 : 0};
  report_as_json(diagnostics, facts);
  report_as_sarif(diagnostics, sources, facts);
}

const test::PatternFiles& small_pattern() {
  static const test::PatternFiles files = [] {
    test::PatternFiles out;
    out.add(test::project_folder() + "/tests/patterns/base/star", "p");
    must(out.content.contains("p/pattern.yaml"), "the small pattern is there");
    return out;
  }();
  return files;
}

// Those of the disk where they are fonts or a dictionary, all else from memory.
class SmallWorld : public MemoryFiles {
 public:
  std::optional<std::string> read(const std::string& path, std::string& error) const override {
    must(("/" + path + "/").find("/../") == std::string::npos,
         "no path leaves the pattern's folder");
    return path.rfind("/usr/share/", 0) == 0 ? disk_.read(path, error)
                                             : MemoryFiles::read(path, error);
  }

 private:
  DiskFiles disk_;
};

const canvas::FontSet& fonts() {
  static const canvas::FontSet set = [] {
    std::string error;
    auto loaded = canvas::FontSet::load(DiskFiles(), canvas::FontPaths::debian(), error);
    must(loaded.has_value(), error.c_str());
    return std::move(*loaded);
  }();
  return set;
}

}  // namespace

void try_yaml(std::string_view bytes) {
  const std::string text(bytes);
  Diagnostics diagnostics;
  Sources sources;
  sources.add("f.yaml", text);
  const auto node = read_yaml("f.yaml", text, diagnostics);
  must(node.has_value() != diagnostics.has_errors(), "a tree, or else an error");
  must_be_sound(diagnostics, sources);
  Diagnostics again;
  const auto lines = lines_of_yaml("f.yaml", text, again);
  must(lines.has_value() != again.has_errors(), "lines, or else an error");
}

void try_length(std::string_view bytes) {
  LengthError error;
  if (const auto length = parse_length(bytes, error)) {
    const Fraction sixteenths = length->inches.round_nearest(16);
    const auto again = parse_length(plain_inches(sixteenths), error);
    must(again && again->inches == Exact(sixteenths), "what is printed reads as the same length");
    const auto pretty = parse_length(pretty_inches(sixteenths), error);
    must(pretty && pretty->inches == Exact(sixteenths), "also in real fractions");
    about_inches(length->inches);
  } else {
    must(!error.message.empty(), "what is no length is told why");
    must(error.offset <= bytes.size(), "the place of the error lies in the text");
  }
  LengthError other;
  if (const auto number = parse_number(bytes, other)) {
    const auto again = parse_number(plain(*number), other);
    must(again && *again == *number, "what is printed reads as the same number");
  }
}

void try_markdown(std::string_view bytes) {
  const std::string text(bytes);
  Diagnostics diagnostics;
  Sources sources;
  sources.add("f.md", text);
  const auto markdown = read_markdown("f.md", text, diagnostics);
  must(markdown.has_value() != diagnostics.has_errors(), "a tree, or else an error");
  find_tags("f.md", text, diagnostics);
  must_be_sound(diagnostics, sources);
}

void try_template(std::string_view bytes) {
  SmallWorld files;
  files.content["t/own.yaml"] = std::string(bytes);
  files.content["t/words.yaml"] = "words:\n  cover by: \"by {designer}\"\n";
  Diagnostics diagnostics;
  Sources sources;
  sources.add("t/own.yaml", files.content["t/own.yaml"]);
  const auto style = load_template("t/own.yaml", "en", files, diagnostics);
  must(style.has_value() != diagnostics.has_errors(), "a template, or else an error");
  must_be_sound(diagnostics, sources);
}

void try_ledger(std::string_view bytes) {
  const std::size_t half = bytes.find("\n===\n");
  const std::string_view was = bytes.substr(0, half);
  const std::string_view now =
      half == std::string_view::npos ? std::string_view() : bytes.substr(half + 5);
  for (const LedgerChange& change : compare_ledgers(was, now)) change.words();
  must(compare_ledgers(was, was).empty(), "a ledger does not differ from itself");
  std::string error;
  const auto lines = lines_of_ledger(was, error);
  must(lines.has_value() == error.empty(), "lines, or else a reason");
  const auto old_side = side_of_ledger("was", was, error);
  const auto new_side = side_of_ledger("now", now, error);
  if (!old_side || !new_side) return;
  const Comparison comparison = compare_sides(*old_side, *new_side);
  for (const auto format : {ComparisonFormat::text, ComparisonFormat::markdown,
                            ComparisonFormat::json, ComparisonFormat::errata})
    print_comparison(comparison, format);
}

void try_compile(std::string_view bytes) {
  SmallWorld files;
  files.content = small_pattern().content;
  std::string path = "p/pattern.yaml", text;
  const auto put = [&] {
    if (!text.empty()) files.content[path] = text;
    text.clear();
  };
  while (!bytes.empty()) {
    const std::size_t end = std::min(bytes.find('\n'), bytes.size() - 1) + 1;
    const std::string_view line = bytes.substr(0, end);
    bytes.remove_prefix(end);
    if (line.rfind("=== ", 0) == 0) {
      put();
      path = "p/" + std::string(line.substr(4, line.find('\n') - 4));
    } else {
      text += line;
    }
  }
  put();
  Session session(files);
  const canvas::FontSet own = fonts().another();
  const auto plan = check("p", {}, own, session);
  must(plan.has_value() != session.diagnostics.has_errors(), "a plan, or else an error");
  settle(session, true);
  must_be_sound(session.diagnostics, session.sources);
  if (!plan) return;
  const std::string ledger = ledger_text(*plan);
  std::string error;
  must(side_of_ledger("now", ledger, error).has_value(), "the ledger can be read");
}

const std::map<std::string, void (*)(std::string_view)>& targets() {
  static const std::map<std::string, void (*)(std::string_view)> all{
      {"yaml", try_yaml},         {"length", try_length}, {"markdown", try_markdown},
      {"template", try_template}, {"ledger", try_ledger}, {"compile", try_compile}};
  return all;
}

}  // namespace dogear::fuzz
