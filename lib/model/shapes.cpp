#include "model/shapes.h"

#include <array>

#include "base/text.h"
#include "model/reader.h"

namespace dogear {

namespace {

// How wide a 60° triangle is at a depth of one below its tip: 2/√3.
Exact spread() { return Exact(2) / Exact::sqrt3(); }

Polygon trapezoid(const Exact& from, const Exact& to) {
  const Exact top = from * spread();
  const Exact bottom = to * spread();
  const Exact inset = (bottom - top) / Exact(2);
  Polygon p;
  p.corners = {
      {inset, Exact(0)}, {inset + top, Exact(0)}, {bottom, to - from}, {Exact(0), to - from}};
  if (top.is_zero()) p.corners.erase(p.corners.begin());
  return p;
}

struct Named {
  const char* name;
  const char* measures;  // "n" one number, "nxn" two with x, "nton" two with to
  GridKind grid;
  const char* words;
};

constexpr std::array<Named, 10> shapes{{
    {"triangle", "n", GridKind::triangle, "60° triangle"},
    {"trapezoid", "nton", GridKind::triangle, "60° trapezoid"},
    {"half-hexagon", "n", GridKind::triangle, "half-hexagon"},
    {"hexagon", "n", GridKind::triangle, "hexagon"},
    {"diamond", "n", GridKind::triangle, "60° diamond"},
    {"half-triangle", "n", GridKind::triangle, "half-triangle"},
    {"square", "n", GridKind::square, "square"},
    {"rectangle", "nxn", GridKind::square, "rectangle"},
    {"half-square-triangle", "n", GridKind::square, "half-square triangle"},
    {"quarter-square-triangle", "n", GridKind::square, "quarter-square triangle"},
}};

Polygon build(const std::string& name, const Exact& a, const Exact& b) {
  const Exact z = 0;
  const Exact half = Exact::ratio(1, 2);
  if (name == "triangle") return trapezoid(z, a);
  if (name == "trapezoid") return trapezoid(a, b);
  if (name == "half-hexagon") return trapezoid(a, a * Exact(2));
  const Exact s = a * spread();
  if (name == "hexagon") {
    return {{{s * half, z},
             {s * Exact::ratio(3, 2), z},
             {s * Exact(2), a},
             {s * Exact::ratio(3, 2), a * Exact(2)},
             {s * half, a * Exact(2)},
             {z, a}}};
  }
  if (name == "diamond") return {{{s * half, z}, {s * Exact::ratio(3, 2), z}, {s, a}, {z, a}}};
  if (name == "half-triangle") return {{{z, z}, {s * half, a}, {z, a}}};
  if (name == "half-square-triangle") return {{{z, z}, {a, a}, {z, a}}};
  if (name == "quarter-square-triangle") return {{{a * half, z}, {a, a * half}, {z, a * half}}};
  return {{{z, z}, {a, z}, {a, b}, {z, b}}};  // square, rectangle
}

}  // namespace

Point grid_point(GridKind grid, const Exact& unit, const Exact& i, const Exact& j) {
  if (grid == GridKind::square) return {i * unit, j * unit};
  const Exact side = unit * spread();
  return {side * (i + j / Exact(2)), unit * j};
}

Polygon at_origin(const Polygon& p) {
  const Box box = bounds(p);
  return tidy(Transform::moved(Point{} - box.least).apply(p));
}

bool too_large(const Polygon& p, const Span& span, Diagnostics& diagnostics) {
  const Box box = bounds(p);
  const Exact limit = 10000;
  if (box.width() <= limit && box.height() <= limit) return false;
  diagnostics.error("D114", span, "this shape is beyond any quilt (10,000 in at most)");
  return true;
}

std::optional<Shape> read_shape(const Node& node, GridKind grid, const Exact& unit,
                                Diagnostics& diagnostics) {
  const auto text = read_text(node, "shape", diagnostics);
  if (!text) return std::nullopt;
  std::string written = *text;
  // "2 × 4" is how a size is printed.
  if (const auto times = written.find("×"); times != std::string::npos)
    written.replace(times, 2, "x");
  std::string name(trim(written));
  std::string measures;
  const auto digit = name.find_first_of("0123456789");
  if (digit != std::string::npos) {
    measures = std::string(trim(std::string_view(name).substr(digit)));
    name = std::string(trim(std::string_view(name).substr(0, digit)));
  }
  for (char& c : name) {
    if (c == ' ') c = '-';
  }
  const Named* found = nullptr;
  std::vector<std::string> known;
  for (const Named& n : shapes) {
    known.emplace_back(n.name);
    if (name == n.name) found = &n;
  }
  if (found == nullptr) {
    unknown_name("D112", node.span, "shape", name, known, diagnostics);
    return std::nullopt;
  }
  if (found->grid != grid) {
    diagnostics.error("D112", node.span, "a " + name + " does not lie on this block's grid")
        .hints.push_back(found->grid == GridKind::triangle
                             ? "write `grid: triangle` in the block, or choose a square shape"
                             : "write `grid: square` in the block, or choose a 60° shape");
    return std::nullopt;
  }
  const std::string kind = found->measures;
  const std::string separator = kind == "nxn" ? "x" : kind == "nton" ? "to" : "";
  std::string second;
  if (!separator.empty()) {
    const auto at = measures.find(separator);
    if (at != std::string::npos) {
      second = std::string(trim(std::string_view(measures).substr(at + separator.size())));
      measures = std::string(trim(std::string_view(measures).substr(0, at)));
    }
  }
  LengthError error;
  const auto a = parse_number(measures, error);
  const auto b = separator.empty() ? a : parse_number(second, error);
  if (!a || !b || a->num < 0 || b->num <= 0 || (a->num == 0 && kind != "nton")) {
    const std::string sample = kind == "nxn"    ? "rectangle 2 x 4"
                               : kind == "nton" ? "trapezoid 2 to 4"
                                                : std::string(found->name) + " 4";
    diagnostics.error("D112", node.span, "`" + *text + "` has no measure that can be read")
        .hints.push_back("measures are counted in grid steps: `" + sample + "`");
    return std::nullopt;
  }
  if (kind == "nton" && Exact(*b) <= Exact(*a)) {
    diagnostics.error("D112", node.span, "a trapezoid runs from the smaller to the larger measure");
    return std::nullopt;
  }
  Shape shape{tidy(build(name, Exact(*a) * unit, Exact(*b) * unit)), found->words};
  if (too_large(shape.outline, node.span, diagnostics)) return std::nullopt;
  return shape;
}

}  // namespace dogear
