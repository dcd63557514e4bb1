#include "commands.h"

#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <iostream>

#include "compile/compile.h"
#include "compile/ledger.h"
#include "compile/lists.h"
#include "diag/print.h"

namespace dogear {

namespace {

bool colour_wanted() {
  const char* no_color = std::getenv("NO_COLOR");
  const char* terminal = std::getenv("TERM");
  return ::isatty(STDERR_FILENO) != 0 && (no_color == nullptr || *no_color == '\0') &&
         (terminal == nullptr || std::string_view(terminal) != "dumb");
}

// One run of the program: the session, and the ways in which it may end.
class Invocation {
 public:
  explicit Invocation(const Arguments& arguments) : arguments_(arguments), session_(files_) {}

  Session& session() { return session_; }

  // Says all there is to say and tells how the run ended.
  int end() {
    session_.diagnostics.sort();
    std::cerr << print_for_people(session_.diagnostics, session_.sources, colour_wanted());
    if (unwritten_) return no_access;
    if (!session_.diagnostics.has_errors()) return fine;
    if (said("D001") || said("D410")) return no_access;
    return said("D602") || said("D603") ? wrong_usage : faulty_pattern;
  }

  std::optional<canvas::FontSet> fonts() {
    return load_fonts(session_, canvas::FontPaths::debian());
  }

  std::optional<int> wrong_paper() const {
    const std::string& paper = arguments_.paper;
    if (paper.empty() || paper == "letter" || paper == "a4" || paper.ends_with(".yaml")) {
      return std::nullopt;
    }
    std::cerr << "dogear: there is no paper called " << paper
              << "; name letter, a4 or a template's .yaml file\n";
    return wrong_usage;
  }

  Options options() const {
    Options options{arguments_.size, arguments_.paper, {}};
    if (const char* epoch = std::getenv("SOURCE_DATE_EPOCH")) {
      const std::string_view text(epoch);
      std::int64_t seconds = 0;
      const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seconds);
      if (error == std::errc() && end == text.data() + text.size()) options.date = seconds;
    }
    return options;
  }

  bool make_folder(const std::string& folder) {
    std::error_code error;
    if (folder.empty() || std::filesystem::is_directory(folder, error)) return true;
    std::filesystem::create_directories(folder, error);
    if (!error) return true;
    return cannot_write(folder, error.message());
  }

  bool write(const std::string& path, std::string_view content) {
    std::string reason;
    return files_.write(path, content, reason) || cannot_write(path, reason);
  }

  bool print(std::string_view content) {
    std::cout << content << std::flush;
    return std::cout.good() || cannot_write("standard output", "it is closed or full");
  }

 private:
  bool said(std::string_view code) const {
    const auto& all = session_.diagnostics.all();
    return std::any_of(all.begin(), all.end(), [&](const Diagnostic& d) { return d.code == code; });
  }

  bool cannot_write(const std::string& path, const std::string& reason) {
    std::cerr << "dogear: " << path << " cannot be written: " << reason << '\n';
    unwritten_ = true;
    return false;
  }

  const Arguments& arguments_;
  DiskFiles files_;
  Session session_;
  bool unwritten_ = false;
};

}  // namespace

int run_check(const Arguments& arguments) {
  Invocation run(arguments);
  if (const auto wrong = run.wrong_paper()) return *wrong;
  const auto fonts = run.fonts();
  if (!fonts) return run.end();
  if (const auto plan = check(arguments.folder, run.options(), *fonts, run.session())) {
    std::string sizes;
    for (const SizeDef& size : plan->pattern().sizes)
      sizes += (sizes.empty() ? "" : ", ") + size.id;
    run.print(plan->pattern().title + ": no errors (" + sizes + ")\n");
  }
  return run.end();
}

int run_build(const Arguments& arguments) {
  Invocation run(arguments);
  if (const auto wrong = run.wrong_paper()) return *wrong;
  const auto fonts = run.fonts();
  if (!fonts) return run.end();
  const auto booklets = compile(arguments.folder, run.options(), *fonts, run.session());
  if (!booklets || !run.make_folder(arguments.out)) return run.end();

  std::vector<std::string> targets;
  for (const Output& output : booklets->outputs) {
    targets.push_back((std::filesystem::path(arguments.out) / output.name).string());
  }
  // The depfile goes first: a PDF that make takes for new never lacks its own.
  if (!arguments.depfile.empty()) {
    std::vector<std::string> sources = booklets->sources;
    if (arguments.paper.ends_with(".yaml")) sources.push_back(arguments.paper);
    if (!run.write(arguments.depfile, depfile_text(targets, sources))) return run.end();
  }
  for (std::size_t i = 0; i < targets.size(); ++i) {
    if (!run.write(targets[i], booklets->outputs[i].bytes)) break;
    if (!run.print(targets[i] + '\n')) break;
  }
  return run.end();
}

int run_quantities(const Arguments& arguments) {
  Invocation run(arguments);
  Diagnostics& diagnostics = run.session().diagnostics;
  const auto plan = make_plan(arguments.folder, run.session());
  if (!plan) return run.end();
  if (arguments.ledger) {
    run.write(plan->pattern().folder + '/' + ledger_name, ledger_text(*plan));
  } else if (const auto sizes = find_sizes(plan->pattern(), arguments.size, diagnostics)) {
    run.print(
        print_quantities(*plan, *sizes, list_format(arguments.as).value_or(ListFormat::text)));
  }
  return run.end();
}

int run_draw(const Arguments& arguments) {
  Invocation run(arguments);
  Diagnostics& diagnostics = run.session().diagnostics;
  const auto plan = make_plan(arguments.folder, run.session());
  if (!plan) return run.end();
  const auto sizes = find_sizes(plan->pattern(), arguments.size, diagnostics);
  const auto fonts = run.fonts();
  if (!sizes || !fonts) return run.end();
  const auto svg = draw(*plan, sizes->front(), arguments.figure, *fonts, diagnostics);
  if (svg && arguments.out.empty()) run.print(*svg);
  if (svg && !arguments.out.empty()) run.write(arguments.out, *svg);
  return run.end();
}

int run_sizes(const Arguments& arguments) {
  Invocation run(arguments);
  Session& session = run.session();
  const auto pattern =
      load_pattern(arguments.folder, session.files, session.sources, session.diagnostics);
  if (pattern) {
    std::string names;
    for (const SizeDef& size : pattern->sizes) names += size.id + '\n';
    run.print(names);
  }
  return run.end();
}

}  // namespace dogear
