// The steps of both demo patterns, word for word, as they were agreed on.

#include <catch2/catch.hpp>
#include <cstdlib>

#include "base/text.h"
#include "canvas/font.h"
#include "compile/compile.h"
#include "diag/print.h"
#include "support/page_text.h"
#include "support/pattern_files.h"
#include "support/project.h"

using namespace dogear;

namespace {

// A sentence a line, fractions spelled plainly, so that a difference reads as what changed.
std::string in_sentences(const std::string& text) {
  std::string out;
  for (const std::string& word : split(canvas::normal_fractions(text), ' ')) {
    if (word.empty()) continue;
    out += word;
    out += word.ends_with('.') ? '\n' : ' ';
  }
  return out;
}

}  // namespace

TEST_CASE("steps stay as they were agreed on") {
  // DOGEAR_UPDATE=1 writes them anew; read the difference before committing it.
  DiskFiles disk;
  for (const std::string name : {"harbor-lights", "tide-star", "reed-bed", "uferwiese"}) {
    test::PatternFiles files;
    files.add(test::project_folder() + "/patterns/" + name, name);
    Session session(files);
    const auto fonts = load_fonts(session, canvas::FontPaths::debian());
    REQUIRE(fonts);
    const auto plan = make_plan(name, session);
    REQUIRE(plan);
    const auto pages = set_pages(*plan, {}, *fonts, session);
    INFO(print_for_people(session.diagnostics, session.sources, false));
    REQUIRE(pages);
    std::string text;
    for (const Pages& size : *pages) {
      text += "== " + plan->pattern().sizes[size.size].title + "\n";
      for (const canvas::Page& page : size.document.pages) {
        std::string words;
        test::read_text(page.content, words);
        const bool steps = words.find("Making the blocks") != std::string::npos ||
                           words.find("Assembling the top") != std::string::npos;
        // The contents name these sections, too.
        if (steps && words.find("Contents") == std::string::npos)
          text += in_sentences(words) + "\n";
      }
    }
    const std::string path =
        test::project_folder() + "/tests/compile/golden/steps-" + name + ".txt";
    std::string error;
    if (std::getenv("DOGEAR_UPDATE") != nullptr) REQUIRE(disk.write(path, text, error));
    const auto agreed = disk.read(path, error);
    INFO(path << " " << error);
    REQUIRE(agreed);
    CHECK(*agreed == text);
  }
}
