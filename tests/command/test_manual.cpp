// What the manual shows is tried: its commands run, its changes are made, what it says is printed
// is printed.

#include <catch2/catch.hpp>
#include <sstream>

#include "support.h"

namespace dogear::test {

namespace {

const fs::path manual = project / "tools/dogear/manual";

struct Step {
  enum class Kind { command, change, file, printed } kind = Kind::command;
  std::string file;  // of a change or a new file
  std::string text;
};

// Indented lines that begin with "dogear " are commands; fenced blocks change a file ("diff FILE"),
// are one ("yaml FILE"), or show what the command before them prints ("text").
std::vector<Step> steps_of(const std::string& page) {
  std::vector<Step> steps;
  std::istringstream lines(page);
  bool fenced = false, kept = false;
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("```", 0) == 0) {
      fenced = !fenced;
      if (!fenced) continue;
      const auto blank = line.find(' ');
      const std::string kind = line.substr(3, blank == std::string::npos ? blank : blank - 3);
      const std::string file = blank == std::string::npos ? "" : line.substr(blank + 1);
      kept = kind == "text" || !file.empty();
      if (kept)
        steps.push_back({kind == "diff"   ? Step::Kind::change
                         : kind == "text" ? Step::Kind::printed
                                          : Step::Kind::file,
                         file,
                         {}});
    } else if (fenced) {
      if (kept) steps.back().text += line + '\n';
    } else if (line.rfind("    dogear ", 0) == 0) {
      steps.push_back({Step::Kind::command, {}, line.substr(4)});
    }
  }
  return steps;
}

// Every place where the lines with a minus (or a blank) stand gets those with a plus (or a blank).
void make_change(const fs::path& file, const std::string& diff) {
  std::string before, after, text = read(file);
  std::istringstream lines(diff);
  for (std::string line; std::getline(lines, line);) {
    if (line.at(0) != '+') before += line.substr(1) + '\n';
    if (line.at(0) != '-') after += line.substr(1) + '\n';
  }
  std::size_t at = text.find(before), found = 0;
  for (; at != std::string::npos; at = text.find(before, at + after.size()), ++found)
    text.replace(at, before.size(), after);
  INFO(diff);
  REQUIRE(found > 0);
  write(file, text);
}

void follow(const std::vector<Step>& steps, const fs::path& folder) {
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const Step& step = steps[i];
    if (step.kind == Step::Kind::change) {
      make_change(folder / step.file, step.text);
    } else if (step.kind == Step::Kind::file) {
      write(folder / step.file, step.text);
    } else if (step.kind == Step::Kind::command) {
      if (has(step.text, "dogear watch")) continue;  // it waits; test_watch tries it
      INFO(step.text);
      const Result told =
          shell("PATH=" + program.parent_path().string() + ":$PATH; " + step.text, folder);
      INFO(told.out + told.err);
      const bool shown = i + 1 < steps.size() && steps[i + 1].kind == Step::Kind::printed;
      const std::string expected = shown ? steps[i + 1].text : "";
      const bool compares = has(step.text, "dogear compare");  // 1 says that they differ
      CHECK((told.code == (has(expected, "error: ") ? 1 : 0) || (compares && told.code == 1)));
      std::istringstream lines(expected);
      for (std::string line; std::getline(lines, line);) {
        INFO(line);
        CHECK(has(told.out + told.err, line));
      }
    }
  }
}

}  // namespace

TEST_CASE("the tutorial, followed word by word, ends in a booklet") {
  const Folder here;
  const auto steps = steps_of(read(manual / "tutorial.md"));
  REQUIRE(steps.size() > 25);
  follow(steps, here.path());
  for (const std::string name : {"out/pinwheels-baby.pdf", "out/pinwheels-wall.pdf", "problem.svg",
                                 "path.svg", "out/pinwheels.html", "out/pinwheels-cover.png"})
    CHECK(fs::exists(here / name));
}

TEST_CASE("the README's first pattern does what it says") {
  const Folder here;
  const auto steps = steps_of(read(project / "README.md"));
  REQUIRE(steps.size() >= 4);
  follow(steps, here.path());
  CHECK(fs::exists(here / "out/first-quilt-baby.pdf"));
  change(here / "first-quilt/blocks/pinwheel.yaml", "unit: 4 in\n",
         "unit: 3 in\nshape: square 3\n");
  const Result told = run({"check", "first-quilt"}, here.path());
  CHECK(told.code == 1);
  CHECK(has(told.err, "[D201]"));
}

TEST_CASE("every command that the manual's other pages show runs") {
  const Folder here;
  fs::create_directory_symlink(project / "patterns", here / "patterns");
  std::size_t tried = 0;
  for (const auto& entry : fs::directory_iterator(manual)) {
    const std::string name = entry.path().filename().string();
    if (entry.path().extension() != ".md" || name == "tutorial.md" || name == "messages.md")
      continue;
    INFO(name);
    std::vector<Step> commands;
    for (const Step& step : steps_of(read(entry.path()))) {
      // Those for a pattern of one's own name a folder that is not here.
      if (step.kind == Step::Kind::command && has(step.text, "patterns/")) commands.push_back(step);
    }
    tried += commands.size();
    follow(commands, here.path());
  }
  CHECK(tried >= 7);
}

TEST_CASE("every block that the manual shows whole compiles") {
  std::size_t tried = 0;
  for (const auto& entry : fs::directory_iterator(manual)) {
    if (entry.path().extension() != ".md" || entry.path().filename() == "messages.md") continue;
    const std::string page = read(entry.path());
    const std::string open = "```yaml\nblock: ";
    for (auto at = page.find(open); at != std::string::npos; at = page.find(open, at + 1)) {
      const std::size_t from = at + 8;
      const std::string block = page.substr(from, page.find("```", from) - from);
      INFO(entry.path().string() + "\n" + block);
      const Folder here;
      write(here / "p/blocks/one.yaml", block);
      const bool hexagons = has(block, "grid: triangle");
      write(here / "p/pattern.yaml",
            "title: P\ndesigner: D\nfabrics:\n  light: {colour: \"#ffffff\"}\n"
            "  dark: {colour: \"#203060\"}\nrulers:\n  straight: {highest: 24 in}\n"
            "  sixty: {angle: 60, highest: 12 in}\nblocks:\n  one: {block: one}\nsizes:\n  s:\n" +
                std::string(hexagons ? "    setting: hexagon columns\n    ground: dark\n"
                                       "    columns: [[one, one], [one]]\n"
                                     : "    setting: rows\n    rows: [[one]]\n"));
      const Result told = run({"check", "p"}, here.path());
      INFO(told.err);
      CHECK(told.code == 0);
      ++tried;
    }
  }
  CHECK(tried >= 1);
}

TEST_CASE("every passage of prose that the manual shows can be printed") {
  const std::string page = read(manual / "language.md");
  const std::string open = "```markdown\n";
  std::size_t tried = 0;
  for (auto at = page.find(open); at != std::string::npos; at = page.find(open, at + 1)) {
    const std::size_t from = at + open.size();
    const std::string passage = page.substr(from, page.find("```", from) - from);
    INFO(passage);
    const Folder here;
    fs::copy(project / "patterns/harbor-lights", here / "p", fs::copy_options::recursive);
    write(here / "p/prose/blocks/lantern.md", passage);
    const Result told = run({"check", "p"}, here.path());
    INFO(told.err);
    CHECK(told.code == 0);
    ++tried;
  }
  CHECK(tried >= 1);
}

TEST_CASE("pages that the README and the manual lead to are there") {
  std::vector<fs::path> pages{project / "README.md", project / "DEVELOPERS.md"};
  for (const auto& entry : fs::directory_iterator(manual))
    if (entry.path().extension() == ".md") pages.push_back(entry.path());
  for (const fs::path& page : pages) {
    const std::string text = read(page);
    for (std::size_t at = text.find("]("); at != std::string::npos; at = text.find("](", at + 2)) {
      const std::string to = text.substr(at + 2, text.find_first_of(")#", at) - at - 2);
      if (to.find_first_of(":{") != std::string::npos || to.find(".md") == std::string::npos)
        continue;
      if (to.rfind("prose/", 0) == 0) continue;  // of a pattern
      INFO(page.string() + " leads to " + to);
      CHECK(fs::exists(page.parent_path() / to));
    }
  }
}

}  // namespace dogear::test
