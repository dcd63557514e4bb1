#pragma once
// What every section of the booklet is written with.

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "booklet/booklet.h"
#include "booklet/column.h"
#include "booklet/tags.h"
#include "piecing/unit_names.h"

namespace dogear::booklet {

struct OutlineItem {
  std::string title;
  int level = 1;
  std::string anchor;
  bool listed = true;  // in the printed contents, not only in the outline
};

// What the writers of one size share: each figure and fact is made once, by whoever asks first.
class SharedWork {
 public:
  SharedWork(const Scene& scene, std::size_t size);
  const std::set<std::string>& figures() const { return figures_; }
  const std::optional<Picture>& drawn(const std::string& key,
                                      const std::function<std::optional<Picture>()>& draw);
  const TagValues& tag_values(const std::function<TagValues()>& make);

 private:
  struct Drawn {
    std::once_flag once;
    std::optional<Picture> picture;
  };
  const std::set<std::string> figures_;
  std::mutex mutex_;
  std::map<std::string, Drawn> drawn_;
  std::once_flag once_;
  TagValues tags_;
};

class Writer {
 public:
  Writer(const Scene& scene, std::size_t size, const Template& style, Diagnostics& diagnostics,
         const Photos& photos = {});
  // Another of the same booklet, for another thread.
  Writer(const Writer& like, const canvas::FontSet& fonts, const Template& style,
         Diagnostics& diagnostics);

  const Scene scene;
  const std::size_t size;
  const Template& style;
  const Words& words;
  Diagnostics& diagnostics;
  const Photos photos;
  Typesetter type;
  FlowContext flow;

  const Pattern& pattern() const { return scene.checked.pattern; }
  const SizeDef& size_def() const { return pattern().sizes[size]; }
  const SizeSewing& sewing() const { return scene.piecing.sizes[size]; }
  const SizeQuantities& quantities() const { return scene.quantities.sizes[size]; }
  const Fabric& fabric(FabricId id) const { return pattern().fabrics[id]; }
  const TagValues& tag_values() const;

  // How far down its first page the section begins, pt, as far as that is known.
  double begun = 0;
  // In a draft for the designer the computed values are said as the tags that print them.
  bool drafting = false;
  // The tag of this name where it prints the text, else the text.
  std::string said(const std::string& fact, std::string text) const;
  // The same of a number, in words.
  std::string said_number(const std::string& fact, long long n) const;

  Column column() { return {flow, 0, style.text_width()}; }
  std::optional<Picture> picture(const std::string& address, double width, double height);
  // For a card across the whole column: low wide figures fill it, others leave room for words.
  std::optional<Picture> card_picture(const std::string& address, double width, double height);
  std::optional<Picture> step_picture(UnitId unit, StepLook look);
  // Steps of the assembly (1-based) in such a room each; rows of one height at one scale, or all.
  std::vector<std::optional<Picture>> assembly_pictures(const std::vector<std::size_t>& steps,
                                                        double width, double height,
                                                        bool one_scale = false);
  std::optional<Picture> swatch(FabricId fabric, double width = 26, double height = 15);
  void unlist_last() { entries.back().listed = false; }
  bool has_figure(const std::string& address) const { return figures().contains(address); }
  const std::set<std::string>& figures() const { return shared_->figures(); }

  // A heading with an anchor of its own, listed in the contents (levels 1 and 2 only).
  void heading(Column& column, int level, const Runs& runs, const std::string& anchor,
               std::optional<Picture> picture = {});
  void heading(Column& column, int level, const std::string& text, const std::string& anchor,
               std::optional<Picture> picture = {});

  std::vector<OutlineItem> entries;  // of the section being written
  std::set<std::string> anchors;
  struct Reference {
    std::string anchor;
    Span span;
  };
  std::vector<Reference> references;  // links to check once all anchors are known

 private:
  Writer(const Scene& scene, std::size_t size, const Template& style, Diagnostics& diagnostics,
         const Photos& photos, std::shared_ptr<SharedWork> shared);
  std::shared_ptr<SharedWork> shared_;
};

// Measures of the ledger as the language spells them: "62 in; 4 x 20 in".
std::string spelled(const Words& words, const std::string& value);

// Sections. Each writes its heading and content.
void write_cover(Writer& writer, Column& column);
void write_contents(Writer& writer, Column& column, const std::vector<OutlineItem>& entries);
void write_begin(Writer& writer, Column& column, const std::set<std::string>& abbreviations);
void write_requirements(Writer& writer, Column& column);
void write_requirements_table(Writer& writer, Column& column);
void write_schedule(Writer& writer, Column& column);  // nothing without a schedule
void write_cutting(Writer& writer, Column& column);
void write_cutting_tables(Writer& writer, Column& column);
// Layers cut at once and pieces that are not symmetric, in the cutting section.
std::string layers_words(const Writer& writer, const CutPiece& piece);  // "; two layers give four"
void write_layers(Writer& writer, Column& column);
void write_hands(Writer& writer, Column& column, FabricId fabric);
void write_blocks(Writer& writer, Column& column);
void write_block_steps(Writer& writer, Column& column, const BlockSewing& block);
void write_assembly(Writer& writer, Column& column);
void write_assembly_steps(Writer& writer, Column& column);
void write_finishing(Writer& writer, Column& column);
void write_templates(Writer& writer, Column& column);  // nothing where rulers make every cut
void write_coloring_page(Writer& writer, Column& column);
void write_other_colorings(Writer& writer, Column& column);  // nothing where there are none
void write_errata(Writer& writer, Column& column);           // nothing where nothing is corrected
void write_back(Writer& writer, Column& column);

// A Markdown file of the designer's, headings moved down by `deeper` levels. Says whether the words
// hold the steps of the block `use` (or of any, when empty) themselves.
struct ProseFound {
  bool steps = false;
};
ProseFound write_prose(Writer& writer, Column& column, const Prose& prose, int deeper);
// The addresses that stand for program-written parts: "table:cutting", "steps:lantern", ...
std::vector<std::string> part_addresses(const Writer& writer);

// The sentences of a step.
struct StepWords {
  std::string sew;                          // "Sew A3, B1 and C2 together in that order."
  std::string press;                        // "Press both seams away from C2."
  std::string make;                         // "Make 24."
  std::string measure;                      // "Measures 4½ in × 8½ in with seam allowances."
  std::string unequal;                      // how to match edges of unequal length
  std::vector<std::string> tips;            // which to trim, and what they then lie flush with
  bool curved = false;                      // a seam along an arc
  std::string last;                         // "Keep the halves apart; ..."
  std::string size;                         // "4½ in × 8½ in", of rectangles sewn in a step
  bool two_bias = false, one_bias = false;  // edges that meet at a seam
  std::string alternate;                    // which rows are pressed the other way
  std::string pressing;                     // what meets where, and whether it nests
  std::string off;                          // "30°": how far the bias edges lie off the thread
  std::string outer_bias;                   // the key of what to say of bias edges outside, or ""
};
// `steps` numbers the units made in earlier steps.
// Units cut together from a strip set are told of in one step, that of the first.
StepWords step_words(const Writer& writer, UnitId unit, const std::map<UnitId, std::size_t>& steps);
// Of a unit sewn in batches: how, and how many with what is left over.
// `owner` and the unit as the ledger names them: "star.goose".
std::string batch_sentence(const Writer& writer, UnitId unit, const std::string& owner);
std::string batch_make(const Writer& writer, UnitId unit, const std::string& owner);
// Of a unit pieced on a foundation: the pieces in the order in which they are sewn on.
std::string foundation_sentence(const Writer& writer, UnitId unit);
// How a foundation is sewn; nothing where there is none.
void write_foundation_method(Writer& writer, Column& column);
// How the seams that meet in this step lie to each other, or "".
std::string pressing_note(const Writer& writer, UnitId unit);
// What need not be said again within a block.
struct Warned {
  bool unequal = false;
  bool rows = false;  // those match at their corners
  std::set<std::string> tips;
};
// The paragraphs of a step: what to do, and smaller what to mind.
std::vector<Runs> step_runs(const Writer& writer, const Column& column, const StepWords& words,
                            Warned& warned);
// The paragraphs of each step of the assembly, those of measuring a border among them.
std::vector<std::vector<Runs>> assembly_runs(Writer& writer, const Column& column);
// A strip of a border that is cut to length when the top is measured.
bool is_border_strip(const Writer& w, PieceId piece);
// How far the longer of two cut edges stands out at each end of their seam, where that is the same
// at both ends and more than 1/32 in; inches.
std::optional<double> overhang(const Writer& writer, const SewnUnit& unit, const Seam& seam);
std::string unit_noun(const Writer& writer, UnitId unit, const std::map<UnitId, std::size_t>& steps,
                      NounForm form = NounForm::bare);
// The upper line of a trapezoid's reading; a triangle has none.
std::optional<Fraction> upper_reading(const PieceCut& cut);
// "at the 4½ in line"; `fact` is the name that the ledger's measures of the unit begin with.
std::string reading_words(const Writer& writer, const PieceCut& cut, const std::string& fact = {});

}  // namespace dogear::booklet
