#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "base/text.h"
#include "model/keys.h"
#include "model/load.h"
#include "model/load_finish.h"
#include "model/reader.h"

namespace dogear {

std::optional<FabricId> read_fabric(const Node& node, const Pattern& pattern, Diagnostics& d) {
  const auto name = read_text(node, "fabric", d);
  if (!name) return std::nullopt;
  std::vector<std::string> known;
  for (std::size_t i = 0; i < pattern.fabrics.size(); ++i) {
    if (pattern.fabrics[i].id == *name) return i;
    known.push_back(pattern.fabrics[i].id);
  }
  unknown_name("D107", node.span, "fabric", *name, known, d);
  return std::nullopt;
}

std::optional<std::size_t> read_block_use(const Node& node, const Pattern& pattern,
                                          Diagnostics& d) {
  const auto name = read_text(node, "block", d);
  if (!name) return std::nullopt;
  std::vector<std::string> known;
  for (std::size_t i = 0; i < pattern.uses.size(); ++i) {
    if (pattern.uses[i].id == *name) return i;
    known.push_back(pattern.uses[i].id);
  }
  unknown_name("D110", node.span, "block", *name, known, d);
  return std::nullopt;
}

namespace {

template <typename Visit>
void each_text(const Node& node, const Visit& visit) {
  if (node.kind == Node::Kind::scalar) visit(node.text);
  for (const Node& item : node.items) each_text(item, visit);
  for (const Entry& entry : node.entries) each_text(entry.node(), visit);
}

class SizeReader {
 public:
  SizeReader(const Node& sizes, Pattern& pattern, Diagnostics& d) : pattern_(pattern), d_(d) {
    find_renamed(sizes);
  }

  void read(const Entry& entry) {
    SizeDef size;
    size.id = entry.key;
    size.span = entry.key_span;
    MapReader map(entry.node(), keys::size(), "the size `" + entry.key + "`", d_);
    if (!map.ok()) return;
    size.title = map.text("title", entry.key);
    const bool setting_known = read_setting(map, size);
    if (const Node* ground = map.may("ground")) size.ground = read_fabric(*ground, pattern_, d_);
    if (const Node* sashing = map.may("sashing")) size.sashing = read_sashing(*sashing);
    if (const Node* borders = map.may("borders")) {
      if (const auto* items = read_list(*borders, "borders", d_)) {
        for (const Node& item : *items) {
          if (auto border = read_border(item, pattern_, d_)) size.borders.push_back(*border);
        }
      }
    }
    read_finish(map, pattern_, size, d_);
    if (const Node* fillers = map.may("fillers")) {
      if (map.choice("fillers")) size.fillers_from_bundle = fillers->span;
    }
    map.finish();
    if (setting_known) refuse_idle_keys(entry.node(), size);
    if (size.setting != Setting::rows && !size.ground) {
      const std::string which =
          size.setting == Setting::on_point ? "a setting on point" : "a hexagon setting";
      d_.error("D102", size.span, which + " needs a `ground` fabric for its edges")
          .hints.push_back("add a line `ground: ...` naming a fabric");
    }
    pattern_.sizes.push_back(std::move(size));
  }

 private:
  // One name in the rows that no block has, and one block that no row names.
  void find_renamed(const Node& sizes) {
    std::set<std::string> strange, idle;
    for (const BlockUse& use : pattern_.uses) idle.insert(use.id);
    const std::set<std::string> known = idle;
    for (const Entry& size : sizes.entries) {
      each_text(size.node(), [&](const std::string& text) { idle.erase(text); });
      for (const char* key : {"rows", "columns"}) {
        const Entry* cells = size.node().find(key);
        if (cells == nullptr) continue;
        for (const Node& row : cells->node().items) {
          for (const Node& cell : row.items) {
            if (known.contains(cell.text)) continue;
            strange.insert(cell.text);
            ++renamed_cells_;
          }
        }
      }
    }
    if (strange.size() != 1 || idle.size() != 1) return;
    if (!nearest(*strange.begin(), {known.begin(), known.end()}).empty()) return;  // a slip
    renamed_ = *strange.begin();
    unnamed_ = *idle.begin();
  }

  // A key that the setting has no use for would be passed over in silence.
  void refuse_idle_keys(const Node& node, const SizeDef& size) {
    const auto refuse = [&](const Entry* entry, const char* why) {
      if (entry == nullptr) return;
      d_.error("D120", entry->key_span, "`" + entry->key + "` has no meaning here: " + why)
          .notes.push_back({size.setting_span, "the setting is chosen here"});
    };
    if (size.setting == Setting::rows) {
      refuse(node.find("ground"), "straight rows have no edges to fill");
    } else if (size.setting == Setting::on_point) {
      refuse(node.find("sashing"), "blocks on point lie edge to edge");
    } else if (size.setting == Setting::hexagon_columns) {
      refuse(node.find("sashing"), "hexagons in columns lie edge to edge");
    } else if (const Entry* sashing = node.find("sashing");
               sashing != nullptr && sashing->node().kind == Node::Kind::map) {
      refuse(sashing->node().find("cornerstones"), "sashing runs only between the rows");
    }
  }

  // False when the setting has a name that is none; its cells are read all the same.
  bool read_setting(MapReader& map, SizeDef& size) {
    bool known = true;
    const Node* setting = map.need("setting");
    if (setting != nullptr) {
      size.setting_span = setting->span;
      const auto choice = map.choice("setting");
      known = choice.has_value();
      // In the order of the table.
      constexpr std::array settings{Setting::rows, Setting::on_point, Setting::hexagon_columns,
                                    Setting::hexagon_rows};
      if (choice) size.setting = settings.at(*choice);
    }
    const char* key = size.setting == Setting::hexagon_columns ? "columns" : "rows";
    const Node* cells = map.need(key);
    const auto* lists = cells == nullptr ? nullptr : read_list(*cells, key, d_);
    if (lists == nullptr) return known;
    for (const Node& list : *lists) {
      const auto* items = read_list(list, key, d_);
      if (items == nullptr) continue;
      std::vector<SizeDef::Cell> row;
      for (const Node& item : *items) {
        if (!renamed_.empty() && item.text == renamed_) {
          if (std::exchange(renamed_told_, true)) continue;
          d_.error("D110", item.span, "there is no block called `" + item.text + "`")
              .hints.push_back(
                  "no row names `" + unnamed_ + "`: is that its name now? Rows name it " +
                  std::to_string(renamed_cells_) + (renamed_cells_ == 1 ? " time" : " times"));
          continue;
        }
        if (const auto use = read_block_use(item, pattern_, d_)) row.push_back({*use, item.span});
      }
      size.cells.push_back(std::move(row));
    }
    return known;
  }

  std::optional<SashingDef> read_sashing(const Node& node) {
    MapReader m(node, keys::sashing(), d_);
    SashingDef sashing;
    sashing.span = node.span;
    const Node* fabric = m.need("fabric");
    const auto width = m.need_length("width");
    if (const Node* stones = m.may("cornerstones")) {
      sashing.cornerstones = read_fabric(*stones, pattern_, d_);
    }
    sashing.around = m.yes("around");
    m.finish();
    const auto f = fabric == nullptr ? std::nullopt : read_fabric(*fabric, pattern_, d_);
    if (!f || !width) return std::nullopt;
    sashing.fabric = *f;
    sashing.width = *width;
    return sashing;
  }

  Pattern& pattern_;
  Diagnostics& d_;
  bool renamed_told_ = false;
  std::size_t renamed_cells_ = 0;
  std::string renamed_, unnamed_;  // a block by the name that rows know, and by its own
};

}  // namespace

void read_sizes(const Node& node, Pattern& pattern, Diagnostics& d) {
  if (node.kind != Node::Kind::map || node.entries.empty()) {
    d.error("D103", node.span, "`sizes` is a map of sizes by name, with one at least");
    return;
  }
  SizeReader reader(node, pattern, d);
  for (const Entry& e : node.entries) {
    if (slug(e.key) != e.key) {
      d.error("D118", e.key_span, "`" + e.key + "` cannot name a size: it becomes a file's name")
          .hints.push_back("use small letters, digits and hyphens: `" + slug(e.key) + "`");
      continue;
    }
    reader.read(e);
  }
}

}  // namespace dogear
