// One step of a block: what is sewn on the left, what it becomes on the right.

#include <algorithm>

#include "drawing/apart.h"
#include "drawing/figures.h"
#include "drawing/foundation.h"
#include "drawing/marks.h"
#include "drawing/method.h"
#include "drawing/strips.h"

namespace dogear::drawing {
namespace {

constexpr double arrow = 20;       // pt, length of the arrow between the two halves
constexpr double arrow_room = 32;  // pt, the arrow with air
constexpr double make_room = 11;   // pt, the line "Make 12"
constexpr double cap = 16;         // pt an inch
constexpr double of_set = 0.64;    // of the scale, for strip sets
constexpr double large = 120;      // pt, the shorter side of large units
constexpr int shapes_shown = 2;    // one each way up

ApartStyle style_at(const Scene& scene, double scale) {
  ApartStyle style;
  style.gap = 2 * scene.checked.pattern.seam_allowance.approx() * scale + 12;
  return style;
}

const BlockSewing* sewing_of(const Scene& scene, std::size_t size, const std::string& use) {
  for (const BlockSewing& sewing : scene.piecing.sizes.at(size).blocks) {
    if (scene.checked.pattern.uses.at(sewing.use).id == use) return &sewing;
  }
  return nullptr;
}

struct Extent {
  Rect left, right;
  std::vector<std::pair<UnitId, Spot>> sewn;  // side by side within `right`
};
constexpr double sewn_gap = 12;  // pt between shapes from one strip set

// Strips are known by their fabric's number; its name stands with the strip set.
constexpr double number_room = 16;

Extent extent(const Scene& scene, std::size_t size, UnitId id, double scale) {
  const Patchwork work(scene, scale);
  Extent e;
  double x = 0;
  for (const UnitId sewn : cut_together(scene, size, id)) {
    const Rect box = sewn_box(work, scene, sewn);
    const Spot at = e.sewn.empty() ? Spot{} : Spot{x - box.left, e.right.top - box.top};
    e.sewn.emplace_back(sewn, at);
    e.right.add(Spot{box.left + at.x, box.top + at.y});
    e.right.add(Spot{box.right + at.x, box.bottom + at.y});
    x = e.right.right + sewn_gap;
  }
  const StripSet* set =
      scene.piecing.units.at(id).strip_set ? strip_set_of(scene, size, id) : nullptr;
  if (set != nullptr) {
    const SetDrawing drawn = measure_strip_set(scene, *set, scale, shapes_shown);
    e.left = Rect::of(-number_room, 0, drawn.width + number_room, drawn.height);
  } else if (scene.piecing.units.at(id).batch) {
    e.left = method_box(scene, id, scale);
  } else if (scene.piecing.units.at(id).foundation) {
    e.left = paper_box(scene, id, scale);
  } else {
    e.left = apart_box(work, scene, size, id, style_at(scene, scale));
  }
  return e;
}

FigureRoom room_of(const Extent& e, bool down) {
  if (down)
    return {std::max(e.left.width(), e.right.width()),
            e.left.height() + arrow_room + e.right.height() + make_room};
  return {e.left.width() + arrow_room + e.right.width(),
          std::max(e.left.height(), e.right.height() + make_room)};
}

bool fits(const Extent& e, Room room, bool down) {
  const FigureRoom needed = room_of(e, down);
  return needed.width <= room.width && needed.height <= room.height;
}

// The largest scale in steps of 1/4 pt an inch at which a unit's figure fits.
double scale_for(const Scene& scene, std::size_t size, UnitId id, Room room, bool down,
                 double most) {
  for (double scale = most; scale > 2; scale -= 0.25) {
    if (fits(extent(scene, size, id, scale), room, down)) return scale;
  }
  return 2;
}

// How many of a unit a size makes, those left over included.
long long made_of(const Scene& scene, std::size_t size, UnitId id) {
  if (const BatchCount* b = batches_of(scene.quantities.sizes.at(size), id)) return b->made();
  const auto& make = scene.piecing.sizes.at(size).make;
  const auto found = make.find(id);
  return found == make.end() ? 0 : found->second;
}

std::string step_words(const Scene& scene, std::size_t size, UnitId id, bool blocks) {
  const SewnUnit& u = scene.piecing.units.at(id);
  long long count = 0;
  for (const UnitId unit : cut_together(scene, size, id)) count += made_of(scene, size, unit);
  const std::string number = count == 0 ? "" : std::to_string(count);
  const Words& w = scene.words;
  std::string words = w("drawn sew", {{"what", inputs_words(scene, size, u, blocks)}});
  if (u.batch) words = batch_words(scene, id);
  if (u.foundation) words = foundation_words(scene, id);
  if (u.strip_set) {
    const StripSet* set = strip_set_of(scene, size, id);
    if (set == nullptr) return words;
    std::vector<std::string> names;
    for (const auto& [fabric, width] : set->strips)
      names.push_back(scene.checked.pattern.fabrics.at(fabric).name);
    words = w(number.empty() ? "drawn sew shapes" : "drawn sew strips",
              {{"fabrics", w.list(names)}, {"n", number}});
    if (set->cut.reading) words += " " + cut_words(w, set->cut, set->need);
    return words;
  }
  return number.empty() ? words : words + w("drawn make", {{"n", number}});
}

Figure draw(const Scene& scene, std::size_t size, UnitId id, double scale, bool down) {
  canvas::DisplayList list;
  Patchwork work(scene, scale);
  Labels labels(scene.fonts);
  const Extent e = extent(scene, size, id, scale);
  const SewnUnit& u = scene.piecing.units.at(id);
  const StripSet* set = u.strip_set ? strip_set_of(scene, size, id) : nullptr;

  Spot right;  // where the sewn unit's origin goes
  if (down) {
    right = {e.left.center().x - e.right.center().x, e.left.bottom + arrow_room - e.right.top};
  } else {
    right = {e.left.right + arrow_room - e.right.left, e.left.center().y - e.right.center().y};
  }
  const Spot middle = down ? Spot{e.left.center().x, e.left.bottom + arrow_room / 2}
                           : Spot{e.left.right + arrow_room / 2, e.left.center().y};
  labels.keep_off(down ? Rect::of(middle.x - 6, middle.y - arrow / 2, 12, arrow)
                       : Rect::of(middle.x - arrow / 2, middle.y - 6, arrow, 12));
  for (const auto& [unit, at] : e.sewn) {
    const Rect sewn = box(work.unit_ring(unit, {}, right + at))
                          .grown(scene.checked.pattern.seam_allowance.approx() * scale);
    labels.keep_off(Ring{{sewn.left, sewn.top},
                         {sewn.right, sewn.top},
                         {sewn.right, sewn.bottom},
                         {sewn.left, sewn.bottom}});
    draw_sewn(list, work, scene, unit, right + at);
    const long long count = made_of(scene, size, unit);
    if (count == 0) continue;
    LabelStyle style;
    style.largest = 8;
    style.plate = false;
    labels.put_at(
        {sewn.center().x, sewn.bottom + 6.5},
        scene.words(set == nullptr ? "label make" : "drawn cut", {{"n", std::to_string(count)}}), 8,
        style);
  }
  becomes(list, middle, arrow, down);
  if (set != nullptr) {
    const bool all = e.sewn.size() > 1;
    draw_strip_set(list, labels, scene, *set, {0, 0}, scale, shapes_shown,
                   all ? std::nullopt : std::optional(id), true);
    for (const auto& [unit, at] : e.sewn) {
      for (const Patch& patch : work.patches(unit, {}, right + at)) {
        labels.put_inside(patch.ring,
                          scene.piecing.pieces.at(patch.piece).label(scene.checked.pattern));
      }
    }
  } else if (u.batch) {
    draw_method(list, labels, scene, id, scale);
  } else if (u.foundation) {
    draw_step_paper(list, labels, scene, id, scale);
  } else {
    draw_apart(list, labels, work, scene, size, id, {0, 0}, style_at(scene, scale));
  }
  labels.paint(list);
  return finish(std::move(list), step_words(scene, size, id, false));
}

// Strip sets and large units do with less than the scale of the block.
double own_scale(const Scene& scene, UnitId id, double scale) {
  const SewnUnit& u = scene.piecing.units.at(id);
  if (u.strip_set) return scale * of_set;
  if (u.batch) return method_scale(scene, u, scale);
  const dogear::Box b = bounds(u.outline);
  return std::min(scale, large / std::min(b.width().approx(), b.height().approx()));
}

}  // namespace

std::optional<Figure> step_figure(const Scene& scene, std::size_t size, const std::string& use,
                                  std::size_t n, Room room) {
  const BlockSewing* sewing = sewing_of(scene, size, use);
  if (sewing == nullptr || n < 1 || n > sewing->steps.size()) return {};
  // One scale for all steps of the block, so that a unit looks the same wherever it turns up.
  double shared = cap;
  for (const UnitId step : sewing->steps) {
    const double level = scale_for(scene, size, step, room, false, shared);
    const double stacked = level < shared ? scale_for(scene, size, step, room, true, shared) : 0;
    shared = stacked > level * 1.2 ? stacked : level;
  }
  const UnitId id = sewing->steps[n - 1];
  const bool down = !fits(extent(scene, size, id, shared), room, false);
  return fitted(room, shared, 2, [&](double scale) { return draw(scene, size, id, scale, down); });
}

namespace {

// The inputs pulled far enough apart for a pressing mark in each gap.
Figure draw_gaps(const Scene& scene, std::size_t size, UnitId id, double scale,
                 const std::string& alt) {
  canvas::DisplayList list;
  Patchwork work(scene, scale, 2.6, fine);
  Labels labels(scene.fonts);
  ApartStyle style;
  style.gap = scene.piecing.units.at(id).inputs.size() > 7 ? 7.5 : 12;
  style.allowances = style.grain = style.every_label = false;
  style.press = style.blocks = true;
  // One large unit between its borders needs no name.
  const std::vector<UnitId>& assembly = scene.piecing.sizes.at(size).assembly;
  int units = 0, assembled = 0;
  for (const Input& input : scene.piecing.units.at(id).inputs) {
    if (input.is_piece) continue;
    ++units;
    if (std::find(assembly.begin(), assembly.end(), input.unit) != assembly.end()) ++assembled;
  }
  style.names = !(units == 1 && assembled == 1);
  draw_apart(list, labels, work, scene, size, id, {0, 0}, style);
  labels.paint(list);
  return finish(std::move(list), alt);
}

}  // namespace

std::optional<Figure> assembly_figure(const Scene& scene, std::size_t size, std::size_t n,
                                      Room room) {
  const std::vector<UnitId>& assembly = scene.piecing.sizes.at(size).assembly;
  if (n < 1 || n > assembly.size()) return {};
  const UnitId id = assembly[n - 1];
  const std::string& name = scene.piecing.units.at(id).name;
  const std::string alt =
      (name.empty() ? "" : unit_words(scene, id) + ": ") + step_words(scene, size, id, true);
  return fitted(room, 10, 1.2,
                [&](double scale) { return draw_gaps(scene, size, id, scale, alt); });
}

}  // namespace dogear::drawing

namespace dogear {

FigureRoom step_room(const Scene& scene, std::size_t size, UnitId unit, StepLook look) {
  const double scale = drawing::own_scale(scene, unit, look.scale);
  return drawing::room_of(drawing::extent(scene, size, unit, scale), look.down);
}

Figure draw_step(const Scene& scene, std::size_t size, UnitId unit, StepLook look) {
  return drawing::draw(scene, size, unit, drawing::own_scale(scene, unit, look.scale), look.down);
}

}  // namespace dogear
