#include <algorithm>

#include "base/text.h"
#include "geom/arcs.h"
#include "model/cloth_words.h"
#include "model/keys.h"
#include "model/load.h"
#include "model/load_ready_made.h"
#include "model/measures.h"
#include "model/reader.h"
#include "model/shapes.h"

namespace dogear {

namespace {

bool plain_name(std::string_view name) {
  return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || is_digit(c) || c == '-';
  });
}

class BlockReader {
 public:
  BlockReader(BlockDef& block, Diagnostics& d) : block_(block), d_(d) {}

  void read(const Node& root) {
    MapReader map(root, keys::block(), d_);
    if (!map.ok()) return;
    block_.span = root.span;
    block_.title = map.need_text("block");
    block_.words = map.text("words");
    block_.filler = map.yes("filler");
    if (map.need("grid") != nullptr) read_grid(map, block_.grid);
    block_.unit = map.length("unit");
    if (const Node* roles = map.need("roles")) {
      read_roles(*roles);
    } else {
      roles_known_ = false;
    }
    if (const Node* units = map.may("units")) read_units(*units);
    block_.whole = read_making(map, block_.id, root.span, block_.grid);
    read_foundation(map, block_.whole, d_);
    map.finish();
    warn_unused();
  }

 private:
  void read_grid(MapReader& map, GridKind& grid) {
    if (const auto choice = map.choice("grid")) {
      grid = *choice == 0 ? GridKind::square : GridKind::triangle;
    }
  }

  void read_roles(const Node& node) {
    const auto* items = read_list(node, "roles", d_);
    roles_known_ = items != nullptr;
    if (items == nullptr) return;
    for (const Node& item : *items) {
      const auto role = read_text(item, "roles", d_);
      if (!role) continue;
      if (std::find(block_.roles.begin(), block_.roles.end(), *role) != block_.roles.end()) {
        d_.error("D115", item.span, "the role `" + *role + "` is listed twice");
        continue;
      }
      block_.roles.push_back(*role);
    }
  }

  void read_units(const Node& node) {
    if (node.kind != Node::Kind::map) {
      d_.error("D103", node.span, "`units` is a map of units by name");
      return;
    }
    for (const Entry& e : node.entries) later_.emplace(e.key, e.key_span);
    for (const Entry& e : node.entries) {
      if (!plain_name(e.key) || e.key == "turned" || e.key == "flipped") {
        d_.error("D118", e.key_span, "`" + e.key + "` cannot name a unit")
            .hints.push_back("use small letters, digits and hyphens: `corner-2`");
        continue;
      }
      MapReader map(e.node(), keys::unit(), "the unit `" + e.key + "`", d_);
      if (!map.ok()) continue;
      GridKind grid = block_.grid;
      if (map.may("grid") != nullptr) read_grid(map, grid);
      UnitDef unit = read_making(map, e.key, e.key_span, grid);
      read_foundation(map, unit, d_);
      map.finish();
      names_.push_back(e.key);
      block_.units.push_back(std::move(unit));
    }
  }

  // How a unit or the block itself is made: exactly one of the keys below.
  UnitDef read_making(MapReader& map, const std::string& name, const Span& span, GridKind grid) {
    UnitDef unit;
    unit.name = name;
    unit.span = span;
    const RoleReader as_role = [this](const Node& n, const std::string& r) { return role(n, r); };
    if (const Node* shape = map.may("shape")) {
      unit.shape_span = shape->span;
      if (ready_made_kind(*shape)) {
        read_ready_made(map, *shape, grid, block_.unit, as_role, unit, d_);
        return unit;
      }
      if (auto s = read_shape(*shape, grid, block_.unit, d_)) {
        unit.shape = std::move(s->outline);
        unit.shape_words = std::move(s->words);
      }
    }
    const Node* corners = map.may("corners");
    if (corners != nullptr) read_corners(*corners, grid, unit);
    const bool shaped = unit.shape_span.line > 0;
    struct Way {
      const char* key;
      Composition how;
      const Node* node;
    };
    std::vector<Way> ways{{"fabric", Composition::fabric, map.may("fabric")},
                          {"bands", Composition::bands, map.may("bands")},
                          {"strip set", Composition::strip_set, map.may("strip set")},
                          {"row", Composition::row, map.may("row")},
                          {"stack", Composition::stack, map.may("stack")},
                          {"place", Composition::place, map.may("place")}};
    std::erase_if(ways, [](const Way& w) { return w.node == nullptr; });
    const Node* grain = map.may("grain");
    const Node* press = map.may("press");
    if (ways.empty() && shaped && map.may("fabrics") != nullptr) {
      // Where the shape is none that is known, its error says enough.
      if (unit.shape) {
        refuse_methods(map, nullptr, unit);
      } else {
        map.may("method");
        map.may("oversize");
      }
      return unit;
    }
    if (ways.empty()) {
      d_.error("D102", span, "nothing says what `" + name + "` is made of")
          .hints.push_back("add one of `fabric`, `bands`, `strip set`, `row`, `stack`, `place`");
      return unit;
    }
    if (ways.size() > 1) {
      Diagnostic& e = d_.error("D116", ways[1].node->span,
                               "`" + name + "` is made in two ways; only one can hold");
      e.notes.push_back({ways[0].node->span, std::string("the other is `") + ways[0].key + "`"});
    }
    unit.how = ways[0].how;
    const Node& node = *ways[0].node;
    if (!shaped && unit.how != Composition::row && unit.how != Composition::stack) {
      d_.error("D102", span, "`" + name + "` needs a `shape`")
          .hints.push_back("for example `shape: triangle 4` or `shape: square 2`");
    }
    const Node* corners_on = map.may("stitched corners");
    refuse_methods(map, corners_on, unit);
    switch (unit.how) {
      case Composition::fabric:
        unit.role = role(node, node.text);
        if (corners_on != nullptr)
          read_stitched_corners(*corners_on, block_.unit, as_role, unit, d_);
        break;
      case Composition::bands:
      case Composition::strip_set:
        read_bands(node, ways[0].key, unit);
        break;
      default:
        read_parts(node, ways[0].key, grid, unit);
    }
    if (grain != nullptr && unit.measured) {
      d_.error("D354", grain->span, "a shape of measured corners is cut along its own base")
          .hints.push_back("give its corners in grid steps, or turn the unit where it is used");
    } else if (grain != nullptr) {
      read_grain(*grain, unit, d_);
    }
    if (press != nullptr) read_press(*press, block_.roles, unit, d_);
    unit.sewing = read_sewing(map, unit, d_);
    return unit;
  }

  // Keys of ready-made units on a unit that is none.
  void refuse_methods(MapReader& map, const Node* corners_on, const UnitDef& unit) {
    for (const char* key : {"fabrics", "method", "oversize"}) {
      const Node* node = map.may(key);
      if (node == nullptr) continue;
      Diagnostic& e = d_.error("D146", node->span,
                               "`" + std::string(key) + "` belongs to a ready-made unit, and `" +
                                   unit.name + "` is none");
      if (unit.shape_span.line > 0) e.notes.push_back({unit.shape_span, "its shape is this one"});
      e.hints.push_back(
          "ready-made units are `half-square triangle unit 2`, `quarter-square "
          "triangle unit 2`, `flying geese 2 x 1` and `square in a square 2`");
    }
    if (corners_on != nullptr && unit.how != Composition::fabric) {
      d_.error("D146", corners_on->span, "corners are stitched on to a shape of one fabric")
          .hints.push_back("write `fabric:` beside `stitched corners:`");
    }
  }

  void read_corners(const Node& node, GridKind grid, UnitDef& unit) {
    if (unit.shape_span.line > 0) {
      d_.error("D116", node.span, "a unit has a `shape` or `corners`, not both")
          .notes.push_back({unit.shape_span, "the shape is here"});
      return;
    }
    unit.shape_span = node.span;
    const auto* items = read_list(node, "corners", d_);
    if (items == nullptr) return;
    Polygon p;
    measured_ = false;
    if (!read_outline(*items, grid, p)) return;
    unit.measured = measured_;
    if (!is_simple(p)) {
      d_.error("D112", node.span, "these corners do not go once round a shape")
          .hints.push_back("list at least three corners in the order in which they are met");
      return;
    }
    if (too_large(p, node.span, d_)) return;
    unit.shape_at = bounds(p).least;
    unit.shape = at_origin(p);
    unit.shape_words = !unit.shape->arcs.empty() ? "curved shape"
                       : unit.shape->size() == 3 ? "triangle"
                                                 : "shape";
  }

  // Points, and between two of them `{around: [0, 0]}` where the edge is an arc.
  bool read_outline(const std::vector<Node>& items, GridKind grid, Polygon& p) {
    struct Curve {
      Point center;
      std::size_t before;  // the corner it leads to
      Span span;
    };
    std::vector<Curve> curves;
    for (const Node& item : items) {
      if (item.kind != Node::Kind::map) {
        const auto point = read_point(item, grid);
        if (!point) return false;
        p.corners.push_back(*point);
        continue;
      }
      MapReader map(item, keys::arc(), d_);
      const Node* around = map.need("around");
      map.finish();
      const auto center = around == nullptr ? std::nullopt : read_point(*around, grid);
      if (!center) return false;
      curves.push_back({*center, p.size(), item.span});
    }
    for (auto curve = curves.rbegin(); curve != curves.rend(); ++curve) {
      const auto between =
          curve->before == 0 || p.size() < 2
              ? std::nullopt
              : arc_points(curve->center, p.at(curve->before - 1), p.at(curve->before));
      if (!between) {
        d_.error("D122", curve->span,
                 "an arc runs between two corners that lie equally far from `around`, a multiple "
                 "of 15 degrees and less than half a circle apart")
            .hints.push_back(
                "for a quarter circle: `corners: [[0, 0], [2, 0], {around: [0, 0]}, [0, 2]]`");
        return false;
      }
      const Point spoke = p.at(curve->before) - curve->center;
      p.arcs.push_back({curve->center, dot(spoke, spoke)});
      p.corners.insert(p.corners.begin() + static_cast<std::ptrdiff_t>(curve->before),
                       between->begin(), between->end());
    }
    return true;
  }

  std::optional<Point> read_point(const Node& node, GridKind grid) {
    const auto fail = [&]() {
      d_.error("D105", node.span, "a grid point is two numbers: `[2, 0]`");
      return std::nullopt;
    };
    if (node.kind != Node::Kind::list || node.items.size() != 2) return fail();
    std::vector<Exact> numbers;
    for (const Node& n : node.items) {
      if (n.kind != Node::Kind::scalar) return fail();
      auto value = parse_measure(n.text);
      if (!value && grid == GridKind::square) {
        // A measured length stands for itself, whatever a grid step is.
        LengthError error;
        if (const auto length = parse_length(n.text, error)) {
          value = length->inches / block_.unit;
          measured_ = true;
        }
      }
      if (!value) return fail();
      numbers.push_back(*value);
    }
    return grid_point(grid, block_.unit, numbers[0], numbers[1]);
  }

  std::string role(const Node& node, const std::string& name) {
    if (node.kind != Node::Kind::scalar) {
      d_.error("D103", node.span, std::string("a role is needed here, not ") + node.kind_name());
    } else if (std::find(block_.roles.begin(), block_.roles.end(), name) == block_.roles.end()) {
      // Where the list of roles itself is at fault, its error says enough.
      if (!roles_known_) return name;
      unknown_name("D108", node.span, "role", name, block_.roles, d_);
    } else {
      used_roles_.push_back(name);
    }
    return name;
  }

  void read_bands(const Node& node, const char* key, UnitDef& unit) {
    const auto* items = read_list(node, key, d_);
    if (items == nullptr) return;
    for (const Node& item : *items) {
      const auto text = read_text(item, key, d_);
      if (!text) continue;
      const auto blank = text->find(' ');
      const auto width = blank == std::string::npos
                             ? std::nullopt
                             : parse_measure(std::string_view(*text).substr(blank));
      if (!width || width->sign() <= 0) {
        d_.error("D105", item.span, "`" + *text + "` does not say how wide this strip finishes")
            .hints.push_back("write a role and its width in grid steps: `light 2`");
        continue;
      }
      BandSpec band;
      band.role = role(item, text->substr(0, blank));
      band.width = *width * block_.unit;
      band.span = item.span;
      unit.bands.push_back(std::move(band));
    }
  }

  // "ray", "ray turned" (a half turn), "ray turned 120", "ray flipped" or "ray turned 90 flipped".
  bool read_turning(const Node& item, PartRef& part) {
    const auto text = read_text(item, "row", d_);
    if (!text) return false;
    std::vector<std::string> words;
    for (const std::string& w : split(*text, ' ')) {
      if (!w.empty()) words.push_back(w);
    }
    part.unit = words[0];
    part.span = item.span;
    if (const auto flip = std::find(words.begin() + 1, words.end(), "flipped");
        flip != words.end()) {
      part.flipped = true;
      words.erase(flip);
    }
    if (words.size() > 3 || (words.size() > 1 && words[1] != "turned")) {
      d_.error("D106", item.span, "`" + *text + "` is not a unit and how it is turned")
          .hints.push_back("write `" + part.unit + "`, `" + part.unit +
                           " turned` (a half turn), `" + part.unit + " turned 90` or `" +
                           part.unit + " flipped` (its mirror image)");
      return false;
    }
    if (words.size() > 1) part.turn = 12;
    if (words.size() == 3) {
      LengthError error;
      const auto degrees = parse_number(words[2], error);
      if (!degrees || degrees->den != 1 || degrees->num % 15 != 0 || degrees->num > 345) {
        d_.error("D105", item.span, "a unit turns by a multiple of 15 degrees, below 360")
            .hints.push_back(
                "degrees run clockwise and stand without a sign: a quarter to the left is `" +
                part.unit + " turned 270`");
        return false;
      }
      part.turn = static_cast<int>(degrees->num / 15);
    }
    if (std::find(names_.begin(), names_.end(), part.unit) == names_.end()) {
      const auto later = later_.find(part.unit);
      if (later != later_.end()) {
        Diagnostic& e = d_.error("D109", item.span,
                                 "the unit `" + part.unit + "` is not made yet where it is used");
        e.notes.push_back({later->second, "it is made here; move it up"});
        return false;
      }
      unknown_name("D109", item.span, "unit above here", part.unit, names_, d_);
      return false;
    }
    used_units_.push_back(part.unit);
    return true;
  }

  void read_parts(const Node& node, const char* key, GridKind grid, UnitDef& unit) {
    const auto* items = read_list(node, key, d_);
    if (items == nullptr) return;
    for (const Node& item : *items) {
      PartRef part;
      if (unit.how != Composition::place) {
        if (read_turning(item, part)) unit.parts.push_back(std::move(part));
        continue;
      }
      MapReader map(item, keys::placed_unit(), d_);
      if (!map.ok()) continue;
      const Node* what = map.need("unit");
      const Node* at = map.need("at");
      if (what != nullptr && at != nullptr && read_turning(*what, part)) {
        part.at = read_point(*at, grid);
        if (part.at) unit.parts.push_back(std::move(part));
      }
      map.finish();
    }
  }

  void warn_unused() {
    if (d_.has_errors()) return;
    for (const UnitDef& u : block_.units) {
      if (std::find(used_units_.begin(), used_units_.end(), u.name) == used_units_.end()) {
        d_.warning("D151", u.span, "the unit `" + u.name + "` is never used");
      }
    }
    for (const std::string& r : block_.roles) {
      if (std::find(used_roles_.begin(), used_roles_.end(), r) == used_roles_.end()) {
        d_.warning("D152", block_.span, "the role `" + r + "` is never used");
      }
    }
  }

  BlockDef& block_;
  Diagnostics& d_;
  bool roles_known_ = true;
  bool measured_ = false;              // some corner read was a length
  std::map<std::string, Span> later_;  // every unit of the file and where it stands
  std::vector<std::string> names_;
  std::vector<std::string> used_units_;
  std::vector<std::string> used_roles_;
};

}  // namespace

BlockDef read_block(const std::string& id, const Node& root, Diagnostics& diagnostics) {
  BlockDef block;
  block.id = id;
  BlockReader(block, diagnostics).read(root);
  return block;
}

}  // namespace dogear
