// The quilt top, finished and as a layout with the blocks' names and the rows' numbers; backing.

#include <algorithm>
#include <cmath>
#include <set>

#include "base/length.h"
#include "base/text.h"
#include "drawing/apart.h"
#include "drawing/figures.h"
#include "drawing/labels.h"
#include "drawing/marks.h"
#include "drawing/patchwork.h"

namespace dogear::drawing {
namespace {

constexpr double quilt_hatch = 2.8;      // pt between hatch lines where patches are small
constexpr double binding_shown = 0.375;  // inches of binding seen from the front

std::string measure_words(const Scene& scene, std::size_t size) {
  const SizeQuantities& q = scene.quantities.sizes.at(size);
  return pretty(q.finished_width) + " × " + scene.words.inches(q.finished_height);
}

std::string title(const Scene& scene, std::size_t size) {
  const SizeDef& def = scene.checked.pattern.sizes.at(scene.checked.sizes.at(size).size);
  return scene.checked.pattern.title + (def.title.empty() ? "" : ", " + def.title);
}

Ring frame(double width, double height) {
  return {{0, 0}, {width, 0}, {width, height}, {0, height}};
}

const BindingDef* binding_of(const Scene& scene, std::size_t size) {
  const SizeDef& def = scene.checked.pattern.sizes.at(scene.checked.sizes.at(size).size);
  return def.binding ? &*def.binding : nullptr;
}

// Row units, lowest in the order of assembly, where they lie in the top.
struct RowPlace {
  UnitId unit = 0;
  Rect box;
};

void find_rows(const Scene& scene, const std::set<UnitId>& assembly, UnitId id,
               const dogear::Transform& where, double scale, std::vector<RowPlace>& out) {
  const SewnUnit& u = scene.piecing.units.at(id);
  bool leaf = true;
  for (const Input& input : u.inputs) {
    if (input.is_piece || !assembly.contains(input.unit)) continue;
    leaf = false;
    find_rows(scene, assembly, input.unit, input.where.then(where), scale, out);
  }
  if (!leaf) return;
  out.push_back({id, box(moved(ring(u.outline, scale), motion(where, scale)))});
}

// "Row 3", "Sashing row": as the assembly names it, so that a row made twice is found twice.
std::string row_words(const Scene& scene, UnitId row, std::size_t position) {
  if (scene.piecing.units.at(row).name.empty())
    return capital(scene.words.form("noun row", NounForm::bare, {{"n", std::to_string(position)}}));
  return capital(unit_words(scene, row));
}

}  // namespace

std::optional<Figure> quilt_figure(const Scene& scene, std::size_t size, bool hatched, Room room) {
  const CheckedSize& top = scene.checked.sizes.at(size);
  const std::string alt = scene.words(
      "drawn quilt", {{"title", title(scene, size)}, {"size", measure_words(scene, size)}});
  const auto draw = [&](double scale) {
    canvas::DisplayList list;
    const Ring around = frame(top.width.approx() * scale, top.height.approx() * scale);
    if (const BindingDef* binding = binding_of(scene, size)) {
      canvas::Style style =
          cloth(scene.checked.pattern.fabrics.at(binding->fabric), quilt_hatch, fine);
      if (!hatched) style.hatch.reset();
      list.shape(outline(grown(around, std::max(1.5, binding_shown * scale))), style);
    }
    Patchwork work(scene, scale, hatched ? quilt_hatch : 0, fine);
    work.part(list, top.top, {});
    return finish(std::move(list), alt);
  };
  return fitted(room, 24, 0.5, draw);
}

namespace {

std::string beginning(const std::string& word, std::size_t letters) {
  std::string out;
  std::size_t n = 0;
  for (std::size_t at = 0; at < word.size() && n < letters; ++n)
    out += utf8(next_code_point(word, at));
  return out;
}

// The beginning of a title as short as tells it from all others: "Du" and "Da". Titles that begin
// with the same word have that word's letter and the beginning of the first word that differs.
std::string short_name(const std::string& title, const std::set<std::string>& titles) {
  const std::vector<std::string> own = split(title, ' ');
  std::string head;
  for (std::size_t w = 0; w < own.size(); ++w) {
    std::set<std::string> others;  // what stands in this place of titles alike up to here
    bool same = false;
    for (const std::string& title_of : titles) {
      const std::vector<std::string> other = split(title_of, ' ');
      if (title_of == title || other.size() < w ||
          !std::equal(own.begin(), own.begin() + static_cast<std::ptrdiff_t>(w), other.begin()))
        continue;
      const std::string word = other.size() > w ? other[w] : "";
      same = same || word == own[w];
      others.insert(word);
    }
    if (same) {
      head += beginning(own[w], 1);
      continue;
    }
    std::size_t letters = w == 0 ? 2 : 1;
    const auto told = [&] {
      return std::none_of(others.begin(), others.end(), [&](const std::string& word) {
        return beginning(word, letters) == beginning(own[w], letters);
      });
    };
    while (letters < own[w].size() && !told()) ++letters;
    return head + beginning(own[w], letters);
  }
  return head;
}

}  // namespace

std::map<std::size_t, std::string> short_names(const Scene& scene, std::size_t size) {
  const auto title_of = [&](std::size_t use) {
    const BlockUse& u = scene.checked.pattern.uses.at(use);
    return u.title.empty() ? u.id : u.title;
  };
  std::map<std::size_t, std::string> out;
  std::set<std::string> titles;
  for (const BlockPlace& place : scene.checked.sizes.at(size).places)
    titles.insert(out[place.use] = title_of(place.use));
  std::map<std::string, int> taken;
  for (auto& [use, name] : out) {
    name = short_name(name, titles);
    // Titles may be the same, or their letters fall together.
    if (const int n = ++taken[name]; n > 1) name += " " + std::to_string(n);
  }
  return out;
}

namespace {

class Layout {
 public:
  Layout(const Scene& scene, std::size_t size)
      : scene_(scene), size_(size), top_(scene.checked.sizes.at(size)) {
    const SizeSewing& sewing = scene.piecing.sizes.at(size);
    assembly_.insert(sewing.assembly.begin(), sewing.assembly.end());
  }

  Figure draw(double scale, Room room) {
    canvas::DisplayList list;
    Patchwork work(scene_, scale, quilt_hatch, fine);
    work.part(list, top_.top, {});
    std::vector<std::pair<Ring, std::size_t>> blocks;
    for (const BlockPlace& place : top_.places) {
      const Part& block = scene_.checked.parts.at(scene_.checked.block_parts.at(place.use));
      Ring r = moved(ring(block.outline, scale), motion(place.where, scale));
      blocks.emplace_back(std::move(r), place.use);
    }
    for (const bool halo : {true, false}) {
      for (const auto& [r, use] : blocks) {
        canvas::Style seam = canvas::Style::stroked(halo ? canvas::white : ink, halo ? 2.4 : 1.1);
        seam.round_joins = true;
        list.shape(outline(r), seam);
      }
    }
    const double width = top_.width.approx() * scale, height = top_.height.approx() * scale;
    canvas::Style around = canvas::Style::stroked(ink, 1.0);
    list.shape(outline(frame(width, height)), around);
    rows(list, scale);
    Labels titles(scene_.fonts);
    Labels initials(scene_.fonts);
    const bool titled = put_names(titles, blocks, full_names(), scale);
    if (!titled) {
      const auto names = short_names(scene_, size_);
      if (put_names(initials, blocks, names, scale)) legend(list, names, width, height, room);
    }
    (titled ? titles : initials).paint(list);
    return finish(std::move(list), alt());
  }

 private:
  std::map<std::size_t, std::string> full_names() const {
    std::map<std::size_t, std::string> out;
    for (const BlockPlace& place : top_.places) {
      const BlockUse& use = scene_.checked.pattern.uses.at(place.use);
      out[place.use] = use.title.empty() ? use.id : use.title;
    }
    return out;
  }

  // The patches near the middle of a placed block, those before that suit its name better.
  std::vector<Ring> patches(const BlockPlace& place, double scale) const {
    constexpr double aside = 0.04, above = 0.3;  // of the block, at most from its middle
    std::vector<Ring> out;
    const PartId id = scene_.checked.block_parts.at(place.use);
    if (scene_.checked.parts.at(id).is_patch) return out;
    for (const FlatPatch& patch : flatten(scene_.checked, id))
      out.push_back(moved(ring(scene_.checked.parts.at(patch.patch).outline, scale),
                          motion(patch.where.then(place.where), scale)));
    Rect all;
    for (const Ring& r : out) all.add(box(r));
    std::erase_if(out, [&](const Ring& r) {
      const Spot from = centroid(r) - all.center();
      return std::abs(from.x) > all.width() * aside || std::abs(from.y) > all.height() * above;
    });
    // Names stand in the middle column of their blocks where they can, and rather high than low.
    const auto rank = [&](const Ring& r) {
      const Spot from = centroid(r) - all.center();
      return std::pair(std::round(std::abs(from.x) * 10), std::round(from.y * 10));
    };
    std::stable_sort(out.begin(), out.end(),
                     [&](const Ring& a, const Ring& b) { return rank(a) < rank(b); });
    return out;
  }

  // Clear of the seams where a patch is large enough. False when any name finds no room.
  bool put_names(Labels& labels, const std::vector<std::pair<Ring, std::size_t>>& blocks,
                 const std::map<std::size_t, std::string>& names, double scale) const {
    LabelStyle style;
    style.font = canvas::FontId::sans;
    style.largest = 7;
    style.smallest = 6.5;
    bool all = true;
    for (std::size_t i = 0; i < blocks.size(); ++i) {
      const std::string& name = names.at(blocks[i].second);
      const std::vector<Ring> clear = patches(top_.places.at(i), scale);
      if (std::any_of(clear.begin(), clear.end(),
                      [&](const Ring& r) { return labels.put_inside(r, name, style).has_value(); }))
        continue;
      all = labels.put_inside(blocks[i].first, name, style) && all;
    }
    return all;
  }

  void legend(canvas::DisplayList& list, const std::map<std::size_t, std::string>& names,
              double width, double height, Room room) const {
    double x = 0, y = height + 11;
    const double right = std::max(width, std::min(room.width - 30, 120.0));
    for (const auto& [use, name] : names) {
      const BlockUse& block = scene_.checked.pattern.uses.at(use);
      const std::string words = name + " = " + (block.title.empty() ? block.id : block.title);
      const double w = scene_.fonts.width(canvas::FontId::sans, 7, words);
      if (x > 0 && x + w > right) x = 0, y += 9;
      write(list, scene_.fonts, x, y, 7, words);
      x += w + 12;
    }
  }

  // Beside the upper end of a diagonal row: above the quilt, or to its right.
  Spot above_end(const Rect& row, const Rect& words, const Rect& all, double scale) const {
    const BlockPlace& any = top_.places.front();
    const Polygon& block = scene_.checked.parts.at(scene_.checked.block_parts.at(any.use)).outline;
    const double half = bounds(any.where.apply(block)).width().approx() / 2 * scale;
    if (row.top < all.top + 0.01) {
      // The row in the corner ends in a triangle half as wide as the others.
      const bool corner = row.right > all.right - 0.01;
      return {row.right - (corner ? half / 2 : half), -3 - words.height() / 2};
    }
    const double width = top_.width.approx() * scale;
    return {width + 3 + words.width() / 2, row.top + half};
  }

  void rows(canvas::DisplayList& list, double scale) const {
    const SizeSewing& sewing = scene_.piecing.sizes.at(size_);
    if (sewing.assembly.empty()) return;
    const Polygon& whole = scene_.piecing.units.at(sewing.top).outline;
    std::vector<RowPlace> places;
    const dogear::Point least = bounds(whole).least;
    find_rows(scene_, assembly_, sewing.top, dogear::Transform::moved(dogear::Point{} - least),
              scale, places);
    const double width = top_.width.approx() * scale;
    const auto before = [](double a, double b) { return a < b - 0.01; };
    std::stable_sort(places.begin(), places.end(), [&](const RowPlace& a, const RowPlace& b) {
      if (before(a.box.top, b.box.top)) return true;
      return !before(b.box.top, a.box.top) && before(a.box.left, b.box.left);
    });
    Labels taken(scene_.fonts);
    LabelStyle style;
    style.plate = false;
    const bool on_point = scene_.checked.pattern.sizes.at(size_).setting == Setting::on_point;
    Rect all;
    for (const RowPlace& place : places) all.add(place.box);
    std::size_t position = 0;
    for (const RowPlace& place : places) {
      ++position;
      if (!on_point && place.box.width() < width * 0.4) continue;
      const std::string words = row_words(scene_, place.unit, position);
      const Rect m = taken.measure(words, 6.5, style);
      const Spot at = on_point ? above_end(place.box, m, all, scale)
                               : Spot{-3 - m.width() / 2, place.box.center().y};
      // No row goes without its name: where two are near, the second moves along the edge.
      const bool level = on_point && at.y < 0;
      for (const double by : {0.0, 4.0, -4.0, 8.0, -8.0, 12.0, -12.0, 18.0, -18.0, 24.0, -24.0}) {
        const Spot here = level ? Spot{at.x + by, at.y} : Spot{at.x, at.y + by};
        const Rect wanted =
            Rect::of(here.x - m.width() / 2, here.y - m.height() / 2, m.width(), m.height());
        if (!taken.is_free(wanted)) continue;
        taken.put_at(here, words, 6.5, style);
        break;
      }
    }
    taken.paint(list);
  }

  std::string alt() const {
    std::map<std::size_t, int> count;
    for (const BlockPlace& place : top_.places) ++count[place.use];
    std::string words = scene_.words("drawn layout", {{"title", title(scene_, size_)}});
    bool first = true;
    for (const auto& [use, n] : count) {
      const BlockUse& block = scene_.checked.pattern.uses.at(use);
      words += (first ? " " : ", ") + std::to_string(n) + " × " +
               (block.title.empty() ? block.id : block.title);
      first = false;
    }
    return words;
  }

  const Scene& scene_;
  std::size_t size_;
  const CheckedSize& top_;
  std::set<UnitId> assembly_;
};

}  // namespace

std::optional<Figure> layout_figure(const Scene& scene, std::size_t size, Room room) {
  Layout layout(scene, size);
  return fitted(room, 24, 0.8, [&](double scale) { return layout.draw(scale, room); });
}

std::optional<Figure> backing_figure(const Scene& scene, std::size_t size, Room room) {
  const std::optional<Backing>& backing = scene.quantities.sizes.at(size).backing;
  if (!backing || backing->panels < 1) return {};
  const CheckedSize& top = scene.checked.sizes.at(size);
  const std::string measure = pretty(backing->width) + " × " + scene.words.inches(backing->height);
  const std::string alt = scene.words(backing->panels == 1      ? "drawn backing"
                                      : backing->seams_vertical ? "drawn backing upright"
                                                                : "drawn backing level",
                                      {{"size", measure}, {"n", std::to_string(backing->panels)}});
  const auto draw = [&](double scale) {
    canvas::DisplayList list;
    Labels labels(scene.fonts);
    const double w = backing->width.approx() * scale, h = backing->height.approx() * scale;
    canvas::Style style = canvas::Style::filled(offcut);
    style.stroke = ink;
    style.width = 0.8;
    list.shape(outline(frame(w, h)), style);
    const double qw = top.width.approx() * scale, qh = top.height.approx() * scale;
    const Rect quilt = Rect::of((w - qw) / 2, (h - qh) / 2, qw, qh);
    list.stroke_path(canvas::Path::rect(quilt), ink, edge, {3, 2});
    const Ring sides = moved(frame(qw, qh), Motion::move(quilt.left, quilt.top));
    for (std::size_t i = 0; i < sides.size(); ++i) {
      Rect side;
      side.add(sides[i]);
      side.add(sides[(i + 1) % sides.size()]);
      labels.keep_off(side.grown(1));
    }
    const auto n = static_cast<double>(backing->panels);
    for (long long i = 0; i < backing->panels; ++i) {
      const double from = static_cast<double>(i) / n, to = static_cast<double>(i + 1) / n;
      const bool up = backing->seams_vertical;
      if (i > 0) {
        up ? seam_line(list, {w * from, 0}, {w * from, h})
           : seam_line(list, {0, h * from}, {w, h * from});
      }
      if (backing->panels == 1) continue;
      Ring panel = up ? Ring{{w * from, 0}, {w * to, 0}, {w * to, h}, {w * from, h}}
                      : Ring{{0, h * from}, {w, h * from}, {w, h * to}, {0, h * to}};
      LabelStyle words;
      words.font = canvas::FontId::sans;
      words.largest = 8;
      const std::string number = std::to_string(i + 1);
      if (!labels.put_inside(panel, scene.words("drawn panel", {{"n", number}}), words))
        labels.put_inside(panel, number, words);
    }
    LabelStyle plain;
    plain.font = canvas::FontId::sans;
    const std::string down = scene.words.inches(backing->height);
    const double beside = -5 - labels.measure(down, 7, plain).width() / 2;
    measure_line(list, {0, -7}, {w, -7});
    measure_line(list, {beside, 0}, {beside, h});
    labels.put_at({w / 2, -7}, scene.words.inches(backing->width), 7, plain);
    labels.put_at({beside, h / 2}, down, 7, plain);
    labels.paint(list);
    return finish(std::move(list), alt);
  };
  return fitted(room, 3, 0.5, draw);
}

}  // namespace dogear::drawing
