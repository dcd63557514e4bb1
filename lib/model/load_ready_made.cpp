#include "model/load_ready_made.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "model/keys.h"
#include "model/measures.h"
#include "model/shapes.h"

namespace dogear {

namespace {

struct Kind {
  ReadyMade kind;
  std::string_view name;    // of its shape, as the designer writes it
  std::string_view sample;  // with measures
  std::vector<Method> methods;
  std::size_t least, most;  // fabrics
  std::string_view order;   // of the fabrics, for hints
};

const std::array<Kind, 4>& kinds() {
  static const std::array<Kind, 4> all{{
      {ReadyMade::half_square,
       "half-square triangle unit",
       "half-square triangle unit 2",
       {Method::one_at_a_time, Method::two_at_a_time, Method::eight_at_a_time},
       2,
       2,
       "list the one at the bottom left first: `fabrics: [light, dark]`"},
      {ReadyMade::quarter_square,
       "quarter-square triangle unit",
       "quarter-square triangle unit 2",
       {Method::one_at_a_time, Method::two_at_a_time},
       2,
       4,
       "list two (top and bottom, then the sides), three (top, sides, bottom) or four (clockwise "
       "from the top)"},
      {ReadyMade::flying_geese,
       "flying geese",
       "flying geese 2 x 1",
       {Method::one_at_a_time, Method::four_at_a_time, Method::stitched_corners},
       2,
       2,
       "list the goose first, then its sky: `fabrics: [goose, sky]`"},
      {ReadyMade::square_in_square,
       "square in a square",
       "square in a square 2",
       {Method::one_at_a_time},
       2,
       2,
       "list the center first, then the corners: `fabrics: [center, corners]`"},
  }};
  return all;
}

const Kind& kind_of(ReadyMade kind) {
  return *std::find_if(kinds().begin(), kinds().end(),
                       [&](const Kind& k) { return k.kind == kind; });
}

constexpr std::array<std::string_view, 5> methods{
    "one at a time", "two at a time", "four at a time", "eight at a time", "stitched corners"};
constexpr std::array<std::string_view, 4> corners{"top left", "top right", "bottom right",
                                                  "bottom left"};

struct Words {
  std::string name, measures;
};

// "Flying geese 2 × 1" is told apart into its name and its measures.
Words parted(const std::string& text) {
  std::string written = text;
  if (const auto times = written.find("×"); times != std::string::npos) {
    written.replace(times, 2, "x");
  }
  const auto digit = std::min(first_number(written), written.size());
  Words out{std::string(trim(std::string_view(written).substr(0, digit))),
            std::string(trim(std::string_view(written).substr(digit)))};
  std::replace(out.name.begin(), out.name.end(), ' ', '-');
  return out;
}

std::string with_dashes(std::string_view name) {
  std::string out(name);
  std::replace(out.begin(), out.end(), ' ', '-');
  return out;
}

// Width and height in grid steps; the second is the first where only one is asked for.
std::optional<std::pair<Exact, Exact>> read_measures(const std::string& text, bool two) {
  std::string first = text;
  std::string second;
  if (two) {
    const auto at = text.find('x');
    if (at == std::string::npos) return std::nullopt;
    first = std::string(trim(std::string_view(text).substr(0, at)));
    second = std::string(trim(std::string_view(text).substr(at + 1)));
  }
  const auto a = parse_measure(first);
  const auto b = two ? parse_measure(second) : a;
  if (!a || !b || a->sign() <= 0 || b->sign() <= 0) return std::nullopt;
  return std::pair(*a, *b);
}

std::string quoted(const std::vector<Method>& list) {
  std::string out;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (i > 0) out += i + 1 == list.size() ? " or " : ", ";
    out += "`" + std::string(method_words(list[i])) + "`";
  }
  return out;
}

// "flying geese" are many, the others one.
std::string with_article(const Kind& kind) {
  return (kind.kind == ReadyMade::flying_geese ? "" : "a ") + std::string(kind.name);
}

void read_outline(const Node& shape, const Kind& kind, GridKind grid, const Exact& step,
                  UnitDef& unit, Diagnostics& d) {
  if (grid != GridKind::square) {
    d.error("D112", shape.span,
            "`" + std::string(kind.name) + "` does not lie on the triangle grid")
        .hints.push_back("write `grid: square` in the unit");
    return;
  }
  const bool two = kind.kind == ReadyMade::flying_geese;
  const auto measures = read_measures(parted(shape.text).measures, two);
  if (!measures) {
    d.error("D112", shape.span, "`" + shape.text + "` has no measure that can be read")
        .hints.push_back("measures are counted in grid steps: `" + std::string(kind.sample) + "`");
    return;
  }
  const auto& [w, h] = *measures;
  if (two && w != h * Exact(2)) {
    d.error("D145", shape.span, "flying geese are twice as wide as they are high")
        .hints.push_back(
            "a goose is half a square, so that its point is square: `flying geese 2 "
            "x 1`, `flying geese 3 x 1 1/2`");
    return;
  }
  Polygon outline = rectangle(w * step, h * step);
  if (too_large(outline, shape.span, d)) return;
  unit.shape = std::move(outline);
  unit.shape_words = std::string(kind.name);
}

void read_fabrics(const Node& node, const Kind& kind, const RoleReader& role, ReadyMadeDef& ready,
                  Diagnostics& d) {
  const auto* items = read_list(node, "fabrics", d);
  if (items == nullptr) return;
  for (const Node& item : *items) ready.roles.push_back(role(item, item.text));
  const bool pair = ready.method == Method::two_at_a_time;
  const std::size_t most = pair ? 2 : kind.most;
  if (items->size() >= kind.least && items->size() <= most) return;
  const std::string wanted = kind.least == most ? "two" : pair ? "just two" : "two to four";
  d.error("D141", node.span,
          "for " + with_article(kind) + (pair ? " made two at a time " : " ") + wanted +
              " fabrics are needed, " + std::to_string(items->size()) +
              (items->size() == 1 ? " is listed" : " are listed"))
      .hints.push_back(std::string(kind.order));
}

void read_method(const Node& node, const Kind& kind, ReadyMadeDef& ready, Diagnostics& d) {
  const auto text = read_text(node, "method", d);
  if (!text) return;
  for (std::size_t i = 0; i < methods.size(); ++i) {
    if (*text != methods[i]) continue;
    ready.method = static_cast<Method>(i);
    if (std::find(kind.methods.begin(), kind.methods.end(), ready.method) != kind.methods.end()) {
      return;
    }
  }
  Diagnostic& e =
      d.error("D140", node.span, "`" + *text + "` is no method of making " + with_article(kind));
  std::vector<std::string> known;
  for (const Method m : kind.methods) known.emplace_back(method_words(m));
  const bool exists = std::find(methods.begin(), methods.end(), *text) != methods.end();
  if (const std::string near = nearest(*text, known); !exists && !near.empty()) {
    e.hints.push_back("did you mean `" + near + "`?");
  }
  e.hints.push_back("known: " + quoted(kind.methods));
}

}  // namespace

std::string_view method_words(Method method) { return methods[static_cast<std::size_t>(method)]; }

std::string_view corner_words(int at) { return corners[static_cast<std::size_t>(at)]; }

bool is_trimmed(Method method) {
  return method == Method::two_at_a_time || method == Method::four_at_a_time ||
         method == Method::eight_at_a_time;
}

std::optional<ReadyMade> ready_made_kind(const Node& shape) {
  if (shape.kind != Node::Kind::scalar) return std::nullopt;
  const std::string name = parted(shape.text).name;
  for (const Kind& k : kinds()) {
    if (name == with_dashes(k.name)) return k.kind;
  }
  return std::nullopt;
}

std::vector<std::string> ready_made_names() {
  std::vector<std::string> out;
  for (const Kind& k : kinds()) out.push_back(with_dashes(k.name));
  return out;
}

void read_ready_made(MapReader& map, const Node& shape, GridKind grid, const Exact& step,
                     const RoleReader& role, UnitDef& unit, Diagnostics& d) {
  const Kind& kind = kind_of(*ready_made_kind(shape));
  unit.how = Composition::ready_made;
  unit.ready.emplace();
  ReadyMadeDef& ready = *unit.ready;
  ready.kind = kind.kind;
  read_outline(shape, kind, grid, step, unit, d);
  for (const char* key :
       {"corners", "fabric", "bands", "strip set", "row", "stack", "place", "stitched corners"}) {
    const Node* other = map.may(key);
    if (other == nullptr) continue;
    Diagnostic& e = d.error("D146", other->span,
                            "`" + std::string(key) + "` cannot stand beside a ready-made unit");
    e.notes.push_back({shape.span, "this says already what `" + unit.name + "` is made of"});
    e.hints.push_back(std::string(kind.order));
  }
  if (const Node* method = map.may("method")) read_method(*method, kind, ready, d);
  if (const Node* fabrics = map.may("fabrics")) {
    read_fabrics(*fabrics, kind, role, ready, d);
  } else {
    d.error("D102", unit.span, "`" + unit.name + "` needs `fabrics`")
        .hints.push_back(std::string(kind.order));
  }
  if (const Node* oversize = map.may("oversize")) {
    ready.oversize = map.length("oversize");
    if (!is_trimmed(ready.method)) {
      Diagnostic& e =
          d.error("D142", oversize->span,
                  "units made " +
                      std::string(ready.method == Method::one_at_a_time ? "one at a time"
                                                                        : "with stitched corners") +
                      " are not trimmed, so nothing is cut larger");
      e.hints.push_back("leave `oversize` out, or choose a method that makes several at a time");
    }
  }
}

void read_stitched_corners(const Node& node, const Exact& step, const RoleReader& role,
                           UnitDef& unit, Diagnostics& d) {
  unit.how = Composition::ready_made;
  unit.ready.emplace();
  ReadyMadeDef& ready = *unit.ready;
  ready.kind = ReadyMade::cornered;
  ready.method = Method::stitched_corners;
  ready.roles = {unit.role};
  MapReader map(node, keys::stitched_corners(), d);
  if (!map.ok()) return;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Node* item = map.may(corners[i]);
    if (item == nullptr) continue;
    const auto text = read_text(*item, corners[i], d);
    if (!text) continue;
    const auto blank = text->find(' ');
    const auto leg = blank == std::string::npos
                         ? std::nullopt
                         : parse_measure(trim(std::string_view(*text).substr(blank)));
    if (!leg || leg->sign() <= 0) {
      d.error("D105", item->span, "`" + *text + "` does not say how far this corner reaches")
          .hints.push_back("write a role and the corner's two sides in grid steps: `dark 1/2`");
      continue;
    }
    StitchedCorner corner;
    corner.at = static_cast<int>(i);
    corner.role = role(*item, text->substr(0, blank));
    corner.leg = *leg * step;
    corner.span = item->span;
    ready.corners.push_back(std::move(corner));
  }
  map.finish();
  if (ready.corners.empty() && !d.has_errors()) {
    d.error("D102", node.span, "`stitched corners` names no corner")
        .hints.push_back("for example `stitched corners: {top left: dark 1/2}`");
  }
}

}  // namespace dogear
