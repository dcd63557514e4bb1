#include "words/languages.h"

#include <algorithm>
#include <mutex>

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

Words read(const std::string& file, const std::string& text) {
  Words out;
  out.language = language_of(file);
  Diagnostics none;
  const auto root = read_yaml(file, text, none);
  const Entry* words = root ? root->find("words") : nullptr;
  if (words == nullptr) return out;
  for (const Entry& e : words->node().entries) out.texts[e.key] = e.node().text;
  return out;
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
  static std::map<std::string, Words> known;  // those that were asked for
  static std::mutex one_at_a_time;
  const auto& all = builtin_templates();
  auto file = all.find(std::string(head) + language + std::string(tail));
  if (file == all.end()) file = all.find("words-en.yaml");
  const std::lock_guard<std::mutex> lock(one_at_a_time);
  const auto [at, fresh] = known.try_emplace(file->first);
  if (fresh) at->second = read(file->first, file->second);
  return at->second;
}

const std::vector<std::string>& known_placeholders(const std::string& key) {
  static const std::map<std::string, std::vector<std::string>> all = [] {
    std::map<std::string, std::vector<std::string>> out;
    for (const std::string& language : languages()) {
      for (const auto& [name, text] : words_of(language).texts) {
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
