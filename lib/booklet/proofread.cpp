#include "booklet/proofread.h"

#include <algorithm>
#include <array>

#include "base/files.h"
#include "base/text.h"
#include "booklet/proofread_claims.h"
#include "booklet/proofread_edit.h"

namespace dogear {
namespace editing {
namespace {

// Names of units that are words of the trade or plain English are no names in a sentence.
constexpr std::array<std::string_view, 40> plain_words{
    "top",   "bottom", "middle", "half",    "across",  "corner",   "center", "centre",
    "side",  "row",    "left",   "right",   "other",   "strip",    "block",  "square",
    "edge",  "border", "up",     "down",    "first",   "second",   "third",  "last",
    "inner", "outer",  "unit",   "piece",   "pair",    "triangle", "a",      "b",
    "c",     "d",      "in",     "section", "sashing", "binding",  "star",   "quilt"};

Names read_names(const Scene& scene) {
  const Pattern& p = scene.checked.pattern;
  Names names;
  for (std::size_t i = 0; i < p.fabrics.size(); ++i)
    names.add(p.fabrics[i].name, {NameKind::fabric, i}, true);
  for (std::size_t i = 0; i < p.uses.size(); ++i)
    names.add(p.uses[i].title, {NameKind::block, i}, true);
  for (std::size_t i = 0; i < p.sizes.size(); ++i)
    names.add(p.sizes[i].title, {NameKind::size, i}, false);
  for (std::size_t i = 0; i < p.bundles.size(); ++i)
    names.add(p.bundles[i].name, {NameKind::bundle, i}, false);
  std::set<UnitId> units;
  for (const SizeSewing& size : scene.piecing.sizes)
    for (const BlockSewing& block : size.blocks)
      units.insert(block.steps.begin(), block.steps.end());
  for (const UnitId id : units) {
    const std::string& name = scene.piecing.units[id].name;
    const bool title = std::any_of(p.uses.begin(), p.uses.end(),
                                   [&](const BlockUse& use) { return use.title == name; });
    if (title || name.size() < 3 || name.find(" section ") != std::string::npos ||
        std::find(plain_words.begin(), plain_words.end(), lower(name)) != plain_words.end())
      continue;
    names.add(name, {NameKind::unit, id}, false);
  }
  return names;
}

bool is_sewn(const SizeSewing& sewing, std::size_t use) {
  return std::any_of(sewing.blocks.begin(), sewing.blocks.end(),
                     [&](const BlockSewing& b) { return b.use == use; });
}

}  // namespace

bool Edit::has_section(std::string_view name) const {
  return std::any_of(pattern().sections.begin(), pattern().sections.end(),
                     [&](const Section& s) { return s.name == name; });
}

std::string Edit::prose_of(std::size_t use) const {
  const BlockUse& u = pattern().uses[use];
  for (const std::string& id : {u.id, pattern().blocks[u.block].id})
    if (const std::string path = "prose/blocks/" + id + ".md"; pattern().prose.contains(path))
      return path;
  return {};
}

std::set<std::string> Edit::addresses(std::size_t nth) const {
  std::set<std::string> out;
  for (const Text& text : texts)
    for (const Passage& passage : text.passages[nth])
      for (const Shown& image : passage.images) out.insert(image.address);
  return out;
}

const Span& Edit::booklet_span() const {
  return pattern().sections.empty() ? pattern().span : pattern().sections.front().span;
}

std::vector<UnitId> counted_steps(const Scene& scene, std::size_t size, const BlockSewing& block) {
  std::vector<UnitId> steps;
  for (const UnitId unit : block.steps)
    if (cut_together(scene, size, unit).front() == unit) steps.push_back(unit);
  return steps;
}

Edit begin_edit(const Scene& scene, const std::vector<std::size_t>& sizes, const Words& words,
                const Files& files, Diagnostics& diagnostics) {
  Edit edit{scene, words, sizes, {}, read_names(scene), {}, diagnostics};
  const Pattern& p = edit.pattern();
  for (const std::size_t size : sizes) edit.known.emplace_back(scene, size);

  for (const Section& section : p.sections) {
    const auto prose = p.prose.find(section.name);
    if (section.is_prose && prose != p.prose.end())
      edit.texts.push_back(
          {Source(section.name, prose->second.path, prose->second.text), false, {}, {}});
  }
  const bool blocks = edit.has_section("blocks");
  for (const auto& [path, prose] : p.prose) {
    if (!blocks || !starts_with(path, "prose/blocks/")) continue;
    std::vector<std::size_t> uses;
    for (std::size_t use = 0; use < p.uses.size(); ++use)
      if (edit.prose_of(use) == path) uses.push_back(use);
    if (!uses.empty()) edit.texts.push_back({Source(path, prose.path, prose.text), true, uses, {}});
  }
  std::string error;
  const std::string yaml = p.folder + "/pattern.yaml";
  if (const auto text = files.read(yaml, error); text && !p.summary.empty())
    edit.texts.push_back(
        {Source::sentence("pattern.yaml", yaml, *text, p.summary, 1), false, {}, {}});
  for (std::size_t b = 0; b < p.blocks.size() && blocks; ++b) {
    const BlockDef& def = p.blocks[b];
    if (def.words.empty()) continue;
    std::vector<std::size_t> uses;
    for (std::size_t use = 0; use < p.uses.size(); ++use)
      if (p.uses[use].block == b) uses.push_back(use);
    const std::string path = p.folder + "/blocks/" + def.id + ".yaml";
    if (const auto text = files.read(path, error))
      edit.texts.push_back(
          {Source::sentence("blocks/" + def.id + ".yaml", path, *text, def.words, 1),
           true,
           uses,
           {}});
  }
  std::erase_if(edit.texts, [](const Text& t) { return !t.source.readable(); });
  for (Text& text : edit.texts) {
    for (std::size_t nth = 0; nth < sizes.size(); ++nth) {
      const bool printed =
          !text.of_block || std::any_of(text.uses.begin(), text.uses.end(), [&](std::size_t use) {
            return is_sewn(edit.sewing(nth), use);
          });
      text.passages.push_back(
          printed ? text.source.passages(p.sizes[sizes[nth]].id, edit.known[nth].tags())
                  : std::vector<Passage>());
    }
  }
  return edit;
}

namespace {

// The ways in which words name a size, each a row of words. A title of one word, such as Large, is
// one only with "quilt" or the like behind it.
struct SizeNames {
  bool long_title = false;
  std::vector<std::vector<std::string>> rows;
};

std::vector<SizeNames> names_of_sizes(const Pattern& pattern) {
  std::vector<SizeNames> out;
  for (const SizeDef& def : pattern.sizes) {
    SizeNames& names = out.emplace_back();
    std::vector<std::string> title = name_words(def.title);
    names.long_title = title.size() > 1;
    if (names.long_title) names.rows.push_back(std::move(title));
    for (const char* what : {"size", "quilt", "version"})
      for (const std::string& name : {def.id, def.title})
        names.rows.push_back(name_words(join({name, what}, " ")));
  }
  return out;
}

// Where the sentence names sizes ("for the lap quilt"): the byte and the size.
std::vector<std::pair<std::size_t, std::size_t>> sizes_named(const std::vector<SizeNames>& sizes,
                                                             std::string_view text,
                                                             const Sentence& s) {
  const auto spelled = [&](const Token& t) { return lower(text.substr(t.begin, t.end - t.begin)); };
  std::vector<std::pair<std::size_t, std::size_t>> out;
  for (std::size_t size = 0; size < sizes.size(); ++size) {
    for (std::size_t i = 0; i < s.size(); ++i) {
      // A name of several words is one token.
      bool named = std::any_of(s[i].names.begin(), s[i].names.end(), [&](const Name& n) {
        return n.kind == NameKind::size && n.index == size && sizes[size].long_title;
      });
      for (const std::vector<std::string>& words : sizes[size].rows) {
        std::size_t k = 0;
        while (k < words.size() && i + k < s.size() && spelled(s[i + k]) == words[k]) ++k;
        named = named || (!words.empty() && k == words.size());
      }
      if (named) out.emplace_back(s[i].begin, size);
    }
  }
  std::sort(out.begin(), out.end());
  return out;
}

// Whether what stands at a byte is said of another size. Sizes stand before their numbers ("the lap
// quilt needs 5, the mini 2") or behind them ("5 for the lap quilt and 2 for the mini"), as the
// first number and the first size of the sentence do.
bool is_of_other_size(const std::vector<std::pair<std::size_t, std::size_t>>& named, std::size_t at,
                      std::size_t first, std::size_t size) {
  if (named.empty()) return false;
  const auto behind =
      std::find_if(named.begin(), named.end(), [&](const auto& name) { return name.first > at; });
  if (named.front().first > first)
    return (behind == named.end() ? named.back() : *behind).second != size;
  return (behind == named.begin() ? *behind : *std::prev(behind)).second != size;
}

}  // namespace

void check_numbers(const Edit& edit) {
  Claims claims;
  const std::vector<SizeNames> sizes = names_of_sizes(edit.pattern());
  each_sentence(edit, [&](const Text& text, const Passage& passage, const Sentence& sentence,
                          std::size_t nth) {
    const auto named = sizes_named(sizes, passage.text, sentence);
    const Reading reading{text.source, passage, sentence, edit.known[nth], edit.names, text.uses};
    std::vector<Claim> found;
    find_counts(reading, found);
    find_measures(reading, found);
    std::size_t first = passage.text.size();
    for (const Claim& claim : found) first = std::min(first, claim.begin);
    for (const Claim& claim : found)
      if (!is_of_other_size(named, claim.begin, first, edit.sizes[nth])) claims.add(reading, claim);
  });
  claims.report(edit.diagnostics);
}

}  // namespace editing

void proofread(const Scene& scene, const std::vector<std::size_t>& sizes, const Words& words,
               const Files& files, Diagnostics& diagnostics) {
  using namespace dogear::editing;
  const FencedFiles inside(files, scene.checked.pattern.folder);
  const Edit edit = begin_edit(scene, sizes, words, inside, diagnostics);
  if (words.language != "en") {
    // What needs no knowledge of English.
    check_labels(edit);
    check_makes(edit);
    check_dead(edit, inside);
    check_empty_words(edit);
    check_coverage(edit);
    return;
  }
  check_numbers(edit);
  check_references(edit);
  check_labels(edit);
  check_makes(edit);
  check_spelling(edit);
  check_abbreviations(edit);
  check_names(edit);
  check_dead(edit, inside);
  check_empty_words(edit);
  check_coverage(edit);
}

}  // namespace dogear
