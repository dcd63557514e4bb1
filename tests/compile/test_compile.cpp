// The driver on a small pattern in memory.

#include "compile/compile.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <set>

#include "compile/ledger.h"
#include "drawing/figure.h"
#include "support/pattern_files.h"
#include "support/project.h"

using namespace dogear;

namespace {

class StarFiles : public test::PatternFiles {
 public:
  StarFiles() {
    add(std::filesystem::path(test::project_folder()) / "tests/patterns/base/star", "star");
  }
  void change(const std::string& path, const std::string& before, const std::string& after) {
    std::string& text = content.at(path);
    const std::size_t at = text.find(before);
    REQUIRE(at != std::string::npos);
    text.replace(at, before.size(), after);
  }
};

const canvas::FontSet& fonts() {
  static const DiskFiles disk;
  static Session session(disk);
  static const auto set = load_fonts(session, canvas::FontPaths::debian());
  REQUIRE(set.has_value());
  return *set;
}

bool said(const Session& session, const std::string& code) {
  const auto& all = session.diagnostics.all();
  return std::any_of(all.begin(), all.end(), [&](const Diagnostic& d) { return d.code == code; });
}

}  // namespace

TEST_CASE("a sound pattern becomes one booklet a size") {
  StarFiles files;
  files.change("star/pattern.yaml",
               "booklet:", "  big:\n    setting: rows\n    rows: [[star, star, star]]\n\nbooklet:");
  Session session(files);
  const auto booklets = compile("star", {}, fonts(), session);
  REQUIRE(booklets.has_value());
  CHECK_FALSE(session.diagnostics.has_errors());
  REQUIRE(booklets->outputs.size() == 2);
  CHECK(booklets->outputs[0].name == "star-mini.pdf");
  CHECK(booklets->outputs[1].name == "star-big.pdf");
  CHECK(booklets->outputs[0].bytes.substr(0, 5) == "%PDF-");
  CHECK(booklets->sources == std::vector<std::string>{"star/blocks/star.yaml", "star/pattern.yaml",
                                                      "star/prose/welcome.md"});

  Session one(files);
  const auto big = compile("star", {"big", "a4", {}}, fonts(), one);
  REQUIRE(big.has_value());
  REQUIRE(big->outputs.size() == 1);
  CHECK(big->outputs[0].name == "star-big.pdf");
  CHECK(big->outputs[0].bytes != booklets->outputs[1].bytes);
}

TEST_CASE("the same source gives the same bytes") {
  const StarFiles files;
  Session first(files), second(files);
  const auto a = compile("star", {}, fonts(), first);
  const auto b = compile("star", {}, fonts(), second);
  REQUIRE(a.has_value());
  REQUIRE(b.has_value());
  CHECK(a->outputs[0].bytes == b->outputs[0].bytes);
}

TEST_CASE("an error in any stage leaves no output") {
  struct Fault {
    std::string path, before, after;
  };
  const std::vector<Fault> faults{
      {"star/pattern.yaml", "title: Small", "titel: Small"},
      {"star/blocks/star.yaml", "wing turned 180", "wing turned 270"},
      {"star/pattern.yaml", "highest: 24 in", "highest: 3/4 in"},
      {"star/prose/welcome.md", "size.width", "size.depth"},
      {"star/prose/welcome.md", "figure:quilt", "figure:kilt"},
  };
  for (const Fault& fault : faults) {
    CAPTURE(fault.after);
    StarFiles files;
    files.change(fault.path, fault.before, fault.after);
    Session building(files), checking(files);
    CHECK_FALSE(compile("star", {}, fonts(), building).has_value());
    CHECK(building.diagnostics.has_errors());
    CHECK_FALSE(check("star", {}, fonts(), checking).has_value());
    CHECK(checking.diagnostics.error_count() == building.diagnostics.error_count());
  }
}

TEST_CASE("a size that is not there is an error") {
  const StarFiles files;
  Session session(files);
  CHECK_FALSE(compile("star", {"huge", "", {}}, fonts(), session).has_value());
  CHECK(said(session, "D603"));
}

TEST_CASE("a pattern names a template in its own folder, and no other") {
  const std::string own =
      "page: {width: 5 1/2 in, height: 8 1/2 in}\n"
      "margins: {top: 0.8 in, bottom: 0.8 in, left: 0.6 in, right: 0.6 in}\n"
      "with: [style-small.yaml]\n";
  StarFiles files;
  files.content["star/look/mine.yaml"] = own;
  files.content["mine.yaml"] = own;
  std::string& yaml = files.content.at("star/pattern.yaml");
  const std::string without = yaml;
  yaml = "paper: look/mine.yaml\n" + without;
  Session session(files);
  const auto booklets = compile("star", {}, fonts(), session);
  REQUIRE(booklets.has_value());
  const auto& sources = booklets->sources;
  CHECK(std::find(sources.begin(), sources.end(), "star/look/mine.yaml") != sources.end());
  for (const auto& [path, code] : {std::pair{"../mine.yaml", "D126"},
                                   {"/mine.yaml", "D126"},
                                   {"look/../../mine.yaml", "D126"},
                                   {"napkin", "D106"}}) {
    CAPTURE(path);
    yaml = "paper: " + std::string(path) + "\n" + without;
    Session faulty(files);
    CHECK_FALSE(compile("star", {}, fonts(), faulty).has_value());
    CHECK(said(faulty, code));
  }
  yaml = "language: nl\n" + without;
  Session faulty(files);
  CHECK_FALSE(compile("star", {}, fonts(), faulty).has_value());
  CHECK(said(faulty, "D106"));
}

TEST_CASE("the manual's template compiles, with its fonts, sections and words") {
  const std::string manual = test::whole_file(std::filesystem::path(test::project_folder()) /
                                              "tools/dogear/manual/templates.md");
  StarFiles files;
  std::size_t at = 0;
  for (const char* name : {"star/house.yaml", "star/house-type.yaml"}) {
    constexpr std::string_view open = "```yaml\n";
    at = manual.find(open, at);
    REQUIRE(at != std::string::npos);
    at += open.size();
    const std::size_t end = manual.find("```", at);
    files.content[name] = manual.substr(at, end - at);
    at = end + 3;
  }
  std::string& yaml = files.content.at("star/pattern.yaml");
  yaml = "paper: house.yaml\n" + yaml;
  Session session(files);
  const auto plan = make_plan("star", session);
  REQUIRE(plan.has_value());
  const auto pages = set_pages(*plan, {}, fonts(), session);
  REQUIRE(pages.has_value());
  const Pages& first = pages->front();
  REQUIRE(first.own_fonts);
  CHECK(first.own_fonts->name(canvas::FontId::sans) == "Lato Medium");
  CHECK(&first.fonts(fonts()) == first.own_fonts.get());
  std::set<std::string> titles;
  for (const auto& e : first.document.outline) titles.insert(e.title);
  CHECK(titles.contains("Cutting the pieces"));
  const auto booklets = compile("star", {}, fonts(), session);
  REQUIRE(booklets.has_value());
  CHECK(booklets->outputs[0].bytes.find("Lato-Black") != std::string::npos);
}

TEST_CASE("a template of one's own sets the pages, and a faulty one is an error") {
  const std::string good =
      "page: {width: 5 1/2 in, height: 8 1/2 in}\n"
      "margins: {top: 0.8 in, bottom: 0.8 in, left: 0.6 in, right: 0.6 in}\n"
      "with: [style.yaml, w.yaml]\n";
  const std::string sound = "words: {cutting: Cut it}\n";
  StarFiles files;
  files.content["own/mine.yaml"] = good;
  files.content["own/w.yaml"] = sound;
  Session session(files);
  const auto plan = make_plan("star", session);
  REQUIRE(plan.has_value());
  const auto pages = set_pages(*plan, {"", "own/mine.yaml", {}}, fonts(), session);
  REQUIRE(pages.has_value());
  CHECK(pages->at(0).document.pages.at(0).width == 5.5 * 72);

  struct Fault {
    std::string before, after, code;
  };
  const std::vector<Fault> faults{
      {"style.yaml", "stile.yaml", "D410"},   {"w.yaml", "bad.yaml", "D411"},
      {"style.yaml", "s.yaml", "D412"},       {"style.yaml", "s.yaml", "D413"},
      {"left: 0.6 in", "left: 5 in", "D414"}, {"style.yaml, ", "", "D415"},
      {"top: 0.8 in", "top: wide", "D104"},
  };
  files.content["own/bad.yaml"] = "words: {nonsense: nothing}\n";
  files.content["own/s.yaml"] =
      "type: {text: 10 pt, leading: 15, small: 9, label: 8.5, running: 8, heading 1: 26, "
      "heading 2: 15, heading 3: 11.5, title: 40}\n"
      "colours: {ink: black, accent: \"#8c3b24\", muted: \"#66605a\", rule: \"#cfc6ba\", "
      "tint: \"#f5f0e8\"}\n";
  for (const Fault& fault : faults) {
    CAPTURE(fault.after, fault.code);
    files.content["own/mine.yaml"] = good;
    files.change("own/mine.yaml", fault.before, fault.after);
    Session faulty(files);
    CHECK_FALSE(set_pages(*plan, {"", "own/mine.yaml", {}}, fonts(), faulty).has_value());
    CHECK(said(faulty, fault.code));
  }
}

TEST_CASE("every figure can be drawn, and one that is not there is an error") {
  const StarFiles files;
  Session session(files);
  const auto plan = make_plan("star", session);
  REQUIRE(plan.has_value());
  const Scene scene{plan->checked, plan->piecing, plan->quantities, fonts()};
  const auto addresses = figure_addresses(scene, 0);
  CHECK_FALSE(addresses.empty());
  for (const std::string& address : addresses) {
    CAPTURE(address);
    const auto svg = draw(*plan, 0, "figure:" + address, fonts(), session.diagnostics);
    REQUIRE(svg.has_value());
    CHECK(svg == draw(*plan, 0, address, fonts(), session.diagnostics));
  }
  CHECK_FALSE(draw(*plan, 0, "block/stra", fonts(), session.diagnostics).has_value());
  REQUIRE(said(session, "D602"));
  CHECK(session.diagnostics.all().back().hints.size() == 2);
}

TEST_CASE("a ledger is sorted, complete and its own equal; a stale one is warned of") {
  StarFiles files;
  Session session(files);
  const auto plan = make_plan("star", session);
  REQUIRE(plan.has_value());
  const std::string ledger = ledger_text(*plan);
  CHECK(compare_ledgers(ledger, ledger_text(*plan)).empty());
  std::set<std::string> names;
  std::string last;
  std::size_t at = ledger.find('\n') + 1;
  for (std::size_t end; (end = ledger.find('\n', at)) != std::string::npos; at = end + 1) {
    const std::string name = ledger.substr(at, ledger.find(" = ", at) - at);
    CHECK(last < name);
    last = name;
    names.insert(name);
  }
  CHECK(names.size() == facts(plan->checked, plan->piecing, plan->quantities, 0).size());

  files.content["star/quantities.txt"] = ledger;
  Session fresh(files);
  REQUIRE(check("star", {}, fonts(), fresh).has_value());
  CHECK(fresh.diagnostics.all().empty());

  files.content["star/quantities.txt"] += "mini zebra = 7\n";
  Session stale(files);
  REQUIRE(check("star", {}, fonts(), stale).has_value());
  CHECK(said(stale, "D651"));
}

TEST_CASE("a depfile names every source and survives odd names") {
  CHECK(depfile_text({"out/a.pdf"}, {"p/pattern.yaml", "p/my words$.md"}) ==
        "out/a.pdf: \\\n  p/pattern.yaml \\\n  p/my\\ words$$.md\n"
        "p/pattern.yaml:\np/my\\ words$$.md:\n");
}

TEST_CASE("a font that cannot be read is an error that names it") {
  const MemoryFiles none;
  Session session(none);
  CHECK_FALSE(load_fonts(session, canvas::FontPaths::debian()).has_value());
  REQUIRE(said(session, "D001"));
  CHECK(session.diagnostics.all()[0].hints.size() == 1);
}
