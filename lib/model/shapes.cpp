#include "model/shapes.h"

#include <array>

#include "base/text.h"
#include "geom/arcs.h"
#include "model/load_ready_made.h"
#include "model/measures.h"
#include "model/reader.h"

namespace dogear {

namespace {

// How wide a 60° triangle is at a depth of one below its tip: 2/√3.
Exact spread() { return Exact(2) / Exact::sqrt3(); }

// Half the width of a 45° wedge at a depth of one below its tip: the tangent of 22 1/2°.
Exact half_wedge() { return Exact::sqrt2() - Exact(1); }

// Two level edges, the upper one in the middle of the lower.
Polygon trapezoid(const Exact& top, const Exact& bottom, const Exact& height) {
  const Exact inset = (bottom - top) / Exact(2);
  Polygon p;
  p.corners = {{inset, Exact(0)}, {inset + top, Exact(0)}, {bottom, height}, {Exact(0), height}};
  if (top.is_zero()) p.corners.erase(p.corners.begin());
  return p;
}

// Its upper edge lies `shift` further right than the lower one.
Polygon slanted(const Exact& base, const Exact& height, const Exact& shift) {
  return {{{shift, Exact(0)}, {shift + base, Exact(0)}, {base, height}, {Exact(0), height}}};
}

// Goes on from the last corner along a circle.
void add_arc(Polygon& p, const Point& center, const Point& to) {
  if (const auto between = arc_points(center, p.corners.back(), to)) {
    p.corners.insert(p.corners.end(), between->begin(), between->end());
  }
  p.corners.push_back(to);
}

enum class Measures { one, two, from_to };

struct Named {
  const char* name;
  Measures measures;
  GridKind grid;
  const char* words;
};

constexpr GridKind on_square = GridKind::square;
constexpr GridKind on_triangle = GridKind::triangle;

constexpr std::array shapes{
    Named{"triangle", Measures::one, on_triangle, "60° triangle"},
    Named{"trapezoid", Measures::from_to, on_triangle, "60° trapezoid"},
    Named{"half-hexagon", Measures::one, on_triangle, "half-hexagon"},
    Named{"hexagon", Measures::one, on_triangle, "hexagon"},
    Named{"diamond", Measures::one, on_triangle, "60° diamond"},
    Named{"diamond-side", Measures::one, on_triangle, "60° diamond"},
    Named{"parallelogram", Measures::two, on_triangle, "60° parallelogram"},
    Named{"kite", Measures::one, on_triangle, "60° kite"},
    Named{"half-triangle", Measures::one, on_triangle, "half-triangle"},
    Named{"rectangle", Measures::two, on_triangle, "rectangle"},
    Named{"square", Measures::one, on_square, "square"},
    Named{"rectangle", Measures::two, on_square, "rectangle"},
    Named{"half-square-triangle", Measures::one, on_square, "half-square triangle"},
    Named{"quarter-square-triangle", Measures::one, on_square, "quarter-square triangle"},
    Named{"half-rectangle-triangle", Measures::two, on_square, "half-rectangle triangle"},
    Named{"trapezoid", Measures::from_to, on_square, "45° trapezoid"},
    Named{"parallelogram", Measures::two, on_square, "45° parallelogram"},
    Named{"diamond", Measures::one, on_square, "45° diamond"},
    Named{"diamond-side", Measures::one, on_square, "45° diamond"},
    Named{"kite", Measures::one, on_square, "45° kite"},
    Named{"octagon", Measures::one, on_square, "octagon"},
    Named{"quarter-circle", Measures::one, on_square, "quarter circle"},
    Named{"quarter-circle-background", Measures::from_to, on_square, "quarter-circle background"},
    Named{"kaleidoscope-wedge", Measures::one, on_square, "kaleidoscope wedge"},
};

// Measures in inches; for one measure b is a, from_to runs from a to b.
Polygon build_on_triangles(const std::string& name, const Exact& a, const Exact& b) {
  const Exact z = 0;
  const Exact half = Exact::ratio(1, 2);
  const Exact s = a * spread();
  if (name == "triangle") return trapezoid(z, s, a);
  if (name == "trapezoid") return trapezoid(s, b * spread(), b - a);
  if (name == "half-hexagon") return trapezoid(s, s * Exact(2), a);
  if (name == "hexagon") {
    return {{{s * half, z},
             {s * Exact::ratio(3, 2), z},
             {s * Exact(2), a},
             {s * Exact::ratio(3, 2), a * Exact(2)},
             {s * half, a * Exact(2)},
             {z, a}}};
  }
  if (name == "diamond") return slanted(s, a, s * half);
  if (name == "diamond-side") return slanted(a, a / spread(), a * half);
  if (name == "parallelogram") return slanted(s, b, b * spread() * half);
  if (name == "kite") {
    // Long edges a at 30° to either side of the axis, short ones square to them.
    const Exact down = a / spread();
    return {{{a * half, z}, {a, down}, {a * half, s}, {z, down}}};
  }
  if (name == "half-triangle") return {{{z, z}, {s * half, a}, {z, a}}};
  return {{{z, z}, {s, z}, {s, b}, {z, b}}};  // rectangle: sides of triangles wide
}

Polygon build_on_squares(const std::string& name, const Exact& a, const Exact& b) {
  const Exact z = 0;
  const Exact half = Exact::ratio(1, 2);
  if (name == "half-square-triangle") return {{{z, z}, {a, a}, {z, a}}};
  if (name == "quarter-square-triangle") return trapezoid(z, a, a * half);
  if (name == "half-rectangle-triangle") return {{{z, z}, {a, b}, {z, b}}};
  if (name == "trapezoid") return trapezoid(a, b, (b - a) * half);
  if (name == "parallelogram") return slanted(a, b, b);
  if (name == "diamond") return slanted(a * Exact::sqrt2(), a, a);
  if (name == "diamond-side") {
    const Exact high = a / Exact::sqrt2();
    return slanted(a, high, high);
  }
  if (name == "kite") {
    // One long edge along the strip, the other at 45° to it; short ones square to both.
    const Exact high = a / Exact::sqrt2();
    return {{{high, z}, {a, high - a * half_wedge()}, {a, high}, {z, high}}};
  }
  if (name == "octagon") {
    const Exact c = a * (Exact(2) - Exact::sqrt2()) * half;
    return {{{c, z}, {a - c, z}, {a, c}, {a, a - c}, {a - c, a}, {c, a}, {z, a - c}, {z, c}}};
  }
  if (name == "quarter-circle") {
    Polygon p{{{z, a}, {z, z}}, {{{z, a}, a * a}}};
    add_arc(p, {z, a}, {a, a});
    return p;
  }
  if (name == "quarter-circle-background") {
    Polygon p{{{z, z}, {b, z}, {b, b}, {a, b}}, {{{z, b}, a * a}}};
    add_arc(p, {z, b}, {z, b - a});
    return p;
  }
  if (name == "kaleidoscope-wedge") return trapezoid(z, a * half_wedge(), a * half);
  return {{{z, z}, {a, z}, {a, b}, {z, b}}};  // square, rectangle
}

// "diamond" for "45° diamond"; the angle must be the grid's own.
std::string without_angle(std::string name, std::optional<GridKind>& wants) {
  for (const auto& [angle, grid] : {std::pair("45°", on_square), std::pair("60°", on_triangle)}) {
    if (!starts_with(name, angle)) continue;
    wants = grid;
    name = std::string(trim(std::string_view(name).substr(std::string_view(angle).size())));
  }
  return name;
}

std::string sample(const Named& shape) {
  std::string name = shape.name;
  for (char& c : name) {
    if (c == '-' && name.find("half-") != 0) c = ' ';
  }
  const char* measures = shape.measures == Measures::two       ? " 4 x 2"
                         : shape.measures == Measures::from_to ? " 2 to 4"
                                                               : " 4";
  return name + measures;
}

}  // namespace

Point grid_point(GridKind grid, const Exact& unit, const Exact& i, const Exact& j) {
  if (grid == GridKind::square) return {i * unit, j * unit};
  const Exact side = unit * spread();
  return {side * (i + j / Exact(2)), unit * j};
}

Polygon rectangle(const Exact& width, const Exact& height) {
  return {{{Exact(0), Exact(0)}, {width, Exact(0)}, {width, height}, {Exact(0), height}}};
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
    written.replace(times, std::string_view("×").size(), "x");
  std::optional<GridKind> wants;
  std::string name = without_angle(std::string(trim(written)), wants);
  std::string measures;
  if (const auto at = first_number(name); at != std::string::npos) {
    measures = std::string(trim(std::string_view(name).substr(at)));
    name = std::string(trim(std::string_view(name).substr(0, at)));
  }
  for (char& c : name) {
    if (c == ' ') c = '-';
  }
  const Named* found = nullptr;
  const Named* elsewhere = nullptr;
  std::vector<std::string> known;
  for (const Named& n : shapes) {
    if (known.empty() || known.back() != n.name) known.emplace_back(n.name);
    if (name != n.name) continue;
    (n.grid == grid && wants.value_or(grid) == grid ? found : elsewhere) = &n;
  }
  for (std::string& ready : ready_made_names()) known.push_back(std::move(ready));
  if (found == nullptr && elsewhere == nullptr) {
    unknown_name("D112", node.span, "shape", name, known, diagnostics);
    return std::nullopt;
  }
  if (found == nullptr) {
    const GridKind needed = wants.value_or(elsewhere->grid);
    const char* angle = !wants ? "" : *wants == on_square ? "45° " : "60° ";
    diagnostics
        .error("D112", node.span,
               "a " + std::string(angle) + name + " does not lie on this " +
                   (grid == on_square ? "square" : "triangle") + " grid")
        .hints.push_back(needed == on_triangle
                             ? "write `grid: triangle` in the unit, or choose a square shape"
                             : "write `grid: square` in the unit, or choose a 60° shape");
    return std::nullopt;
  }
  const std::string_view separator = found->measures == Measures::two       ? "x"
                                     : found->measures == Measures::from_to ? "to"
                                                                            : "";
  std::string second;
  if (!separator.empty()) {
    const auto at = measures.find(separator);
    if (at != std::string::npos) {
      second = std::string(trim(std::string_view(measures).substr(at + separator.size())));
      measures = std::string(trim(std::string_view(measures).substr(0, at)));
    }
  }
  const auto a = parse_measure(measures);
  const auto b = separator.empty() ? a : parse_measure(second);
  const bool may_be_zero = found->measures == Measures::from_to;
  if (!a || !b || a->sign() < 0 || b->sign() <= 0 || (a->is_zero() && !may_be_zero)) {
    diagnostics.error("D112", node.span, "`" + *text + "` has no measure that can be read")
        .hints.push_back("measures are counted in grid steps: `" + sample(*found) + "`");
    return std::nullopt;
  }
  if (may_be_zero && (*b <= *a || (a->is_zero() && name != "trapezoid"))) {
    diagnostics.error("D112", node.span,
                      "a " + std::string(found->words) +
                          " is written with the smaller measure first: `" + sample(*found) + "`");
    return std::nullopt;
  }
  const auto build = grid == on_square ? build_on_squares : build_on_triangles;
  Shape shape{tidy(build(name, *a * unit, *b * unit)), found->words};
  if (too_large(shape.outline, node.span, diagnostics)) return std::nullopt;
  return shape;
}

}  // namespace dogear
