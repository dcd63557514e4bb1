// Strips with the pieces laid on them, and strip sets with their cuts.

#include <algorithm>

#include "base/length.h"
#include "drawing/figures.h"
#include "drawing/marks.h"
#include "drawing/strips.h"

namespace dogear::drawing {
namespace {

constexpr double side = 52;   // pt at the left for "Cut 4" and the strip's height
constexpr double note = 6.8;  // pt, words below the last strip
constexpr double note_step = 8.6;
constexpr double between = 9;  // pt between kinds of strip
constexpr double cap = 10;     // pt an inch

std::vector<const StripPlan*> plans_of(const Scene& scene, std::size_t size, FabricId fabric) {
  std::vector<const StripPlan*> out;
  for (const StripPlan& plan : scene.quantities.sizes.at(size).strips) {
    if (plan.fabric == fabric) out.push_back(&plan);
  }
  return out;
}

std::string run_words(const Scene& scene, std::size_t size, const StripPlan& plan, const Run& run) {
  switch (run.kind) {
    case Run::Kind::piece: {
      const CutPiece* cut = cut_of(scene, size, run.piece);
      std::string words = std::to_string(run.count) + " × " +
                          scene.piecing.pieces.at(run.piece).label(scene.checked.pattern);
      if (cut == nullptr) return words;
      const bool square_ended =
          cut->cut.method == CutMethod::rectangle || cut->cut.method == CutMethod::joined_strip;
      words += (square_ended ? ", " : " ") + cut_words(cut->cut, run.count);
      return words;
    }
    case Run::Kind::strip_set:
      return "for strip set " + std::to_string(run.strip_set + 1) + ", " +
             pretty_inches(run.length) + " long";
    case Run::Kind::whole_strip:
      return "whole strip" + (plan.purpose.empty() ? "" : " for the " + plan.purpose);
    case Run::Kind::leftover:
      return "left over " + pretty(run.height.num > 0 ? run.height : plan.height) + " × " +
             pretty_inches(run.length);
  }
  return {};
}

class Strips {
 public:
  Strips(const Scene& scene, std::size_t size, FabricId fabric)
      : scene_(scene), size_(size), fabric_(scene.checked.pattern.fabrics.at(fabric)) {}

  // The height that the plan takes; draws nothing.
  double height(const StripPlan& plan, double scale) const {
    return std::max(17.0, plan.height.approx() * scale);
  }

  void draw(canvas::DisplayList& list, const StripPlan& plan, double y, double scale) const {
    const double h = plan.height.approx() * scale, w = plan.usable.approx() * scale;
    write(list, scene_.fonts, 0, y + 7, 7.5, "Cut " + std::to_string(plan.times),
          canvas::FontId::sans_bold);
    write(list, scene_.fonts, 0, y + 15.5, 7,
          pretty_inches(plan.height) + (plan.times == 1 ? " strip" : " strips"));
    list.stroke_path(canvas::Path::polyline(
                         {{side - 3, y}, {side - 6, y}, {side - 6, y + h}, {side - 3, y + h}}),
                     ink, edge);
    canvas::Style strip = canvas::Style::filled(tint(fabric_));
    strip.stroke = ink;
    list.shape(canvas::Path::rect(side, y, w, h), strip);

    Labels labels(scene_.fonts);
    double x = side;
    for (const Run& run : plan.runs) {
      const double length = run.length.approx() * scale;
      const double run_height =
          std::min(h, (run.height.num > 0 ? run.height.approx() : plan.height.approx()) * scale);
      const Rect area = Rect::of(x, y, length, run_height);
      if (run.kind == Run::Kind::piece) {
        pieces(list, labels, run, area, scale);
      } else if (run.kind == Run::Kind::leftover) {
        left_over(list, area);
      } else {
        list.shape(canvas::Path::rect(area), cloth(fabric_));
        const Ring r = corners(area);
        LabelStyle style;
        style.font = canvas::FontId::sans;
        style.largest = 8;
        labels.put_inside(r,
                          run.kind == Run::Kind::strip_set
                              ? "strip set " + std::to_string(run.strip_set + 1)
                              : plan.purpose,
                          style);
      }
      if (run_height < h - 0.3) {
        left_over(list, Rect::of(x, y + run_height, length, h - run_height));
      }
      x += length;
    }
    labels.paint(list);
  }

 private:
  static Ring corners(const Rect& r) {
    return {{r.left, r.top}, {r.right, r.top}, {r.right, r.bottom}, {r.left, r.bottom}};
  }

  void left_over(canvas::DisplayList& list, const Rect& area) const {
    if (area.width() < 0.3) return;
    canvas::Style style = canvas::Style::filled(offcut);
    style.hatch = canvas::Hatch{4, canvas::Color::gray(0.7), 3.4, fine};
    style.stroke = pale;
    style.width = fine;
    list.shape(canvas::Path::rect(area), style);
  }

  void pieces(canvas::DisplayList& list, Labels& labels, const Run& run, const Rect& area,
              double scale) const {
    const CutPiece* cut = cut_of(scene_, size_, run.piece);
    const std::string label = scene_.piecing.pieces.at(run.piece).label(scene_.checked.pattern);
    if (cut == nullptr || cut->cut.method == CutMethod::joined_strip) {
      list.shape(canvas::Path::rect(area), cloth(fabric_));
      LabelStyle style;
      style.largest = 10;
      labels.put_inside(corners(area), label, style);
      return;
    }
    for (const LaidPiece& laid : laid_run(scene_, size_, run, scale)) {
      const Ring there = moved(laid.ring, Motion::move(area.left, area.top));
      list.shape(outline(there), cloth(fabric_));
      LabelStyle style;
      style.largest = 10;
      labels.put_inside(there, scene_.piecing.pieces.at(laid.piece).label(scene_.checked.pattern),
                        style);
    }
  }

  const Scene& scene_;
  std::size_t size_;
  const Fabric& fabric_;
};

std::optional<FabricId> fabric_of(const Scene& scene, const std::string& id) {
  const std::vector<Fabric>& fabrics = scene.checked.pattern.fabrics;
  for (FabricId f = 0; f < fabrics.size(); ++f) {
    if (fabrics[f].id == id) return f;
  }
  return {};
}

}  // namespace

std::size_t strip_kinds(const Scene& scene, std::size_t size, FabricId fabric) {
  return plans_of(scene, size, fabric).size();
}

std::optional<Figure> cutting_figure(const Scene& scene, std::size_t size, const std::string& id,
                                     std::optional<std::size_t> n, Room room) {
  const std::optional<FabricId> fabric = fabric_of(scene, id);
  if (!fabric) return {};
  std::vector<const StripPlan*> plans = plans_of(scene, size, *fabric);
  if (n && (*n < 1 || *n > plans.size())) return {};
  if (n) plans = {plans[*n - 1]};
  if (plans.empty()) return {};

  double longest = 1;
  for (const StripPlan* plan : plans) longest = std::max(longest, plan->usable.approx());
  const Strips strips(scene, size, *fabric);
  const auto total = [&](double scale) {
    double y = 0;
    for (const StripPlan* plan : plans) y += strips.height(*plan, scale) + between;
    return y - between;
  };
  double scale = std::min(cap, (room.width - side - 1) / longest);
  const double least = std::min(scale, 4.0);
  while (scale > least && total(scale) > room.height - 1) scale = std::max(least, scale * 0.96);

  long long count = 0;
  for (const StripPlan* plan : plans) count += plan->times;
  const std::string alt =
      "Cutting " + scene.checked.pattern.fabrics.at(*fabric).name + ": " + std::to_string(count) +
      (count == 1 ? " strip" : " strips") + [&] {
        std::string words;
        for (const StripPlan* plan : plans) {
          words += "; cut " + std::to_string(plan->times) + " " + pretty_inches(plan->height) +
                   (plan->times == 1 ? " strip:" : " strips:");
          for (const Run& run : plan->runs) {
            words +=
                (&run == &plan->runs.front() ? " " : ", ") + run_words(scene, size, *plan, run);
          }
        }
        return words;
      }();
  return fitted(room, scale, scale, [&](double at) {
    canvas::DisplayList list;
    double y = 0;
    for (std::size_t i = 0; i < plans.size(); ++i) {
      const double h = strips.height(*plans[i], at);
      const bool last = i + 1 == plans.size();
      if (i > 0 && y + h + (last ? 0 : note_step) > room.height - 1) {
        write(list, scene.fonts, side, y + note, note,
              "and " + std::to_string(plans.size() - i) + " more kinds of strip");
        break;
      }
      strips.draw(list, *plans[i], y, at);
      y += h + between;
    }
    return finish(std::move(list), alt);
  });
}

std::optional<Figure> strip_set_figure(const Scene& scene, std::size_t size, std::size_t n,
                                       Room room) {
  const std::vector<StripSet>& sets = scene.quantities.sizes.at(size).strip_sets;
  if (n < 1 || n > sets.size()) return {};
  const StripSet& set = sets[n - 1];
  std::string alt = "Strip set " + std::to_string(n) + " of ";
  for (std::size_t i = 0; i < set.strips.size(); ++i) {
    if (i > 0) alt += i + 1 == set.strips.size() ? " and " : ", ";
    alt += scene.checked.pattern.fabrics.at(set.strips[i].first).name;
  }
  alt += ": sew " + std::to_string(set.sets) + (set.sets == 1 ? " set" : " sets") + ", cut " +
         std::to_string(set.need) + " " + cut_words(set.cut, set.need);
  return fitted(room, cap, 3, [&](double scale) {
    canvas::DisplayList list;
    Labels labels(scene.fonts);
    // As many shapes as the first set gives, up to five.
    const long long fit =
        set.set_lengths.empty() || set.cut.pitch <= 0
            ? 3
            : 1 + static_cast<long long>((set.set_lengths[0].approx() - set.cut.first) /
                                         set.cut.pitch);
    const int shapes = static_cast<int>(std::clamp(fit, 1LL, 5LL));
    draw_strip_set(list, labels, scene, set, {0, 0}, scale, shapes);
    labels.paint(list);
    return finish(std::move(list), alt);
  });
}

}  // namespace dogear::drawing
