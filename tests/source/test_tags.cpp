#include "helpers.h"
#include "source/markdown.h"

using namespace dogear;

namespace {

struct Found {
  Sources sources;
  Diagnostics diagnostics;
  std::vector<Tag> tags;
  explicit Found(const std::string& text) {
    sources.add("f", text);
    tags = find_tags("f", text, diagnostics);
  }
  // "D011 '{{'" for each error, parted by commas.
  std::string errors() const {
    std::string out;
    for (const Diagnostic& d : diagnostics.all()) {
      if (!out.empty()) out += ", ";
      out += d.code + " '" + covered(sources, d.span) + "'";
    }
    return out;
  }
};

}  // namespace

TEST_CASE("tags are found with name, sigil and span") {
  const Found f("½ {{ total }}\n{{# a.b }}{{^c}}x{{ /c}}{{/a.b}} {{x y}}");
  CHECK(f.errors().empty());
  std::string said;
  for (const Tag& t : f.tags) {
    if (t.sigil != 0) said += t.sigil;
    said += t.name + "=" + covered(f.sources, t.span) + " ";
  }
  CHECK(said ==
        "total={{ total }} #a.b={{# a.b }} ^c={{^c}} /c={{ /c}} /a.b={{/a.b}} x y={{x y}} ");
  CHECK(f.tags[0].span == Span{"f", 1, 3, 1, 14});
}

TEST_CASE("text without tags has none") {
  CHECK(Found("").tags.empty());
  const Found f("{a} { {b} } } {c: {d}}");
  CHECK(f.tags.empty());
  CHECK(f.errors() == "D011 '}}'");
}

TEST_CASE("broken tags are errors") {
  CHECK(Found("a {{b c").errors() == "D011 '{{'");
  CHECK(Found("a {{b\n}}").errors() == "D011 '{{', D011 '}}'");
  CHECK(Found("{{a {{b}}").errors() == "D011 '{{'");
  CHECK(Found("a}} b").errors() == "D011 '}}'");
  CHECK(Found("{{}} {{ }} {{#}}").errors() == "D011 '{{}}', D011 '{{ }}', D011 '{{#}}'");
  CHECK(Found("{{{a}}} {{&b}} {{!c}} {{>d}} {{=<% %>=}}").errors() ==
        "D011 '{{{a}}}', D011 '{{&b}}', D011 '{{!c}}', D011 '{{>d}}', D011 '{{=<% %>=}}'");
  CHECK(Found("{{a}b}}").errors() == "D011 '{{a}b}}'");
  CHECK(Found("{{").errors() == "D011 '{{'");
  CHECK(Found("}").errors().empty());
}

TEST_CASE("a broken tag does not hide the next one") {
  const Found f("{{a {{b}} {{!c}} {{d}}");
  REQUIRE(f.tags.size() == 2);
  CHECK(f.tags[0].name == "b");
  CHECK(f.tags[1].name == "d");
}

TEST_CASE("sections open and close in order") {
  CHECK(Found("{{#a}}").errors() == "D012 '{{#a}}'");
  CHECK(Found("{{^a}}").errors() == "D012 '{{^a}}'");
  CHECK(Found("{{/a}}").errors() == "D012 '{{/a}}'");
  CHECK(Found("{{#a}}{{#b}}{{/b}}{{/a}}").errors().empty());
  const Found crossed("{{#a}}{{#b}}{{/a}}");
  CHECK(crossed.errors() == "D012 '{{/a}}'");
  REQUIRE(crossed.diagnostics.all()[0].notes.size() == 1);
  CHECK(covered(crossed.sources, crossed.diagnostics.all()[0].notes[0].span) == "{{#b}}");
  CHECK(Found("{{#a}}{{/b}}{{/a}}").errors() == "D012 '{{/b}}'");
}

TEST_CASE("hostile tags cost little and stop at a hundred errors") {
  CHECK(Found(repeated("{{", 500'000)).diagnostics.error_count() == 100);
  CHECK(Found(repeated("}}a", 300'000)).diagnostics.error_count() == 100);
  CHECK(Found(repeated("{{#a}}", 100'000)).diagnostics.error_count() <= 101);
  CHECK(Found(repeated("{{#a}}", 31) + repeated("{{/a}}", 31)).errors() == "D006 '{{#a}}'");
}
