#include <algorithm>

#include "base/text.h"
#include "model/keys.h"
#include "model/load.h"
#include "model/reader.h"

namespace dogear {
namespace {

// "#dfe5ea", or {name: Fog, colour: "#dfe5ea"}.
std::optional<Coloring::Cloth> read_cloth(const Entry& e, const Fabric& fabric, Diagnostics& d) {
  Coloring::Cloth cloth{fabric.name, ""};
  Span where = e.node().span;
  if (e.node().kind == Node::Kind::map) {
    MapReader map(e.node(), keys::coloring_fabric(), "the fabric `" + e.key + "` of a coloring", d);
    cloth.name = map.text("name", fabric.name);
    cloth.colour = map.need_text("colour");
    map.finish();
    if (cloth.colour.empty()) return std::nullopt;
    where = e.node().find("colour")->node().span;
  } else {
    const auto colour = read_text(e.node(), e.key, d);
    if (!colour) return std::nullopt;
    cloth.colour = *colour;
  }
  if (!is_colour(cloth.colour, where, d)) return std::nullopt;
  return cloth;
}

// The colours of every fabric, small letters.
std::vector<std::string> colours(const Pattern& pattern, const Coloring* coloring) {
  std::vector<std::string> out;
  for (FabricId f = 0; f < pattern.fabrics.size(); ++f) {
    const auto other = coloring == nullptr ? std::map<FabricId, Coloring::Cloth>::const_iterator{}
                                           : coloring->fabrics.find(f);
    const bool changed = coloring != nullptr && other != coloring->fabrics.end();
    std::string colour = changed ? other->second.colour : pattern.fabrics[f].colour;
    for (char& c : colour) c = c >= 'A' && c <= 'F' ? static_cast<char>(c - 'A' + 'a') : c;
    out.push_back(std::move(colour));
  }
  return out;
}

void compare(const Coloring& coloring, const Pattern& pattern, Diagnostics& d) {
  for (const Coloring& other : pattern.colorings) {
    if (other.name == coloring.name) {
      d.error("D115", coloring.span, "two colorings are called `" + coloring.name + "`")
          .notes.push_back({other.span, "the other one is here"});
    } else if (colours(pattern, &other) == colours(pattern, &coloring)) {
      d.error("D127", coloring.span,
              "`" + coloring.name + "` has the colours of `" + other.name + "`")
          .notes.push_back({other.span, "which are written here"});
    }
  }
  if (colours(pattern, nullptr) == colours(pattern, &coloring)) {
    d.error("D127", coloring.span,
            "`" + coloring.name + "` has the colours that the fabrics have anyway")
        .hints.push_back("give at least one fabric another colour");
  }
}

}  // namespace

bool is_colour(const std::string& text, const Span& span, Diagnostics& d) {
  const auto hex = [](char c) {
    return is_digit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
  };
  if (text.size() == 7 && text[0] == '#' && std::all_of(text.begin() + 1, text.end(), hex))
    return true;
  d.error("D111", span, "`" + text + "` is not a colour")
      .hints.push_back(
          "a # and six signs 0-9 or a-f, as a colour picker shows them, in straight quotes: "
          "`\"#1b2a49\"`");
  return false;
}

// other colorings:
//   - {name: Fog Bank, fabrics: {night-sky: "#dfe5ea", brass: {name: Copper, colour: "#b5683c"}}}
void read_colorings(const Node& node, Pattern& pattern, Diagnostics& d) {
  const auto* items = read_list(node, "other colorings", d);
  if (items == nullptr) return;
  std::vector<std::string> known;
  for (const Fabric& f : pattern.fabrics) known.push_back(f.id);
  for (const Node& item : *items) {
    const std::size_t before = d.error_count();
    MapReader map(item, keys::coloring(), d);
    if (!map.ok()) continue;
    Coloring coloring;
    coloring.span = item.span;
    coloring.name = map.need_text("name");
    const Node* fabrics = map.need("fabrics");
    map.finish();
    if (fabrics == nullptr) continue;
    if (fabrics->kind != Node::Kind::map) {
      d.error("D103", fabrics->span, "`fabrics` is a map from fabrics to colours");
      continue;
    }
    for (const Entry& e : fabrics->entries) {
      const auto fabric = std::find(known.begin(), known.end(), e.key);
      if (fabric == known.end()) {
        unknown_name("D107", e.key_span, "fabric", e.key, known, d);
        continue;
      }
      const auto id = static_cast<FabricId>(fabric - known.begin());
      if (auto cloth = read_cloth(e, pattern.fabrics[id], d)) coloring.fabrics[id] = *cloth;
    }
    if (d.error_count() > before) continue;
    compare(coloring, pattern, d);
    pattern.colorings.push_back(std::move(coloring));
  }
}

}  // namespace dogear
