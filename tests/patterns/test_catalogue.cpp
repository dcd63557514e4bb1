// Every faulty source of the catalogue gives its code, and its mended one does not.

#include <catch2/catch.hpp>
#include <filesystem>
#include <set>
#include <stdexcept>

#include "case.h"
#include "compile/compile.h"
#include "diag/catalogue.h"
#include "support/fonts.h"
#include "support/pattern_files.h"
#include "support/project.h"

using namespace dogear;
using namespace dogear::test;

namespace fs = std::filesystem;

namespace {

const fs::path bases = fs::path(test::project_folder()) / "tests" / "patterns" / "base";

// Codes that no change of a pattern's lines can give; each file says under "Raised by" what does.
const std::set<std::string> not_from_lines{
    "D001", "D002",                                                  // files that cannot be read
    "D209", "D303", "D405", "D407", "D504", "D601",                  // stages that check each other
    "D410", "D411", "D412", "D413", "D414", "D415",                  // templates
    "D400", "D409", "D416", "D417", "D418", "D419", "D602", "D603",  // words on the command line
    "D651", "D652",                                                  // kept beside the pattern
    "D661", "D663", "D664", "D665", "D667", "D668",  // a ledger of a printed edition
    "D679",                                          // kits, by words on the command line
    "D440", "D461",                                  // counts that differ, files beside those read
    "D681",                                          // the command line with --grey
    "D480",                                          // a photograph's dots
    "D478",                                          // prose of hundreds of pages
};

Diagnostics messages(const CodeExample& example, bool faulty) {
  PatternFiles files;
  files.add(bases / example.base, case_folder);
  std::string& text = files.content.at(case_folder + '/' + example.file);
  const std::string lined = '\n' + text;
  const std::size_t at = lined.find('\n' + example.mended);
  if (at == std::string::npos || lined.find('\n' + example.mended, at + 1) != std::string::npos) {
    throw std::runtime_error("the mended lines do not stand once in " + example.file);
  }
  if (faulty) text.replace(at, example.mended.size(), example.faulty);
  Session session(files);
  compile(case_folder, {}, test_fonts(), session);
  settle(session, true);
  return session.diagnostics;
}

}  // namespace

TEST_CASE("every faulty source gives its code and every mended one none") {
  for (const CodeEntry& entry : code_catalogue()) {
    DYNAMIC_SECTION(entry.code) {
      CHECK(entry.example.has_value() != not_from_lines.contains(entry.code));
      if (!entry.example) continue;
      const Diagnostics faulty = messages(*entry.example, true);
      INFO("the faulty source gives:\n" << as_expected(faulty));
      std::size_t said = 0;
      for (const Diagnostic& d : faulty.all()) {
        if (d.code != entry.code) continue;
        ++said;
        CHECK(d.severity == entry.severity);
      }
      CHECK(said > 0);
      const Diagnostics mended = messages(*entry.example, false);
      INFO("the mended source gives:\n" << as_expected(mended));
      CHECK(mended.all().empty());
    }
  }
}

TEST_CASE("codes that no line gives are codes") {
  for (const std::string& code : not_from_lines) {
    CAPTURE(code);
    CHECK(find_code(code) != nullptr);
  }
}
