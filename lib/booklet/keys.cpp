#include "booklet/keys.h"

#include "model/load.h"
#include "words/keys.h"
#include "words/languages.h"

namespace dogear::keys {

const KeyTable& template_file() {
  static const KeyTable table{
      "template",
      "a template",
      "Template",
      "A template, or a file that one names in `with`. `page`, `margins`, `type` and `colours` are "
      "in one of them, each once.",
      {may("page", map(page), none, "{width: 8 1/2 in, height: 11 in}", "how large the page is"),
       may("margins", map(margins), none, "{top: 1 in, bottom: 7/8 in, left: 1 in, right: 1 in}",
           "around the text; the running lines stand in the upper and the lower one"),
       may("type", map(type), none,
           "{text: 10.5, leading: 15, small: 9, label: 8.5, running: 8, heading 1: 26, heading 2: "
           "15, heading 3: 11.5, title: 40}",
           "sizes of type in points"),
       may("colours", map(colours), none,
           "{ink: \"#20242c\", accent: \"#1f5f6b\", muted: \"#5b6470\", rule: \"#c9d2d6\", tint: "
           "\"#eef3f4\"}",
           "of text, lines and grounds"),
       may("fonts", map(fonts), computed("Vollkorn and Lato"),
           "{sans: truetype/lato/Lato-Medium.ttf}", "faces other than dogear's own"),
       may("sections", list(choice("section", section_names())), computed("dogear's order"),
           "[cover, before, requirements, cutting, blocks, assembly, finishing, back]",
           "the order of the booklet for patterns without a `booklet` of their own"),
       may("language", choice("language", languages()), "en", "en", "of the words given here"),
       may("words", map(words), computed("those of the language"), "{cutting: Cutting the pieces}",
           "texts of the program that read otherwise"),
       may("with", list(said("a file", text())), none, "[style.yaml]",
           "further files with some of these keys, beside the template or of dogear's own")}};
  return table;
}

const KeyTable& page() {
  static const KeyTable table{"page",
                              "the page",
                              "Page",
                              "`page` of a template.",
                              {need("width", length(), "8 1/2 in", "of the trimmed page"),
                               need("height", length(), "11 in", "of the trimmed page")}};
  return table;
}

const KeyTable& margins() {
  static const KeyTable table{
      "margins",
      "the list of margins",
      "Margins",
      "`margins` of a template; 3 in × 4 in are left for the text at least.",
      {need("top", length(), "1 in", "above the text"),
       need("bottom", length(), "7/8 in", "below the text"),
       need("left", length(), "1 in", "left of the text"),
       need("right", length(), "1 in", "right of the text")}};
  return table;
}

const KeyTable& type() {
  static const KeyTable table{
      "type",
      "the list of type sizes",
      "Type",
      "`type` of a template; sizes are points without a unit.",
      {need("text", number("6", "24"), "10.5", "of the text"),
       need("leading", number("7", "40"), "15", "from line to line"),
       need("small", number("5", "24"), "9", "of tables"),
       need("label", number("5", "24"), "8.5", "of words in figures"),
       need("running", number("5", "24"), "8", "of the lines at the head and foot of a page"),
       need("heading 1", number("8", "60"), "26", "of sections"),
       need("heading 2", number("8", "60"), "15", "of blocks and tables"),
       need("heading 3", number("8", "60"), "11.5", "of steps"),
       need("title", number("8", "96"), "40", "of the cover")}};
  return table;
}

const KeyTable& colours() {
  static const KeyTable table{
      "colours",
      "the list of colours",
      "Colours",
      "`colours` of a template, in quotes.",
      {need("ink", colour(true), "\"#20242c\"", "of text and outlines"),
       need("accent", colour(true), "\"#1f5f6b\"", "of headings and numbers"),
       need("muted", colour(true), "\"#5b6470\"", "of notes"),
       need("rule", colour(true), "\"#c9d2d6\"", "of lines between things"),
       need("tint", colour(true), "\"#eef3f4\"", "of grounds")}};
  return table;
}

const KeyTable& fonts() {
  const auto face = [](const char* name, const char* example, const char* words) {
    return may(name, said("a font file", text()), computed("dogear's own"), example, words);
  };
  static const KeyTable table{
      "fonts",
      "the list of fonts",
      "Fonts",
      "`fonts` of a template: a TrueType file beside it, or an installed one by its path below "
      "/usr/share/fonts.",
      {face("text", "truetype/lato/Lato-Regular.ttf", "of the text"),
       face("text bold", "truetype/lato/Lato-Bold.ttf", "of stressed words"),
       face("text italic", "truetype/lato/Lato-Italic.ttf", "of captions"),
       face("sans", "truetype/lato/Lato-Medium.ttf", "of tables and labels"),
       face("sans bold", "truetype/lato/Lato-Black.ttf", "of headings")}};
  return table;
}

}  // namespace dogear::keys
