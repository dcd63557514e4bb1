#pragma once
// The finished drawing: a list of things with absolute positions, which every exporter reads.
//
// Units are points (1/72 in). x grows to the right and y DOWN from the top left corner, as in SVG.
// Angles are in degrees and turn clockwise on the page. Order of items is order of painting.

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace dogear::canvas {

struct Color {
  double r = 0, g = 0, b = 0;  // 0..1, sRGB

  static std::optional<Color> parse(std::string_view hex);  // "#rrggbb" or "#rgb"
  static Color gray(double v) { return {v, v, v}; }
  std::string hex() const;   // "#rrggbb"
  double luminance() const;  // relative luminance of WCAG 2, 0 black to 1 white
  bool operator==(const Color&) const = default;
};
inline constexpr Color black{0, 0, 0};
inline constexpr Color white{1, 1, 1};
double contrast(const Color& a, const Color& b);  // of WCAG 2, 1 to 21

struct Point {
  double x = 0, y = 0;
  bool operator==(const Point&) const = default;
};

// A box with sides along the axes; the default one is empty and includes nothing.
struct Rect {
  double left = 0, top = 0, right = -1, bottom = -1;

  static Rect of(double x, double y, double width, double height) {
    return {x, y, x + width, y + height};
  }
  bool empty() const { return right < left || bottom < top; }
  double width() const { return empty() ? 0 : right - left; }
  double height() const { return empty() ? 0 : bottom - top; }
  Point center() const { return {(left + right) / 2, (top + bottom) / 2}; }
  void add(Point p);
  void add(const Rect& r);
  Rect grown(double by) const;
  bool operator==(const Rect&) const = default;
};

// x' = a x + c y + e, y' = b x + d y + f.
struct Transform {
  double a = 1, b = 0, c = 0, d = 1, e = 0, f = 0;

  static Transform move(double dx, double dy) { return {1, 0, 0, 1, dx, dy}; }
  static Transform scale(double s) { return {s, 0, 0, s, 0, 0}; }
  static Transform scale(double sx, double sy) { return {sx, 0, 0, sy, 0, 0}; }
  static Transform turn(double degrees);  // about the origin
  static Transform turn_about(double degrees, Point center);
  // First this, then `next`.
  Transform then(const Transform& next) const;
  Point apply(Point p) const { return {a * p.x + c * p.y + e, b * p.x + d * p.y + f}; }
  Rect apply(const Rect& r) const;  // the box around the turned box
  bool operator==(const Transform&) const = default;
};

class Path {
 public:
  enum class Op : std::uint8_t { move, line, cubic, close };  // use 1, 1, 3, 0 points

  Path& move(double x, double y);
  Path& line(double x, double y);
  Path& cubic(Point control1, Point control2, Point end);
  Path& close();
  Path& append(const Path& more);

  static Path segment(Point from, Point to);
  static Path polyline(const std::vector<Point>& points);
  static Path polygon(const std::vector<Point>& points);
  static Path rect(const Rect& r);
  static Path rect(double x, double y, double width, double height);
  static Path rounded_rect(const Rect& r, double radius);
  static Path circle(Point center, double radius);
  static Path ellipse(Point center, double rx, double ry);
  // Part of a circle from one angle to another (0 is along +x, growing clockwise), open.
  static Path arc(Point center, double radius, double from_degrees, double to_degrees);

  bool empty() const { return ops_.empty(); }
  const std::vector<Op>& ops() const { return ops_; }
  const std::vector<Point>& points() const { return points_; }
  Rect bounds() const;  // exact also for curves
  Path transformed(const Transform& t) const;
  bool finite() const;
  bool operator==(const Path&) const = default;

 private:
  std::vector<Op> ops_;
  std::vector<Point> points_;
};

// Fabrics differ by hatch as well as by colour. The pattern is anchored at the origin of the
// coordinates, so neighbouring patches of one fabric run on without a break.
struct Hatch {
  int kind = 0;  // 0..hatch_kinds-1
  Color color;
  double spacing = 4;  // pt between lines
  double line = 0.4;   // pt, width of the lines
  bool operator==(const Hatch&) const = default;
};
inline constexpr int hatch_kinds = 12;
std::string_view hatch_name(int kind);  // "diagonal lines", for keys and alt text

// The marks of a hatch within a box, yet to be clipped: lines of the hatch's own width, and dots as
// very short lines to be stroked with round caps at `dot` points.
struct HatchMarks {
  Path lines;
  Path dots;
  double dot = 0;
};
HatchMarks hatch_marks(const Hatch& hatch, const Rect& area);

// Painted in the order fill, hatch, stroke.
struct Style {
  std::optional<Color> fill;
  std::optional<Hatch> hatch;
  std::optional<Color> stroke;
  double width = 0.5;        // pt
  std::vector<double> dash;  // pt on, pt off, …; empty for a solid line
  bool round_caps = false;
  bool round_joins = false;
  bool even_odd = false;  // filling rule; otherwise nonzero winding

  static Style filled(const Color& c);
  static Style stroked(const Color& c, double width, std::vector<double> dash = {});
  bool operator==(const Style&) const = default;
};

enum class FontId : std::uint8_t { text, text_bold, text_italic, sans, sans_bold };
inline constexpr int font_count = 5;

struct Glyph {
  std::uint32_t id = 0;  // in the font; never 0 in anything that is output
  double x = 0, y = 0;   // pt from the start of the run, on the baseline; y down
  double advance = 0;    // pt
  double scale = 1;      // of the run's size, for built fractions
  std::string text;      // UTF-8 this glyph stands for; empty if the glyph before it covers it
  bool operator==(const Glyph&) const = default;
};

struct ShapedText;  // canvas/font.h

struct GlyphRun {
  FontId font = FontId::text;
  double size = 10;  // pt
  Color color;
  double x = 0, y = 0;                        // start of the baseline
  double turn = 0;                            // degrees clockwise about (x, y)
  double width = 0, ascent = 0, descent = 0;  // pt, all positive
  std::vector<Glyph> glyphs;

  std::string text() const;
  Rect bounds() const;
  bool operator==(const GlyphRun&) const = default;
};

struct Shape {
  Path path;
  Style style;
  bool operator==(const Shape&) const = default;
};

class DisplayList;

// Equal lists are painted alike, whether they are one list or two.
bool same_list(const std::shared_ptr<const DisplayList>& a,
               const std::shared_ptr<const DisplayList>& b);

// Another list drawn here. A list drawn more than once through the same pointer is stored once.
struct Form {
  std::shared_ptr<const DisplayList> list;
  Transform transform;
  std::optional<Path> clip;  // in this list's coordinates, before `transform` of the inner one
  bool operator==(const Form& other) const {
    return transform == other.transform && clip == other.clip && same_list(list, other.list);
  }
};

// What a part of the page is, for readers who listen. Parts on several pages that carry the same
// id above zero are one part (a paragraph or table broken over pages).
enum class Role : std::uint8_t {
  figure,
  paragraph,
  heading1,
  heading2,
  heading3,
  list,
  item,
  item_label,
  item_body,
  table,
  row,
  header_cell,
  cell,
  caption,
  note,
  section,
  artifact
};

struct Group {
  Role role = Role::figure;
  std::string alt;  // words that stand for the picture; expected for figures
  int id = 0;
  std::shared_ptr<const DisplayList> list;
  Transform transform;
  bool operator==(const Group& other) const {
    return role == other.role && alt == other.alt && id == other.id &&
           transform == other.transform && same_list(list, other.list);
  }
};

struct Raster;  // canvas/image.h

// A photograph. `transform` takes the unit square, whose y runs down, to where the photograph lies.
struct Image {
  std::shared_ptr<const Raster> raster;
  Transform transform;
  bool operator==(const Image&) const = default;  // the same photograph, not one like it
};

struct Link {
  Rect area;
  std::string destination;  // name of an Anchor in the document, or
  std::string uri;          // an outside address
  std::string title;        // words that describe it; may be empty
  bool operator==(const Link&) const = default;
};

struct Anchor {
  std::string name;
  Point at;
  bool operator==(const Anchor&) const = default;
};

using Item = std::variant<Shape, GlyphRun, Form, Group, Image, Link, Anchor>;

class DisplayList {
 public:
  void add(Item item) { items_.push_back(std::move(item)); }
  void shape(Path path, Style style);
  void fill_path(Path path, const Color& color);
  void stroke_path(Path path, const Color& color, double width, std::vector<double> dash = {});
  // `y` is the baseline.
  void text(double x, double y, const ShapedText& shaped, const Color& color = black,
            double turn = 0);
  void draw(std::shared_ptr<const DisplayList> form, const Transform& transform = {});
  void draw_clipped(std::shared_ptr<const DisplayList> form, const Transform& transform, Path clip);
  void group(Role role, DisplayList content, std::string alt = {}, int id = 0);
  void figure(std::shared_ptr<const DisplayList> list, const Transform& transform, std::string alt);
  void image(std::shared_ptr<const Raster> raster, const Rect& area);  // canvas/image.h
  void link(const Rect& area, std::string destination);
  void link_uri(const Rect& area, std::string uri);
  void anchor(std::string name, Point at);
  void append(const DisplayList& more);

  const std::vector<Item>& items() const { return items_; }
  bool empty() const { return items_.empty(); }
  // The box around all that is painted: strokes with their width, text from ascent to descent.
  // Links and anchors do not count.
  Rect bounds() const;
  bool operator==(const DisplayList&) const = default;

 private:
  std::vector<Item> items_;
};

using ListRef = std::shared_ptr<const DisplayList>;
ListRef share(DisplayList list);

struct Page {
  double width = 612, height = 792;  // pt
  DisplayList content;
  std::string label;  // printed page number, "iv" or "12"; may be empty
  bool operator==(const Page&) const = default;
};

struct OutlineEntry {
  std::string title;
  int level = 1;            // 1 is the top
  std::string destination;  // name of an Anchor
};

struct Document {
  std::string title, author, subject;
  std::string language = "en";  // BCP 47
  std::vector<Page> pages;
  std::vector<OutlineEntry> outline;
  std::string id;  // mixed into the file's identifier; may be empty
};

}  // namespace dogear::canvas
