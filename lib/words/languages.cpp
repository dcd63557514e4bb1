#include "words/languages.h"

#include <algorithm>

#include "base/text.h"
#include "diag/diagnostics.h"
#include "source/node.h"

namespace dogear {
namespace {

constexpr std::string_view head = "words-";
constexpr std::string_view tail = ".yaml";

std::string_view language_of(const std::string& file) {
  return std::string_view(file).substr(head.size(), file.size() - head.size() - tail.size());
}

std::map<std::string, Words> read_all() {
  std::map<std::string, Words> all;
  for (const auto& [file, text] : builtin_templates()) {
    if (!starts_with(file, head)) continue;
    Diagnostics none;
    const auto root = read_yaml(file, text, none);
    const Entry* words = root ? root->find("words") : nullptr;
    if (words == nullptr) continue;
    const std::string language(language_of(file));
    all[language].language = language;
    for (const Entry& e : words->node().entries) all[language].texts[e.key] = e.node().text;
  }
  return all;
}

const std::map<std::string, Words>& all_words() {
  static const std::map<std::string, Words> all = read_all();
  return all;
}

}  // namespace

std::vector<std::string> papers() {
  std::vector<std::string> out;
  for (const auto& [file, text] : builtin_templates())
    if (starts_with(text, "page:")) out.push_back(file.substr(0, file.size() - tail.size()));
  return out;
}

std::vector<std::string> languages() {
  std::vector<std::string> out;
  for (const auto& [file, text] : builtin_templates())
    if (starts_with(file, head)) out.emplace_back(language_of(file));
  return out;
}

const Words& words_of(const std::string& language) {
  const auto& all = all_words();
  const auto found = all.find(language);
  return found == all.end() ? all.at("en") : found->second;
}

const std::vector<std::string>& known_placeholders(const std::string& key) {
  static const std::map<std::string, std::vector<std::string>> all = [] {
    std::map<std::string, std::vector<std::string>> out;
    for (const auto& [language, words] : all_words()) {
      for (const auto& [name, text] : words.texts) {
        std::vector<std::string>& known = out[name];
        for (std::string& p : placeholders(text))
          if (std::find(known.begin(), known.end(), p) == known.end())
            known.push_back(std::move(p));
      }
    }
    return out;
  }();
  static const std::vector<std::string> none;
  const auto found = all.find(key);
  return found == all.end() ? none : found->second;
}

}  // namespace dogear
