#include "words/keys.h"

#include "base/text.h"
#include "words/languages.h"

namespace dogear::keys {

namespace {

Key text_of_words(const std::string& name, const std::string& language, const std::string& text) {
  const std::vector<std::string>& taken = known_placeholders(name);
  std::string about = "In `" + language + "`: " + text;
  if (!taken.empty()) about += " (takes {" + join(taken, "}, {") + "})";
  return may(name, any_text(), computed("that of the language"), text, std::move(about));
}

}  // namespace

const KeyTable& words() {
  static const KeyTable table = [] {
    KeyTable out{"words", "the list of words", "Words", "`words` of a template.", {}};
    for (const auto& [name, text] : english_words().texts)
      out.keys.push_back(text_of_words(name, "en", text));
    return out;
  }();
  return table;
}

const KeyTable& all_words() {
  static const KeyTable table = [] {
    KeyTable out = words();
    out.id = "all-words";
    out.words = "`words` of a language.";
    for (const std::string& language : languages()) {
      for (const auto& [name, text] : words_of(language).texts) {
        if (out.find(name) == nullptr) out.keys.push_back(text_of_words(name, language, text));
      }
    }
    return out;
  }();
  return table;
}

const KeyTable& words_file() {
  static const KeyTable table{
      "words-file",
      "a file of words",
      "File of words",
      "A file of words alone: `words-xx.yaml`, or one that a template names in `with`.",
      {may("language", choice("language", languages()), "en", "en", "of the words given here"),
       may("words", map(all_words), none, "{cutting: Cutting the pieces}",
           "texts that read otherwise; all others stay those of the language")}};
  return table;
}

}  // namespace dogear::keys
