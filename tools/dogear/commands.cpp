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
#include "compile/problem.h"
#include "diag/explain.h"
#include "diag/print.h"
#include "diag/report.h"

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

  // Says all there is to say and tells how the run ended. `whole`: every stage ran for every size.
  int end(bool whole = false) {
    settle(session_, whole);
    std::cerr << print_for_people(session_.diagnostics, session_.sources, colour_wanted(),
                                  arguments_.folder);
    if (session_.diagnostics.has_errors()) {
      const auto& all = session_.diagnostics.all();
      const auto first = std::find_if(all.begin(), all.end(), [](const Diagnostic& d) {
        return d.severity == Severity::error;
      });
      std::cerr << "`dogear explain " << first->code << "` tells more of this kind of error.\n";
    }
    return exit_code();
  }

  // Instead: the messages for another program, on standard output.
  int end_with_report(bool whole) {
    settle(session_, whole);
    std::error_code ignored;
    const std::string absolute =
        std::filesystem::weakly_canonical(arguments_.folder, ignored).string();
    const ReportFacts facts{DOGEAR_VERSION, arguments_.folder, absolute, exit_code()};
    print(arguments_.as == "json" ? report_as_json(session_.diagnostics, facts)
                                  : report_as_sarif(session_.diagnostics, session_.sources, facts));
    return exit_code();
  }

  int exit_code() const {
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

  // To the file asked for, or to standard output.
  int deliver(std::string_view content) {
    const bool done = arguments_.out.empty() ? print(content) : write(arguments_.out, content);
    return done ? fine : no_access;
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
  const bool whole = arguments.size.empty();
  const bool report = arguments.as != "text";
  const auto fonts = run.fonts();
  if (!fonts) return report ? run.end_with_report(false) : run.end();
  const auto plan = check(arguments.folder, run.options(), *fonts, run.session());
  if (report) return run.end_with_report(whole);
  if (plan) {
    std::string sizes;
    for (const SizeDef& size : plan->pattern().sizes)
      sizes += (sizes.empty() ? "" : ", ") + size.id;
    run.print(plan->pattern().title + ": no errors (" + sizes + ")\n");
  }
  return run.end(whole);
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
  return run.end(arguments.size.empty());
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
  if (is_problem_address(arguments.figure)) {
    const auto fonts = run.fonts();
    const auto svg =
        fonts ? draw_problem_of(arguments.folder, arguments.figure, *fonts, run.session())
              : std::nullopt;
    // What is wrong is in the figure; `check` has said it.
    return svg ? run.deliver(*svg) : run.end();
  }
  Diagnostics& diagnostics = run.session().diagnostics;
  const auto plan = make_plan(arguments.folder, run.session());
  if (!plan) return run.end();
  const auto sizes = find_sizes(plan->pattern(), arguments.size, diagnostics);
  const auto fonts = run.fonts();
  if (!sizes || !fonts) return run.end();
  const auto svg = draw(*plan, sizes->front(), arguments.figure, *fonts, diagnostics);
  if (svg) run.deliver(*svg);
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

int run_explain(const Arguments& arguments) {
  Invocation run(arguments);
  bool printed = false;
  if (arguments.code.empty()) {
    printed = run.print(arguments.as == "markdown" ? catalogue_as_markdown() : list_codes());
  } else {
    std::string near;
    const CodeEntry* entry = find_spoken_code(arguments.code, near);
    if (entry == nullptr) {
      std::cerr << "dogear: no message has the code " << arguments.code << "; "
                << (near.empty() ? "`dogear explain` lists all" : "did you mean " + near + "?")
                << '\n';
      return wrong_usage;
    }
    printed = run.print(explain_code(*entry));
  }
  return printed ? fine : no_access;
}

}  // namespace dogear
