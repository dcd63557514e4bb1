#include "model/load_finish.h"

#include <algorithm>

#include "base/text.h"
#include "model/keys.h"
#include "model/load.h"
#include "words/languages.h"

namespace dogear {

namespace {

const Exact shortest_joined(6);

// A fabric by its name, or `block NAME`.
bool read_corner(const Node& node, const Pattern& pattern, BorderDef& border, Diagnostics& d) {
  constexpr std::string_view block = "block ";
  const auto text = read_text(node, "corners", d);
  if (!text) return false;
  if (!starts_with(*text, block)) {
    const auto fabric = read_fabric(node, pattern, d);
    if (fabric) border.fabric = *fabric;
    return fabric.has_value();
  }
  Node name = node;
  name.text = std::string(trim(std::string_view(*text).substr(block.size())));
  border.corner_use = read_block_use(name, pattern, d);
  return border.corner_use.has_value();
}

std::optional<BorderDef> read_pieced(const Node& node, MapReader& map, const Node& block,
                                     const Pattern& pattern, Diagnostics& d) {
  BorderDef border;
  border.span = node.span;
  border.use = read_block_use(block, pattern, d);
  bool good = border.use.has_value();
  for (const char* idle : {"fabric", "width", "cut"}) {
    const Entry* entry = map.may(idle) == nullptr ? nullptr : node.find(idle);
    if (entry == nullptr) continue;
    d.error("D120", entry->key_span,
            "`" + entry->key + "` has no meaning here: the blocks of the border tell it")
        .notes.push_back({block.span, "it is pieced of this block"});
    good = false;
  }
  const Node* corners = map.need("corners");
  good = corners != nullptr && read_corner(*corners, pattern, border, d) && good;
  map.finish();
  return good ? std::optional(border) : std::nullopt;
}

// Strips that are joined end to end are longer than what their joins take.
bool check_joins(const Pattern& pattern, FabricId fabric, const std::string& what,
                 const Exact& least, const Span& span, Diagnostics& d) {
  const Exact longest = longest_strip(pattern, fabric);
  if (longest >= least) return true;
  Diagnostic& e =
      d.error("D505", span,
              what + " is joined from strips " + about_inches(least) + " long or longer, but " +
                  pattern.fabrics[fabric].name + " gives strips of " + about_inches(longest));
  e.notes.push_back({pattern.fabrics[fabric].sources.back().span, "its last cloth is this"});
  e.hints.push_back("use a fabric bought by the yard, or longer cloth");
  return false;
}

BindingDef read_binding(MapReader& map, const Node& node, const Pattern& pattern, bool& good,
                        Diagnostics& d) {
  BindingDef binding;
  binding.span = node.span;
  const Node* fabric = map.need("fabric");
  binding.strip = map.length("strip");
  binding.bias = map.choice("cut") == std::size_t{1};
  map.finish();
  const auto f = fabric == nullptr ? std::nullopt : read_fabric(*fabric, pattern, d);
  binding.fabric = f.value_or(0);
  good = f && check_joins(pattern, *f, "a binding", max(binding.strip * Exact(2), shortest_joined),
                          fabric->span, d);
  return binding;
}

BackingDef read_backing(MapReader& map, const Node& node, const Pattern& pattern, Diagnostics& d) {
  BackingDef backing;
  backing.name = map.text("name", words_of(pattern.language)("backing"));
  backing.width = map.length("width", pattern.usable_width);
  backing.extra = map.length("extra");
  backing.span = node.span;
  if (const Node* wide = map.may("wide")) {
    const Exact width = map.length("wide");
    if (width > backing.width) {
      backing.wide = width;
    } else if (width.sign() > 0) {
      d.error("D114", wide->span,
              "wide cloth is wider than the other, which is " + about_inches(backing.width))
          .hints.push_back("leave `wide` out, or give the width of the cloth that is bought wide");
    }
  }
  map.finish();
  return backing;
}

}  // namespace

std::optional<BorderDef> read_border(const Node& node, const Pattern& pattern, Diagnostics& d) {
  MapReader map(node, keys::border(), d);
  if (!map.ok()) return std::nullopt;
  if (const Node* block = map.may("block")) return read_pieced(node, map, *block, pattern, d);
  BorderDef border;
  border.span = node.span;
  const Node* fabric = map.need("fabric");
  const auto width = map.need_length("width");
  border.mitred = map.choice("corners") == std::size_t{1};
  if (const auto cut = map.choice("cut")) border.along = *cut == 1;
  map.finish();
  const auto f = fabric == nullptr ? std::nullopt : read_fabric(*fabric, pattern, d);
  if (!f || !width) return std::nullopt;
  border.fabric = *f;
  border.width = *width;
  return border;
}

void read_finish(MapReader& map, const Pattern& pattern, SizeDef& size, Diagnostics& d) {
  if (const Node* binding = map.may("binding")) {
    MapReader m(*binding, keys::binding(), d);
    bool good = false;
    const BindingDef read = read_binding(m, *binding, pattern, good, d);
    if (good) size.binding = read;
  }
  if (const Node* backing = map.may("backing")) {
    MapReader m(*backing, keys::backing(), d);
    size.backing = read_backing(m, *backing, pattern, d);
  }
  if (const Node* batting = map.may("batting")) {
    MapReader m(*batting, keys::batting(), d);
    const Exact usual = size.backing ? std::min(Exact(8), size.backing->extra) : Exact(8);
    size.batting = BattingDef{m.length("extra", usual), batting->span};
    m.finish();
    if (size.backing && size.batting->extra > size.backing->extra) {
      Diagnostic& e = d.error("D148", batting->span,
                              "the batting is " + about_inches(size.batting->extra) +
                                  " larger than the quilt, and the backing only " +
                                  about_inches(size.backing->extra));
      e.notes.push_back({size.backing->span, "the backing is this one"});
      e.hints.push_back("the backing shows all round when the layers lie on each other");
    }
  }
  if (const Node* sleeve = map.may("hanging sleeve")) {
    MapReader m(*sleeve, keys::hanging_sleeve(), d);
    const Node* fabric = m.need("fabric");
    const Exact depth = m.length("depth");
    m.finish();
    const auto f = fabric == nullptr ? std::nullopt : read_fabric(*fabric, pattern, d);
    if (f && check_joins(pattern, *f, "a sleeve", shortest_joined, fabric->span, d)) {
      size.sleeve = SleeveDef{*f, depth, sleeve->span};
    }
  }
}

}  // namespace dogear
