// "See step 9", "figure 3": places that must be there.

#include <algorithm>

#include "booklet/proofread_claims.h"
#include "booklet/proofread_edit.h"

namespace dogear::editing {
namespace {

struct Steps {
  long long most = 0;
  std::string whose;  // "the block Star has"
  Span span;
};

class References {
 public:
  explicit References(const Edit& edit) : edit_(edit) {
    // What the designer numbers herself: "Step 4: ...", "Figure 2. ...", and lists.
    each_sentence(edit, [&](const Text& text, const Passage&, const Sentence& s, std::size_t) {
      if (s.size() < 2 || !s[1].is_number()) return;
      if (s[0].is("step")) own_[&text] = std::max<long long>(own_[&text], s[1].value.num);
      if (is_one_of(s[0], {"figure", "fig"})) figures_.insert(s[1].value.num);
    });
    for (const Text& text : edit.texts)
      own_[&text] = std::max(own_[&text], text.source.highest_number());
  }

  void read(const Text& text, const Passage& passage, const Sentence& s, std::size_t nth) {
    for (std::size_t i = 0; i + 1 < s.size(); ++i) {
      const bool step = is_one_of(s[i], {"step", "steps"});
      const bool figure = is_one_of(s[i], {"figure", "figures", "fig"});
      if (!step && !figure) continue;
      for (std::size_t k = i + 1; k < s.size() && k < i + 6; ++k) {
        if (s[k].is_number() && s[k].value.den == 1 && inch_unit(s, k + 1) == 0) {
          if (step && i > 0)
            check_step(text, passage, s, i, k, nth);
          else if (figure && i > 0 && !figures_.contains(s[k].value.num))
            tell_figure(text, passage, s, i, k);
        } else if (!is_one_of(s[k], {"to", "and", "or", "\u2013", "-", ",", ".", "through"})) {
          break;
        }
      }
    }
  }

 private:
  Steps steps_of(const Text& text, const Sentence& s, std::size_t at, std::size_t nth) const {
    const SizeSewing& sewing = edit_.sewing(nth);
    std::vector<std::size_t> uses;
    bool assembly = false;
    // "step 3 of the assembly", "step 2 of Coral Star"
    for (std::size_t k = at; k < std::min(s.size(), at + 6); ++k) {
      assembly = assembly || is_one_of(s[k], {"assembly", "assembling"});
      for (const Name& n : s[k].names)
        if (n.kind == NameKind::block) uses.push_back(n.index);
    }
    Steps out;
    const auto take = [&](long long n, std::string whose, const Span& span) {
      if (n > out.most || out.whose.empty()) out = {n, std::move(whose), span};
    };
    if (uses.empty() && !assembly) uses = text.uses;
    for (const BlockSewing& block : sewing.blocks) {
      if (assembly ||
          (!uses.empty() && std::find(uses.begin(), uses.end(), block.use) == uses.end()))
        continue;
      const BlockUse& use = edit_.pattern().uses[block.use];
      take(static_cast<long long>(counted_steps(edit_.scene, edit_.sizes[nth], block).size()),
           "the block " + use.title + " has", use.span);
    }
    if (assembly || uses.empty())
      take(static_cast<long long>(sewing.assembly.size()), "the assembly has",
           edit_.known[nth].size_def().span);
    const auto own = own_.find(&text);
    if (own != own_.end() && own->second > out.most)
      take(own->second, "these words have", out.span);
    // Words that stand in no block may speak of a list in another file.
    if (!text.of_block && uses.empty() && !assembly)
      for (const auto& [other, n] : own_) take(std::max(n, out.most), out.whose, out.span);
    return out;
  }

  void check_step(const Text& text, const Passage& passage, const Sentence& s, std::size_t begin,
                  std::size_t number, std::size_t nth) {
    const Steps steps = steps_of(text, s, number, nth);
    const long long n = s[number].value.num;
    if (steps.whose.empty() || n <= steps.most) return;
    const Span span = text.source.span(passage, s[begin].begin, s[number].end);
    if (!told_.insert({span.file, span.line, span.column}).second) return;
    Diagnostic& d = edit_.diagnostics.error(
        "D430", span,
        "there is no step " + std::to_string(n) + ": " + steps.whose + " " +
            (steps.most == 0 ? std::string("none") : std::to_string(steps.most)) +
            " in the size `" + edit_.known[nth].size_def().id + "`");
    if (steps.span.line > 0) d.notes.push_back({steps.span, "its steps come from here"});
    d.hints.push_back("name the step that is meant, or show its figure beside the words");
  }

  void tell_figure(const Text& text, const Passage& passage, const Sentence& s, std::size_t begin,
                   std::size_t number) {
    const Span span = text.source.span(passage, s[begin].begin, s[number].end);
    if (!told_.insert({span.file, span.line, span.column}).second) return;
    edit_.diagnostics
        .error("D431", span,
               "no figure is numbered " + std::to_string(s[number].value.num) +
                   ": the booklet numbers its steps, not its figures")
        .hints.push_back(
            "say \"the figure above\", name the step, or begin a figure's caption "
            "with its number: `![Figure 3. The ray](figure:step/...)`");
  }

  const Edit& edit_;
  std::map<const Text*, long long> own_;
  std::set<std::int64_t> figures_;
  std::set<std::tuple<std::string, std::size_t, std::size_t>> told_;
};

}  // namespace

void check_references(const Edit& edit) {
  References references(edit);
  each_sentence(edit, [&](const Text& text, const Passage& passage, const Sentence& s,
                          std::size_t nth) { references.read(text, passage, s, nth); });
}

}  // namespace dogear::editing
