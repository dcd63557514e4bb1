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

std::string text_of(const booklet::Runs& runs, const std::string& without = {}) {
  std::string out;
  for (const booklet::Run& run : runs)
    if (without.empty() || run.text != without) out += run.text;
  return markdown_text(std::string(trim(out)));
}

std::string tag_of(const std::string& name) { return "{{" + name + "}}"; }

// What a step says, its count as a tag, and its figure; below it what to mind.
std::vector<std::string> step_paragraphs(const Writer& w, std::size_t number,
                                         const std::vector<booklet::Runs>& said,
                                         const std::string& count, const std::string& make,
                                         const std::string& address) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < said.size(); ++i) {
    const std::string text = text_of(said[i], count);
    if (text.empty() && i > 0) continue;
    std::string paragraph = i == 0 ? "**" + std::to_string(number) + ".** " + text : text;
    const bool holds_count =
        !count.empty() && std::any_of(said[i].begin(), said[i].end(),
                                      [&](const booklet::Run& r) { return r.text == count; });
    if (holds_count) paragraph += " **" + w.words("make", {{"n", tag_of(make)}}) + "**";
    if (i == 0)
      paragraph += "\n![" + markdown_text(w.words("draft step", {{"n", std::to_string(number)}})) +
                   "](figure:" + address + ")";
    out.push_back(std::move(paragraph));
  }
  return out;
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
    for (std::string& paragraph :
         step_paragraphs(w, n, step_runs(w, column, words, warned), words.make,
                         "make." + use + "." + slug(w.scene.piecing.units[unit].name),
                         join({"step/", use, "/", std::to_string(i + 1)}, "")))
      out.push_back(std::move(paragraph));
  }
  return out;
}

std::vector<std::string> assembly_paragraphs(Writer& w) {
  const auto said = booklet::assembly_runs(w, w.column());
  std::vector<std::string> out;
  for (std::size_t i = 0; i < said.size(); ++i) {
    const UnitId unit = w.sewing().assembly[i];
    const auto made = w.sewing().make.find(unit);
    const std::string count =
        made == w.sewing().make.end() ? "" : w.words("make", {{"n", std::to_string(made->second)}});
    for (std::string& paragraph : step_paragraphs(
             w, i + 1, said[i], count, "make.assembly." + slug(w.scene.piecing.units[unit].name),
             "assembly/" + std::to_string(i + 1)))
      out.push_back(std::move(paragraph));
  }
  return out;
}

// What the sizes say: once where they agree, else each between its own tags.
struct BySize {
  std::vector<std::pair<std::string, std::vector<std::string>>> said;

  void add_to(std::vector<std::string>& out) const {
    const bool alike = std::all_of(said.begin(), said.end(),
                                   [&](const auto& s) { return s.second == said.front().second; });
    for (const auto& [size, paragraphs] : said) {
      if (!alike) out.push_back("{{#" + size + "}}");
      out.insert(out.end(), paragraphs.begin(), paragraphs.end());
      if (alike) return;
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
