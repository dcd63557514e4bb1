#pragma once
// From the sewing order to the designer's own words, and back: what a change of the pattern makes
// new or gone in the draft from which she began.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compile/compile.h"
#include "compile/draft.h"

namespace dogear {

inline constexpr const char* outline_name = "outline.md";  // in the pattern's folder

// The draft of all files as one text: each after a line "<!-- PATH -->". It is kept beside the
// pattern, so that a later draft can be compared with it.
std::string outline_text(const std::vector<Draft>& drafts);
std::vector<Draft> read_outline(std::string_view text);
// Whether a text is such a draft, and not the designer's own.
bool is_outline(std::string_view text);

struct OutlineChange {
  std::string path;
  std::string text;      // of a step that was told otherwise the lines that differ, else the first
  bool gone = false;     // else new
  std::size_t line = 0;  // of her file: where what is gone stands, or behind what a new one comes;
                         // 0 where that is not found
  std::string words() const;  // "new, after this: Measures 4½ in high."
};

// What the draft now says and did not, or did and does not, in the order of the files. `words`
// holds her files by path, as far as they are there.
std::vector<OutlineChange> compare_outlines(const std::vector<Draft>& was,
                                            const std::vector<Draft>& now,
                                            const std::map<std::string, std::string>& words);

// Nothing if and only if an error is added.
std::optional<std::vector<Draft>> make_outline(const Plan& plan, const canvas::FontSet& fonts,
                                               Session& session);

}  // namespace dogear
