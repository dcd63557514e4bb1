#include "canvas/display.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "canvas/font.h"

namespace dogear::canvas {
namespace {

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

double linear(double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); }

using KnownBounds = std::map<const DisplayList*, Rect>;

Rect bounds_of(const DisplayList& list, KnownBounds& known);

Rect bounds_of(const ListRef& list, KnownBounds& known) {
  if (!list) return {};
  const auto found = known.find(list.get());
  if (found != known.end()) return found->second;
  return known[list.get()] = bounds_of(*list, known);
}

Rect intersection(const Rect& a, const Rect& b) {
  return {std::max(a.left, b.left), std::max(a.top, b.top), std::min(a.right, b.right),
          std::min(a.bottom, b.bottom)};
}

Rect bounds_of(const DisplayList& list, KnownBounds& known) {
  Rect box;
  for (const Item& item : list.items()) {
    if (const auto* shape = std::get_if<Shape>(&item)) {
      box.add(shape->path.bounds().grown(shape->style.stroke ? shape->style.width / 2 : 0));
    } else if (const auto* run = std::get_if<GlyphRun>(&item)) {
      box.add(run->bounds());
    } else if (const auto* form = std::get_if<Form>(&item)) {
      const Rect inner = form->transform.apply(bounds_of(form->list, known));
      box.add(form->clip ? intersection(inner, form->clip->bounds()) : inner);
    } else if (const auto* group = std::get_if<Group>(&item)) {
      box.add(group->transform.apply(bounds_of(group->list, known)));
    } else if (const auto* image = std::get_if<Image>(&item)) {
      box.add(image->transform.apply(Rect{0, 0, 1, 1}));
    }
  }
  return box;
}

}  // namespace

std::optional<Color> Color::parse(std::string_view hex) {
  if (hex.empty() || hex[0] != '#' || (hex.size() != 7 && hex.size() != 4)) return {};
  std::array<double, 3> parts{};
  const std::size_t each = (hex.size() - 1) / 3;
  for (std::size_t i = 0; i < 3; ++i) {
    const int high = hex_digit(hex[1 + i * each]);
    const int low = hex_digit(hex[i * each + each]);
    if (high < 0 || low < 0) return {};
    parts[i] = (high * 16 + low) / 255.0;
  }
  return Color{parts[0], parts[1], parts[2]};
}

std::string Color::hex() const {
  std::string out = "#";
  for (const double part : {r, g, b}) {
    const double kept = part > 0 ? std::min(part, 1.0) : 0;
    const auto n = static_cast<unsigned>(std::lround(kept * 255));
    out += "0123456789abcdef"[n / 16];
    out += "0123456789abcdef"[n % 16];
  }
  return out;
}

double Color::luminance() const {
  return 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
}

double contrast(const Color& a, const Color& b) {
  const double la = a.luminance();
  const double lb = b.luminance();
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

Style Style::filled(const Color& c) {
  Style style;
  style.fill = c;
  return style;
}

Style Style::stroked(const Color& c, double width, std::vector<double> dash) {
  Style style;
  style.stroke = c;
  style.width = width;
  style.dash = std::move(dash);
  return style;
}

std::string GlyphRun::text() const {
  std::string out;
  for (const Glyph& glyph : glyphs) out += glyph.text;
  return out;
}

Rect GlyphRun::bounds() const {
  if (glyphs.empty()) return {};
  const Rect flat{0, -ascent, width, descent};
  return Transform::turn(turn).then(Transform::move(x, y)).apply(flat);
}

void DisplayList::shape(Path path, Style style) { add(Shape{std::move(path), std::move(style)}); }

void DisplayList::fill_path(Path path, const Color& color) {
  shape(std::move(path), Style::filled(color));
}

void DisplayList::stroke_path(Path path, const Color& color, double width,
                              std::vector<double> dash) {
  shape(std::move(path), Style::stroked(color, width, std::move(dash)));
}

void DisplayList::text(double x, double y, const ShapedText& shaped, const Color& color,
                       double turn) {
  if (shaped.glyphs.empty()) return;
  GlyphRun run;
  run.font = shaped.font;
  run.size = shaped.size;
  run.color = color;
  run.x = x;
  run.y = y;
  run.turn = turn;
  run.width = shaped.width;
  run.ascent = shaped.ascent;
  run.descent = shaped.descent;
  run.glyphs = shaped.glyphs;
  add(std::move(run));
}

void DisplayList::draw(ListRef form, const Transform& transform) {
  add(Form{std::move(form), transform, {}});
}

void DisplayList::draw_clipped(ListRef form, const Transform& transform, Path clip) {
  add(Form{std::move(form), transform, std::move(clip)});
}

void DisplayList::group(Role role, DisplayList content, std::string alt, int id) {
  add(Group{role, std::move(alt), id, share(std::move(content)), {}});
}

void DisplayList::figure(ListRef list, const Transform& transform, std::string alt) {
  add(Group{Role::figure, std::move(alt), 0, std::move(list), transform});
}

void DisplayList::link(const Rect& area, std::string destination) {
  add(Link{area, std::move(destination), {}, {}});
}

void DisplayList::link_uri(const Rect& area, std::string uri) {
  add(Link{area, {}, std::move(uri), {}});
}

void DisplayList::anchor(std::string name, Point at) { add(Anchor{std::move(name), at}); }

void DisplayList::append(const DisplayList& more) {
  items_.insert(items_.end(), more.items_.begin(), more.items_.end());
}

Rect DisplayList::bounds() const {
  KnownBounds known;
  return bounds_of(*this, known);
}

bool same_list(const ListRef& a, const ListRef& b) { return a == b || (a && b && *a == *b); }

ListRef share(DisplayList list) { return std::make_shared<const DisplayList>(std::move(list)); }

}  // namespace dogear::canvas
