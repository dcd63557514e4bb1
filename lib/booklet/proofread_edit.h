#pragma once
// What every check of the proofreader reads: the texts as printed and the numbers as computed.

#include <set>
#include <string>
#include <vector>

#include "booklet/proofread.h"
#include "booklet/proofread_known.h"

namespace dogear::editing {

struct Text {
  Source source;
  bool of_block = false;                       // printed with blocks
  std::vector<std::size_t> uses;               // those blocks
  std::vector<std::vector<Passage>> passages;  // for each size read; empty where it is not printed
};

struct Edit {
  const Scene& scene;
  const Words& words;
  std::vector<std::size_t> sizes;  // those of the booklets being made
  std::vector<Known> known;        // for each of them
  Names names;
  std::vector<Text> texts;
  Diagnostics& diagnostics;

  const Pattern& pattern() const { return scene.checked.pattern; }
  const SizeSewing& sewing(std::size_t nth) const { return scene.piecing.sizes[sizes[nth]]; }
  const SizeQuantities& quantities(std::size_t nth) const {
    return scene.quantities.sizes[sizes[nth]];
  }
  bool has_section(std::string_view name) const;
  // The file printed with a block, "" for none.
  std::string prose_of(std::size_t use) const;
  // Every address of an image that a size prints.
  std::set<std::string> addresses(std::size_t nth) const;
  // A span for what the list of sections leaves out.
  const Span& booklet_span() const;
};

Edit begin_edit(const Scene& scene, const std::vector<std::size_t>& sizes, const Words& words,
                const Files& files, Diagnostics& diagnostics);

// Calls visit(text, passage, sentence, nth size) for every sentence printed.
template <typename Visit>
void each_sentence(const Edit& edit, Visit&& visit) {
  for (const Text& text : edit.texts)
    for (std::size_t nth = 0; nth < text.passages.size(); ++nth)
      for (const Passage& passage : text.passages[nth])
        for (const Sentence& sentence : sentences(passage, edit.names))
          visit(text, passage, sentence, nth);
}

// The steps a block's booklet counts: units cut together from a strip set are one.
std::vector<UnitId> counted_steps(const Scene& scene, std::size_t size, const BlockSewing& block);

void check_numbers(const Edit& edit);                   // D420 to D426, D450
void check_references(const Edit& edit);                // D430, D431
void check_labels(const Edit& edit);                    // D427
void check_makes(const Edit& edit);                     // D440
void check_spelling(const Edit& edit);                  // D451 to D453
void check_abbreviations(const Edit& edit);             // D454
void check_names(const Edit& edit);                     // D455
void check_dead(const Edit& edit, const Files& files);  // D456 to D461
void check_empty_words(const Edit& edit);               // D462
void check_coverage(const Edit& edit);                  // D463 to D468

// How often each unit is made, counted from the blocks up: what one block needs, times the blocks.
std::map<UnitId, long long> made_for_blocks(const Scene& scene, std::size_t size);

}  // namespace dogear::editing
