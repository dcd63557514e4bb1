// Warnings accepted at their place, with a reason.

#include <catch2/catch.hpp>

#include "diag/accept.h"
#include "diag/print.h"

using namespace dogear;

namespace {

struct Run {
  Sources sources;
  Diagnostics diagnostics;
  void source(const std::string& file, const std::string& text) { sources.add(file, text); }
  void warn(const std::string& file, std::size_t line, const char* code) {
    diagnostics.warning(code, {file, line, line > 0 ? 1u : 0u, line, line > 0 ? 2u : 0u}, "words");
  }
  void settle(bool whole = true) {
    const auto acceptances = read_acceptances(sources, diagnostics);
    accept_warnings(acceptances, whole, diagnostics);
    diagnostics.sort();
  }
  // "D551 a.yaml:3" for each that is not accepted.
  std::vector<std::string> left() const {
    std::vector<std::string> out;
    for (const Diagnostic& d : diagnostics.all()) {
      if (d.accepted) continue;
      out.push_back(d.code + ' ' + d.span.file + ':' + std::to_string(d.span.line) + ':' +
                    std::to_string(d.span.column));
    }
    return out;
  }
};
using Left = std::vector<std::string>;

}  // namespace

TEST_CASE("a comment accepts what is said of its line, or alone of the next") {
  Run run;
  run.source("a.yaml",
             "a: 1\nb: 2 # accept D551: so it is\n# accept D151, D152: kept\n# more\nc: 3\n");
  run.warn("a.yaml", 2, "D551");
  run.warn("a.yaml", 5, "D151");
  run.warn("a.yaml", 5, "D152");
  run.warn("a.yaml", 1, "D551");
  run.warn("a.yaml", 3, "D551");
  run.settle();
  CHECK(run.left() == Left{"D551 a.yaml:1:1", "D551 a.yaml:3:1"});
  CHECK(run.diagnostics.accepted_count() == 3);
  for (const Diagnostic& d : run.diagnostics.all()) {
    if (d.accepted) CHECK(*d.accepted == (d.code == "D551" ? "so it is" : "kept"));
  }
}

TEST_CASE("blank lines and other comments may stand between") {
  Run run;
  run.source("a.md", "Words.\n\n<!-- accept D551: so -->\n\n<!-- accept D151: so -->\n\nMore.\n");
  run.source("b.yaml", "# accept D551: so\n\n");
  run.warn("a.md", 7, "D551");
  run.warn("a.md", 7, "D151");
  run.warn("a.md", 5, "D551");
  run.settle();
  CHECK(run.left() == Left{"D551 a.md:5:1", "D073 b.yaml:1:10"});
}

TEST_CASE("at the top of a file it accepts what is said of the file as a whole") {
  Run run;
  run.source("a.yaml", "# accept D551: so\na: 1\n");
  run.source("b.yaml", "a: 1\n# accept D551: so\n");
  run.source("c.md", "<!-- accept D551: so -->\n\nWords.\n");
  for (const char* file : {"a.yaml", "b.yaml", "c.md"}) run.warn(file, 0, "D551");
  run.settle();
  CHECK(run.left() == Left{"D551 b.yaml:0:0", "D073 b.yaml:2:10"});
}

TEST_CASE("an acceptance that meets nothing is told when all stages have run") {
  Run run;
  run.source("a.yaml", "a: 1 # accept D551, D151: so\n");
  run.warn("a.yaml", 1, "D551");
  run.settle(false);
  CHECK(run.left().empty());
  run.settle(true);
  CHECK(run.left() == Left{"D073 a.yaml:1:21"});

  Run faulty;
  faulty.source("a.yaml", "a: 1 # accept D551: so\n");
  faulty.diagnostics.error("D101", {"a.yaml", 1, 1, 1, 2}, "words");
  faulty.settle(true);
  CHECK(faulty.left() == Left{"D101 a.yaml:1:1"});
}

TEST_CASE("badly written acceptances are errors, at the word that is wrong") {
  const auto said = [](const std::string& comment) {
    Run run;
    run.source("a.yaml", "a: 1 # " + comment + "\n");
    run.settle();
    return run.left();
  };
  CHECK(said("accept D201: so") == Left{"D071 a.yaml:1:15"});
  CHECK(said("accept D551") == Left{"D072 a.yaml:1:8"});
  CHECK(said("accept D551:  ") == Left{"D072 a.yaml:1:8"});
  CHECK(said("accept") == Left{"D074 a.yaml:1:8"});
  CHECK(said("accept: D551") == Left{"D074 a.yaml:1:8"});
  CHECK(said("accept D999: so") == Left{"D074 a.yaml:1:15"});
  CHECK(said("accept D551 because of it") == Left{"D074 a.yaml:1:20"});
  CHECK(said("accept D551, D15, D201: so") == Left{"D074 a.yaml:1:21", "D071 a.yaml:1:26"});
  CHECK(said("accept d551: so") == Left{"D073 a.yaml:1:15"});  // read, and meets nothing
  CHECK(said("accept the default: it is good").empty());
}

TEST_CASE("an error is never accepted, and other files than YAML and Markdown accept nothing") {
  Run run;
  run.source("a.yaml", "a: 1 # accept D551: so\n");
  run.source("quantities.txt", "# accept D651: so\n");
  run.diagnostics.error("D551", {"a.yaml", 1, 1, 1, 2}, "said as an error");
  run.warn("quantities.txt", 0, "D651");
  run.settle(false);
  CHECK(run.diagnostics.accepted_count() == 0);
}

TEST_CASE("accepted warnings are counted and not shown") {
  Run run;
  run.source("a.yaml", "a: 1 # accept D551: so\nb: 2\n");
  run.warn("a.yaml", 1, "D551");
  run.warn("a.yaml", 2, "D151");
  run.settle();
  CHECK(print_for_people(run.diagnostics, run.sources, false) ==
        "a.yaml:2:1: warning: words [D151]\n    2 | b: 2\n      | ^\n1 warning accepted\n");
}
