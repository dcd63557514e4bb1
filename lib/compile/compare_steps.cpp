#include "compile/compare_steps.h"

#include <algorithm>
#include <cstdint>
#include <vector>

#include "base/text.h"

namespace dogear {

namespace {

class StepFacts {
 public:
  explicit StepFacts(const Plan& plan) : plan_(plan) {}

  std::map<std::string, std::string> take() {
    const auto& sizes = plan_.piecing.sizes;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      const SizeDef& def = plan_.pattern().sizes[i];
      const std::string& size = def.id;
      for (const BlockSewing& block : sizes[i].blocks) {
        const std::string& use = plan_.pattern().uses[block.use].id;
        add(size, use, block.steps);
        facts_[size + " steps." + use + ".figure"] = figure(block.use);
      }
      add(size, "assembly", sizes[i].assembly);
      facts_[size + " steps.assembly.layout"] = layout(def);
    }
    return std::move(facts_);
  }

 private:
  void add(const std::string& size, const std::string& owner, const std::vector<UnitId>& units) {
    const std::string head = size + " steps." + owner + '.';
    std::map<std::string, int> seen;
    std::vector<std::string> order;
    for (const UnitId id : units) {
      const SewnUnit& unit = plan_.piecing.units[id];
      std::string name = slug(unit.name);
      const int n = ++seen[name];
      if (n > 1) name += '-' + std::to_string(n);
      order.push_back(unit.name + (n > 1 ? ' ' + std::to_string(n) : ""));
      facts_[head + name + ".parts"] = parts(unit);
      if (!unit.seams.empty()) facts_[head + name + ".pressing"] = seams(unit);
    }
    if (!order.empty()) facts_[head + "order"] = join(order, ", ");
  }

  std::string part(const Input& input) const {
    if (!input.is_piece) return plan_.piecing.units[input.unit].name;
    const Piece& piece = plan_.piecing.pieces[input.piece];
    return plan_.pattern().fabrics[piece.fabric].id + ' ' + piece.shape_words +
           (piece.reversed ? " reversed" : "");
  }

  // Equal neighbours are counted: "2 x ray".
  static std::string counted(const std::vector<std::string>& words, std::string_view between) {
    std::vector<std::string> out;
    for (std::size_t i = 0; i < words.size();) {
      std::size_t end = i + 1;
      while (end < words.size() && words[end] == words[i]) ++end;
      out.push_back(end - i == 1 ? words[i] : std::to_string(end - i) + " x " + words[i]);
      i = end;
    }
    return join(out, between);
  }

  std::string parts(const SewnUnit& unit) const {
    std::vector<std::string> words;
    words.reserve(unit.inputs.size());
    for (const Input& input : unit.inputs) words.push_back(part(input));
    const std::string all = counted(words, " + ");
    return unit.strip_set    ? "a strip set: " + all
           : unit.batch      ? "a batch: " + all
           : unit.foundation ? "on a foundation: " + all
                             : all;
  }

  std::string seams(const SewnUnit& unit) const {
    std::vector<std::string> words;
    for (const Seam& seam : unit.seams) {
      std::string text = seam.kind == SeamKind::partial  ? "partial, "
                         : seam.kind == SeamKind::set_in ? "set in, "
                                                         : "";
      if (seam.press == Press::open) {
        text += "open";
      } else {
        const std::size_t to = seam.press == Press::to_first ? seam.first : seam.second;
        text += "to part " + std::to_string(to + 1) + " (" + part(unit.inputs[to]) + ')';
      }
      words.push_back(std::move(text));
    }
    return counted(words, "; ");
  }

  // The blocks as they lie: "star, plain / plain, star".
  std::string layout(const SizeDef& size) const {
    std::vector<std::string> rows;
    for (const auto& row : size.cells) {
      std::vector<std::string> names;
      for (const SizeDef::Cell& cell : row) names.push_back(plan_.pattern().uses[cell.use].id);
      rows.push_back(counted(names, ", "));
    }
    return counted(rows, " / ");
  }

  // A number that stands for how a block looks, whatever its size: of the fabric and the corners of
  // every patch, counted in widths of the block.
  std::string figure(std::size_t use) const {
    const CheckedPattern& checked = plan_.checked;
    const PartId block = checked.block_parts[use];
    const Box box = bounds(checked.parts[block].outline);
    const auto counted_in_widths = [&](const Point& corner) {
      const Point at = corner - box.least;
      return (at.x / box.width()).text() + ' ' + (at.y / box.width()).text();
    };
    std::vector<std::string> patches;
    for (const FlatPatch& patch : flatten(checked, block)) {
      const Part& part = checked.parts[patch.patch];
      std::vector<std::string> corners;
      for (const Point& corner : patch.where.apply(part.outline).corners) {
        corners.push_back(counted_in_widths(corner));
      }
      std::sort(corners.begin(), corners.end());
      patches.push_back(checked.pattern.fabrics[part.fabric].id + ": " + join(corners, ", "));
    }
    std::sort(patches.begin(), patches.end());
    std::uint64_t sum = 14695981039346656037u;  // FNV-1a
    for (const char c : join(patches, "; ")) {
      sum = (sum ^ static_cast<unsigned char>(c)) * 1099511628211u;
    }
    std::string digits;
    for (int i = 60; i >= 0; i -= 4) digits += "0123456789abcdef"[(sum >> i) & 15];
    return digits;
  }

  const Plan& plan_;
  std::map<std::string, std::string> facts_;
};

}  // namespace

std::map<std::string, std::string> step_facts(const Plan& plan) { return StepFacts(plan).take(); }

}  // namespace dogear
