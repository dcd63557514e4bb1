#include "drawing/apart.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "drawing/marks.h"
#include "geom/arcs.h"

namespace dogear::drawing {
namespace {

const Polygon& input_outline(const Scene& scene, const Input& input) {
  return input.is_piece ? scene.piecing.pieces.at(input.piece).shape
                        : scene.piecing.units.at(input.unit).outline;
}

double allowance(const Scene& scene) { return scene.checked.pattern.seam_allowance.approx(); }

constexpr double wave_room = 5.5;  // pt outside a cut edge, for the bias mark
constexpr double name_room = 10;   // pt below an input, for its name
constexpr double name_size = 7;
constexpr double row_words_size = 6.4;
constexpr double row_words_part = 0.42;  // of the gap between a row's two lines, from the lower

// Units pulled apart straight up and down have their names at the left.
bool stacked(const std::vector<Spot>& pulls) {
  return std::all_of(pulls.begin(), pulls.end(), [](Spot p) { return std::abs(p.x) < 1e-6; });
}

Spot across(const Segment& s) {
  const Spot d = unit(spot(s.b, 1) - spot(s.a, 1));
  return {-d.y, d.x};
}

// The middle of a seam; of a curved one on its curve.
Spot middle_of(const Seam& seam, double scale) {
  const Spot chord = (spot(seam.where.a, scale) + spot(seam.where.b, scale)) * 0.5;
  if (!seam.curve) return chord;
  const Spot c = spot(seam.curve->center, scale);
  return c + unit(chord - c) * (std::sqrt(seam.curve->squared.approx()) * scale);
}

// The normal of the seam that points from its first input to its second.
Spot seam_normal(const Seam& seam, const std::vector<Spot>& centres) {
  const Spot n = across(seam.where);
  const Spot towards = centres.at(seam.second) - centres.at(seam.first);
  return dot(n, towards) >= 0 ? n : n * -1;
}

std::vector<Spot> centres_of(const Scene& scene, const SewnUnit& u) {
  std::vector<Spot> out;
  for (const Input& input : u.inputs) {
    out.push_back(centroid(moved(ring(input_outline(scene, input), 1), motion(input.where, 1))));
  }
  return out;
}

// How far each input moves, in gaps: across every seam between it and the first.
std::vector<Spot> pulls_of(const SewnUnit& u, const std::vector<Spot>& centres) {
  std::vector<Spot> out(u.inputs.size());
  std::vector<bool> known(u.inputs.size(), false);
  if (!known.empty()) known[0] = true;
  // The seams are a tree; each round reaches at least one more input.
  for (std::size_t round = 0; round < u.seams.size() + 1; ++round) {
    for (const Seam& seam : u.seams) {
      if (seam.first >= out.size() || seam.second >= out.size()) continue;
      if (known[seam.first] == known[seam.second]) continue;
      const Spot n = seam_normal(seam, centres);
      if (known[seam.first]) {
        out[seam.second] = out[seam.first] + n;
        known[seam.second] = true;
      } else {
        out[seam.first] = out[seam.second] - n;
        known[seam.first] = true;
      }
    }
  }
  return out;
}

void wave(canvas::DisplayList& list, Labels& labels, Spot a, Spot b, Spot outwards, double away) {
  const double long_enough = length(b - a);
  if (long_enough < 11) return;
  const Spot middle = (a + b) * 0.5 + outwards * away;
  const double span = std::min(15.0, long_enough * 0.6);
  bias_wave(list, middle, b - a, span);
  // A slanting wave leaves the corners of its box free.
  constexpr int stretches = 3;
  for (int i = 0; i < stretches; ++i) {
    Rect r;
    r.add(middle + unit(b - a) * (span * (1.0 * i / stretches - 0.5)));
    r.add(middle + unit(b - a) * (span * (1.0 * (i + 1) / stretches - 0.5)));
    labels.keep_off(r.grown(2));
  }
}

// Bias stretches of a unit's outline, in points before it is moved: what its patches' bias edges
// cover of each of its sides, stretches that follow each other taken as one.
std::vector<std::pair<Spot, Spot>> outer_bias(const Scene& scene, UnitId id, double scale) {
  std::vector<EdgeGrain> bias;
  for (const PlacedPiece& placed : flatten(scene.piecing, id)) {
    for (const EdgeGrain& e : edges(scene.piecing, placed)) {
      if (e.thread == Thread::bias) bias.push_back(e);
    }
  }
  const Polygon& outline = scene.piecing.units.at(id).outline;
  std::vector<std::pair<Spot, Spot>> out;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Segment side = outline.edge(i);
    const dogear::Point d = side.b - side.a;
    const Spot start = spot(side.a, scale), along = unit(spot(d, scale));
    std::vector<std::pair<double, double>> covered;
    for (const EdgeGrain& e : bias) {
      if (!dogear::cross(d, e.where.a - side.a).is_zero()) continue;
      if (!dogear::cross(d, e.where.b - side.a).is_zero()) continue;
      const double a = dot(spot(e.where.a, scale) - start, along);
      const double b = dot(spot(e.where.b, scale) - start, along);
      covered.emplace_back(std::min(a, b), std::max(a, b));
    }
    std::sort(covered.begin(), covered.end());
    for (std::size_t k = 0; k < covered.size();) {
      const double from = covered[k].first;
      double to = covered[k].second;
      for (++k; k < covered.size() && covered[k].first < to + 0.5; ++k) {
        to = std::max(to, covered[k].second);
      }
      out.emplace_back(start + along * from, start + along * to);
    }
  }
  return out;
}

// The chord of a hollow curve lies outside itself, so that both sides are looked at.
Spot outwards_of(const Ring& r, Spot a, Spot b) {
  const Spot d = unit(b - a);
  const Spot n{-d.y, d.x};
  const Spot middle = (a + b) * 0.5;
  return depth(r, middle + n * 0.3) > depth(r, middle - n * 0.3) ? n * -1 : n;
}

}  // namespace

Ring cut_ring(const Scene& scene, std::size_t size, PieceId piece, double scale) {
  const Ring finished = ring(scene.piecing.pieces.at(piece).shape, 1);
  const double q = allowance(scene);
  const auto scaled = [scale](const Ring& r) { return moved(r, Motion::scale(scale)); };
  for (const CutPiece& cut : scene.quantities.sizes.at(size).pieces) {
    if (cut.piece != piece || cut.cut.cut_shape.size() < 3) continue;
    const Ring shape = ring(cut.cut.cut_shape, 1);
    if (cut.cut.method == CutMethod::templated) return scaled(shape);
    // Both are laid along the strip; each finished edge lies one allowance inside the cut one.
    // The shift by least squares over all edges.
    double xx = 0, xy = 0, yy = 0, xd = 0, yd = 0;
    for (std::size_t i = 0; i < finished.size(); ++i) {
      const Spot along = unit(finished[(i + 1) % finished.size()] - finished[i]);
      const Spot n{along.y, -along.x};
      double farthest = -1e9;
      for (const Spot c : shape) farthest = std::max(farthest, dot(n, c));
      const double wanted = dot(n, finished[i]) + q - farthest;
      xx += n.x * n.x, xy += n.x * n.y, yy += n.y * n.y;
      xd += n.x * wanted, yd += n.y * wanted;
    }
    const double det = xx * yy - xy * xy;
    if (std::abs(det) < 1e-9) break;
    const Spot shift{(xd * yy - yd * xy) / det, (yd * xx - xd * xy) / det};
    Ring placed = moved(shape, Motion::move(shift.x, shift.y));
    const bool around = std::all_of(finished.begin(), finished.end(),
                                    [&](Spot c) { return depth(placed, c) > q / 2; });
    if (around) return scaled(placed);
  }
  return scaled(grown(finished, q));
}

namespace {

// The block whose final this unit is.
const BlockSewing* block_of(const Scene& scene, std::size_t size, UnitId id) {
  for (const BlockSewing& block : scene.piecing.sizes.at(size).blocks) {
    if (std::find(block.finals.begin(), block.finals.end(), id) != block.finals.end()) {
      return &block;
    }
  }
  return nullptr;
}

bool is_half(const Scene& scene, std::size_t size, const Input& input) {
  const BlockSewing* block = input.is_piece ? nullptr : block_of(scene, size, input.unit);
  if (block == nullptr) return false;
  const Part& whole = scene.checked.parts.at(scene.checked.block_parts.at(block->use));
  return dogear::area(scene.piecing.units.at(input.unit).outline) != dogear::area(whole.outline);
}

}  // namespace

std::string input_words(const Scene& scene, std::size_t size, const Input& input, bool blocks) {
  if (input.is_piece) return scene.piecing.pieces.at(input.piece).label(scene.checked.pattern);
  if (const BlockSewing* block = blocks ? block_of(scene, size, input.unit) : nullptr) {
    const BlockUse& use = scene.checked.pattern.uses.at(block->use);
    return use.title.empty() ? use.id : use.title;
  }
  return unit_words(scene, input.unit);
}

std::string unit_words(const Scene& scene, UnitId unit) {
  const std::string& name = scene.piecing.units.at(unit).name;
  constexpr std::string_view row = "row ", border = "border ";
  if (name.empty() || name.find(" section ") != std::string::npos)
    return scene.words("drawn so far");
  if (starts_with(name, row))
    return scene.words.form("noun row", NounForm::bare, {{"n", name.substr(row.size())}});
  if (starts_with(name, border))
    return scene.words("drawn border", {{"n", name.substr(border.size())}});
  return scene.words.name(scene.words.named("unit ", name));
}

std::string inputs_words(const Scene& scene, std::size_t size, const SewnUnit& u, bool blocks) {
  std::vector<std::pair<std::string, int>> kinds;
  for (const Input& input : u.inputs) {
    const std::string name = input_words(scene, size, input, blocks);
    const std::string words = blocks && is_half(scene, size, input)
                                  ? scene.words.form("noun half", NounForm::bare, {{"name", name}})
                                  : name;
    const auto found = std::find_if(kinds.begin(), kinds.end(),
                                    [&](const auto& kind) { return kind.first == words; });
    if (found == kinds.end()) {
      kinds.emplace_back(words, 1);
    } else {
      ++found->second;
    }
  }
  std::vector<std::string> parts;
  for (const auto& [words, n] : kinds)
    parts.push_back((n > 1 ? std::to_string(n) + " × " : "") + words);
  return scene.words.list(parts);
}

Rect sewn_box(const Patchwork& work, const Scene& scene, UnitId id) {
  return box(work.unit_ring(id, {})).grown(allowance(scene) * work.scale() + edge);
}

Rect apart_box(const Patchwork& work, const Scene& scene, std::size_t size, UnitId id,
               const ApartStyle& style) {
  const SewnUnit& u = scene.piecing.units.at(id);
  const std::vector<Spot> shifts = pulls_of(u, centres_of(scene, u));
  Rect all;
  for (std::size_t i = 0; i < u.inputs.size(); ++i) {
    const Spot by = shifts[i] * style.gap;
    const Motion m = motion(u.inputs[i].where, work.scale()).then(Motion::move(by.x, by.y));
    Rect b = box(moved(ring(input_outline(scene, u.inputs[i]), work.scale()), m));
    if (style.allowances) b = b.grown(allowance(scene) * work.scale() + edge);
    if (style.grain) b = b.grown(wave_room);
    if (style.names && !u.inputs[i].is_piece) {
      const std::string name = input_words(scene, size, u.inputs[i], style.blocks);
      if (!stacked(shifts)) {
        b.bottom += name_room;
      } else {
        b.left -= scene.fonts.width(canvas::FontId::sans, name_size, name) + 6;
      }
    }
    all.add(b);
  }
  return all;
}

namespace {

// Clear of the pressing arrows at the edges of its patch.
void short_print_line(canvas::DisplayList& list, Spot from, Spot to) {
  constexpr double part = 0.56, least = 11;  // pt
  const Spot half = (to - from) * 0.5, middle = from + half;
  const double kept = std::min(1.0, std::max(part, least / length(to - from)));
  print_line(list, middle - half * kept, middle + half * kept);
}

constexpr double least_print = 6.5;  // pt long

// Which way up the directional prints among these patches lie.
void show_prints(canvas::DisplayList& list, Labels& labels, const Scene& scene,
                 const std::vector<Patch>& patches, LineMark mark = print_line) {
  for (const Patch& p : patches) {
    if (!scene.piecing.pieces.at(p.piece).directional) continue;
    put_grain(list, labels, p.ring, p.where.apply(Spot{0, -1}) - p.where.apply(Spot{0, 0}), {},
              mark, least_print);
  }
}

// One way to draw the inputs of a unit; keeps what the passes share.
class Apart {
 public:
  Apart(canvas::DisplayList& list, Labels& labels, Patchwork& work, const Scene& scene,
        std::size_t size, UnitId id, Spot at, const ApartStyle& style)
      : list_(list),
        labels_(labels),
        work_(work),
        scene_(scene),
        size_(size),
        style_(style),
        unit_(scene.piecing.units.at(id)),
        centres_(centres_of(scene, unit_)),
        pulls_(pulls_of(unit_, centres_)),
        at_(at) {}

  void draw() {
    for (std::size_t i = 0; i < unit_.inputs.size(); ++i) draw_input(i);
    if (style_.press) draw_press();
    std::vector<std::optional<Rect>> placed(unit_.inputs.size());
    std::set<std::string> said;
    for (std::size_t i = 0; i < unit_.inputs.size(); ++i) {
      if (!unit_.inputs[i].is_piece) continue;
      const std::string words = input_words(scene_, size_, unit_.inputs[i], style_.blocks);
      LabelStyle label;
      label.largest = style_.grain ? 8 : largest_label;
      if (!style_.grain) label.smallest = 6.8;  // what is smaller stands outside, as its twin may
      placed[i] = labels_.put_inside(rings_[i], words, label);
      if (placed[i]) said.insert(words);
    }
    for (std::size_t i = 0; i < unit_.inputs.size(); ++i) {
      if (!unit_.inputs[i].is_piece) draw_prints(i);
      if (style_.grain) draw_grain(i, placed[i]);
    }
    // Names have their place below; what does not fit inside goes where room is left.
    for (std::size_t i = 0; i < unit_.inputs.size(); ++i)
      if (!unit_.inputs[i].is_piece && style_.names) name(i);
    for (std::size_t i = 0; i < unit_.inputs.size(); ++i) {
      if (!unit_.inputs[i].is_piece || placed[i]) continue;
      const std::string words = input_words(scene_, size_, unit_.inputs[i], style_.blocks);
      const bool wanted = style_.every_label || !said.contains(words);
      said.insert(words);
      if (wanted) labels_.put_outside(deepest(rings_[i]), words);
    }
  }

 private:
  bool is_below(std::size_t i) const { return i < style_.below.size() && style_.below[i]; }
  Spot shift(std::size_t i) const {
    return at_ + pulls_[i] * style_.gap + (is_below(i) ? style_.below_by : Spot{});
  }

  void draw_input(std::size_t i) {
    const Input& input = unit_.inputs[i];
    const Spot by = shift(i);
    const double q = allowance(scene_) * work_.scale();
    const Motion m = motion(input.where, work_.scale()).then(Motion::move(by.x, by.y));
    rings_.push_back(moved(ring(input_outline(scene_, input), work_.scale()), m));
    Ring outer = rings_.back();
    if (style_.allowances) {
      canvas::Color fill = canvas::white;
      if (input.is_piece) {
        outer = moved(cut_ring(scene_, size_, input.piece, work_.scale()), m);
        fill =
            tint(scene_.checked.pattern.fabrics.at(scene_.piecing.pieces.at(input.piece).fabric));
      } else {
        outer = grown(rings_.back(), q);
      }
      canvas::Style style = canvas::Style::filled(fill);
      style.stroke = pale;
      list_.shape(outline(outer), style);
    }
    labels_.keep_off(outer);
    if (input.is_piece) {
      work_.piece(list_, input.piece, input.where, by);
    } else {
      work_.unit(list_, input.unit, input.where, by);
    }
  }

  void draw_prints(std::size_t i) {  // of a unit
    const Input& input = unit_.inputs[i];
    show_prints(list_, labels_, scene_, work_.patches(input.unit, input.where, shift(i)));
  }

  void draw_grain(std::size_t i, const std::optional<Rect>& label) {
    const Input& input = unit_.inputs[i];
    const Spot by = shift(i);
    const double away = (style_.allowances ? allowance(scene_) * work_.scale() : 0) + 3.2;
    const auto page = [&](const dogear::Point& p) { return spot(p, work_.scale()) + by; };
    if (input.is_piece) {
      const bool print = scene_.piecing.pieces.at(input.piece).directional;
      const LineMark mark = print ? print_line : grain_line;
      const dogear::Point along = print ? dogear::Point{0, -1} : dogear::Point{1, 0};
      const Spot thread = spot(input.where.apply_direction(along), 1);
      if (!put_grain(list_, labels_, rings_[i], thread, label, mark)) beside(i, thread, mark);
      std::vector<Arc> arcs = scene_.piecing.pieces.at(input.piece).shape.arcs;
      for (Arc& arc : arcs) arc.center = input.where.apply(arc.center);
      std::size_t along_curve = 0;
      for (const EdgeGrain& e : edges(scene_.piecing, {input.piece, input.where})) {
        if (e.thread != Thread::bias) continue;
        // Every second stretch of a curve, so that the other side's marks come between.
        if (!arcs.empty() && arc_near(e.where, arcs) && along_curve++ % 2 == 1) continue;
        const Spot a = page(e.where.a), b = page(e.where.b);
        wave(list_, labels_, a, b, outwards_of(rings_[i], a, b), away);
      }
      return;
    }
    const Motion m = motion(input.where, work_.scale()).then(Motion::move(by.x, by.y));
    for (const auto& [from, to] : outer_bias(scene_, input.unit, work_.scale())) {
      const Spot a = m.apply(from), b = m.apply(to);
      wave(list_, labels_, a, b, outwards_of(rings_[i], a, b), away);
    }
  }

  // A patch too small for its grain line has it just outside, past its cut edge.
  void beside(std::size_t i, Spot thread, LineMark mark) {
    const Rect b = box(rings_[i]).grown(allowance(scene_) * work_.scale() + 4);
    const Spot d = dogear::drawing::unit(thread);
    const bool level = std::abs(d.x) >= std::abs(d.y);
    const std::array<Spot, 2> places =
        level ? std::array<Spot, 2>{Spot{b.center().x, b.top}, Spot{b.center().x, b.bottom}}
              : std::array<Spot, 2>{Spot{b.left, b.center().y}, Spot{b.right, b.center().y}};
    for (const Spot c : places) {
      const Spot from = c - d * 8, to = c + d * 8;
      Rect r;
      r.add(from);
      r.add(to);
      r = r.grown(2.2);
      const bool clear =
          labels_.is_free(r) && std::none_of(rings_.begin(), rings_.end(),
                                             [&](const Ring& other) { return meets(other, r); });
      if (!clear) continue;
      mark(list_, from, to);
      labels_.keep_off(r);
      return;
    }
  }

  void draw_press() {
    for (const Seam& seam : unit_.seams) {
      const Spot n = seam_normal(seam, centres_);
      const Spot middle = middle_of(seam, work_.scale());
      Spot c = middle + (shift(seam.first) + shift(seam.second)) * 0.5;
      if (is_below(seam.first) != is_below(seam.second)) {
        c = c - style_.below_by * 0.5;  // at the end of the first line
        row_goes_on(c);
      }
      const double size = std::min(9.0, style_.gap - 2);
      if (seam.press == Press::open) {
        press_open(list_, c, n, size);
      } else {
        press_arrow(list_, c, seam.press == Press::to_first ? n * -1 : n, size);
      }
      labels_.keep_off(Rect::of(c.x - size / 2, c.y - size / 2, size, size));
    }
  }

  // From the seam at the end of the first line of a row to the start of the second.
  void row_goes_on(Spot from) {
    constexpr double turn = 6, open = 3;  // pt beside the lines; of the arrow's head
    Rect upper, lower;
    for (std::size_t i = 0; i < rings_.size(); ++i) {
      const Rect b = box(rings_[i]);
      Rect& line = is_below(i) ? lower : upper;
      line.add(Spot{b.left, b.top});
      line.add(Spot{b.right, b.bottom});
    }
    const Spot end{lower.left - 1, lower.center().y};
    const double right = std::max(upper.right, from.x) + turn + 2, left = end.x - turn - 2;
    const double between = lower.top - (lower.top - upper.bottom) * row_words_part;
    const Ring way{{from.x + turn, from.y}, {right, from.y}, {right, between},
                   {left, between},         {left, end.y},   end};
    canvas::Path path = canvas::Path::polyline(way);
    path.append(
        canvas::Path::polyline({end - Spot{open, open * 0.6}, end, end - Spot{open, -open * 0.6}}));
    list_.stroke_path(path, ink, edge);
    for (std::size_t i = 0; i + 1 < way.size(); ++i) {
      Rect stretch;
      stretch.add(way[i]);
      stretch.add(way[i + 1]);
      labels_.keep_off(stretch.grown(1));
    }
    LabelStyle style;
    style.font = canvas::FontId::sans;
    labels_.put_at({(left + right) / 2, between}, scene_.words("drawn row goes on"), row_words_size,
                   style);
  }

  void name(std::size_t i) {
    const std::string words = input_words(scene_, size_, unit_.inputs[i], style_.blocks);
    const double q = style_.allowances ? allowance(scene_) * work_.scale() : 0;
    LabelStyle style;
    style.font = canvas::FontId::sans;
    style.largest = name_size;
    style.plate = false;
    const Rect near = box(rings_[i]).grown(q);
    constexpr double upright = 0.7;  // of its box, at least, is filled by what stands upright
    const bool slanting = style_.blocks && area(rings_[i]) < upright * near.width() * near.height();
    if (slanting && labels_.put_nearest(rings_, i, words, style)) return;
    labels_.put_by(near, words, style, stacked(pulls_));
  }

  canvas::DisplayList& list_;
  Labels& labels_;
  Patchwork& work_;
  const Scene& scene_;
  std::size_t size_;
  ApartStyle style_;
  const SewnUnit& unit_;
  std::vector<Spot> centres_;
  std::vector<Spot> pulls_;
  Spot at_;
  std::vector<Ring> rings_;
};

// Where a seam stops short or turns: the open end of a partial seam, the corners of a set-in one.
std::vector<dogear::Point> stops(const Seam& seam) {
  if (seam.kind == SeamKind::partial) return {seam.path.back()};
  if (seam.kind == SeamKind::finish || seam.kind == SeamKind::mitre) return {seam.path.front()};
  if (seam.kind == SeamKind::stopped) return {seam.path.front(), seam.path.back()};
  if (seam.kind == SeamKind::set_in) return {seam.path.begin() + 1, seam.path.end() - 1};
  return {};
}

}  // namespace

void draw_apart(canvas::DisplayList& list, Labels& labels, Patchwork& work, const Scene& scene,
                std::size_t size, UnitId id, Spot at, const ApartStyle& style) {
  Apart(list, labels, work, scene, size, id, at, style).draw();
}

void draw_sewn(canvas::DisplayList& list, Patchwork& work, const Scene& scene, UnitId id, Spot at) {
  const SewnUnit& u = scene.piecing.units.at(id);
  canvas::Style around = canvas::Style::filled(canvas::white);
  around.stroke = pale;
  list.shape(outline(grown(work.unit_ring(id, {}, at), allowance(scene) * work.scale())), around);
  work.unit(list, id, {}, at);
  if (u.strip_set) return;
  Labels none(scene.fonts);
  show_prints(list, none, scene, work.patches(id, {}, at), short_print_line);
  const std::vector<Spot> centres = centres_of(scene, u);
  for (const Seam& seam : u.seams) {
    for (const dogear::Point& p : stops(seam)) seam_stop(list, spot(p, work.scale()) + at);
    const Spot middle = middle_of(seam, work.scale()) + at;
    const Spot n = seam_normal(seam, centres);
    if (seam.press == Press::open) {
      press_open(list, middle, n);
    } else {
      press_arrow(list, middle, seam.press == Press::to_first ? n * -1 : n);
    }
  }
}

}  // namespace dogear::drawing
