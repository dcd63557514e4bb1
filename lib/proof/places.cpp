// Which lines of the source a figure is drawn from.

#include <algorithm>
#include <charconv>

#include "base/text.h"
#include "proof/state.h"

namespace dogear::proof {

namespace {

class Places {
 public:
  Places(const Plan& plan, std::size_t size)
      : plan_(plan),
        pattern_(plan.pattern()),
        size_(pattern_.sizes.at(size)),
        sewing_(plan.piecing.sizes.at(size)),
        cloth_(plan.quantities.sizes.at(size)) {}

  std::vector<std::string> find(const std::string& address) {
    const std::vector<std::string> words = split(address, '/');
    const std::string& family = words[0];
    const std::string second = words.size() > 1 ? words[1] : "";
    const std::size_t n = words.size() > 1 ? number(words.back()) : 0;
    if (family == "block") block(second);
    if (family == "step" || family == "tip") step(second, n);
    if (family == "assembly" && n >= 1 && n <= sewing_.assembly.size())
      add(plan_.piecing.units[sewing_.assembly[n - 1]].span);
    if (family == "foundation") foundation(n);
    if (second == "coloring" && n >= 1 && n <= pattern_.colorings.size())
      add(pattern_.colorings[n - 1].span);
    else if (second == "strip-set")
      strip_set(n);
    else if (family == "swatch" || family == "cutting")
      fabric(second);
    else if (family == "fabrics")
      add(pattern_.fabrics.front().span);
    else if (family == "ruler" || family == "template")
      piece(second);
    if (family == "backing" && size_.backing) add(size_.backing->span);
    if (ends_with_binding(family) && size_.binding) add(size_.binding->span);
    if (family == "mitre")
      for (const BorderDef& border : size_.borders)
        if (border.mitred) add(border.span);
    if (family == "quilt" || family == "layout") whole();
    if (out_.empty()) add(size_.span);
    if (out_.empty()) out_.push_back("pattern.yaml");
    return std::move(out_);
  }

 private:
  static bool ends_with_binding(const std::string& family) { return family.ends_with("binding"); }

  static std::size_t number(const std::string& text) {
    std::size_t n = 0;
    std::from_chars(text.data(), text.data() + text.size(), n);
    return n;
  }

  void add(const Span& span) {
    if (span.file.empty() || span.line == 0) return;
    std::string file = span.file;
    const std::string head = pattern_.folder + '/';
    if (starts_with(file, head)) file.erase(0, head.size());
    std::string place = file + ':' + std::to_string(span.line);
    if (std::find(out_.begin(), out_.end(), place) == out_.end()) out_.push_back(std::move(place));
  }

  void whole() {
    add(size_.setting_span);
    if (size_.sashing) add(size_.sashing->span);
    for (const BorderDef& border : size_.borders) add(border.span);
  }

  const BlockUse* use_named(const std::string& id) const {
    for (const BlockUse& use : pattern_.uses)
      if (use.id == id) return &use;
    return nullptr;
  }

  void block(const std::string& id) {
    const BlockUse* use = use_named(id);
    if (use == nullptr) return;
    add(pattern_.blocks[use->block].whole.span);
    add(pattern_.blocks[use->block].span);
    add(use->span);
  }

  void step(const std::string& id, std::size_t n) {
    for (const BlockSewing& sewn : sewing_.blocks) {
      if (pattern_.uses[sewn.use].id != id || n < 1 || n > sewn.steps.size()) continue;
      add(plan_.piecing.units[sewn.steps[n - 1]].span);
    }
    if (out_.empty())
      block(id);
    else if (const BlockUse* use = use_named(id))
      add(use->span);
  }

  // Counted as they are drawn: those of the blocks, then those of the assembly.
  void foundation(std::size_t n) {
    std::size_t count = 0;
    const auto look = [&](UnitId id) {
      const SewnUnit& unit = plan_.piecing.units[id];
      if (unit.foundation && ++count == n) add(unit.span);
    };
    for (const BlockSewing& sewn : sewing_.blocks)
      for (const UnitId id : sewn.steps) look(id);
    for (const UnitId id : sewing_.assembly) look(id);
  }

  void strip_set(std::size_t n) {
    if (n < 1 || n > cloth_.strip_sets.size()) return;
    const StripSet& set = cloth_.strip_sets[n - 1];
    add(plan_.piecing.units[set.unit].span);
    for (const auto& [id, width] : set.strips) add(pattern_.fabrics[id].span);
  }

  void fabric(const std::string& id) {
    for (const Fabric& fabric : pattern_.fabrics)
      if (fabric.id == id) add(fabric.span);
  }

  void piece(const std::string& label) {
    for (const Piece& piece : plan_.piecing.pieces)
      if (piece.label(pattern_) == label) add(piece.span);
  }

  const Plan& plan_;
  const Pattern& pattern_;
  const SizeDef& size_;
  const SizeSewing& sewing_;
  const SizeQuantities& cloth_;
  std::vector<std::string> out_;
};

}  // namespace

std::vector<std::string> places_of(const Plan& plan, std::size_t size, const std::string& address) {
  return Places(plan, size).find(address);
}

}  // namespace dogear::proof
