#include "booklet/hyphens.h"

#include <hyphen.h>

#include <cstdio>
#include <cstdlib>

#include "base/text.h"

namespace dogear {

Hyphens::Hyphens(const std::string& dictionary) {
  if (dictionary.empty()) return;
  std::string copy = dictionary;
  FILE* file = fmemopen(copy.data(), copy.size(), "r");
  if (file == nullptr) return;
  HyphenDict* dict = hnj_hyphen_load_file(file);
  fclose(file);
  if (dict != nullptr)
    dict_ =
        std::shared_ptr<void>(dict, [](void* d) { hnj_hyphen_free(static_cast<HyphenDict*>(d)); });
}

const std::vector<std::size_t>& Hyphens::points(std::string_view word) const {
  const std::string key = lower(word);
  const auto [at, fresh] = known_.try_emplace(key);
  if (!fresh || !dict_ || key.size() < 6 || key.size() > 60) return at->second;
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
      if ((marks[i] & 1) != 0 && !changes_letters) at->second.push_back(i + 1);
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
