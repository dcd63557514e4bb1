// Cloth with the pieces laid on it: strips, sheets, lengths of cloth; and strip sets.

#include <algorithm>

#include "base/length.h"
#include "drawing/cut_strip.h"
#include "drawing/figures.h"
#include "drawing/marks.h"
#include "drawing/measures.h"

namespace dogear::drawing {
namespace {

constexpr double side = 60;     // pt at the left for words, the height's bracket and the grain
constexpr double heights = 40;  // pt at the right of sheets for the heights of their strips
constexpr double note = 6.8;    // pt, words below the last strip
constexpr double note_step = 8.6;
constexpr double between = 9;         // pt between kinds of strip
constexpr double least_of_set = 2.6;  // pt an inch
constexpr double cap = 10;            // pt an inch
constexpr double least_scale = 4;

// A sheet with one strip in it needs no list of heights at its right.
bool has_heights(const ClothLayout& layout) {
  return layout.kind != ClothLayout::Kind::strip &&
         (layout.parts.size() > 1 || layout.parts.front().times > 1);
}

// One scale for all strips and sheets of a size, so that they compare; pt an inch.
double scale_of(const Scene& scene, std::size_t size, double width) {
  const Pattern& pattern = scene.checked.pattern;
  double scale = cap;
  for (FabricId f = 0; f < pattern.fabrics.size(); ++f) {
    for (const ClothLayout& l : layouts_of(pattern, scene.quantities.sizes.at(size), f)) {
      if (l.kind == ClothLayout::Kind::panel) continue;
      const double room = width - side - 1 - (has_heights(l) ? heights : 0);
      scale = std::min(scale, room / std::max(1.0, l.length.approx()));
    }
  }
  return scale;
}

class LayoutArt {
 public:
  LayoutArt(const Scene& scene, std::size_t size, FabricId fabric, double scale)
      : scene_(scene),
        pattern_(scene.checked.pattern),
        size_(size),
        fabric_(fabric),
        scale_(scale) {}

  // Words at the left from x = 0, cloth from x = `side`; its upper edge is at y = 0. `room` is for
  // lengths of cloth, which are drawn smaller than strips where they must be.
  canvas::DisplayList draw(const ClothLayout& layout, Room room) const {
    canvas::DisplayList list;
    Labels labels(scene_.fonts);
    double scale = scale_;
    if (layout.kind == ClothLayout::Kind::panel) {
      scale = std::min({scale, (room.width - side - heights) / layout.length.approx(),
                        (room.height - 30) / layout.height.approx()});
    }
    const StripArt art(scene_, size_, fabric_, scale);
    if (layout.kind == ClothLayout::Kind::strip) strip(list, labels, layout, art);
    if (layout.kind == ClothLayout::Kind::sheet) sheet(list, labels, layout, art);
    if (layout.kind == ClothLayout::Kind::panel) panel(list, labels, layout, art);
    const Rect cloth = Rect::of(0, 0, side + art.points(layout.length), art.points(layout.height));
    labels.keep_off(Ring{{cloth.left, cloth.top},
                         {cloth.right, cloth.top},
                         {cloth.right, cloth.bottom},
                         {cloth.left, cloth.bottom}});
    art.name_rest(labels);
    words(list, layout, scale < scale_ * 0.99);
    grain(list, layout, art.points(layout.height));
    labels.paint(list);
    return list;
  }

 private:
  const ClothSource* source(const ClothLayout& layout) const {
    const auto& sources = pattern_.fabrics.at(fabric_).sources;
    return layout.source < sources.size() ? &sources[layout.source] : nullptr;
  }

  std::string numbers(const ClothLayout& l) const {
    const std::string first = std::to_string(l.first_sheet);
    if (l.times == 1) return first;
    return first + scene_.words(l.times == 2 ? "list last" : "drawn to") +
           std::to_string(l.first_sheet + l.times - 1);
  }

  std::vector<std::string> side_words(const ClothLayout& l) const {
    const ClothSource* from = source(l);
    const Words& w = scene_.words;
    const std::string height = w.inches(l.parts.front().plan->height);
    const std::string cut = w("drawn cut", {{"n", std::to_string(l.times)}});
    if (l.kind == ClothLayout::Kind::panel) {
      return {w("drawn cut", {{"n", "1"}}), w("drawn length of"), w.inches(l.length.round_up(16))};
    }
    const bool strips = from == nullptr || from->kind == ClothSource::Kind::yardage ||
                        is_strip_bundle(pattern_, *from);
    const std::string whole = w.inches(l.height.round_nearest(16));
    if (strips) {
      std::vector<std::string> words{
          cut, w("drawn strips high", {{"height", whole}, {"strips", w.noun("strips", l.times)}})};
      if (l.kind == ClothLayout::Kind::sheet && !has_heights(l))
        words.push_back(w("drawn down to", {{"height", height}}));
      return words;
    }
    const std::string by =
        pretty(from->height->round_nearest(16)) + " × " + w.inches(from->length.round_nearest(16));
    const bool square = from->kind == ClothSource::Kind::bundle;
    const std::string noun = w.noun(square                                         ? "squares"
                                    : from->kind == ClothSource::Kind::fat_quarter ? "fat quarters"
                                    : from->kind == ClothSource::Kind::fat_eighth  ? "fat eighths"
                                                                                   : "scraps",
                                    l.times);
    const std::string measure = square ? w.inches(from->length.round_nearest(16)) : by;
    if (l.kind == ClothLayout::Kind::strip) return {cut, noun, measure};
    return {capital(noun), numbers(l), measure};
  }

  void words(canvas::DisplayList& list, const ClothLayout& layout, bool smaller) const {
    double y = 7;
    std::vector<std::string> lines = side_words(layout);
    if (smaller) {
      for (std::string& line : split(scene_.words("drawn smaller"), '/'))
        lines.push_back(std::move(line));
    }
    for (const std::string& line : lines) {
      const bool first = &line == &lines.front();
      write(list, scene_.fonts, 0, y, first ? 7.5 : 7, line,
            first ? canvas::FontId::sans_bold : canvas::FontId::sans);
      y += 8.5;
    }
  }

  // The thread along the length of the cloth: across strips, along what is cut along the length.
  void grain(canvas::DisplayList& list, const ClothLayout& layout, double height) const {
    const double middle = height / 2;
    if (layout.kind == ClothLayout::Kind::panel) {
      grain_line(list, {side - 26, middle}, {side - 10, middle});
      return;
    }
    const double half = std::clamp(height / 2 - 1, 5.5, 9.0);
    grain_line(list, {side - 12, middle - half}, {side - 12, middle + half});
  }

  static void bracket(canvas::DisplayList& list, double height) {
    list.stroke_path(canvas::Path::polyline(
                         {{side - 3, 0}, {side - 6, 0}, {side - 6, height}, {side - 3, height}}),
                     ink, edge);
  }

  static void strip(canvas::DisplayList& list, Labels& labels, const ClothLayout& layout,
                    const StripArt& art) {
    const StripPlan& plan = *layout.parts.front().plan;
    bracket(list, art.points(layout.height));
    art.draw(list, labels, plan, Motion::move(side, 0));
    art.measure(list, labels, plan, {side, 0}, true, true);
    art.measure(list, labels, plan, {side, 0}, false, true);
  }

  static void frame(canvas::DisplayList& list, const Rect& cloth) {
    canvas::Style style = waste();
    style.dash.clear();
    style.stroke = ink;
    style.width = edge;
    list.shape(canvas::Path::rect(cloth), style);
  }

  // "2½ in", "3 of 2½ in".
  std::string height_words(const ClothLayout::Part& part) const {
    const std::string height = scene_.words.inches(part.plan->height);
    if (part.times == 1) return height;
    return scene_.words("drawn several", {{"n", std::to_string(part.times)}, {"height", height}});
  }

  // Heights at the right of what lies one above the other.
  void height_at(canvas::DisplayList& list, Labels& labels, double x, double top, double bottom,
                 const ClothLayout::Part& part) const {
    LabelStyle style;
    style.font = canvas::FontId::sans;
    const std::string text = height_words(part);
    const Rect m = labels.measure(text, 6.4, style);
    const Spot at{x + 7 + m.width() / 2, (top + bottom) / 2};
    if (!labels.is_free(
            Rect::of(at.x - m.width() / 2, at.y - m.height() / 2, m.width(), m.height()))) {
      return;
    }
    measure_line(list, {x + 5, top + 0.4}, {x + 5, bottom - 0.4});
    labels.put_at(at, text, 6.4, style);
  }

  // The strips one below the other, their heights at the right; how far down they reach.
  Exact stack(canvas::DisplayList& list, Labels& labels, const ClothLayout& layout,
              const StripArt& art, bool measured) const {
    Exact down = 0;
    for (const ClothLayout::Part& part : layout.parts) {
      const double top = art.points(down);
      for (long long n = 0; n < part.times; ++n) {
        art.draw(list, labels, *part.plan, Motion::move(side, art.points(down)));
        down += Exact(part.plan->height);
      }
      const double right = side + art.points(layout.length);
      if (measured) height_at(list, labels, right, top, art.points(down), part);
    }
    return down;
  }

  void sheet(canvas::DisplayList& list, Labels& labels, const ClothLayout& layout,
             const StripArt& art) const {
    const double w = art.points(layout.length), h = art.points(layout.height);
    frame(list, Rect::of(side, 0, w, h));
    const Exact down = stack(list, labels, layout, art, has_heights(layout));
    const Exact rest = layout.height - down;
    if (rest >= Exact::ratio(1, 4)) {
      art.left_over(list, labels, Rect{side, art.points(down), side + w, h}, rest, layout.length);
    }
    art.measure(list, labels, *layout.parts.front().plan, {side, 0}, false, false);
  }

  // Lying: its length runs from left to right, so what is cut across it stands upright.
  void panel(canvas::DisplayList& list, Labels& labels, const ClothLayout& layout,
             const StripArt& art) const {
    const double w = art.points(layout.length), h = art.points(layout.height);
    frame(list, Rect::of(side, 0, w, h));
    const Exact down = stack(list, labels, layout, art, true);
    Exact right = 0;
    std::vector<Measured> widths;
    for (const ClothLayout::Part& part : layout.across) {
      const double from = side + art.points(right);
      for (long long n = 0; n < part.times; ++n) {
        const double x = side + art.points(right + Exact(part.plan->height));
        art.draw(list, labels, *part.plan, {0, 1, -1, 0, x, art.points(down)});
        right += Exact(part.plan->height);
      }
      widths.push_back({from, side + art.points(right), {height_words(part)}});
    }
    const Exact rest = layout.length - right, beside = layout.height - down;
    if (rest >= Exact(1) && beside >= Exact(1)) {
      art.left_over(list, labels, Rect{side + art.points(right), art.points(down), side + w, h},
                    beside, rest);
    }
    put_measures(list, labels, h, true, widths, side, side + w);
    put_measures(list, labels, 0, false,
                 {{side,
                   side + w,
                   {scene_.words("drawn along length",
                                 {{"length", scene_.words.inches(layout.length.round_up(16))}})}}},
                 side, side + w);
  }

  const Scene& scene_;
  const Pattern& pattern_;
  std::size_t size_;
  FabricId fabric_;
  double scale_;
};

std::optional<FabricId> fabric_of(const Scene& scene, const std::string& id) {
  const std::vector<Fabric>& fabrics = scene.checked.pattern.fabrics;
  for (FabricId f = 0; f < fabrics.size(); ++f) {
    if (fabrics[f].id == id) return f;
  }
  return {};
}

std::string words_of(const Scene& scene, std::size_t size, const ClothLayout& layout) {
  std::string words;
  const auto add = [&](const std::vector<ClothLayout::Part>& parts, const std::string& how) {
    for (const ClothLayout::Part& part : parts) {
      const StripPlan& plan = *part.plan;
      const long long n = part.times * layout.times;
      words += scene.words("drawn cuts", {{"n", std::to_string(n)},
                                          {"height", scene.words.inches(plan.height)},
                                          {"strips", scene.words.noun("strips", n)},
                                          {"how", how}});
      for (const Run& run : plan.runs) {
        words += (&run == &plan.runs.front() ? " " : ", ") + run_words(scene, size, plan, run);
      }
    }
  };
  const bool panel = layout.kind == ClothLayout::Kind::panel;
  add(layout.parts, panel ? scene.words("drawn lengthwise") : "");
  add(layout.across, scene.words("drawn across"));
  return words;
}

long long strips_in(const std::vector<ClothLayout>& layouts) {
  long long count = 0;
  for (const ClothLayout& l : layouts) {
    for (const auto& part : l.parts) count += part.times * l.times;
    for (const auto& part : l.across) count += part.times * l.times;
  }
  return count;
}

// Layouts one below the other, narrow ones side by side. Stops where the room ends; `shown` says
// how many there are.
canvas::DisplayList flowed(const std::vector<ClothLayout>& layouts, const LayoutArt& art, Room room,
                           std::size_t& shown) {
  canvas::DisplayList list;
  double x = 0, top = 0, bottom = 0;
  shown = 0;
  for (const ClothLayout& layout : layouts) {
    canvas::DisplayList one = art.draw(layout, room);
    const Rect b = one.bounds();
    const bool beside = x > 0 && x + b.right <= room.width;
    if (!beside) {
      top = bottom + (shown > 0 ? between : 0);
      x = 0;
    }
    const double end = top + b.height();
    const bool last = shown + 1 == layouts.size();
    if (shown > 0 && end + (last ? 0 : note_step) > room.height - 1) break;
    list.draw(canvas::share(std::move(one)), Motion::move(x, top - b.top));
    x += b.right + 2 * between;
    bottom = std::max(bottom, end);
    ++shown;
  }
  return list;
}

}  // namespace

std::size_t strip_kinds(const Scene& scene, std::size_t size, FabricId fabric) {
  return layouts_of(scene.checked.pattern, scene.quantities.sizes.at(size), fabric).size();
}

std::optional<Figure> cutting_figure(const Scene& scene, std::size_t size, const std::string& id,
                                     std::optional<std::size_t> n, Room room) {
  const std::optional<FabricId> fabric = fabric_of(scene, id);
  if (!fabric) return {};
  std::vector<ClothLayout> layouts =
      layouts_of(scene.checked.pattern, scene.quantities.sizes.at(size), *fabric);
  if (n && (*n < 1 || *n > layouts.size())) return {};
  if (n) layouts = {layouts[*n - 1]};
  if (layouts.empty()) return {};

  const long long count = strips_in(layouts);
  std::string alt =
      scene.words("drawn cutting", {{"name", scene.checked.pattern.fabrics.at(*fabric).name},
                                    {"n", std::to_string(count)},
                                    {"strips", scene.words.noun("strips", count)}});
  for (const ClothLayout& layout : layouts) alt += words_of(scene, size, layout);

  double scale = scale_of(scene, size, room.width);
  const double least = std::min(scale, least_scale);
  std::size_t shown = 0;
  canvas::DisplayList list;
  while (true) {
    list = flowed(layouts, LayoutArt(scene, size, *fabric, scale), room, shown);
    if ((shown == layouts.size() && list.bounds().height() <= room.height) || scale <= least) break;
    scale = std::max(least, scale * 0.92);
  }
  if (shown < layouts.size()) {
    write(list, scene.fonts, side, list.bounds().bottom + note_step, note,
          scene.words("drawn more", {{"n", std::to_string(layouts.size() - shown)}}));
  }
  return fitted(room, 1, 1, [&](double) { return finish(list, alt); });
}

namespace {

struct SetScale {
  double scale = cap, lowest_strip = 0;  // pt an inch; pt
  int shapes = 8;                        // shown, at most
};

int shapes_shown(const Scene& scene, const StripSet& set, int most) {
  return std::clamp(shapes_of(scene, set), 1, most);
}

// The room of the widest name at the left of a set.
double words_beside(const Scene& scene, const StripSet& set) {
  double words = 0;
  for (const auto& [fabric, width] : set.strips) {
    const Fabric& f = scene.checked.pattern.fabrics.at(fabric);
    const std::string text =
        std::to_string(f.number) + " " + f.name + ", " + scene.words.inches(width);
    words = std::max(words, scene.fonts.width(canvas::FontId::sans, 7, text) + 8);
  }
  return words;
}

// At which every strip set of a size keeps to the room with the words beside it.
SetScale scale_of_sets(const Scene& scene, std::size_t size, Room room, int most) {
  double scale = cap, lowest = 1e9;
  for (const StripSet& set : scene.quantities.sizes.at(size).strip_sets) {
    const SetDrawing at_one = measure_strip_set(scene, set, 1, shapes_shown(scene, set, most));
    const bool outside = named_outside(set);
    const double words = outside ? 0 : words_beside(scene, set);
    if (at_one.width > 0) scale = std::min(scale, (room.width - words) / at_one.width);
    if (at_one.height > 0)
      scale = std::min(scale, (room.height - 2 - (outside ? 20 : 0)) / at_one.height);
    lowest = std::min(lowest, at_one.height / static_cast<double>(set.strips.size()));
  }
  scale = std::max(scale, least_of_set);
  return {scale, scale * lowest, most};
}

// With fewer shapes where the strips would be lower than the words beside them.
SetScale scale_of_sets(const Scene& scene, std::size_t size, Room room) {
  constexpr double line_of_words = 9;  // pt
  SetScale best;
  for (int most = best.shapes; most >= 3 && best.lowest_strip < line_of_words; --most) {
    const SetScale next = scale_of_sets(scene, size, room, most);
    if (next.lowest_strip > best.lowest_strip) best = next;
  }
  return best;
}

}  // namespace

std::optional<Figure> strip_set_figure(const Scene& scene, std::size_t size, std::size_t n,
                                       Room room) {
  const std::vector<StripSet>& sets = scene.quantities.sizes.at(size).strip_sets;
  if (n < 1 || n > sets.size()) return {};
  const StripSet& set = sets[n - 1];
  std::vector<std::string> names;
  for (const auto& [fabric, width] : set.strips)
    names.push_back(scene.checked.pattern.fabrics.at(fabric).name);
  const std::string alt =
      scene.words("drawn set", {{"set", std::to_string(n)},
                                {"fabrics", scene.words.list(names)},
                                {"n", std::to_string(set.sets)},
                                {"sets", scene.words.noun("sets", set.sets)},
                                {"need", std::to_string(set.need)},
                                {"cut", cut_words(scene.words, set.cut, set.need)}});
  const SetScale how = scale_of_sets(scene, size, room);
  return fitted(room, how.scale, least_of_set, [&](double scale) {
    canvas::DisplayList list;
    Labels labels(scene.fonts);
    draw_strip_set(list, labels, scene, set, {0, 0}, scale, shapes_shown(scene, set, how.shapes));
    labels.paint(list);
    return finish(std::move(list), alt);
  });
}

}  // namespace dogear::drawing
