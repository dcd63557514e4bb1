// Printed editions: what their buyers are told agrees with what was printed and what is now.

#include <catch2/catch.hpp>

#include "compile/compare.h"
#include "compile/compile.h"
#include "compile/errata.h"
#include "compile/ledger.h"
#include "diag/print.h"
#include "support/fonts.h"
#include "support/page_text.h"
#include "support/pattern_files.h"
#include "support/project.h"

using namespace dogear;

namespace {

// Two borders of 2 in were printed as edition 1; the pattern has one of 3 in now.
struct Corrected {
  test::PatternFiles files;
  std::string messages;

  Corrected() {
    files.add(test::project_folder() + "/tests/patterns/base/star", "star");
    std::string& text = yaml();
    text.replace(text.find("title: Small Star"), 0, "edition: \"1\"\n");
    print("1");
    text.replace(text.find("width: 2 in}]"), 11, "width: 3 in");
    text.replace(text.find("edition: \"1\""), 12, "edition: \"2\"");
  }

  std::string& yaml() { return files.content.at("star/pattern.yaml"); }

  Plan plan() const {
    Session session(files);
    auto plan = make_plan("star", session);
    INFO(print_for_people(session.diagnostics, session.sources, false));
    REQUIRE(plan);
    return std::move(*plan);
  }

  void print(const std::string& edition) {
    files.content["star/editions/" + edition + ".txt"] = ledger_text(plan());
  }

  void errata(const std::string& lines) { yaml() += "\nerrata:\n" + lines; }

  // "D661" or "D664 D665": the codes said of editions, in the order of the source.
  std::string check() {
    Session session(files);
    const auto plan = make_plan("star", session);
    messages = print_for_people(session.diagnostics, session.sources, false);
    INFO(messages);
    REQUIRE(plan);
    const bool sound = check_errata(*plan, session);
    CHECK(sound != session.diagnostics.has_errors());
    session.diagnostics.sort();
    messages = print_for_people(session.diagnostics, session.sources, false);
    std::string codes;
    for (const Diagnostic& d : session.diagnostics.all()) {
      codes += (codes.empty() ? "" : " ") + d.code;
    }
    return codes;
  }

  bool says(const std::string& words) const { return messages.find(words) != std::string::npos; }
};

constexpr const char* cloth = "  - {edition: \"1\", fact: mini fabric.ink.cloth, ";

}  // namespace

TEST_CASE("a pattern without editions has nothing to say of them") {
  Corrected c;
  c.files.content.erase("star/editions/1.txt");
  CHECK(c.check() == "");
}

TEST_CASE("differences from a printed edition must be told") {
  Corrected c;
  CHECK(c.check() == "D661");
  CHECK(c.says("buyers of edition 1 are not told of"));
  CHECK(c.says("mini, Finished size: was"));
  CHECK(c.says("star/editions/1.txt:"));
  CHECK(c.says("`dogear compare star/editions/1.txt star --as errata` writes the list"));
}

TEST_CASE("the list that the comparison writes is accepted as it is") {
  Corrected c;
  std::string error;
  const auto was =
      side_of_ledger("star/editions/1.txt", c.files.content.at("star/editions/1.txt"), error);
  REQUIRE(was);
  Session session(c.files);
  const auto now = side_of_pattern("star", "star", session);
  REQUIRE(now);
  const std::string list = print_comparison(compare_sides(*was, *now), ComparisonFormat::errata);
  REQUIRE(list.find("errata:\n  - edition: \"1\"\n") == 0);
  c.yaml() += '\n' + list;
  INFO(list);
  CHECK(c.check() == "");

  // One entry less is one difference that is not told.
  c.yaml().resize(c.yaml().rfind("  - edition"));
  CHECK(c.check() == "D661");
  CHECK(c.says("are not told of 1 difference [D661]"));
}

TEST_CASE("one entry may tell of everything below a name") {
  Corrected c;
  c.errata("  - {edition: \"1\", fact: mini, words: The border was printed 1 in too narrow.}\n");
  CHECK(c.check() == "");
  Corrected part;
  part.errata("  - {edition: \"1\", fact: mini cut.ink, words: Cut the borders wider.}\n");
  CHECK(part.check() == "D661");
  Corrected values;
  values.errata("  - {edition: \"1\", fact: mini, was: this, now: that}\n");
  CHECK(values.check() == "D667");
  Corrected none;
  none.errata("  - {edition: \"1\", fact: mini ruler, words: Another ruler.}\n");
  CHECK(none.check().find("D664") != std::string::npos);
}

TEST_CASE("an entry that is wrong is an error, at both places") {
  const auto codes_of = [](const std::string& entry, const std::string& words) {
    Corrected c;
    c.errata("  - {edition: \"1\", fact: mini, words: The border was printed too narrow.}\n" +
             entry);
    const std::string codes = c.check();
    INFO(c.messages);
    CHECK(c.says(words));
    return codes;
  };
  const std::string start = cloth;
  Corrected right;
  const auto ledger = right.files.content.at("star/editions/1.txt");
  CHECK(codes_of(start + "was: 9 yd, now: 8 yd}\n", "this says that `9 yd` was printed") ==
        "D665 D665");
  CHECK(codes_of(start + "was: 9 yd, now: 8 yd}\n", "star/editions/1.txt:") == "D665 D665");
  CHECK(codes_of(start + "words: More.}\n", "does not say what was printed") == "D667");
  CHECK(codes_of("  - {edition: \"1\", fact: mini fabric.inc.cloth, was: 1 yd, now: 2 yd}\n",
                 "did you mean `mini fabric.ink.cloth`?") == "D663");
  CHECK(codes_of("  - {edition: \"1\", fact: mini block.star.count, was: 4, now: 5}\n",
                 "there is nothing to correct") == "D664");
  CHECK(codes_of("  - {edition: \"1\", fact: mini, words: Once more.}\n", "is listed twice") ==
        "D666");
  CHECK(codes_of("  - {edition: \"3\", fact: mini, words: No such edition.}\n",
                 "no ledger of edition 3 is kept") == "D662");
  CHECK(codes_of("  - {edition: \"2\", fact: mini, words: This one.}\n",
                 "it is corrected itself") == "D669");
}

TEST_CASE("the values of an entry may be those of the ledger or those told") {
  Corrected c;
  const std::string& ledger = c.files.content.at("star/editions/1.txt");
  const auto value = [](const std::string& text, const std::string& name) {
    const auto at = text.find(name + " = ") + name.size() + 3;
    return text.substr(at, text.find('\n', at) - at);
  };
  const std::string now = ledger_text(c.plan());
  const std::string fact = "mini size.height";
  c.errata(
      "  - {edition: \"1\", fact: mini, words: The border was printed too narrow.}\n"
      "  - {edition: \"1\", fact: mini size.height, was: " +
      value(ledger, fact) + ", now: " + value(now, fact) + "}\n");
  CHECK(value(ledger, fact) != value(now, fact));
  CHECK(c.check() == "");
}

TEST_CASE("another pattern under the number of a printed edition is warned of") {
  Corrected c;
  c.yaml().replace(c.yaml().find("edition: \"2\""), 12, "edition: \"1\"");
  CHECK(c.check() == "D668");
  CHECK(c.says("give the pattern a new `edition`"));
}

TEST_CASE("a kept ledger that is none is told") {
  Corrected c;
  c.files.content["star/editions/0.txt"] = "Dear diary\n";
  CHECK(c.check() == "D662 D661");
  CHECK(c.says("star/editions/0.txt: error: this is no ledger of an edition"));
}

TEST_CASE("a faulty list stops check and build, a missing one does not") {
  Corrected c;
  Session warned(c.files);
  CHECK(compile("star", {}, test_fonts(), warned));
  c.errata("  - {edition: \"3\", fact: mini, words: No such edition.}\n");
  Session session(c.files);
  CHECK_FALSE(compile("star", {}, test_fonts(), session));
  Session again(c.files);
  CHECK_FALSE(check("star", {}, test_fonts(), again));
}

TEST_CASE("a warning of an edition is accepted at the top of pattern.yaml") {
  Corrected c;
  c.yaml() = "# accept D661: edition 2 is another design\n\n" + c.yaml();
  Session session(c.files);
  CHECK(check("star", {}, test_fonts(), session));
  settle(session, true);
  INFO(print_for_people(session.diagnostics, session.sources, false));
  CHECK(session.diagnostics.accepted_count() == 1);
  CHECK(session.diagnostics.all().size() == 1);
}

TEST_CASE("the booklet prints the corrections, and none where there are none") {
  const auto text_of = [](const Corrected& c) {
    Session session(c.files);
    const auto plan = make_plan("star", session);
    REQUIRE(plan);
    const auto pages = set_pages(*plan, {}, test_fonts(), session);
    REQUIRE(pages);
    std::string text;
    for (const canvas::Page& page : pages->front().document.pages) {
      test::read_text(page.content, text);
    }
    return canvas::normal_fractions(text);
  };
  Corrected c;
  CHECK(text_of(c).find("Corrections") == std::string::npos);
  c.errata(
      "  - {edition: \"1\", fact: mini, words: The border was printed too narrow.}\n"
      "  - {edition: \"1\", fact: mini strips.ink.2-1/2, was: \"7\", now: none}\n");
  const std::string text = text_of(c);
  CHECK(text.find("Corrections to edition 1") != std::string::npos);
  CHECK(text.find("The border was printed too narrow.") != std::string::npos);
  CHECK(text.find("Ink, 2 1/2 in strips") != std::string::npos);
}
