// Everything that must be told is told: cuts, steps, assembly, cloth, and the sizes of blocks.

#include <algorithm>

#include "base/length.h"
#include "base/text.h"
#include "booklet/proofread_claims.h"
#include "booklet/proofread_edit.h"
#include "cutting/unfinished.h"

namespace dogear::editing {
namespace {

constexpr std::size_t most_named = 8;

std::string listed(std::vector<std::string> all) {
  const std::size_t n = all.size();
  if (n > most_named) all.resize(most_named);
  return join(all, ", ") +
         (n > most_named ? " and " + std::to_string(n - most_named) + " more" : "");
}

// What one size prints.
class Told {
 public:
  Told(const Edit& edit, std::size_t nth)
      : edit_(edit), nth_(nth), addresses_(edit.addresses(nth)) {
    for (const Text& text : edit.texts) {
      for (const Passage& passage : text.passages[nth]) {
        for (const Sentence& s : sentences(passage, edit.names)) {
          const bool cut = any_of(s, 0, s.size(), {"cut", "subcut"});
          const bool cloth =
              any_of(s, 0, s.size(),
                     {"yd", "yds", "yard", "yards", "bundle", "cm", "cloth", "strips", "scraps"});
          for (std::size_t i = 0; i < s.size(); ++i) {
            if (s[i].kind == Token::Kind::word)
              words_.insert(passage.text.substr(s[i].begin, s[i].end - s[i].begin));
            if (s[i].is_number() && inch_unit(s, i + 1) > 0) add(s[i].value);
            if (s[i].is_number() && i + 1 < s.size() && is_one_of(s[i + 1], {"\u00D7", "x", "by"}))
              add(s[i].value);
            for (const Name& n : s[i].names) {
              if (n.kind != NameKind::fabric) continue;
              if (cut) cut_.insert(n.index);
              if (cloth) cloth_.insert(n.index);
            }
          }
        }
      }
    }
  }

  bool has(std::string_view section, std::initializer_list<const char*> addresses) const {
    if (!section.empty() && edit_.has_section(section)) return true;
    return std::any_of(addresses.begin(), addresses.end(),
                       [&](const char* a) { return addresses_.contains(a); });
  }
  bool shows(const std::string& address) const { return addresses_.contains(address); }
  bool says(const std::string& word) const { return words_.contains(word); }
  bool tells_cut(FabricId f) const { return cut_.contains(f); }
  bool tells_cloth(FabricId f) const { return cloth_.contains(f); }
  bool measures(const Exact& e) const {
    const Fraction f = e.round_nearest(8);
    return measures_.contains({f.num, f.den});
  }

 private:
  void add(const Fraction& f) { measures_.insert({f.num, f.den}); }

  const Edit& edit_;
  std::size_t nth_;
  std::set<std::string> addresses_;
  std::set<std::string> words_;
  std::set<FabricId> cut_, cloth_;
  std::set<std::pair<std::int64_t, std::int64_t>> measures_;
};

// What is not told, said once for all the sizes that leave out the same.
class Missing {
 public:
  struct Gap {
    std::string code;
    Span span;
    std::string what;  // "how to cut A1"
    Span note;
    std::string note_words, hint;
  };

  void add(const std::string& size, const Gap& gap) {
    for (auto& [known, sizes] : all_) {
      if (known.code != gap.code || !(known.span == gap.span) || known.what != gap.what) continue;
      sizes.push_back(size);
      return;
    }
    all_.push_back({gap, {size}});
  }

  void report(std::size_t sizes_read, Diagnostics& diagnostics) const {
    for (const auto& [gap, sizes] : all_) {
      const bool all = sizes.size() == sizes_read && sizes_read > 1;
      Diagnostic& d = diagnostics.warning(
          gap.code, gap.span,
          (all ? std::string("the booklet") : "the booklet of `" + join(sizes, "`, `") + "`") +
              " never tells " + gap.what);
      d.notes.push_back({gap.note, gap.note_words});
      d.hints.push_back(gap.hint);
    }
  }

 private:
  std::vector<std::pair<Gap, std::vector<std::string>>> all_;
};

class Coverage {
 public:
  Coverage(const Edit& edit, std::size_t nth, Missing& missing)
      : edit_(edit),
        p_(edit.pattern()),
        nth_(nth),
        size_(edit.known[nth].size_def()),
        told_(edit, nth),
        missing_(missing) {}

  void pieces() {
    if (told_.has("cutting", {"table:cutting", "section:cutting"})) return;
    std::vector<std::string> missing;
    const Piece* first = nullptr;
    for (const CutPiece& cut : edit_.quantities(nth_).pieces) {
      const Piece& piece = edit_.scene.piecing.pieces[cut.piece];
      const std::string label = piece.label(p_);
      if (told_.says(label) || told_.tells_cut(piece.fabric)) continue;
      if (first == nullptr) first = &piece;
      if (!piece.letter.empty() &&
          std::find(missing.begin(), missing.end(), label) == missing.end())
        missing.push_back(label);
    }
    if (first == nullptr) return;
    add("D463", edit_.booklet_span(),
        "how to cut " + (missing.empty() ? std::string("its pieces") : listed(missing)),
        first->span, "such a piece is here",
        "add `cutting` under `booklet`, or `![Cutting](table:cutting)` to your prose");
  }

  void steps() {
    const bool printed = edit_.has_section("blocks");
    std::vector<std::string> untold;
    const BlockUse* first = nullptr;
    for (const BlockSewing& block : edit_.sewing(nth_).blocks) {
      const BlockUse& use = p_.uses[block.use];
      if (block.steps.empty() || told_.shows("steps:" + use.id)) continue;
      const Text* text = text_of(block.use);
      const Shown* shown = text == nullptr ? nullptr : own_step(*text);
      if (printed && shown == nullptr) continue;  // the program writes them
      const std::vector<std::string> missing = missing_steps(block);
      if (missing.empty()) continue;
      if (!printed) {
        untold.push_back(use.title);
        if (first == nullptr) first = &use;
        continue;
      }
      add("D464", text->source.span_of(*shown),
          listed(missing) + " of the block " + use.title +
              ": these words stand in place of its steps",
          use.span, "the block is here",
          "show them as `![Step 2](figure:step/" + use.id +
              "/2)`, or print all with `![Steps](steps:" + use.id + ")`");
    }
    if (first == nullptr) return;
    add("D464", edit_.booklet_span(), "how to sew " + listed(untold), first->span,
        "the block is here",
        "add `blocks` under `booklet`, or `![Steps](steps:" + first->id + ")` to your prose");
  }

  void assembly() {
    const SizeSewing& sewing = edit_.sewing(nth_);
    if (told_.has("assembly", {"steps:assembly", "section:assembly"})) return;
    std::vector<std::string> missing;
    for (std::size_t n = 1; n <= sewing.assembly.size(); ++n)
      if (!told_.shows("figure:assembly/" + std::to_string(n)))
        missing.push_back(std::to_string(n));
    if (missing.empty()) return;
    const bool all = missing.size() == sewing.assembly.size();
    add("D465", edit_.booklet_span(),
        all ? std::string("how the top is sewn together")
            : "how step" + std::string(missing.size() > 1 ? "s " : " ") + listed(missing) +
                  (missing.size() > 1 ? " of the assembly are sewn" : " of the assembly is sewn"),
        size_.span, "the size is here",
        "add `assembly` under `booklet`, or `![Assembly](steps:assembly)` to your prose");
  }

  void cloth() {
    if (told_.has("requirements", {"table:requirements", "section:requirements"})) return;
    const bool back = edit_.has_section("back");
    std::vector<std::string> missing;
    const Fabric* first = nullptr;
    for (const FabricNeed& need : edit_.quantities(nth_).fabrics) {
      if (told_.tells_cloth(need.fabric) || (back && need.yards)) continue;
      missing.push_back(p_.fabrics[need.fabric].name);
      if (first == nullptr) first = &p_.fabrics[need.fabric];
    }
    if (first == nullptr) return;
    add("D466", edit_.booklet_span(), "how much to buy of " + listed(missing), first->span,
        "such a fabric is here",
        "add `requirements` under `booklet`, or `![What you need](table:requirements)` to your "
        "prose");
  }

  void block_sizes() {
    if (edit_.has_section("blocks")) return;
    for (const BlockSewing& block : edit_.sewing(nth_).blocks) {
      const BlockUse& use = p_.uses[block.use];
      const Polygon& outline =
          edit_.scene.checked.parts[edit_.scene.checked.block_parts[block.use]].outline;
      const Box box = bounds(outline);
      const auto [wide, high] = unfinished_size(outline, p_.seam_allowance);
      const bool finished = told_.measures(box.width()) && told_.measures(box.height());
      const bool unfinished = told_.measures(wide) && told_.measures(high);
      if (finished && unfinished) continue;
      tell_size("D467", use.span,
                "the " + what(finished, unfinished) + " size of the block " + use.title,
                "block." + use.id + ".", finished, "`blocks`");
    }
  }

  void top_sizes() {
    const CheckedSize& top = edit_.scene.checked.sizes[edit_.sizes[nth_]];
    const Exact both = p_.seam_allowance * Exact(2);
    const bool finished = edit_.has_section("cover") || edit_.has_section("requirements") ||
                          edit_.has_section("back") ||
                          (told_.measures(top.width) && told_.measures(top.height));
    const bool finishing =
        edit_.quantities(nth_).binding.has_value() && told_.has("finishing", {"section:finishing"});
    const bool unfinished = told_.has("assembly", {"steps:assembly", "section:assembly"}) ||
                            finishing ||
                            (told_.measures(top.width + both) && told_.measures(top.height + both));
    if (finished && unfinished) return;
    tell_size("D468", size_.span, "the " + what(finished, unfinished) + " size of the top", "size.",
              finished, finished ? "`assembly`" : "`cover`");
  }

 private:
  static std::string what(bool finished, bool unfinished) {
    return finished ? "unfinished" : unfinished ? "finished" : "finished and unfinished";
  }

  void tell_size(const char* code, const Span& span, const std::string& of, const std::string& tag,
                 bool finished, const std::string& section) {
    const std::string kind =
        tag == "size." ? (finished ? "unfinished-" : "") : (finished ? "unfinished-" : "finished-");
    add(code, span, of, edit_.booklet_span(), "the sections are listed here",
        "say it in your prose: `{{" + tag + kind + "width}} × {{" + tag + kind +
            "height}}`, or print the section " + section);
  }

  void add(const char* code, const Span& span, std::string what, const Span& note,
           std::string note_words, std::string hint) {
    missing_.add(size_.id,
                 {code, span, std::move(what), note, std::move(note_words), std::move(hint)});
  }

  const Text* text_of(std::size_t use) const {
    const std::string path = edit_.prose_of(use);
    for (const Text& text : edit_.texts)
      if (text.source.name() == path) return &text;
    return nullptr;
  }

  // The first image by which prose takes the place of the program's steps.
  const Shown* own_step(const Text& text) const {
    for (const Passage& passage : text.passages[nth_])
      for (const Shown& image : passage.images)
        if ((starts_with(image.address, "steps:") && image.address != "steps:assembly") ||
            starts_with(image.address, "figure:step/"))
          return &image;
    return nullptr;
  }

  // Steps of which no figure is shown, of this coloring or another of the same block.
  std::vector<std::string> missing_steps(const BlockSewing& block) const {
    std::vector<std::string> ids;
    const BlockUse& use = p_.uses[block.use];
    for (const BlockUse& other : p_.uses)
      if (other.block == use.block) ids.push_back(other.id);
    for (const std::string& id : ids)
      if (told_.shows("steps:" + id)) return {};
    std::set<UnitId> shown;
    for (std::size_t n = 1; n <= block.steps.size(); ++n) {
      for (const std::string& id : ids) {
        if (!told_.shows("figure:step/" + id + "/" + std::to_string(n))) continue;
        for (const UnitId unit : cut_together(edit_.scene, edit_.sizes[nth_], block.steps[n - 1]))
          shown.insert(unit);
      }
    }
    std::vector<std::string> missing;
    for (std::size_t n = 1; n <= block.steps.size(); ++n) {
      if (shown.contains(block.steps[n - 1])) continue;
      const std::string& name = edit_.scene.piecing.units[block.steps[n - 1]].name;
      missing.push_back("step " + std::to_string(n) + (name.empty() ? "" : " (" + name + ")"));
    }
    return missing;
  }

  const Edit& edit_;
  const Pattern& p_;
  std::size_t nth_;
  const SizeDef& size_;
  Told told_;
  Missing& missing_;
};

}  // namespace

void check_coverage(const Edit& edit) {
  Missing missing;
  for (std::size_t nth = 0; nth < edit.sizes.size(); ++nth) {
    Coverage coverage(edit, nth, missing);
    coverage.pieces();
    coverage.steps();
    coverage.assembly();
    coverage.cloth();
    coverage.block_sizes();
    coverage.top_sizes();
  }
  missing.report(edit.sizes.size(), edit.diagnostics);
}

}  // namespace dogear::editing
