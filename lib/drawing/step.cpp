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

constexpr double air = 12, more_air = 19;  // pt between cut edges pulled apart
constexpr double roomy = 520;              // pt², a patch that holds its label and grain line

// Small patches one above the other have labels, grain lines and leaders between them.
ApartStyle style_at(const Scene& scene, UnitId id, double scale) {
  const auto& inputs = scene.piecing.units.at(id).inputs;
  const auto& seams = scene.piecing.units.at(id).seams;
  const bool stacked = std::all_of(seams.begin(), seams.end(), [](const Seam& seam) {
    return seam.where.a.y == seam.where.b.y;
  });
  const bool small =
      stacked && std::any_of(inputs.begin(), inputs.end(), [&](const Input& in) {
        return in.is_piece &&
               dogear::area(scene.piecing.pieces.at(in.piece).shape).approx() * scale * scale <
                   roomy;
      });
  ApartStyle style;
  style.gap = 2 * scene.checked.pattern.seam_allowance.approx() * scale + (small ? more_air : air);
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
    e.left = apart_box(work, scene, size, id, style_at(scene, id, scale));
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

// In the middle of a level strip, so that those of one shape stand one above the other.
void label_middle(Labels& labels, const Ring& strip, const std::string& words) {
  const Rect around = box(strip);
  const LabelStyle style;
  double of_words = style.largest;
  while (of_words > style.smallest &&
         labels.measure(words, of_words, style).height() > around.height() - 1)
    of_words -= 0.5;
  const Rect plate = labels.measure(words, of_words, style);
  if (plate.width() < around.width() && plate.height() < around.height() + 0.6)
    labels.put_at(around.center(), words, of_words);
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
        label_middle(labels, patch.ring,
                     scene.piecing.pieces.at(patch.piece).label(scene.checked.pattern));
      }
    }
  } else if (u.batch) {
    draw_method(list, labels, scene, id, scale);
  } else if (u.foundation) {
    draw_step_paper(list, labels, scene, id, scale);
  } else {
    draw_apart(list, labels, work, scene, size, id, {0, 0}, style_at(scene, id, scale));
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

bool goes_on_in_step(const Scene& scene, std::size_t size, UnitId unit) {
  const StripSet* set = strip_set_of(scene, size, unit);
  return set != nullptr && shapes_of(scene, *set) > shapes_shown;
}

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

constexpr double two_lines_from = 10;    // pt high, rows drawn lower are broken over two lines
constexpr std::size_t least_broken = 5;  // inputs
constexpr double between_lines = 30;     // pt
constexpr double least_hatched = 3.2;    // pt an inch

// Which inputs of a row stand in its second line, so that both lines are as short as may be; none
// of what is no long level row.
std::vector<bool> second_line(const Scene& scene, UnitId id) {
  const SewnUnit& u = scene.piecing.units.at(id);
  const Rect all = box(ring(u.outline, 1));
  if (u.inputs.size() < least_broken || all.width() < 4 * all.height()) return {};
  std::vector<double> left, right;
  for (const Input& input : u.inputs) {
    const Rect b = box(moved(ring(input.is_piece ? scene.piecing.pieces.at(input.piece).shape
                                                 : scene.piecing.units.at(input.unit).outline,
                                  1),
                             motion(input.where, 1)));
    if (b.height() < all.height() * 0.6) return {};  // not side by side
    left.push_back(b.left);
    right.push_back(b.right);
  }
  double best = 1e9;
  std::vector<bool> out;
  for (const double from : left) {
    double first = 0, second = 0;
    std::vector<bool> below;
    for (std::size_t i = 0; i < left.size(); ++i) {
      below.push_back(left[i] > from - 1e-6);
      double& reach = below.back() ? second : first;
      reach = std::max(reach, below.back() ? right[i] - from : right[i] - all.left);
    }
    if (first > 0 && std::max(first, second) < best - 1e-6) {
      best = std::max(first, second);
      out = std::move(below);
    }
  }
  return out;
}

// Moves the second line of a row below the first, its start below the start of that.
Spot below_by(const Scene& scene, const Patchwork& work, UnitId id, const std::vector<bool>& below,
              double gap) {
  const SewnUnit& u = scene.piecing.units.at(id);
  Rect all, second;
  std::size_t before = 0;  // gaps that pull the second line to the right
  for (std::size_t i = 0; i < u.inputs.size(); ++i) {
    const Input& input = u.inputs[i];
    const Rect b = box(input.is_piece ? work.piece_ring(input.piece, input.where)
                                      : work.unit_ring(input.unit, input.where));
    for (Rect* r : {&all, below[i] ? &second : &all}) {
      r->add(Spot{b.left, b.top});
      r->add(Spot{b.right, b.bottom});
    }
    if (!below[i]) ++before;
  }
  return {all.left - second.left - gap * static_cast<double>(before), all.height() + between_lines};
}

// One large unit between its borders, which needs no name.
bool one_in_its_frame(const Scene& scene, std::size_t size, UnitId id) {
  const std::vector<UnitId>& assembly = scene.piecing.sizes.at(size).assembly;
  int units = 0, assembled = 0;
  for (const Input& input : scene.piecing.units.at(id).inputs) {
    if (input.is_piece) continue;
    ++units;
    if (std::find(assembly.begin(), assembly.end(), input.unit) != assembly.end()) ++assembled;
  }
  return units == 1 && assembled == 1;
}

// The inputs pulled far enough apart for a pressing mark in each gap.
Figure draw_gaps(const Scene& scene, std::size_t size, UnitId id, double scale,
                 const std::string& alt, const std::vector<bool>& below = {}) {
  canvas::DisplayList list;
  const bool around = one_in_its_frame(scene, size, id);
  // A whole top drawn small would be all hatches.
  Patchwork work(scene, scale, around && scale < least_hatched ? 0 : 2.6, fine);
  Labels labels(scene.fonts);
  ApartStyle style;
  style.gap = scene.piecing.units.at(id).inputs.size() > 7 ? 10 : 12;
  style.allowances = style.grain = false;
  style.press = style.blocks = true;
  style.every_label = scene.piecing.units.at(id).inputs.size() <= 3;
  style.names = !around;
  if (!below.empty()) {
    style.below = below;
    style.below_by = below_by(scene, work, id, below, style.gap);
  }
  draw_apart(list, labels, work, scene, size, id, {0, 0}, style);
  labels.paint(list);
  return finish(std::move(list), alt);
}

}  // namespace

std::optional<Figure> assembly_figure(const Scene& scene, std::size_t size, std::size_t n,
                                      Room room, double cap) {
  const std::vector<UnitId>& assembly = scene.piecing.sizes.at(size).assembly;
  if (n < 1 || n > assembly.size()) return {};
  const UnitId id = assembly[n - 1];
  const std::string& name = scene.piecing.units.at(id).name;
  const std::string alt =
      (name.empty() ? "" : unit_words(scene, id) + ": ") + step_words(scene, size, id, true);
  double drawn = 0;
  const auto figure = [&](const std::vector<bool>& below) {
    Figure found = fitted(room, cap, 1.2, [&](double scale) {
      drawn = scale;
      return draw_gaps(scene, size, id, scale, alt, below);
    });
    found.scale = drawn;
    return found;
  };
  Figure level = figure({});
  const double high = bounds(scene.piecing.units.at(id).outline).height().approx();
  if (high * drawn >= two_lines_from) return level;
  const std::vector<bool> below = second_line(scene, id);
  if (below.empty()) return level;
  const double before = drawn;
  Figure broken = figure(below);
  return drawn > before * 1.2 ? broken : level;
}

}  // namespace dogear::drawing

namespace dogear {

std::optional<Figure> draw_assembly(const Scene& scene, std::size_t size, std::size_t n,
                                    FigureRoom room, double most) {
  return drawing::assembly_figure(scene, size, n, {room.width, room.height}, most);
}

FigureRoom step_room(const Scene& scene, std::size_t size, UnitId unit, StepLook look) {
  const double scale = drawing::own_scale(scene, unit, look.scale);
  return drawing::room_of(drawing::extent(scene, size, unit, scale), look.down);
}

Figure draw_step(const Scene& scene, std::size_t size, UnitId unit, StepLook look) {
  return drawing::draw(scene, size, unit, drawing::own_scale(scene, unit, look.scale), look.down);
}

}  // namespace dogear
