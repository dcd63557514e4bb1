#include "booklet/hyphens.h"

#include <hyphen.h>

#include <cstdio>
#include <cstdlib>

#include "base/text.h"

namespace dogear {
namespace {

constexpr std::size_t least = 6, most = 60;  // bytes of a word that is parted

// Small letters, one byte each in Latin-1; `ends` are where the letters end in `word`.
std::string small_letters(std::string_view word, bool latin1, std::vector<std::size_t>& ends) {
  std::string out;
  for (std::size_t at = 0; at < word.size();) {
    char32_t c = next_code_point(word, at);
    if ((c >= 'A' && c <= 'Z') || (c >= 0xC0 && c <= 0xDE && c != 0xD7)) c += 0x20;
    if (latin1)
      out += static_cast<char>(c < 0x100 ? c : U'?');
    else
      out += utf8(c);
    ends.resize(out.size(), at);
  }
  return out;
}

}  // namespace

std::size_t letter_at(std::string_view text, std::size_t at) {
  const char c = text[at];
  if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z')) return 1;
  if (c != '\xC3' || at + 1 >= text.size()) return 0;
  const char next = text[at + 1];
  return next == '\x97' || next == '\xB7' ? 0 : 2;  // × and ÷
}

Hyphens::Hyphens(const std::string& dictionary, bool nouns_have_capitals)
    : nouns_have_capitals_(nouns_have_capitals) {
  if (dictionary.empty()) return;
  latin1_ = starts_with(dictionary, "ISO8859-1\n");
  std::string copy = dictionary;
  FILE* file = fmemopen(copy.data(), copy.size(), "r");
  if (file == nullptr) return;
  HyphenDict* dict = hnj_hyphen_load_file(file);
  fclose(file);
  if (dict != nullptr)
    dict_ =
        std::shared_ptr<void>(dict, [](void* d) { hnj_hyphen_free(static_cast<HyphenDict*>(d)); });
}

Hyphens Hyphens::another() const {
  Hyphens out;
  out.dict_ = dict_;
  out.latin1_ = latin1_;
  out.nouns_have_capitals_ = nouns_have_capitals_;
  return out;
}

const std::vector<std::size_t>& Hyphens::points(std::string_view word) const {
  std::vector<std::size_t> ends;
  const std::string key = small_letters(word, latin1_, ends);
  const auto [at, fresh] = known_.try_emplace(key);
  if (!fresh || !dict_ || key.size() < least || key.size() > most) return at->second;
  std::vector<char> marks(key.size() + 5, '0');
  char** rep = nullptr;
  int* pos = nullptr;
  int* cut = nullptr;
  const int failed = hnj_hyphen_hyphenate3(static_cast<HyphenDict*>(dict_.get()), key.c_str(),
                                           static_cast<int>(key.size()), marks.data(), nullptr,
                                           &rep, &pos, &cut, 3, 3, 0, 0);
  if (failed == 0) {
    for (std::size_t i = 0; i + 1 < key.size(); ++i) {
      const bool changes_letters = rep != nullptr && rep[i] != nullptr;
      if ((marks[i] & 1) != 0 && !changes_letters) at->second.push_back(ends[i]);
    }
  }
  if (rep != nullptr) {
    for (std::size_t i = 0; i < key.size(); ++i) std::free(rep[i]);
    std::free(rep);
  }
  std::free(pos);
  std::free(cut);
  return at->second;
}

}  // namespace dogear
