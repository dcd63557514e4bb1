#include "booklet/template.h"

#include <catch2/catch.hpp>
#include <regex>
#include <set>

#include "help.h"
#include "support/project.h"

using namespace dogear;

namespace {

Diagnostics load(const std::string& name, const Files& files, bool expect,
                 const std::string& language = "en") {
  Diagnostics d;
  const bool made = load_template(name, language, files, d).has_value();
  CHECK(made == expect);
  CHECK(d.has_errors() == !expect);
  return d;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

void replace_in(std::string& text, const std::string& from, const std::string& to) {
  text = replaced(text, from, to);
}

MemoryFiles own_template(const std::string& from, const std::string& to) {
  MemoryFiles files;
  files.content["t/own.yaml"] = builtin_templates().at("letter.yaml");
  files.content["t/own.yaml"] += "language: en\n";
  replace_in(files.content["t/own.yaml"], "[style.yaml]", "[style.yaml, words-en.yaml]");
  for (const char* part : {"style.yaml", "words-en.yaml"})
    files.content[std::string("t/") + part] = builtin_templates().at(part);
  for (auto& [path, text] : files.content) {
    if (text.find(from) != std::string::npos) text = replaced(text, from, to);
  }
  return files;
}

}  // namespace

TEST_CASE("the papers are built in") {
  MemoryFiles none;
  Diagnostics d;
  const auto letter = load_template("letter", "en", none, d);
  const auto a4 = load_template("a4", "en", none, d);
  REQUIRE(letter);
  REQUIRE(a4);
  CHECK(letter->page_width == 612);
  CHECK(letter->page_height == 792);
  CHECK(a4->page_width == Approx(595.2756).margin(0.001));
  CHECK(a4->page_height == Approx(841.8898).margin(0.001));
  CHECK(letter->words.texts == a4->words.texts);
  CHECK(papers() == std::vector<std::string>{"a4", "a5", "half-letter", "letter"});
  const auto half = load_template("half-letter", "en", none, d);
  const auto a5 = load_template("a5", "de", none, d);
  REQUIRE(half);
  REQUIRE(a5);
  CHECK(half->page_width == 5.5 * 72);
  CHECK(half->page_height == 8.5 * 72);
  CHECK(a5->page_width == Approx(148 / 25.4 * 72));
  CHECK(a5->page_height == Approx(210 / 25.4 * 72));
  CHECK(a5->type.text < a4->type.text);
  CHECK(a5->words("cutting") == "Zuschnitt");
}

TEST_CASE("text colors keep enough contrast on white") {
  // WCAG 2, 1.4.3: 4.5:1 for text.
  const auto& c = help::letter().colours;
  for (const canvas::Color& color : {c.ink, c.accent, c.muted})
    CHECK(canvas::contrast(color, canvas::white) >= 4.5);
}

TEST_CASE("an unknown paper is told with the nearest") {
  const Diagnostics d = load("leter", MemoryFiles{}, false);
  CHECK(d.all()[0].code == "D410");
  CHECK(d.all()[0].hints.at(0) == "did you mean `letter`?");
}

TEST_CASE("a template of one's own may stand beside the pattern") {
  const MemoryFiles files = own_template("heading 2: 15", "heading 2: 17");
  Diagnostics d;
  const auto t = load_template("t/own.yaml", "en", files, d);
  REQUIRE(t);
  CHECK(t->type.heading2 == 17);
}

TEST_CASE("unknown keys, bad numbers, colors and margins are errors") {
  const auto code = [](const std::string& from, const std::string& to) {
    const Diagnostics d = load("t/own.yaml", own_template(from, to), false);
    REQUIRE_FALSE(d.all().empty());
    CHECK(d.all()[0].span.line > 0);
    return d.all()[0].code;
  };
  CHECK(code("  leading: 15", "  leading: 15\n  ledding: 3") == "D101");
  CHECK(code("  leading: 15", "  other: 3").starts_with("D10"));
  CHECK(code("text: 10.5", "text: 10.5 in") == "D412");
  CHECK(code("text: 10.5", "text: 400") == "D412");
  CHECK(code("ink: \"#23211e\"", "ink: dark") == "D413");
  CHECK(code("left: 1 1/16 in", "left: 7 in") == "D414");
  CHECK(code("  contents: Contents", "  kontents: Contents") == "D411");
  CHECK(code("Make {n}.", "Make {m}.") == "D411");
  CHECK(code("words-en.yaml]", "words-enn.yaml]") == "D410");
}

TEST_CASE("a template that says nothing of its type is an error") {
  const Diagnostics d =
      load("t/own.yaml", own_template("with: [style.yaml, words-en.yaml]", "with: [words-en.yaml]"),
           false);
  CHECK(d.all()[0].code == "D415");
}

TEST_CASE("every text the program asks for is written, and none besides") {
  DiskFiles files;
  const std::string lib = test::project_folder() + "/lib/";
  std::set<std::string> asked;
  std::string all_code, error;
  for (const char* part : {"booklet", "drawing", "html", "model", "words"}) {
    for (const std::string& name : files.list(lib + part))
      if (name.ends_with(".cpp")) all_code += files.read(lib + part + "/" + name, error).value();
  }
  for (const char* file : {"compile/draft.cpp", "compile/listing.cpp"})
    all_code += files.read(lib + file, error).value();
  const std::regex call(
      R"re((?:words_?|\bw|\(\*this\))(?:\.count|\.noun|\.form)?\(\s*"([^"]+)"\s*[,)])re");
  for (std::sregex_iterator at(all_code.begin(), all_code.end(), call), end; at != end; ++at)
    asked.insert((*at)[1]);
  CHECK(asked.size() > 60);
  const Words& words = help::letter().words;
  for (const std::string& key : asked) {
    INFO(key);
    CHECK(words.texts.count(key) == 1);
  }
  // Families of names: asked for by what the pattern holds.
  const std::vector<std::string> families{"meaning of ", "short ", "shape ",  "for ",
                                          "use ",        "unit ",  "method ", "hatch "};
  for (const auto& [key, text] : words.texts) {
    INFO(key);
    const bool named = std::any_of(families.begin(), families.end(),
                                   [&k = key](const auto& head) { return k.starts_with(head); });
    CHECK((named || all_code.find('"' + key + '"') != std::string::npos));
  }
}

TEST_CASE("every language has every text, with placeholders that English or the code knows") {
  const auto& english = english_words().texts;
  DiskFiles files;
  std::string all_code;
  for (const char* part : {"booklet", "drawing", "model", "words"}) {
    const std::string folder = test::project_folder() + "/lib/" + part;
    for (const std::string& name : files.list(folder)) {
      std::string error;
      all_code += files.read(folder + "/" + name, error).value();
    }
  }
  const auto bars = [](const std::string& t) { return std::count(t.begin(), t.end(), '|'); };
  CHECK(languages() == std::vector<std::string>{"de", "en"});
  for (const std::string& language : languages()) {
    const auto& own = words_of(language).texts;
    for (const auto& [key, text] : english) {
      INFO(language << ": " << key);
      REQUIRE(own.count(key) == 1);
      const std::string& said = own.at(key);
      for (const std::string& p : placeholders(said))
        CHECK((text.find('{' + p + '}') != std::string::npos ||
               all_code.find("{\"" + p + "\", ") != std::string::npos));
      CHECK((bars(said) == bars(text) || bars(said) == 0 || bars(said) == 4));
      if (bars(text) == 1) CHECK(bars(said) == 1);
    }
    for (const auto& [key, text] : own) {
      INFO(language << ": " << key);
      // Phrases of lists are named by their English.
      CHECK((english.count(key) == 1 || key.starts_with("list ")));
    }
  }
}

TEST_CASE("nouns have the form that their place asks for") {
  const Words& en = words_of("en");
  const Words& de = words_of("de");
  const auto star = [](const Words& w, NounForm form) {
    return w.form("noun block", form, {{"name", "Anker"}});
  };
  CHECK(star(en, NounForm::bare) == "Anker block");
  CHECK(star(en, NounForm::object) == "an Anker block");
  CHECK(star(en, NounForm::towards) == "the Anker block");
  CHECK(star(en, NounForm::many) == "Anker blocks");
  CHECK(en.form("noun block", NounForm::to, {{"name", "Buoy"}}) == "a Buoy block");
  CHECK(star(de, NounForm::bare) == "Block „Anker“");
  CHECK(star(de, NounForm::object) == "einen Block „Anker“");
  CHECK(star(de, NounForm::to) == "einem Block „Anker“");
  CHECK(star(de, NounForm::towards) == "dem Block „Anker“");
  CHECK(star(de, NounForm::many) == "Blöcke „Anker“");
  // A noun of one form has it everywhere.
  CHECK(en.form("noun row", NounForm::towards, {{"n", "3"}}) == "row 3");
  CHECK(de.list({"A", "B", "C"}) == "A, B und C");
  CHECK(de.inches({5, 2}) == "2½″");
  CHECK(de.decimal_number(1.375, 3) == "1,375");
  CHECK(en.decimal_number(1.375, 3) == "1.375");
  CHECK(capital("äußere Ecke") == "Äußere Ecke");
  CHECK(de.name("keil") == "Keil");
  CHECK(en.name("wedge") == "wedge");
}

TEST_CASE("German words are hyphenated as German, umlauts and all") {
  Diagnostics d;
  const auto t = load_template("a5", "de", DiskFiles(), d);
  REQUIRE(t);
  const auto parted = [&](const std::string& word) {
    std::string out;
    std::size_t from = 0;
    for (const std::size_t at : t->hyphens->points(word)) {
      out += word.substr(from, at - from) + "-";
      from = at;
    }
    return out + word.substr(from);
  };
  CHECK(parted("Nahtzugabe") == "Naht-zu-gabe");
  CHECK(parted("Rückseite") == "Rück-seite");
  CHECK(parted("Stoffgröße") == "Stoff-größe");
  CHECK(parted("Einfassung") == "Ein-fas-sung");
  CHECK(t->hyphens->nouns_have_capitals());
}

TEST_CASE("words of a template change single texts of one language") {
  MemoryFiles files;
  const std::string page = builtin_templates().at("a5.yaml");
  files.content["t/own.yaml"] = page + "language: de\nwords: {cutting: Schneiden}\n";
  Diagnostics d;
  const auto t = load_template("t/own.yaml", "de", files, d);
  REQUIRE(t);
  CHECK(t->words("cutting") == "Schneiden");
  CHECK(t->words("backing") == "Rückseite");
  CHECK(load("t/own.yaml", files, false, "en").all()[0].code == "D400");
  files.content["t/own.yaml"] = page + "words: {cutting: Snipping}\n";
  CHECK(load("t/own.yaml", files, false, "de").all()[0].code == "D400");
  load("t/own.yaml", files, true, "en");
  const auto code = [&](const std::string& more) {
    files.content["t/own.yaml"] = page + more;
    const Diagnostics found = load("t/own.yaml", files, false);
    REQUIRE_FALSE(found.all().empty());
    CHECK(found.all()[0].span.line > 3);
    return found.all()[0].code;
  };
  CHECK(code("language: nl\n") == "D106");
  CHECK(code("words: {strips: strip}\n") == "D411");
  CHECK(code("words: {strips: a|b|c}\n") == "D411");
  CHECK(code("words: {noun unit: a|b}\n") == "D411");
}

TEST_CASE("a template gives the order of the sections") {
  MemoryFiles files;
  const std::string page = builtin_templates().at("a5.yaml");
  files.content["t/own.yaml"] = page + "sections: [cover, cutting, blocks]\n";
  Diagnostics d;
  const auto t = load_template("t/own.yaml", "en", files, d);
  REQUIRE(t);
  CHECK(t->sections == std::vector<std::string>{"cover", "cutting", "blocks"});
  const auto code = [&](const std::string& more) {
    files.content["t/own.yaml"] = page + more;
    const Diagnostics found = load("t/own.yaml", files, false);
    REQUIRE(found.all().size() == 1);
    CHECK(found.all()[0].span.line == 4);
    return found.all()[0].code;
  };
  CHECK(code("sections: [cover, cuting]\n") == "D119");
  CHECK(code("sections: [cover, cutting, cover]\n") == "D115");
  CHECK(code("sections: []\n") == "D103");
  // A pattern that gives none takes the template's; what must be told is told all the same.
  MemoryFiles small = help::small_pattern();
  std::string& yaml = small.content.at("p/pattern.yaml");
  yaml.resize(yaml.find("booklet:"));
  const auto c = help::compile("p", small);
  const auto document = set_booklet(c->scene(), 1, *t, d);
  REQUIRE(document);
  std::vector<std::string> titles;
  for (const auto& e : document->outline)
    if (e.level == 1) titles.push_back(e.title);
  CHECK(titles == std::vector<std::string>{"Before you begin", "Cutting", "Making the blocks"});
}

TEST_CASE("fonts stand beside the template or among those installed") {
  MemoryFiles files;
  const std::string page = builtin_templates().at("a5.yaml");
  const auto own = [&](const std::string& more) { files.content["t/own.yaml"] = page + more; };
  std::string why;
  const std::string lato = "/usr/share/fonts/truetype/lato/Lato-Light.ttf";
  files.content[lato] = DiskFiles().read(lato, why).value();
  for (const char* name : {"Lato-Regular.ttf", "Lato-Bold.ttf"})
    files.content[std::string("/usr/share/fonts/truetype/lato/") + name] =
        DiskFiles().read(std::string("/usr/share/fonts/truetype/lato/") + name, why).value();
  const auto debian = canvas::FontPaths::debian();
  for (const std::string& path : {debian.text, debian.text_bold, debian.text_italic})
    files.content[path] = DiskFiles().read(path, why).value();
  files.content["t/mine/Light.ttf"] = files.content[lato];
  own("fonts: {sans: truetype/lato/Lato-Light.ttf, text italic: mine/Light.ttf}\n");
  Diagnostics d;
  const auto t = load_template("t/own.yaml", "en", files, d);
  REQUIRE(t);
  REQUIRE(t->fonts);
  CHECK(t->fonts->sans == lato);
  CHECK(t->fonts->text_italic == "t/mine/Light.ttf");
  CHECK(t->fonts->text == debian.text);
  const auto fonts = load_own_fonts(*t, files, d);
  REQUIRE(fonts);
  CHECK(fonts->name(canvas::FontId::sans) == "Lato Light");

  const auto code = [&](const std::string& more, const std::string& hint) {
    own(more);
    const Diagnostics found = load("t/own.yaml", files, false);
    REQUIRE(found.all().size() == 1);
    CHECK(found.all()[0].span.line == 4);
    CHECK(found.all()[0].hints.at(0) == hint);
    return found.all()[0].code;
  };
  CHECK(code("fonts: {sans: mine/Ligt.ttf}\n", "did you mean `mine/Light.ttf`?") == "D416");
  CHECK(code("fonts: {sans: ../Light.ttf}\n",
             "put the file beside the template and name it without a folder") == "D409");
  CHECK(code("fonts: {serif: mine/Light.ttf}\n",
             "known keys: sans, sans bold, text, text bold, text italic")
            .starts_with("D10"));

  const auto faulty = [&](const std::string& bytes) {
    files.content["t/mine/Light.ttf"] = bytes;
    own("fonts: {sans: mine/Light.ttf}\n");
    Diagnostics found;
    const auto broken = load_template("t/own.yaml", "en", files, found);
    REQUIRE(broken);
    CHECK_FALSE(load_own_fonts(*broken, files, found));
    REQUIRE(found.all().size() == 1);
    CHECK(found.all()[0].span.line == 4);
    CHECK(found.all()[0].span.column == 15);
    return found.all()[0].code;
  };
  CHECK(faulty("no font") == "D417");
}

TEST_CASE("a font that lacks characters of the words is told with them") {
  // DejaVu Sans Mono has all of English; a symbol that only a changed word asks for is missing.
  MemoryFiles files;
  files.content["t/own.yaml"] = builtin_templates().at("a5.yaml") +
                                "fonts: {sans: truetype/lato/Lato-Regular.ttf}\n" +
                                "words: {cutting: Cutting \u2702 \u91DD}\n";
  struct Both : Files {
    const MemoryFiles& memory;
    explicit Both(const MemoryFiles& m) : memory(m) {}
    std::optional<std::string> read(const std::string& path, std::string& error) const override {
      return path.front() == '/' ? DiskFiles().read(path, error) : memory.read(path, error);
    }
    bool write(const std::string&, std::string_view, std::string&) override { return false; }
    std::vector<std::string> list(const std::string& folder) const override {
      return memory.list(folder);
    }
  };
  Diagnostics d;
  const auto t = load_template("t/own.yaml", "en", Both(files), d);
  REQUIRE(t);
  CHECK_FALSE(load_own_fonts(*t, Both(files), d));
  REQUIRE_FALSE(d.all().empty());
  CHECK(d.all()[0].code == "D418");
  CHECK(d.all()[0].message.find("\u2702 \u91DD") != std::string::npos);
}

TEST_CASE("templates that name each other in a circle are an error") {
  MemoryFiles files;
  files.content["t/own.yaml"] =
      replaced(builtin_templates().at("a5.yaml"), "[style-small.yaml]", "[a.yaml]");
  files.content["t/a.yaml"] = "with: [b.yaml, style-small.yaml]\n";
  files.content["t/b.yaml"] = "with: [a.yaml]\n";
  const Diagnostics d = load("t/own.yaml", files, false);
  REQUIRE(d.all().size() == 1);
  CHECK(d.all()[0].code == "D419");
  CHECK(d.all()[0].span.file == "t/b.yaml");
  CHECK(d.all()[0].notes.size() == 1);
  files.content["t/b.yaml"] = "with: [own.yaml]\n";
  CHECK(load("t/own.yaml", files, false).all()[0].code == "D419");
  files.content["t/b.yaml"] = "with: [../x.yaml]\n";
  CHECK(load("t/own.yaml", files, false).all()[0].code == "D409");
  files.content["t/b.yaml"] = "language: en\n";
  load("t/own.yaml", files, true);

  // A long way without a circle is refused as well.
  for (int i = 0; i < 40; ++i)
    files.content["t/n" + std::to_string(i) + ".yaml"] =
        "with: [n" + std::to_string(i + 1) + ".yaml]\n";
  files.content["t/b.yaml"] = "with: [n0.yaml]\n";
  CHECK(load("t/own.yaml", files, false).all()[0].code == "D419");
}

TEST_CASE("words fill in names, counts and lists") {
  const Words& words = help::letter().words;
  CHECK(words("make", {{"n", "24"}}) == "Make 24.");
  CHECK(words.count("strips", 1) == "1\u00A0strip");
  CHECK(words.count("strips", 3) == "3\u00A0strips");
  CHECK(words.list({}) == "");
  CHECK(words.list({"A"}) == "A");
  CHECK(words.list({"A3", "B1", "C2"}) == "A3, B1 and C2");
  CHECK(words.number(2) == "two");
  CHECK(words.number(12) == "twelve");
  CHECK(words.number(13) == "13");
  CHECK(placeholders("a {b} c {d}") == std::vector<std::string>{"b", "d"});
}
