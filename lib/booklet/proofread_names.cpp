// Fabrics whose names are nearly right.

#include <algorithm>

#include "base/text.h"
#include "booklet/proofread_edit.h"

namespace dogear::editing {
namespace {

bool is_large(std::string_view word) {
  return !word.empty() &&
         ((word[0] >= 'A' && word[0] <= 'Z') || static_cast<unsigned char>(word[0]) >= 0x80);
}

// How many letters may differ for it to be the same name.
std::size_t allowed(std::size_t length) { return length < 5 ? 0 : length < 9 ? 1 : 2; }

class NearNames {
 public:
  explicit NearNames(const Edit& edit) : edit_(edit) {
    const Pattern& p = edit.pattern();
    const auto know = [&](const std::string& name) {
      known_.insert(lower(name));
      for (const std::string& word : name_words(name)) known_.insert(word);
    };
    for (const Fabric& f : p.fabrics) know(f.name);
    for (const BlockUse& u : p.uses) know(u.title);
    for (const BlockDef& b : p.blocks) know(b.title);
    for (const SizeDef& s : p.sizes) know(s.title);
    for (const Bundle& b : p.bundles) know(b.name);
    for (const Ruler& r : p.rulers) know(r.name);
    know(p.title);
    know(p.designer);
  }

  // Words in small letters anywhere are words of the language.
  void learn(const Passage& passage, const Sentence& s) {
    for (const Token& t : s) {
      const std::string_view word = std::string_view(passage.text).substr(t.begin, t.end - t.begin);
      if (t.kind == Token::Kind::word && !is_large(word)) common_.insert(t.lower);
    }
  }

  void read(const Text& text, const Passage& passage, const Sentence& s) const {
    const std::string_view whole = passage.text;
    for (std::size_t i = 0; i < s.size(); ++i) {
      if (s[i].kind != Token::Kind::word || !is_large(whole.substr(s[i].begin, 1))) continue;
      for (std::size_t n = 3; n > 0; --n) {
        if (i + n > s.size() || !plain_words(s, i, n)) continue;
        const std::string_view said = whole.substr(s[i].begin, s[i + n - 1].end - s[i].begin);
        const Fabric* near = nearest_fabric(said, n);
        if (near == nullptr) continue;
        // A lone word that begins a sentence or stands in a title may be any word.
        if (n == 1 && name_words(near->name).size() == 1 &&
            (i == 0 || passage.kind == Passage::Kind::heading))
          continue;
        tell(text, passage, s[i].begin, s[i + n - 1].end, *near);
        i += n - 1;
        break;
      }
    }
  }

 private:
  static bool plain_words(const Sentence& s, std::size_t i, std::size_t n) {
    for (std::size_t k = i; k < i + n; ++k)
      if (s[k].kind != Token::Kind::word && !(k > i && s[k].is("-"))) return false;
    return true;
  }

  const Fabric* nearest_fabric(std::string_view said, std::size_t n) const {
    std::string word = lower(said);
    for (const std::string_view tail : {"'s", "\u2019s"})
      if (word.ends_with(tail)) word.resize(word.size() - tail.size());
    if (known_.contains(word) ||
        (word.ends_with('s') && known_.contains(word.substr(0, word.size() - 1))))
      return nullptr;
    if (n == 1 && common_.contains(word)) return nullptr;
    for (const Fabric& f : edit_.pattern().fabrics) {
      const std::string name = lower(f.name);
      const std::size_t size = std::min(name.size(), word.size());
      if (name == word || (n == 1 && size < 5)) continue;
      // The words must be as many, but for one that is joined or parted by mistake.
      const std::size_t words = name_words(f.name).size();
      if (n != words && n + 1 != words && n != words + 1) continue;
      if (word == name + "s" || word == name + "es") continue;
      if (edit_distance(word, name) <= allowed(size)) return &f;
    }
    return nullptr;
  }

  void tell(const Text& text, const Passage& passage, std::size_t begin, std::size_t end,
            const Fabric& near) const {
    Diagnostic& d = edit_.diagnostics.warning(
        "D455", text.source.span(passage, begin, end),
        "no fabric is called `" + passage.text.substr(begin, end - begin) + "`");
    d.notes.push_back({near.span, "the nearest is `" + near.name + "`"});
    d.hints.push_back("did you mean `" + near.name + "`?");
  }

  const Edit& edit_;
  std::set<std::string> known_, common_;
};

}  // namespace

void check_names(const Edit& edit) {
  NearNames names(edit);
  each_sentence(edit, [&](const Text&, const Passage& passage, const Sentence& s, std::size_t) {
    names.learn(passage, s);
  });
  each_sentence(edit, [&](const Text& text, const Passage& passage, const Sentence& s,
                          std::size_t) { names.read(text, passage, s); });
}

}  // namespace dogear::editing
