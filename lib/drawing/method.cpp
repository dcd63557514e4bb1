#include "drawing/method.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "drawing/marks.h"

namespace dogear::drawing {
namespace {

constexpr double largest_piece = 88;  // pt, the longer side of the largest piece of a batch
constexpr double larger = 1.5;        // than other steps, for seams beside lines
constexpr double peep = 3;            // pt by which the lower of two layers looks out
constexpr double apart = 7;           // pt between what is cut apart
constexpr double between = 20;        // pt between stages, with a small arrow
constexpr double arrow = 12;
constexpr double caption_size = 7, caption_room = 11;

struct Layer {
  Ring ring;
  FabricId fabric = 0;
  bool wrong = false;  // wrong side up
};
struct Line {
  enum class Kind { drawn, sewn, cut } kind = Kind::drawn;
  Spot a, b;
};
struct Stage {
  std::vector<Layer> layers;  // from the lowest up
  std::vector<Line> lines;
  std::string caption;

  Rect box() const {
    Rect r;
    for (const Layer& l : layers) r.add(drawing::box(l.ring));
    return r;
  }
};

Ring square(Spot at, double side) {
  return {at, at + Spot{side, 0}, at + Spot{side, side}, at + Spot{0, side}};
}

Ring moved_by(const Ring& r, Spot by) { return moved(r, Motion::move(by.x, by.y)); }

class Stages {
 public:
  Stages(const Scene& scene, UnitId id, double scale)
      : scene_(scene),
        unit_(scene.piecing.units.at(id)),
        batch_(*unit_.batch),
        scale_(scale),
        q_(scene.checked.pattern.seam_allowance.approx() * scale),
        // How far a line a seam allowance beside a diagonal lies from it, along the sides.
        slant_(q_ * std::numbers::sqrt2) {}

  std::vector<Stage> all() const {
    switch (batch_.method) {
      case Method::two_at_a_time:
        return batch_.kind == ReadyMade::quarter_square
                   ? std::vector<Stage>{pair_of_squares(), crossed_pairs()}
                   : std::vector<Stage>{pair_of_squares(), halves()};
      case Method::eight_at_a_time:
        return {eight_sewn(), eight_cut()};
      case Method::four_at_a_time:
        return {geese_sewn(), geese_half()};
      case Method::stitched_corners:
        return corners();
      case Method::one_at_a_time:
        break;
    }
    return {};
  }

 private:
  const Piece& piece(std::size_t take) const {
    return scene_.piecing.pieces.at(batch_.takes.at(take).piece);
  }
  FabricId fabric(std::size_t take) const { return piece(take).fabric; }
  std::string label(std::size_t take) const { return piece(take).label(scene_.checked.pattern); }
  // As cut, pt.
  Spot size(std::size_t take) const {
    const dogear::Box b = bounds(piece(take).shape);
    return Spot{b.width().approx() * scale_ + 2 * q_, b.height().approx() * scale_ + 2 * q_};
  }
  std::size_t upper() const { return marked_piece(scene_, unit_); }
  std::size_t lower() const { return 1 - upper(); }

  // A line from corner to corner with a seam on either side of it.
  void twice_sewn(Stage& stage, Spot a, Spot b) const {
    const Spot d = drawing::unit(b - a);
    const Spot n = Spot{-d.y, d.x} * q_;
    const Spot in = d * q_;  // the seams end at the edges of the cloth
    stage.lines.push_back({Line::Kind::drawn, a, b});
    stage.lines.push_back({Line::Kind::sewn, a + n + in, b + n - in});
    stage.lines.push_back({Line::Kind::sewn, a - n + in, b - n - in});
  }

  Stage laid_together() const {
    const double s = size(upper()).x;
    Stage stage;
    stage.layers.push_back({square({peep, -peep}, s), fabric(lower()), false});
    stage.layers.push_back({square({0, 0}, s), fabric(upper()), true});
    stage.caption =
        scene_.words("caption on", {{"what", label(upper())}, {"base", label(lower())}});
    return stage;
  }

  Stage pair_of_squares() const {
    const double s = size(upper()).x;
    Stage stage = laid_together();
    twice_sewn(stage, {0, 0}, {s, s});
    return stage;
  }

  Stage halves() const {
    const double s = size(upper()).x;
    const Spot by{apart / 2, -apart / 2};
    Stage stage;
    for (const bool right : {false, true}) {
      const Ring half = right ? Ring{{0, 0}, {s, 0}, {s, s}} : Ring{{0, 0}, {s, s}, {0, s}};
      const Spot there = right ? by : by * -1;
      const Spot under = right ? Spot{peep, 0} : Spot{0, peep};
      stage.layers.push_back({moved_by(half, there + under), fabric(lower()), false});
      stage.layers.push_back({moved_by(half, there), fabric(upper()), true});
      const double c = slant_;
      Line seam{Line::Kind::sewn, Spot{c, 0} + there, Spot{s, s - c} + there};
      if (!right) seam = {Line::Kind::sewn, Spot{0, c} + there, Spot{s - c, s} + there};
      stage.lines.push_back(seam);
    }
    stage.caption = scene_.words("caption cut apart");
    return stage;
  }

  // Two pairs, opposite fabrics facing, to be cut across their seams.
  Stage crossed_pairs() const {
    const double s = size(upper()).x - slant_;
    Stage stage;
    const Ring below{{0, 0}, {s, s}, {0, s}}, above{{0, 0}, {s, 0}, {s, s}};
    const Spot under{peep, -peep};
    stage.layers.push_back({moved_by(below, under), fabric(lower()), false});
    stage.layers.push_back({moved_by(above, under), fabric(upper()), false});
    stage.layers.push_back({below, fabric(upper()), true});
    stage.layers.push_back({above, fabric(lower()), true});
    twice_sewn(stage, {0, s}, {s, 0});
    stage.caption = scene_.words("caption two pairs");
    return stage;
  }

  Stage eight_sewn() const {
    const double s = size(upper()).x;
    Stage stage = laid_together();
    twice_sewn(stage, {0, 0}, {s, s});
    twice_sewn(stage, {0, s}, {s, 0});
    return stage;
  }

  Stage eight_cut() const {
    const double s = size(upper()).x;
    Stage stage;
    stage.layers.push_back({square({peep, -peep}, s), fabric(lower()), false});
    stage.layers.push_back({square({0, 0}, s), fabric(upper()), true});
    for (const auto& [a, b] : {std::pair<Spot, Spot>{{s / 2, 0}, {s / 2, s}},
                               {{0, s / 2}, {s, s / 2}},
                               {{0, 0}, {s, s}},
                               {{0, s}, {s, 0}}}) {
      stage.lines.push_back({Line::Kind::cut, a, b});
    }
    stage.caption = scene_.words("caption eight");
    return stage;
  }

  Stage geese_sewn() const {
    const double l = size(0).x, s = size(1).x;
    Stage stage;
    stage.layers.push_back({square({0, 0}, l), fabric(0), false});
    stage.layers.push_back({square({0, 0}, s), fabric(1), true});
    stage.layers.push_back({square({l - s, l - s}, s), fabric(1), true});
    twice_sewn(stage, {0, 0}, {l, l});
    stage.caption = scene_.words("caption on", {{"what", "2 × " + label(1)}, {"base", label(0)}});
    return stage;
  }

  // One half with its wings pressed out and the third small square on its square corner.
  Stage geese_half() const {
    const double l = size(0).x, s = size(1).x, c = slant_;
    Stage stage;
    stage.layers.push_back({{{0, c}, {l - c, l}, {0, l}}, fabric(0), false});
    stage.layers.push_back({{{-c, c}, {s - c, c}, {s - c, s + c}}, fabric(1), false});
    stage.layers.push_back(
        {{{l - s - c, l - s + c}, {l - c, l - s + c}, {l - c, l + c}}, fabric(1), false});
    stage.layers.push_back({square({0, l - s}, s), fabric(1), true});
    twice_sewn(stage, {0, l}, {s, l - s});
    stage.caption = scene_.words("caption on each half", {{"what", "1 × " + label(1)}});
    return stage;
  }

  struct Corner {
    Spot at, along, down;  // the corner of the cloth and the ways from it along both sides
    double side = 0;       // of the square
    std::size_t take = 0;
    Ring whole() const {
      return {at, at + along * side, at + along * side + down * side, at + down * side};
    }
    Ring half() const { return {at, at + along * side, at + down * side}; }
  };

  std::vector<Corner> corners_of_unit() const {
    const dogear::Box all = bounds(unit_.outline);
    const Spot far = spot(all.most, scale_) + Spot{2 * q_, 2 * q_};
    std::vector<Corner> out;
    for (const Input& in : unit_.inputs) {
      if (&in == &unit_.inputs.front()) continue;
      const Piece& patch = scene_.piecing.pieces.at(in.piece);
      const dogear::Box b = bounds(in.where.apply(patch.shape));
      const Spot square_corner = right_angle(in);
      const bool left = square_corner.x < 0, top = square_corner.y < 0;
      Corner corner;
      corner.at = {left ? 0 : far.x, top ? 0 : far.y};
      corner.along = {left ? 1.0 : -1.0, 0};
      corner.down = {0, top ? 1.0 : -1.0};
      corner.side = b.width().approx() * scale_ + 2 * q_;
      for (std::size_t t = 1; t < batch_.takes.size(); ++t) {
        if (batch_.takes[t].piece == *patch.made_of) corner.take = t;
      }
      out.push_back(corner);
    }
    return out;
  }

  // The way from the middle of a triangle's box to its square corner.
  Spot right_angle(const Input& in) const {
    const Ring r = ring(in.where.apply(scene_.piecing.pieces.at(in.piece).shape), 1);
    for (std::size_t i = 0; i < r.size(); ++i) {
      const Spot a = r[i] - r[(i + 1) % 3], b = r[(i + 2) % 3] - r[(i + 1) % 3];
      if (std::abs(dot(a, b)) < 1e-6) return r[(i + 1) % 3] - drawing::box(r).center();
    }
    return {};
  }

  // As many squares at once as do not lie on each other.
  std::vector<Stage> corners() const {
    std::vector<Corner> waiting = corners_of_unit(), done;
    const Spot s{bounds(unit_.outline).width().approx() * scale_ + 2 * q_,
                 bounds(unit_.outline).height().approx() * scale_ + 2 * q_};
    std::vector<Stage> out;
    while (!waiting.empty()) {
      Stage stage;
      stage.layers.push_back({{{0, 0}, {s.x, 0}, s, {0, s.y}}, fabric(0), false});
      for (const Corner& c : done) stage.layers.push_back({c.half(), fabric(c.take), false});
      std::vector<Corner> now, later;
      for (const Corner& c : waiting) {
        const bool free = std::none_of(now.begin(), now.end(), [&](const Corner& other) {
          return meets(drawing::box(c.whole()).grown(-0.01), drawing::box(other.whole()));
        });
        (free ? now : later).push_back(c);
      }
      std::vector<std::pair<std::string, int>> said;
      for (const Corner& c : now) {
        stage.layers.push_back({c.whole(), fabric(c.take), true});
        stage.lines.push_back({Line::Kind::drawn, c.at + c.along * c.side, c.at + c.down * c.side});
        const Spot in = drawing::unit(c.down - c.along) * 2;
        stage.lines.push_back(
            {Line::Kind::sewn, c.at + c.along * c.side + in, c.at + c.down * c.side - in});
        const double trim = std::max(0.0, c.side - slant_);
        stage.lines.push_back({Line::Kind::cut, c.at + c.along * trim, c.at + c.down * trim});
        const auto known = std::find_if(said.begin(), said.end(), [&](const auto& kind) {
          return kind.first == label(c.take);
        });
        if (known == said.end()) {
          said.emplace_back(label(c.take), 1);
        } else {
          ++known->second;
        }
      }
      std::vector<std::string> laid;
      for (const auto& [name, n] : said)
        laid.push_back((n > 1 ? std::to_string(n) + " × " : "") + name);
      stage.caption =
          scene_.words("caption on", {{"what", scene_.words.list(laid)}, {"base", label(0)}});
      out.push_back(std::move(stage));
      done.insert(done.end(), now.begin(), now.end());
      waiting = std::move(later);
    }
    return out;
  }

  const Scene& scene_;
  const SewnUnit& unit_;
  const SewnBatch& batch_;
  double scale_, q_, slant_;
};

struct Laid {
  std::vector<Stage> stages;
  std::vector<Spot> shifts;      // of each stage
  std::vector<Spot> arrows;      // middles
  std::vector<double> captions;  // middles, x
  double below = 0;              // y of the captions' middle
  Rect box;
};

// Side by side, middles level; each as wide as its caption at least.
Laid lay(const Scene& scene, UnitId id, double scale) {
  Laid out;
  out.stages = Stages(scene, id, scale).all();
  double x = 0, highest = 0;
  for (const Stage& stage : out.stages) highest = std::max(highest, stage.box().height());
  for (const Stage& stage : out.stages) {
    const Rect b = stage.box();
    const double words = scene.fonts.width(canvas::FontId::sans, caption_size, stage.caption) + 4;
    const double width = std::max(b.width(), words);
    if (x > 0) {
      out.arrows.push_back({x + between / 2, highest / 2});
      x += between;
    }
    const double middle = x + width / 2;
    out.shifts.push_back({middle - b.center().x, highest / 2 - b.center().y});
    out.captions.push_back(middle);
    x += width;
  }
  out.below = highest + caption_room / 2 + 1;
  out.box = Rect::of(0, 0, x, highest + caption_room);
  return out;
}

}  // namespace

std::size_t marked_piece(const Scene& scene, const SewnUnit& unit) {
  const SewnBatch& batch = *unit.batch;
  if (batch.method != Method::two_at_a_time && batch.method != Method::eight_at_a_time) return 1;
  const auto shade = [&](std::size_t take) {
    const FabricId f = scene.piecing.pieces.at(batch.takes.at(take).piece).fabric;
    return colour(scene.checked.pattern.fabrics.at(f)).luminance();
  };
  return shade(1) > shade(0) ? 1 : 0;
}

double method_scale(const Scene& scene, const SewnUnit& unit, double scale) {
  double largest = 0;
  for (const SewnBatch::Take& take : unit.batch->takes) {
    const dogear::Box b = bounds(scene.piecing.pieces.at(take.piece).shape);
    largest = std::max({largest, b.width().approx(), b.height().approx()});
  }
  const double both = 2 * scene.checked.pattern.seam_allowance.approx();
  return std::min(scale * larger, largest_piece / (largest + both));
}

Rect method_box(const Scene& scene, UnitId id, double scale) { return lay(scene, id, scale).box; }

void draw_method(canvas::DisplayList& list, Labels& labels, const Scene& scene, UnitId id,
                 double scale) {
  const Laid laid = lay(scene, id, scale);
  for (std::size_t i = 0; i < laid.stages.size(); ++i) {
    const Stage& stage = laid.stages[i];
    const Spot by = laid.shifts[i];
    for (const Layer& layer : stage.layers) {
      const Fabric& fabric = scene.checked.pattern.fabrics.at(layer.fabric);
      canvas::Style style = cloth(fabric);
      if (layer.wrong) {
        style = canvas::Style::filled(tint(fabric));
        style.stroke = ink;
        style.round_joins = true;
      }
      const Ring there = moved_by(layer.ring, by);
      list.shape(outline(there), style);
      labels.keep_off(there);
    }
    for (const Line& line : stage.lines) {
      const Spot a = line.a + by, b = line.b + by;
      switch (line.kind) {
        case Line::Kind::drawn:
          drawn_line(list, a, b);
          break;
        case Line::Kind::sewn:
          stitches(list, a, b);
          break;
        case Line::Kind::cut:
          list.stroke_path(canvas::Path::segment(a, b), canvas::white, 2.4);
          cut_line(list, {a, b});
      }
    }
    LabelStyle words;
    words.font = canvas::FontId::sans;
    words.plate = false;
    labels.put_at({laid.captions[i], laid.below}, stage.caption, caption_size, words);
  }
  for (const Spot at : laid.arrows) becomes(list, at, arrow);
}

std::string batch_words(const Scene& scene, UnitId id) {
  const SewnBatch& batch = *scene.piecing.units.at(id).batch;
  std::vector<std::string> taken;
  for (const auto& take : batch.takes)
    taken.push_back(std::to_string(take.count) + " × " +
                    scene.piecing.pieces.at(take.piece).label(scene.checked.pattern));
  const std::string method = scene.words.named("method ", dogear::method_words(batch.method));
  return scene.words(
      batch.method == Method::stitched_corners ? "drawn corners of" : "drawn batch from",
      {{"method", capital(method)}, {"pieces", scene.words.list(taken)}});
}

}  // namespace dogear::drawing
