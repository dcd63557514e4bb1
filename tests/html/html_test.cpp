#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>

#include "base/text.h"
#include "html/embedded.h"
#include "html/markup.h"
#include "html/sha256.h"
#include "page.h"

using namespace dogear;
using namespace dogear::test;

namespace {

// Every match of the first group.
std::vector<std::string> all(const std::string& text, const std::string& pattern) {
  const std::regex regex(pattern);
  std::vector<std::string> out;
  for (std::sregex_iterator it(text.begin(), text.end(), regex), end; it != end; ++it)
    out.push_back((*it)[1]);
  return out;
}

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

// Tags, style, script and pictures left out; entities and kept spaces read.
std::string text_of(const std::string& html) {
  std::string out;
  std::size_t at = html.find("<body");
  while (at < html.size()) {
    if (html.compare(at, 5, "<svg ") == 0) {
      at = html.find("</svg>", at) + 6;
    } else if (html[at] == '<') {
      const bool apart =
          html.compare(at, 6, "<span ") != 0 && html.compare(at, 7, "</span>") != 0 &&
          html.compare(at + 1, 3, "sup") != 0 && html.compare(at + 1, 3, "sub") != 0 &&
          html.compare(at + 2, 3, "sup") != 0 && html.compare(at + 2, 3, "sub") != 0;
      at = html.find('>', at) + 1;
      if (apart) out += ' ';
    } else {
      out += html[at++];
    }
  }
  const std::pair<const char*, const char*> entities[]{
      {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}, {"&amp;", "&"}};
  for (const auto& [entity, character] : entities)
    out = std::regex_replace(out, std::regex(entity), character);
  return out;
}

// Words of a text, fractions spelled plainly, joined by kept spaces or not.
std::vector<std::string> page_words(std::string text) {
  text = canvas::normal_fractions(text);
  for (const std::string wide : {"\u00A0", "\u2009"})
    for (std::size_t at; (at = text.find(wide)) != std::string::npos;)
      text.replace(at, wide.size(), " ");
  for (char& c : text)
    if (c == '\n') c = ' ';
  std::vector<std::string> out;
  for (const std::string& word : split(text, ' '))
    if (!word.empty()) out.push_back(word);
  return out;
}

// The words of pages, without figures and what runs along every page.
void read_page(const canvas::DisplayList& list, std::string& out) {
  for (const canvas::Item& item : list.items()) {
    if (const auto* run = std::get_if<canvas::GlyphRun>(&item)) {
      out += run->text() + ' ';
    } else if (const auto* group = std::get_if<canvas::Group>(&item)) {
      if (group->role != canvas::Role::figure && group->role != canvas::Role::artifact)
        read_page(*group->list, out);
    }
  }
}

bool well_formed(const std::string& html) {
  const auto path = std::filesystem::temp_directory_path() /
                    ("dogear-page-" + std::to_string(html.size()) + ".html");
  std::ofstream(path, std::ios::binary) << html;
  const bool fine = std::system(("xmllint --noout " + path.string()).c_str()) == 0;
  std::filesystem::remove(path);
  return fine;
}

void check_structure(const std::string& html) {
  CHECK(well_formed(html));
  const std::vector<std::string> ids = all(html, " id=\"([^\"]*)\"");
  const std::set<std::string> known(ids.begin(), ids.end());
  CHECK(known.size() == ids.size());
  for (const std::string& to : all(html, "href=\"#([^\"]*)\"")) {
    INFO(to);
    CHECK(known.count(to) == 1);
  }
  for (const std::string& to : all(html, "url\\(#([^)]*)\\)")) CHECK(known.count(to) == 1);
  // Every picture is decoration or says what it shows, in two ways.
  for (const std::string& svg : all(html, "<svg ([^>]*)>")) {
    INFO(svg);
    const bool decoration = has(svg, "aria-hidden=\"true\"");
    CHECK(decoration != (has(svg, "role=\"img\"") && has(svg, "aria-label=\"")));
  }
  CHECK(all(html, "(role=\"img\")").size() == all(html, "(<title>)").size() - 1);
  for (const std::string& head : all(html, "<th([^>e]*)>")) CHECK(has(head, " scope=\""));
  for (const std::string& box : all(html, "<input([^>]*)/>")) {
    CHECK(has(box, "aria-label=\""));
    CHECK(has(box, "data-step=\""));
  }
  // Nothing is fetched: no sources, no styles from elsewhere, and a policy that forbids all.
  CHECK_FALSE(std::regex_search(html, std::regex("\\s(src|srcset|action|style|on[a-z]+)=\"")));
  CHECK_FALSE(has(html, "@import"));
  CHECK(all(html, "url\\(([^#])").empty());
  CHECK(has(html, "Content-Security-Policy\" content=\"default-src &#39;none&#39;"));
  CHECK(has(html, "<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\""));
}

}  // namespace

TEST_CASE("the page of a demo pattern is well made, and the same each time") {
  const Planned p = plan_demo("tide-star");
  const std::string html = html_of(p);
  check_structure(html);
  CHECK(html == html_of(p));
  CHECK(html.size() < 1'000'000);
  for (const SizeDef& size : p.checked->pattern.sizes) {
    CHECK(has(html, "<article class=\"size\" id=\"size-" + size.id + "\""));
    CHECK(has(html, "<a href=\"#size-" + size.id + "\" data-size=\"" + size.id + "\">"));
    CHECK(has(html, "<a href=\"#" + size.id + ".requirements\">"));
  }
}

TEST_CASE("the page says what the pages say, and nothing else") {
  const Planned p = plan_demo("reed-bed");
  const Scene scene{*p.checked, *p.piecing, *p.quantities, test_fonts(), english_words()};
  const ScreenPage page = page_of(p);
  for (std::size_t s = 0; s < page.sizes.size(); ++s) {
    Diagnostics d;
    const auto document = set_booklet(scene, s, letter(), d);
    REQUIRE(document);
    std::string printed;
    for (const canvas::Page& one : document->pages) {
      std::string words;
      read_page(one.content, words);
      if (words.find("Contents ") != 0) printed += words + ' ';  // it holds page numbers
    }
    ScreenPage alone = page;
    alone.sizes = {page.sizes[s]};
    const std::string html = to_html(alone, letter(), test_fonts());
    const std::vector<std::string> on_screen =
        page_words(text_of(html.substr(html.find("<main")).insert(0, "<body>")));
    std::multiset<std::string> left(on_screen.begin(), on_screen.end());
    std::string broken;  // at the end of a line
    std::size_t numbers = 0;
    for (std::string word : page_words(printed)) {
      if (word == "•") continue;
      word = broken + word;
      broken.clear();
      auto found = left.find(word);
      // A numbered item's point is not said on the screen.
      if (found == left.end() && word.size() < 4 && is_digit(word[0]) && word.ends_with('.'))
        found = left.find(word.substr(0, word.size() - 1));
      if (found == left.end() && word.ends_with('-')) {
        broken = word.substr(0, word.size() - 1);
        continue;
      }
      INFO("\"" << word << "\" of " << page.sizes[s].size);
      CHECK(found != left.end());
      if (found == left.end()) continue;
      numbers += is_digit(word[0]) ? 1 : 0;
      left.erase(found);
    }
    CHECK(numbers > 200);
    // Besides, the screen has the contents' entries, the steps' numbers and the words of buttons.
    for (const std::string& word : left) {
      INFO(word);
      const bool measure = word.find('/') != std::string::npos && is_digit(word[0]);
      CHECK_FALSE(measure);
    }
  }
}

TEST_CASE("a step's box is named by the place of the step") {
  const std::string html = html_of(plan("p", two_sizes("# Welcome\n\nHello.\n")));
  check_structure(html);
  const auto steps = all(html, "data-step=\"([^\"]*)\"");
  for (const char* step : {"block/check:1", "block/check:2", "finishing-binding:1"}) {
    INFO(step);
    CHECK(std::count(steps.begin(), steps.end(), step) >= 1);
  }
  // In one size no two are the same.
  const std::size_t second = html.find("<article", html.find("<article") + 1);
  const auto of_second = all(html.substr(second), "data-step=\"([^\"]*)\"");
  CHECK(std::set<std::string>(of_second.begin(), of_second.end()).size() == of_second.size());
  CHECK(has(html, "data-pattern=\"p\" data-edition=\"3\""));
  CHECK(has(html, "aria-label=\"Step 1 is done\""));
}

TEST_CASE("hostile words stay words") {
  const std::string html = html_of(plan(
      "p",
      two_sizes("# A \"quoted\" &lt;script&gt;alert(1)&lt;/script&gt; title\n\n"
                "\\<script\\>alert(2)\\</script\\> \\<img src=x onerror=alert(3)\\> & ]]> '\"\n\n"
                "[click](javascript:alert(4)) and [case](JaVaScRiPt:alert(5)) and "
                "[data](data:text/html,x) and [site](https://example.org/?a=1&b=\"2\")\n",
                "\"<b title='x'>Small</b> & \\\"Co\\\"\"")));
  check_structure(html);
  CHECK(all(html, "(<script)").size() == 1);
  CHECK(all(html, "(<img|<b>|<b )").empty());
  CHECK(all(html, "href=\"(javascript|JaVa|data)").empty());
  CHECK(has(html, "href=\"https://example.org/?a=1&amp;b="));
  CHECK(has(html, "rel=\"noopener noreferrer\""));
  CHECK(has(text_of(html), "alert(2)"));
  CHECK(has(text_of(html), "click"));
  CHECK(has(html, "<title>&lt;b title=&#39;x&#39;&gt;Small"));
}

TEST_CASE("a picture drawn twice is stored once") {
  const std::string html = html_of(plan("p", two_sizes("# W\n\n![One](figure:block/check)\n\n"
                                                       "![Two](figure:block/check)\n")));
  const auto uses = all(html, "alt=\"One\"|<use href=\"#(s[0-9]+)\"/></svg>");
  std::map<std::string, int> times;
  for (const std::string& id : uses) ++times[id];
  CHECK(std::any_of(times.begin(), times.end(), [](const auto& t) { return t.second >= 4; }));
  for (const auto& [id, n] : times)
    if (!id.empty()) CHECK(all(html, "(id=\"" + id + "\")").size() == 1);
}

TEST_CASE("fractions are characters where there is one, and larger") {
  CHECK(html::words("2 1/2 in") == "2<span class=\"frac\">½</span>\u00A0in");
  CHECK(html::words("⅜ yd") == "<span class=\"frac\">⅜</span>\u00A0yd");
  CHECK(html::words("1 5/16 in") ==
        "1\u2009<span class=\"frac\"><sup>5</sup>\u2044<sub>16</sub></span>\u00A0in");
  CHECK(html::words(" a <b> ") == " a &lt;b&gt; ");
  CHECK(html::words("Make 4 now") == "Make\u00A04 now");
}

TEST_CASE("digests are those of the standard") {
  // FIPS 180-4 as shown in NIST's examples, from hexadecimal into base 64.
  CHECK(html::sha256_base64("abc") == "ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
  CHECK(html::sha256_base64("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "JI1qYdIGOLjlwCaTDD5gOaM85Flk/yFn9uzt1BnbBsE=");
}

TEST_CASE("the script is the same text as XML and as HTML") {
  CHECK(html_files().at("page.js").find_first_of("<&") == std::string::npos);
  CHECK(html_files().at("page.css").find_first_of("<&") == std::string::npos);
}
