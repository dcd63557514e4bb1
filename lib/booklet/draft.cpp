#include "booklet/draft.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "booklet/writer.h"

namespace dogear {

namespace {

using booklet::StepWords;
using booklet::Writer;

// Words that Markdown must not read as marks.
std::string plain(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '*' || c == '_' || c == '[' || c == ']' || c == '<' || c == '\\' || c == '`')
      out += '\\';
    out += c;
  }
  return out;
}

std::string step_paragraph(const Writer& w, std::size_t number, const StepWords& words,
                           const std::string& make, const std::string& address) {
  std::string out = "**" + std::to_string(number) + ".** " + plain(words.sew);
  const auto add = [&](const std::string& sentence) {
    if (!sentence.empty()) out += " " + plain(sentence);
  };
  add(words.press);
  add(words.last);
  add(words.alternate);
  add(words.unequal);
  for (const std::string& tip : words.tips) add(tip);
  if (words.curved) add(w.words("curved seam"));
  if (!make.empty()) out += " **" + w.words("make", {{"n", make}}) + "**";
  return out + "\n![" + plain(w.words("draft step", {{"n", std::to_string(number)}})) +
         "](figure:" + address + ")";
}

std::string tag_of(const std::string& name) { return "{{" + name + "}}"; }

Draft draft_block(Writer& w, const BlockSewing& block) {
  const std::string& use = w.pattern().uses[block.use].id;
  Draft draft{"prose/blocks/" + use + ".md", {}};
  std::map<UnitId, std::size_t> numbers;
  std::size_t n = 0;
  for (std::size_t i = 0; i < block.steps.size(); ++i) {
    const UnitId unit = block.steps[i];
    const auto together = cut_together(w.scene, w.size, unit);
    if (together.front() != unit) continue;
    const StepWords words = step_words(w, unit, numbers);
    ++n;
    for (const UnitId made : together) numbers[made] = n;
    const std::string make =
        words.make.empty() ? ""
                           : tag_of("make." + use + "." + slug(w.scene.piecing.units[unit].name));
    draft.paragraphs.push_back(
        step_paragraph(w, n, words, make, join({"step/", use, "/", std::to_string(i + 1)}, "")));
  }
  return draft;
}

void draft_assembly(Writer& w, Draft& draft) {
  const std::string& size = w.size_def().id;
  draft.paragraphs.push_back("{{#" + size + "}}");
  std::map<UnitId, std::size_t> numbers;
  for (std::size_t i = 0; i < w.sewing().assembly.size(); ++i) {
    const UnitId unit = w.sewing().assembly[i];
    const StepWords words = step_words(w, unit, numbers);
    numbers[unit] = i + 1;
    const bool many = w.sewing().make.at(unit) > 1;
    const std::string make =
        many ? tag_of("make.assembly." + slug(w.scene.piecing.units[unit].name)) : "";
    draft.paragraphs.push_back(
        step_paragraph(w, i + 1, words, make, "assembly/" + std::to_string(i + 1)));
  }
  draft.paragraphs.push_back("{{/" + size + "}}");
}

}  // namespace

std::vector<Draft> draft_instructions(const Scene& scene, const Template& style,
                                      Diagnostics& diagnostics) {
  std::vector<Draft> drafts;
  Draft assembly{"prose/assembly.md", {}};
  std::set<std::size_t> told;
  for (std::size_t size = 0; size < scene.piecing.sizes.size(); ++size) {
    Writer w(scene, size, style, diagnostics);
    for (const BlockSewing& block : w.sewing().blocks)
      if (!block.steps.empty() && told.insert(block.use).second)
        drafts.push_back(draft_block(w, block));
    if (size == 0) assembly.paragraphs.push_back("# " + w.words("assembly"));
    draft_assembly(w, assembly);
  }
  drafts.push_back(std::move(assembly));
  return drafts;
}

}  // namespace dogear
