// What is built again is what a first build gives, byte for byte.

#include <catch2/catch.hpp>
#include <random>
#include <set>

#include "proof/builder.h"
#include "proof/markup.h"
#include "support/fonts.h"
#include "support/pattern_files.h"
#include "support/project.h"
#include "support/small_pattern.h"

using namespace dogear;
using namespace dogear::proof;
using dogear::test::PatternFiles;

namespace {

// One place of a pattern, and the words that may stand there; "-" for a file that is not there.
struct Place {
  std::string file, before;
  std::vector<std::string> choices;
};

const std::vector<Place>& places() {
  static const std::vector<Place> all{
      {"p/pattern.yaml", "title: Tiles", {"title: Tiles", "title: Slates", "titel: Tiles"}},
      {"p/pattern.yaml", "#b03030", {"#b03030", "#305090", "blue"}},
      {"p/pattern.yaml", "title: Table Topper", {"title: Table Topper", "title: Runner"}},
      {"p/pattern.yaml", "rows: [[check]]", {"rows: [[check]]", "rows: [[check, check]]"}},
      {"p/pattern.yaml", "# paper", {"# paper", "paper: a5", "paper: own.yaml", "language: de"}},
      {"p/blocks/check.yaml", "unit: 2 in", {"unit: 2 in", "unit: 3 in", "unit: 2"}},
      {"p/blocks/check.yaml", "fabric: dark", {"fabric: dark", "fabric: light", "fabric: night"}},
      {"p/prose/welcome.md",
       "",
       {"# Welcome\n\nA mat of {{size.width}}.\n", "# Welcome\n\nA rug of {{size.width}}.\n",
        "# Tiles\n\nSee [the steps](#assembly). Cut across the WOF.\n", "{{size.depth}}\n",
        "# Welcome\n\nSew RST.\n\n![Steps](steps:check)\n", "# Welcome\n\nIt is 7 in wide.\n",
        "-"}},
      {"p/prose/blocks/check.md", "", {"-", "Mind the HST.\n", "Press well. ✂\n", "Go slowly.\n"}},
      {"p/prose/more.md", "", {"-", "Nobody reads this.\n"}},
      {"p/own.yaml", "", {"with: letter\n", "with: a5\ntype: {text: 11}\n", "with: nowhere\n"}},
      {"p/editions/1.txt", "", {"-", "one blocks.count = 1\n"}},
  };
  return all;
}

PatternFiles files_of(const std::vector<std::size_t>& choice) {
  PatternFiles files;
  files.content =
      dogear::test::squares_pattern("title: Tiles\n# paper\ndesigner: Jo\n", "").content;
  for (std::size_t i = 0; i < places().size(); ++i) {
    const Place& place = places()[i];
    const std::string& words = place.choices[choice[i]];
    if (!place.before.empty()) {
      std::string& text = files.content[place.file];
      const std::size_t at = text.find(place.before);
      REQUIRE(at != std::string::npos);
      text.replace(at, place.before.size(), words);
    } else if (words == "-") {
      files.content.erase(place.file);
    } else {
      files.content[place.file] = words;
    }
  }
  return files;
}

void same_pictures(const std::vector<Picture>& a, const std::vector<Picture>& b) {
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    CAPTURE(i, a[i].name);
    CHECK(a[i].name == b[i].name);
    CHECK(a[i].alt == b[i].alt);
    CHECK(a[i].places == b[i].places);
    CHECK((a[i].svg == b[i].svg));
    CHECK((a[i].spots == b[i].spots));
    CHECK((a[i].words == b[i].words));
  }
}

void same(const Built& a, const Built& b) {
  CHECK(a.state.title == b.state.title);
  CHECK(a.state.planned == b.state.planned);
  CHECK(a.state.whole == b.state.whole);
  CHECK((a.state.side.facts == b.state.side.facts));
  CHECK((a.state.side.steps == b.state.side.steps));
  CHECK((a.state.side.sources == b.state.side.sources));
  CHECK((a.state.side.titles == b.state.side.titles));
  CHECK(messages_html(a.diagnostics, a.sources, "p") ==
        messages_html(b.diagnostics, b.sources, "p"));
  REQUIRE(a.state.sizes.size() == b.state.sizes.size());
  for (std::size_t i = 0; i < a.state.sizes.size(); ++i) {
    const SizeState &x = a.state.sizes[i], &y = b.state.sizes[i];
    CHECK(x.id == y.id);
    CHECK(x.title == y.title);
    CHECK(lists_html(x.lists, nullptr) == lists_html(y.lists, nullptr));
    same_pictures(x.pages, y.pages);
    same_pictures(x.figures, y.figures);
  }
}

// Every page that was told of while building.
struct Told : Progress {
  std::map<std::string, std::map<std::size_t, std::string>> pages;
  std::vector<std::pair<std::string, std::size_t>> order;
  std::map<std::string, std::vector<Picture>> drawn;
  std::map<std::string, std::vector<std::size_t>> so_far;
  void first_figures(const std::string& id, std::span<const Picture> first) override {
    CHECK_FALSE(drawn.contains(id));
    so_far[id].push_back(first.size());
    seen_first[id].assign(first.begin(), first.end());
    std::erase_if(seen_first[id], [](const Picture& picture) { return picture.name.empty(); });
  }
  std::map<std::string, std::vector<Picture>> seen_first;
  void figures(const SizeState& size) override {
    drawn[size.id] = size.figures;
    CHECK(order.empty());  // before any page
  }
  void page(const SizeState& size, std::size_t index, std::size_t, const Picture& page) override {
    pages[size.id][index] = page.svg;
    order.emplace_back(size.id, index);
  }
};

}  // namespace

TEST_CASE("a build after any edits is what a first build gives") {
  std::mt19937 random(20261130);
  const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  std::vector<std::size_t> choice(places().size(), 0);
  Builder builder("p", test_fonts());
  std::size_t whole = 0;
  for (int turn = 0; turn < 60; ++turn) {
    // Small steps, with a way back to what is sound.
    const std::size_t at = below(places().size());
    choice[at] = below(3) == 0 ? 0 : below(places()[at].choices.size());
    if (turn % 7 == 6) choice.assign(choice.size(), 0);
    CAPTURE(turn, choice);
    const PatternFiles files = files_of(choice);
    const Look look{below(2) == 0 ? "one" : "four", below(12)};
    Told told;
    const Built again = builder.build(files, look, &told);
    const Built first = Builder("p", test_fonts()).build(files, {});
    same(again, first);
    if (again.state.whole) {
      ++whole;
      for (const SizeState& size : first.state.sizes)
        for (std::size_t i = 0; i < size.pages.size(); ++i)
          CHECK((told.pages[size.id][i] == size.pages[i].svg));
      for (const SizeState& size : first.state.sizes)
        if (told.drawn.contains(size.id)) same_pictures(told.drawn[size.id], size.figures);
    }
  }
  // Both were tried: what builds, and what does not.
  CHECK(whole > 15);
  CHECK(whole < 50);
}

TEST_CASE("what is looked at is made first") {
  const PatternFiles files = files_of(std::vector<std::size_t>(places().size(), 0));
  Builder builder("p", test_fonts());
  Told told;
  const Built built = builder.build(files, {"four", 2}, &told);
  REQUIRE(built.state.whole);
  REQUIRE(told.order.size() > 3);
  CHECK((told.order.front() == std::pair<std::string, std::size_t>{"four", 2}));
  CHECK(told.order.back().first == "one");
  // Sizes are told in the pattern's order all the same.
  CHECK(built.state.sizes.front().id == "one");
}

TEST_CASE("what changed is made before what did not, and the first figures are told early") {
  std::vector<std::size_t> choice(places().size(), 0);
  Builder builder("p", test_fonts());
  Told first;
  const Built before = builder.build(files_of(choice), {}, &first);
  REQUIRE(before.state.whole);
  for (const auto& [id, figures] : first.drawn) {
    CAPTURE(id);
    const auto& sizes = first.so_far[id];
    REQUIRE_FALSE(sizes.empty());
    CHECK(std::is_sorted(sizes.begin(), sizes.end()));
    const auto& seen = first.seen_first[id];
    REQUIRE(seen.size() < figures.size());
    same_pictures(seen,
                  {figures.begin(), figures.begin() + static_cast<std::ptrdiff_t>(seen.size())});
  }
  choice[7] = 1;  // a rug instead of a mat
  Told then;
  const Built after = builder.build(files_of(choice), {}, &then);
  REQUIRE(after.state.whole);
  std::size_t changed = 0;
  const auto& was = before.state.sizes.front().pages;
  const auto& now = after.state.sizes.front().pages;
  REQUIRE(was.size() == now.size());
  for (std::size_t i = 0; i < now.size(); ++i) changed += was[i].svg != now[i].svg ? 1 : 0;
  REQUIRE(changed > 0);
  REQUIRE(changed < now.size());
  CHECK((was[0].svg == now[0].svg));
  for (std::size_t k = 0; k < now.size(); ++k) {
    const std::size_t at = then.order[k].second;
    CHECK((was[at].svg != now[at].svg) == (k < changed));
  }
}

TEST_CASE("every figure names a line of the source that is there") {
  for (const char* name : {"harbor-lights", "tide-star", "reed-bed"}) {
    PatternFiles files;
    files.add(std::filesystem::path(test::project_folder()) / "patterns" / name, name);
    const Built built = Builder(name, test_fonts()).build(files, {});
    CAPTURE(name);
    REQUIRE(built.state.whole);
    for (const SizeState& size : built.state.sizes) {
      for (const Picture& figure : size.figures) {
        CAPTURE(figure.name);
        REQUIRE_FALSE(figure.places.empty());
        for (const std::string& place : figure.places) {
          const std::size_t colon = place.rfind(':');
          REQUIRE(colon != std::string::npos);
          const std::string& text = built.state.side.sources.at(place.substr(0, colon));
          const auto lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
          CHECK(std::stoul(place.substr(colon + 1)) >= 1);
          CHECK(std::stoul(place.substr(colon + 1)) <= lines);
        }
      }
    }
  }
}

TEST_CASE("a foundation is drawn from the unit that is sewn on it") {
  PatternFiles files;
  files.add(std::filesystem::path(test::project_folder()) / "tests/patterns/base/lamp", "l");
  const Built built = Builder("l", test_fonts()).build(files, {});
  std::set<std::string> places;
  for (const Picture& figure : built.state.sizes.at(0).figures)
    if (figure.name.starts_with("foundation/")) places.insert(figure.places.front());
  CHECK(places.size() == 2);  // the point's mirror image is written with the point
  for (const std::string& place : places) CHECK(place.starts_with("blocks/lamp.yaml:"));
}

TEST_CASE("figures of a block name its file, and pages know their figures") {
  PatternFiles files;
  files.add(std::filesystem::path(test::project_folder()) / "patterns" / "harbor-lights", "h");
  const Built built = Builder("h", test_fonts()).build(files, {});
  const SizeState& lap = built.state.sizes.front();
  const auto find = [&](const std::string& name) -> const Picture& {
    for (const Picture& figure : lap.figures)
      if (figure.name == name) return figure;
    FAIL("no figure " << name);
    return lap.figures.front();
  };
  const std::string& lantern = built.state.side.sources.at("blocks/lantern.yaml");
  const auto line_of = [&](const std::string& words) {
    const auto at = static_cast<std::ptrdiff_t>(lantern.find(words));
    return std::to_string(1 + std::count(lantern.begin(), lantern.begin() + at, '\n'));
  };
  CHECK(find("step/lantern/1").places.front() == "blocks/lantern.yaml:" + line_of("ray:"));
  CHECK(find("block/lantern").places.front().starts_with("blocks/lantern.yaml:"));
  CHECK(find("swatch/brass").places.front().starts_with("pattern.yaml:"));
  std::size_t spots = 0;
  for (const Picture& page : lap.pages) spots += page.spots.size();
  CHECK(spots > 30);
}
