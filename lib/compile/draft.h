#pragma once
// The instructions' first draft: the steps as the program would tell them, as Markdown for the
// designer to make her own. Counts and measures are tags, each step shows its figure.

#include <string>
#include <vector>

#include "booklet/template.h"
#include "diag/diagnostics.h"
#include "drawing/figure.h"

namespace dogear {

struct Draft {
  std::string path;                     // within the pattern's folder: "prose/blocks/star.md"
  std::vector<std::string> paragraphs;  // without the empty lines between them
};

// One for the steps of each block and one for the assembly, each step a paragraph. Steps in which
// sizes differ stand between the tags of each size.
std::vector<Draft> draft_instructions(const Scene& scene, const Template& style,
                                      Diagnostics& diagnostics);

}  // namespace dogear
