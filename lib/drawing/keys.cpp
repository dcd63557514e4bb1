// The key of marks, the key of fabrics, and single swatches.

#include <algorithm>
#include <array>
#include <cmath>

#include "base/length.h"
#include "drawing/figures.h"
#include "drawing/labels.h"
#include "drawing/marks.h"
#include "drawing/strips.h"
#include "drawing/tip.h"

namespace dogear::drawing {
namespace {

constexpr double row = 19, gap = 10, mark_width = 34, words_size = 8;

using Mark = std::function<void(canvas::DisplayList&, Spot middle)>;
struct Entry {
  Mark mark;
  std::string words;
  bool used = true;
};

struct MarksUsed {
  bool steps = false, bias = false, arrow = false, open = false, cut = false;
  bool halves = false, panels = false, stitched = false, stops = false, prints = false,
       bound = false, becomes = false, waste = false, sewn = false, drawn = false, cutting = false,
       goes_on = false;
};

bool has_waste(const StripPlan& plan) {
  double covered = 0;
  for (const Run& run : plan.runs) {
    if (run.kind == Run::Kind::leftover) return true;
    covered += run.length.approx() * (run.height.num > 0 ? run.height : plan.height).approx();
  }
  return covered < plan.usable.approx() * plan.height.approx() - 0.01;
}

MarksUsed marks_used(const Scene& scene, std::size_t size) {
  MarksUsed used;
  const SizeSewing& sewing = scene.piecing.sizes.at(size);
  const SizeQuantities& cloth = scene.quantities.sizes.at(size);
  used.cutting = !cloth.strips.empty();
  const auto pressing = [&](const SewnUnit& unit) {
    for (const Seam& seam : unit.seams) {
      (seam.press == Press::open ? used.open : used.arrow) = true;
      used.stops = used.stops || seam.kind != SeamKind::straight;
    }
  };
  for (const BlockSewing& block : sewing.blocks) {
    used.halves = used.halves || comes_in_halves(scene, block);
    used.becomes = used.becomes || !block.steps.empty();
    for (const UnitId step : block.steps) {
      const SewnUnit& unit = scene.piecing.units.at(step);
      if (unit.strip_set) {
        used.goes_on = used.goes_on || goes_on_in_step(scene, size, step);
        continue;
      }
      if (unit.batch) {
        used.stitched = true;
        used.cut = used.cut || unit.batch->method == Method::eight_at_a_time ||
                   unit.batch->method == Method::stitched_corners;
        pressing(unit);
        continue;
      }
      if (unit.foundation) continue;
      used.steps = true;
      pressing(unit);
      for (const Input& input : unit.inputs) {
        if (!input.is_piece) continue;
        used.prints = used.prints || scene.piecing.pieces.at(input.piece).directional;
        for (const EdgeGrain& e : edges(scene.piecing, {input.piece, input.where})) {
          used.bias = used.bias || e.thread == Thread::bias;
        }
      }
    }
  }
  for (const UnitId step : sewing.assembly) pressing(scene.piecing.units.at(step));
  used.cut = used.cut || !cloth.strip_sets.empty() ||
             std::any_of(cloth.pieces.begin(), cloth.pieces.end(), [&](const CutPiece& c) {
               return has_ruler_line(scene, c.cut) || is_half_angled(scene, c.cut);
             });
  const bool mitred = has_mitre(scene, size), bias = cloth.binding && cloth.binding->square;
  const bool tip = std::any_of(sewing.blocks.begin(), sewing.blocks.end(), [&](const auto& block) {
    return std::any_of(block.steps.begin(), block.steps.end(),
                       [&](UnitId step) { return tip_to_show(scene, size, step).has_value(); });
  });
  used.becomes = used.becomes || cloth.binding || mitred;
  used.stops = used.stops || mitred;
  used.sewn = used.stitched || cloth.binding || mitred || tip;
  used.drawn = used.stitched || mitred || bias;
  used.cut = used.cut || tip || bias;
  used.waste = (cloth.binding && is_joined(*cloth.binding)) ||
               std::any_of(cloth.strips.begin(), cloth.strips.end(), has_waste);
  if (cloth.binding) {
    used.stops = used.bound = true;
    used.cut = used.cut || is_joined(*cloth.binding);
  }
  used.panels = cloth.backing && cloth.backing->panels > 1;
  return used;
}

Ring rectangle(Spot middle, double w, double h) {
  return {{middle.x - w / 2, middle.y - h / 2},
          {middle.x + w / 2, middle.y - h / 2},
          {middle.x + w / 2, middle.y + h / 2},
          {middle.x - w / 2, middle.y + h / 2}};
}

// How entries stand in columns, filled downwards: the size of their words, and each column's width.
struct Columns {
  double words = words_size, scale = 0;  // by which the whole must shrink to fit its room
  std::size_t rows = 0;
  std::vector<double> widths;
};

// As many columns as the room takes; where it is narrow, smaller words rather than smaller marks.
Columns columns_in(const Scene& scene, const std::vector<Entry>& entries, double mark, Room room) {
  constexpr std::array<double, 4> sizes{words_size, 7.5, 7, 6.6};
  constexpr std::size_t most = 6;
  Columns best;
  for (const double size : sizes) {
    for (std::size_t n = std::min(most, entries.size()); n > 0; --n) {
      Columns now{size, 0, (entries.size() + n - 1) / n, {}};
      double wide = -gap;
      for (std::size_t from = 0; from < entries.size(); from += now.rows) {
        double widest = 0;
        for (std::size_t k = from; k < std::min(from + now.rows, entries.size()); ++k)
          widest =
              std::max(widest, scene.fonts.width(canvas::FontId::sans, size, entries[k].words));
        now.widths.push_back(mark + 5 + widest);
        wide += now.widths.back() + gap;
      }
      now.scale =
          std::min({1.0, room.width / wide, room.height / (static_cast<double>(now.rows) * row)});
      if (now.scale > best.scale + 1e-9) best = std::move(now);
    }
    if (best.scale >= 1) break;
  }
  return best;
}

Figure columns(const Scene& scene, const std::vector<Entry>& entries, double mark, Room room,
               std::string alt) {
  const Columns how = columns_in(scene, entries, mark, room);
  canvas::DisplayList list;
  double x = 0;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    if (i > 0 && i % how.rows == 0) x += how.widths[i / how.rows - 1] + gap;
    const double y = static_cast<double>(i % how.rows) * row + row / 2;
    entries[i].mark(list, {x + mark / 2, y});
    write(list, scene.fonts, x + mark + 5, y + how.words * 0.36, how.words, entries[i].words);
  }
  return finish(std::move(list), std::move(alt));
}

Figure in_room(Room room, Figure figure) {
  return fitted(room, 1, 1, [&](double) { return figure; });
}

}  // namespace

std::optional<Figure> key_figure(const Scene& scene, std::size_t size, Room room) {
  const MarksUsed used = marks_used(scene, size);
  const Fabric sample{.id = {}, .name = {}, .colour = "#d8d8d8", .number = 1, .span = {}};
  const std::string allowance =
      scene.words.inches(scene.checked.pattern.seam_allowance.round_nearest(16));
  const Words& words = scene.words;
  const auto patch = [&](canvas::DisplayList& list, Spot c, double w, double h) {
    list.shape(outline(rectangle(c, w, h)), [&] {
      canvas::Style style = cloth(sample);
      style.hatch.reset();
      return style;
    }());
  };
  std::vector<Entry> entries{
      {[&](auto& list, Spot c) {
         patch(list, c, 30, 13);
         grain_line(list, c - Spot{11, 0}, c + Spot{11, 0});
       },
       words("mark grain"), used.steps},
      {[&](auto& list, Spot c) {
         grain_line(list, c - Spot{0, 6.5}, c + Spot{0, 6.5});
         list.stroke_path(
             canvas::Path::polyline(
                 {{c.x + 9, c.y - 6}, {c.x + 6, c.y - 6}, {c.x + 6, c.y + 6}, {c.x + 9, c.y + 6}}),
             ink, edge);
       },
       words("mark cloth"), used.cutting},
      {[&](auto& list, Spot c) {
         patch(list, c, 30, 13);
         print_line(list, c - Spot{11, 0}, c + Spot{11, 0});
       },
       words("mark print"), used.prints},
      {[&](auto& list, Spot c) {
         list.stroke_path(canvas::Path::segment(c + Spot{-13, 3}, c + Spot{13, 3}), ink, edge);
         bias_wave(list, c - Spot{0, 1.2}, {1, 0}, 15);
       },
       words("mark bias"), used.bias},
      {[&](auto& list, Spot c) {
         patch(list, c, 30, 13);
         list.stroke_path(canvas::Path::segment(c - Spot{0, 6.5}, c + Spot{0, 6.5}), ink, edge);
         press_arrow(list, c, {1, 0});
       },
       words("mark press"), used.arrow},
      {[&](auto& list, Spot c) {
         patch(list, c, 30, 13);
         list.stroke_path(canvas::Path::segment(c - Spot{0, 6.5}, c + Spot{0, 6.5}), ink, edge);
         press_open(list, c, {1, 0});
       },
       words("mark open"), used.open},
      {[&](auto& list, Spot c) {
         patch(list, c, 30, 13);
         list.stroke_path(canvas::Path::segment(c - Spot{15, 0}, c), ink, edge);
         seam_stop(list, c);
       },
       words("mark stop"), used.stops},
      {[&](auto& list, Spot c) {
         canvas::Style outer = canvas::Style::filled(tint(sample));
         outer.stroke = pale;
         list.shape(outline(rectangle(c, 30, 15)), outer);
         patch(list, c, 23, 8);
       },
       words("mark patch", {{"allowance", allowance}}), used.steps},
      {[&](auto& list, Spot c) {
         canvas::Style wrong = canvas::Style::filled(tint(sample));
         wrong.stroke = ink;
         list.shape(outline(rectangle(c, 30, 13)), wrong);
       },
       words("mark wrong side"), used.stitched || used.bound},
      {[&](auto& list, Spot c) {
         drawn_line(list, c - Spot{13, 0}, c + Spot{13, 0});
       },
       words("mark line"), used.drawn},
      {[&](auto& list, Spot c) {
         stitches(list, c - Spot{13, 0}, c + Spot{13, 0});
       },
       words("mark sew"), used.sewn},
      {[&](auto& list, Spot c) {
         cut_line(list, {c - Spot{13, 0}, c + Spot{13, 0}});
       },
       words("mark cut"), used.cut},
      {[&](auto& list, Spot c) {
         seam_line(list, c - Spot{13, 0}, c + Spot{13, 0});
       },
       words(used.halves && used.panels ? "mark seam of both"
             : used.halves              ? "mark seam of halves"
                                        : "mark seam of panels"),
       used.halves || used.panels},
      {[&](auto& list, Spot c) { list.shape(outline(rectangle(c, 30, 13)), waste()); },
       words("mark waste"), used.waste},
      {[&](auto& list, Spot c) {
         const Rect strip = Rect::of(c.x - 15, c.y - 6.5, 30, 13);
         canvas::Style style = cloth(sample);
         style.hatch.reset();
         list.shape(outline(torn_strip(strip)), style);
         torn_line(list, strip);
       },
       words("mark goes on"), used.goes_on},
      {[&](auto& list, Spot c) { becomes(list, c, 20); }, words("mark becomes"), used.becomes},
      {[&](auto& list, Spot c) {
         patch(list, c, 30, 13);
         Labels labels(scene.fonts);
         labels.put_at(c, "A3", 8);
         labels.paint(list);
       },
       words("mark label")},
  };
  std::erase_if(entries, [](const Entry& e) { return !e.used; });
  std::string alt = words("drawn key");
  for (const Entry& e : entries) alt += (&e == &entries.front() ? " " : "; ") + e.words;
  return in_room(room, columns(scene, entries, mark_width, room, alt));
}

std::vector<FabricId> fabrics_used(const Scene& scene, std::size_t size) {
  std::vector<FabricId> used;
  for (const FabricNeed& need : scene.quantities.sizes.at(size).fabrics)
    if (!need.uses.empty()) used.push_back(need.fabric);
  std::sort(used.begin(), used.end());
  used.erase(std::unique(used.begin(), used.end()), used.end());
  if (used.empty()) {
    for (FabricId f = 0; f < scene.checked.pattern.fabrics.size(); ++f) used.push_back(f);
  }
  return used;
}

std::optional<Figure> fabrics_figure(const Scene& scene, std::size_t size, Room room) {
  const std::vector<Fabric>& fabrics = scene.checked.pattern.fabrics;
  const std::vector<FabricId> used = fabrics_used(scene, size);
  if (used.empty()) return {};
  std::vector<Entry> entries;
  std::string alt = scene.words("drawn fabrics");
  for (const FabricId id : used) {
    const Fabric& fabric = fabrics.at(id);
    const canvas::Style style = cloth(fabric);
    alt += (entries.empty() ? " " : ", ") + std::to_string(fabric.number) + " " + fabric.name;
    entries.push_back({[style](canvas::DisplayList& list, Spot c) {
                         list.shape(outline(rectangle(c, 22, 15)), style);
                       },
                       std::to_string(fabric.number) + "  " + fabric.name});
  }
  return in_room(room, columns(scene, entries, 24, room, alt));
}

std::optional<Figure> swatch_figure(const Scene& scene, const std::string& id, Room room) {
  for (const Fabric& fabric : scene.checked.pattern.fabrics) {
    if (fabric.id != id) continue;
    const double side = std::min({14.0, room.width, room.height}) - edge;
    canvas::DisplayList list;
    list.shape(outline(rectangle({side / 2, side / 2}, side, side)), cloth(fabric, 3.2));
    return finish(
        std::move(list),
        fabric.name + ": " + scene.words.named("hatch ", canvas::hatch_name(fabric.number - 1)));
  }
  return {};
}

}  // namespace dogear::drawing
