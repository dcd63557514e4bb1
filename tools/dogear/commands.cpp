#include "commands.h"

#include <iostream>

#include "compile/compile.h"
#include "compile/ledger.h"
#include "compile/lists.h"
#include "compile/problem.h"
#include "compile/schema.h"
#include "diag/explain.h"
#include "invocation.h"

namespace dogear {

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

int run_quantities(const Arguments& arguments) {
  if (!arguments.list.empty()) return run_list(arguments);
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

int run_schema(const Arguments& arguments) {
  Invocation run(arguments);
  std::string text;
  if (arguments.as == "markdown") {
    text = keys_as_markdown();
  } else if (arguments.kind.empty()) {
    text = list_source_kinds();
  } else if (const SourceKind* kind = find_source_kind(arguments.kind)) {
    text = schema_of(*kind);
  } else {
    std::vector<std::string> known;
    for (const SourceKind& each : source_kinds()) known.push_back(each.name);
    std::cerr << "dogear: there is no kind of source file called " << arguments.kind << "; name "
              << join(known, ", ") << '\n';
    return wrong_usage;
  }
  return run.print(text) ? fine : no_access;
}

}  // namespace dogear
