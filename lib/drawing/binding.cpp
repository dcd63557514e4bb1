// The binding in small numbered pictures: strips joined, folded, laid round a corner, ends joined.

#include <algorithm>
#include <numbers>

#include "base/length.h"
#include "drawing/figures.h"
#include "drawing/marks.h"

namespace dogear {

bool is_joined(const Binding& binding) {
  return (binding.square ? binding.squares : binding.strips) > 1;
}

namespace drawing {
namespace {

constexpr double largest_strip = 42, least_strip = 24;  // pt, the cut width
constexpr double row_strip = 32;  // pt, as wide as it must be for all pictures to stand in a row
constexpr double between_pictures = 15;  // pt from picture to picture
constexpr double stage = 24;             // pt from what is sewn to what it becomes
constexpr double arrow = 15;             // pt
constexpr double measure_size = 7;       // pt
constexpr double caption_size = 8;       // pt
constexpr double caption_room = 15;      // pt from a row of pictures to the base line below it

struct Small {
  canvas::ListRef list;
  Rect box;
  std::string caption;
};

class BindingPictures {
 public:
  BindingPictures(const Scene& scene, const Binding& binding, double scale)
      : scene_(scene),
        fabric_(scene.checked.pattern.fabrics.at(binding.fabric)),
        width_(binding.strip),
        strip_(binding.strip.approx() * scale),
        half_(strip_ / 2),
        allowance_(scene.checked.pattern.seam_allowance.approx() * scale) {}

  // Two strips at a right angle; the upper one, turned over the seam, goes on along the lower one.
  Small strips_joined() const {
    canvas::DisplayList list;
    const double w = strip_, more = w * 1.1, beyond = allowance_ * std::numbers::sqrt2;
    lay(list, {{-more, 0}, {w, 0}, {w, w}, {-more, w}}, right_side(), {3});
    lay(list, {{0, 0}, {w, 0}, {w, w + more}, {0, w + more}}, wrong_side(), {2});
    list.shape(outline(Ring{{beyond, 0}, {w, 0}, {w, w - beyond}}), waste());
    cut_line(list, {{beyond, 0}, {w, w - beyond}});
    stitches(list, {0, 0}, {w, w});
    return done(std::move(list), "caption join strips");
  }

  // Flat, the wrong side up, and folded, one corner turned down to show both layers.
  Small folded() const {
    canvas::DisplayList list;
    Labels labels(scene_.fonts);
    const double w = strip_, f = half_, long_ = w * 1.6, turned = f * 0.6;
    lay(list, {{0, 0}, {long_, 0}, {long_, w}, {0, w}}, wrong_side(), {3});
    becomes(list, {long_ / 2, w + stage / 2}, arrow, true);
    const double y = w + stage;
    lay(list, {{0, y}, {long_, y}, {long_, y + f}, {0, y + f}}, right_side(), {3});
    const Spot near{long_ - turned, y}, low{long_, y + turned};
    lay(list, {near, {long_, y}, low}, wrong_side(), {});
    lay(list, {near, low, {long_ - turned, y + turned}}, wrong_side(), {});
    tall(list, labels, long_, 0, w, width_);
    tall(list, labels, long_, y, y + f, Fraction::of(width_.num, width_.den * 2));
    labels.paint(list);
    return done(std::move(list), "caption fold strip");
  }

  // The corner of the quilt is at the origin, raw edges along its upper and its right edge.
  Small corner() const {
    canvas::DisplayList list;
    const double f = half_, a = allowance_, seen = f * 2.3, up = f * 1.7;
    const auto sewn_up_to_corner = [&] {
      lay(list, {{-seen, 0}, {0, 0}, {0, seen}, {-seen, seen}}, quilt(), {2, 3});
      lay(list, {{-seen, 0}, {0, 0}, {-f, f}, {-seen, f}}, right_side(), {3});
      stitches(list, {-seen + 1.4, a}, {-f, a});
    };
    sewn_up_to_corner();
    lay(list, {{0, 0}, {-f, f}, {-f, -up}, {0, -up}}, right_side(), {2});
    upper_edge(list, {-f, 0}, {-f, f});
    hidden_stitches(list, {-a, a}, {-f, a});
    seam_stop(list, {-a, a});
    canvas::DisplayList up_list;
    std::swap(list, up_list);
    sewn_up_to_corner();
    lay(list, {{-f, 0}, {0, 0}, {0, seen}, {-f, seen}}, right_side(), {2});
    upper_edge(list, {-f, 0}, {-f, f});
    hidden_stitches(list, {-a, a}, {-f, a});
    stitches(list, {-a, 1.4}, {-a, seen - 1.4});
    canvas::DisplayList both;
    both.draw(canvas::share(std::move(up_list)));
    becomes(both, {stage / 2 + 1, seen / 2}, arrow);
    both.draw(canvas::share(std::move(list)), Motion::move(stage + 2 + seen, 0));
    return done(std::move(both), "caption fold corner");
  }

  // The end that comes from the left lies on the beginning, as far as a strip is wide.
  Small ends_joined() const {
    canvas::DisplayList list;
    Labels labels(scene_.fonts);
    const double f = half_, a = allowance_, side = f * 2.5, deep = f * 1.5;
    const double free = f * 1.6;  // from the middle to the seams
    const auto edge_of_quilt = [&](double y) {
      lay(list, {{-side, y}, {side, y}, {side, y + deep}, {-side, y + deep}}, quilt(), {1, 2, 3});
    };
    edge_of_quilt(0);
    lay(list, {{-f, 0}, {side, 0}, {side, f}, {-f, f}}, right_side(), {1});
    lay(list, {{-side, 0}, {f, 0}, {f, f}, {-side, f}}, right_side(), {3});
    upper_edge(list, {f, 0}, {f, f});
    const canvas::Path lower_end = canvas::Path::segment({-f, 0}, {-f, f});
    list.stroke_path(lower_end, canvas::white, 0.8);
    list.stroke_path(lower_end, pale, 0.8, {1.6, 1.6});
    stitches(list, {-side + 1.4, a}, {-free, a});
    stitches(list, {free, a}, {side - 1.4, a});
    measure_line(list, {-f, -7}, {f, -7});
    labels.put_at({0, -7}, scene_.words.inches(width_), measure_size, plain());
    becomes(list, {0, deep + stage / 2}, arrow, true);
    const double y = deep + stage;
    edge_of_quilt(y);
    lay(list, {{-side, y}, {side, y}, {side, y + f}, {-side, y + f}}, right_side(), {1, 3});
    upper_edge(list, {-f / 2, y}, {f / 2, y + f});
    stitches(list, {-side + 1.4, y + a}, {side - 1.4, y + a});
    labels.paint(list);
    return done(std::move(list), "caption join ends");
  }

 private:
  static LabelStyle plain() {
    LabelStyle style;
    style.font = canvas::FontId::sans;
    return style;
  }
  canvas::Style right_side() const { return cloth(fabric_, 3.6); }
  canvas::Style wrong_side() const { return canvas::Style::filled(tint(fabric_)); }
  static canvas::Style quilt() { return canvas::Style::filled(canvas::white); }

  // Cloth with lines along its edges, but not where it goes on: edge i ends at the corner i + 1.
  static void lay(canvas::DisplayList& list, const Ring& ring, canvas::Style style,
                  const std::vector<std::size_t>& goes_on) {
    style.stroke.reset();
    list.shape(outline(ring), style);
    canvas::Path edges;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      if (std::find(goes_on.begin(), goes_on.end(), i) != goes_on.end()) continue;
      edges.append(canvas::Path::segment(ring[i], ring[(i + 1) % ring.size()]));
    }
    canvas::Style line = canvas::Style::stroked(ink, edge);
    line.round_caps = true;
    list.shape(edges, line);
  }

  // Where cloth lies on cloth of the same fabric, or is sewn to it: seen on dark fabrics, too.
  static void upper_edge(canvas::DisplayList& list, Spot from, Spot to) {
    list.stroke_path(canvas::Path::segment(from, to), canvas::white, 2);
    list.stroke_path(canvas::Path::segment(from, to), ink, 0.8);
  }

  // A seam beneath a fold.
  static void hidden_stitches(canvas::DisplayList& list, Spot from, Spot to) {
    for (const bool halo : {true, false}) {
      canvas::Style style =
          canvas::Style::stroked(halo ? canvas::white : pale, halo ? 2.2 : 1.4, {0.01, 2.8});
      style.round_caps = true;
      list.shape(canvas::Path::segment(from, to), style);
    }
  }

  // A measure at the right.
  void tall(canvas::DisplayList& list, Labels& labels, double x, double from, double to,
            const Fraction& inches) const {
    const std::string words = scene_.words.inches(inches);
    const double at = x + labels.measure(words, measure_size, plain()).width() / 2 + 4;
    measure_line(list, {at, from}, {at, to});
    labels.put_at({at, (from + to) / 2}, words, measure_size, plain());
  }

  Small done(canvas::DisplayList list, const char* caption) const {
    Small out;
    out.box = list.bounds();
    out.list = canvas::share(std::move(list));
    out.caption = scene_.words(caption);
    return out;
  }

  const Scene& scene_;
  const Fabric& fabric_;
  Fraction width_;
  double strip_, half_, allowance_;  // pt
};

}  // namespace

std::optional<Figure> binding_figure(const Scene& scene, std::size_t size, Room room) {
  const std::optional<Binding>& binding = scene.quantities.sizes.at(size).binding;
  if (!binding) return {};
  const bool joins = is_joined(*binding);
  std::string alt = scene.words("drawn binding");
  std::size_t told = 0;
  for (const char* key :
       {"drawn binding join", "drawn binding fold", "drawn binding corner", "drawn binding ends"}) {
    if (told == 0 && !joins && key == std::string("drawn binding join")) continue;
    ++told;
    alt += (told == 1 ? " " : "; ") + std::to_string(told) + " " +
           scene.words(
               key, {{"allowance",
                      scene.words.inches(scene.checked.pattern.seam_allowance.round_nearest(64))},
                     {"strip", scene.words.inches(binding->strip)}});
  }
  const auto draw = [&](double scale, std::size_t rows) {
    const BindingPictures pictures(scene, *binding, scale);
    std::vector<Small> all;
    if (joins) all.push_back(pictures.strips_joined());
    all.push_back(pictures.folded());
    all.push_back(pictures.corner());
    all.push_back(pictures.ends_joined());
    const std::size_t in_row = (all.size() + rows - 1) / rows;
    const auto width_of = [&](const std::string& words, canvas::FontId font) {
      return scene.fonts.width(font, caption_size, words);
    };
    const double lead = width_of("4", canvas::FontId::sans_bold) + 4;
    std::vector<double> cells(in_row, 0);
    for (std::size_t i = 0; i < all.size(); ++i) {
      cells[i % in_row] = std::max({cells[i % in_row], all[i].box.width(),
                                    lead + width_of(all[i].caption, canvas::FontId::sans)});
    }
    canvas::DisplayList list;
    double top = 0;
    for (std::size_t first = 0; first < all.size(); first += in_row) {
      const std::size_t last = std::min(all.size(), first + in_row);
      double tallest = 0, x = 0;
      for (std::size_t i = first; i < last; ++i) tallest = std::max(tallest, all[i].box.height());
      const double base = top + tallest + caption_room;
      for (std::size_t i = first; i < last; ++i) {
        const Small& p = all[i];
        const double middle = x + cells[i - first] / 2;
        list.draw(p.list,
                  Motion::move(middle - p.box.center().x, top + tallest / 2 - p.box.center().y));
        const double words = lead + width_of(p.caption, canvas::FontId::sans);
        write(list, scene.fonts, middle - words / 2, base, caption_size, std::to_string(i + 1),
              canvas::FontId::sans_bold);
        write(list, scene.fonts, middle - words / 2 + lead, base, caption_size, p.caption);
        x += cells[i - first] + between_pictures;
      }
      top = base + between_pictures;
    }
    return finish(std::move(list), alt);
  };
  const double strip = binding->strip.approx();
  const std::size_t rows = draw(row_strip / strip, 1).width <= room.width ? 1 : 2;
  return fitted(room, largest_strip / strip, least_strip / strip,
                [&](double scale) { return draw(scale, rows); });
}

}  // namespace drawing
}  // namespace dogear
