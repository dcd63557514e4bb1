// What a watched pattern puts on its board.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "proof/embedded.h"
#include "proof/markup.h"
#include "proof/watch.h"
#include "support/fonts.h"
#include "tiles.h"

using namespace dogear;
using namespace dogear::proof;
using dogear::test::change;
using dogear::test::has;
using dogear::test::PatternFiles;
using dogear::test::tiles;
using Json = nlohmann::json;

namespace {

struct Watched {
  Board board;
  Watch watch{"p", test_fonts(), board};
  PatternFiles files = tiles();
  void turn(const Look& look = {}) { watch.turn(files, look); }
  Json entry(const std::string& name) const { return Json::parse(board.entries().at(name)); }
  std::string state() const { return entry("status")["state"]; }
  std::size_t changed(const std::string& name) const {
    std::size_t n = 0;
    for (const Json& picture : entry(name)) n += picture["changed"].get<bool>() ? 1 : 0;
    return n;
  }
};

}  // namespace

TEST_CASE("a first build shows all and marks nothing") {
  Watched w;
  w.turn();
  CHECK(w.state() == "fresh");
  CHECK(w.entry("sizes")["title"] == "Tiles");
  CHECK(w.entry("sizes")["sizes"].size() == 2);
  CHECK(w.entry("pages/one").size() > 3);
  CHECK(w.entry("figures/four").size() > 5);
  CHECK(w.changed("pages/one") + w.changed("figures/four") == 0);
  CHECK(has(w.entry("facts/four")["html"], "<table>"));
  const auto picture = w.board.picture(w.entry("pages/one")[0]["picture"]);
  REQUIRE(picture);
  CHECK(picture->starts_with("<svg"));
}

TEST_CASE("a word of prose changes its page and no figure") {
  Watched w;
  w.turn();
  const Json before = w.entry("pages/one"), figures = w.entry("figures/one");
  change(w.files, "p/prose/welcome.md", "mug", "cup");
  w.turn();
  CHECK(w.state() == "fresh");
  CHECK(w.changed("pages/one") == 1);
  CHECK(w.entry("figures/one") == figures);
  std::size_t other = 0;
  const Json after = w.entry("pages/one");
  REQUIRE(after.size() == before.size());
  for (std::size_t i = 0; i < after.size(); ++i)
    other += after[i]["picture"] != before[i]["picture"] ? 1 : 0;
  CHECK(other == 1);
  // What is changed back is a change, too, and has the picture that it had.
  change(w.files, "p/prose/welcome.md", "cup", "mug");
  w.turn();
  CHECK(w.changed("pages/one") == 1);
}

TEST_CASE("a number of a block changes figures and quantities, and tells which") {
  Watched w;
  w.turn();
  change(w.files, "p/blocks/check.yaml", "unit: 2 in", "unit: 3 in");
  w.turn();
  CHECK(w.changed("figures/one") > 2);
  CHECK(has(w.entry("facts/four")["html"], "class=\"changed\""));
  CHECK(has(w.entry("facts/four")["html"], "Finished size"));
  CHECK(has(w.entry("status")["words"], "quantities"));
}

TEST_CASE("what does not build leaves the last good pictures under its errors") {
  Watched w;
  w.turn();
  for (const auto& [file, before, after] :
       {std::array<std::string, 3>{"p/blocks/check.yaml", "fabric: dark", "fabric: drak"},
        std::array<std::string, 3>{"p/prose/welcome.md", "A mat", "A mat of {{size.depth}}"},
        std::array<std::string, 3>{"p/pattern.yaml", "title: Tiles", "title: [Tiles"}}) {
    CAPTURE(file);
    const auto good = w.board.entries();
    change(w.files, file, before, after);
    w.turn();
    CHECK(w.state() == "broken");
    const std::string errors = w.entry("errors");
    CHECK(has(errors, file.substr(2) + ":"));
    CHECK(has(errors, "<mark>"));
    for (const auto& [name, json] : good)
      if (name.find('/') != std::string::npos) CHECK((w.board.entries().at(name) == json));
    // Their pictures are kept however often it does not build.
    for (int again = 0; again < 3; ++again) {
      w.files.content["p/prose/note-" + std::to_string(again) + ".md"] = "More.\n";
      w.turn();
      for (const Json& page : w.entry("pages/one")) CHECK(w.board.picture(page["picture"]));
    }
    for (int again = 0; again < 3; ++again)
      w.files.content.erase("p/prose/note-" + std::to_string(again) + ".md");
    change(w.files, file, after, before);
    w.turn();
    CHECK(w.state() == "fresh");
    CHECK(w.entry("errors") == "");
  }
}

TEST_CASE("a pattern that never built shows its errors") {
  Watched w;
  w.files.content.erase("p/blocks/check.yaml");
  w.turn();
  CHECK(w.state() == "broken");
  CHECK_FALSE(w.entry("errors").get<std::string>().empty());
  w.files = tiles();
  w.turn();
  CHECK(w.state() == "fresh");
}

TEST_CASE("a size that is gone is taken off the board") {
  Watched w;
  w.turn();
  REQUIRE(w.board.entries().contains("pages/one"));
  change(w.files, "p/pattern.yaml",
         "  one:\n    title: Mug Rug\n    setting: rows\n    rows: [[check]]\n", "");
  w.turn();
  CHECK(w.state() == "fresh");
  CHECK_FALSE(w.board.entries().contains("pages/one"));
  CHECK(w.entry("sizes")["sizes"].size() == 1);
}

namespace {

// Files of which one is a link.
struct LinkedFiles : PatternFiles {
  std::string link, end;
  std::string leads_to(const std::string& path) const override {
    return path == link ? end : PatternFiles::leads_to(path);
  }
};

}  // namespace

TEST_CASE("a link out of the folder is not read, and what takes its place is seen") {
  LinkedFiles files;
  files.content = tiles().content;
  files.link = "p/prose/welcome.md";
  files.end = "elsewhere/secret.md";
  Board board;
  Watch watch{"p", test_fonts(), board};
  watch.turn(files, {});
  CHECK(Json::parse(board.entries().at("status"))["state"] == "broken");
  CHECK(has(board.entries().at("errors"), "leads out of the folder"));
  files.end = files.link;
  watch.turn(files, {});
  CHECK(Json::parse(board.entries().at("status"))["state"] == "fresh");
}

TEST_CASE("a reader is given what changed since it read, at its own pace") {
  Board board;
  CHECK_FALSE(board.read(0, 0));
  board.put("a", "1");
  board.put("b", "2");
  CHECK_FALSE(board.read(0, 0));  // not shown yet
  board.show();
  const auto first = board.read(0, 0);
  REQUIRE(first);
  CHECK(first->json == R"({"a":1,"b":2})");
  CHECK_FALSE(board.read(first->seen, 0));
  board.put("a", "1");
  board.show();
  CHECK_FALSE(board.read(first->seen, 0));  // nothing changed
  board.put("a", "3");
  board.show();
  board.put("a", "4");
  board.drop("b");
  board.show();
  const auto late = board.read(first->seen, 0);
  REQUIRE(late);
  CHECK(late->json == R"({"a":4,"b":null})");
  CHECK(board.read(0, 0)->json == R"({"a":4})");
  board.close();
  CHECK(board.read(late->seen, 60000)->closed);
}

TEST_CASE("a picture's name is never given to another") {
  Board board;
  const std::string one = board.keep("<svg>1</svg>");
  CHECK(board.keep("<svg>1</svg>") == one);
  CHECK(board.keep("<svg>2</svg>") != one);
  board.forget_unused();
  board.forget_unused();
  CHECK(board.picture(one));
  board.forget_unused();
  CHECK_FALSE(board.picture(one));
  CHECK(board.keep("<svg>1</svg>") != one);
}

TEST_CASE("no text of a pattern becomes markup") {
  const std::string bad = "<script>alert(1)</script>";
  Watched w;
  std::string& yaml = w.files.content.at("p/pattern.yaml");
  change(w.files, "p/pattern.yaml", "title: Tiles", "title: \"" + bad + "\"");
  change(w.files, "p/pattern.yaml", "designer: Jo",
         "designer: \"" + bad + "\"\nsummary: \"" + bad + "\"\nedition: \"" + bad + "\"");
  change(w.files, "p/pattern.yaml", "name: Red", "name: \"" + bad + "\"");
  change(w.files, "p/pattern.yaml", "name: 6 × 24 in ruler", "name: \"" + bad + "\"");
  change(w.files, "p/pattern.yaml", "title: Mug Rug", "title: \"" + bad + "\"");
  change(w.files, "p/blocks/check.yaml", "block: Check", "block: \"" + bad + "\"");
  change(w.files, "p/blocks/check.yaml", "words: Four squares.", "words: \"" + bad + "\"");
  w.files.content["p/prose/welcome.md"] =
      "# `" + bad + "`\n\n\\<script>alert(1)\\</script> and &lt;script>\n";
  const auto clean = [&] {
    for (const auto& [name, json] : w.board.entries()) {
      CAPTURE(name);
      if (name == "sizes" || starts_with(name, "pages/") || starts_with(name, "figures/"))
        continue;  // put in as text
      if (name == "status") continue;
      const Json value = Json::parse(json);
      const std::string html =
          value.is_object() ? value["html"].get<std::string>() : value.get<std::string>();
      CHECK_FALSE(has(html, "<script"));
    }
    for (const char* list : {"pages/one", "figures/one", "pages/four", "figures/four"}) {
      if (!w.board.entries().contains(list)) continue;
      for (const Json& picture : w.entry(list))
        CHECK_FALSE(has(*w.board.picture(picture["picture"]), "<script"));
    }
  };
  w.turn();
  CAPTURE(w.board.entries().at("errors"));
  REQUIRE(w.state() == "fresh");
  CHECK(w.entry("sizes")["title"] == bad);
  clean();
  // Nor in what is said of it: names in messages, and the source lines below them.
  yaml += bad + ": " + bad + "\n";
  w.files.content["p/prose/welcome.md"] += "\n{{" + bad + "}}\n\n" + bad + "\n";
  w.turn();
  REQUIRE(w.state() == "broken");
  CHECK(has(w.entry("errors"), "&lt;script&gt;"));
  clean();
}

TEST_CASE("the page lets nothing run but its own script") {
  const LivePage page = live_page();
  CHECK(has(page.policy, "default-src 'none'"));
  CHECK(has(page.policy, "script-src 'sha256-"));
  CHECK(has(page.policy, "frame-ancestors 'none'"));
  CHECK_FALSE(has(page.policy, "unsafe"));
  CHECK(has(page.html, proof_files().at("live.js")));
}
