#include "compile/draft.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "booklet/writer.h"
#include "compile/element_markdown.h"

namespace dogear {

namespace {

using booklet::StepWords;
using booklet::Writer;

// What a step says, below it what to mind, and its figure beside them.
std::string step_paragraph(std::size_t number, const std::vector<booklet::Runs>& said,
                           const std::string& address) {
  std::string out = "**" + std::to_string(number) + ".**";
  bool first = true;
  for (const booklet::Runs& runs : said) {
    const std::string text(trim(markdown_text(runs)));
    if (text.empty()) continue;
    out += (first ? " " : "\\\n") + text;
    first = false;
  }
  return out + "\n![](figure:" + address + ")";
}

std::vector<std::string> block_paragraphs(Writer& w, const BlockSewing& block) {
  const std::string& use = w.pattern().uses[block.use].id;
  const booklet::Column column = w.column();
  std::vector<std::string> out;
  std::map<UnitId, std::size_t> numbers;
  booklet::Warned warned;
  std::size_t n = 0;
  for (std::size_t i = 0; i < block.steps.size(); ++i) {
    const UnitId unit = block.steps[i];
    const auto together = cut_together(w.scene, w.size, unit);
    if (together.front() != unit) continue;
    const StepWords words = step_words(w, unit, numbers);
    ++n;
    for (const UnitId made : together) numbers[made] = n;
    out.push_back(step_paragraph(n, step_runs(w, column, words, warned),
                                 join({"step/", use, "/", std::to_string(i + 1)}, "")));
  }
  return out;
}

std::vector<std::string> assembly_paragraphs(Writer& w) {
  const auto said = booklet::assembly_runs(w, w.column());
  std::vector<std::string> out;
  for (std::size_t i = 0; i < said.size(); ++i)
    out.push_back(step_paragraph(i + 1, said[i], "assembly/" + std::to_string(i + 1)));
  return out;
}

using Paragraphs = std::vector<std::string>;

// What the sizes say: a step in which they agree once, others between the tags of each size.
struct BySize {
  std::vector<std::pair<std::string, Paragraphs>> said;

  void add_to(Paragraphs& out) const {
    std::size_t steps = std::string::npos;
    for (const auto& [size, all] : said) steps = std::min(steps, all.size());
    const bool as_many = std::all_of(said.begin(), said.end(),
                                     [&](const auto& s) { return s.second.size() == steps; });
    std::size_t i = 0;
    while (i < steps) {
      if (agree_on(i)) {
        out.push_back(said.front().second[i++]);
        continue;
      }
      // Steps of another number are other steps from there on.
      std::size_t end = as_many ? i + 1 : std::string::npos;
      while (end < steps && !agree_on(end)) ++end;
      apart(i, end, out);
      i = end;
    }
    if (!as_many && i == steps) apart(steps, std::string::npos, out);
  }

 private:
  bool agree_on(std::size_t i) const {
    return std::all_of(said.begin(), said.end(),
                       [&](const auto& s) { return s.second[i] == said.front().second[i]; });
  }

  void apart(std::size_t from, std::size_t end, Paragraphs& out) const {
    for (const auto& [size, all] : said) {
      if (from >= all.size()) continue;
      out.push_back("{{#" + size + "}}");
      for (std::size_t i = from; i < std::min(end, all.size()); ++i) out.push_back(all[i]);
      out.push_back("{{/" + size + "}}");
    }
  }
};

}  // namespace

std::vector<Draft> draft_instructions(const Scene& scene, const Template& style,
                                      Diagnostics& diagnostics) {
  std::vector<std::size_t> uses;  // in the order in which they are first sewn
  std::map<std::size_t, BySize> blocks;
  BySize tops;
  std::string title;
  for (std::size_t size = 0; size < scene.piecing.sizes.size(); ++size) {
    Writer w(scene, size, style, diagnostics);
    w.drafting = true;
    const std::string& id = w.size_def().id;
    title = w.words("assembly");
    for (const BlockSewing& block : w.sewing().blocks) {
      if (block.steps.empty()) continue;
      if (!blocks.contains(block.use)) uses.push_back(block.use);
      blocks[block.use].said.emplace_back(id, block_paragraphs(w, block));
    }
    tops.said.emplace_back(id, assembly_paragraphs(w));
  }
  std::vector<Draft> drafts;
  for (const std::size_t use : uses) {
    drafts.push_back({"prose/blocks/" + scene.checked.pattern.uses[use].id + ".md", {}});
    blocks.at(use).add_to(drafts.back().paragraphs);
  }
  drafts.push_back({"prose/assembly.md", {"# " + title}});
  tops.add_to(drafts.back().paragraphs);
  return drafts;
}

}  // namespace dogear
