// The sentences of a step, composed from how the unit is sewn.

#include <algorithm>
#include <cmath>
#include <set>

#include "base/length.h"
#include "base/text.h"
#include "booklet/writer.h"
#include "cutting/tips.h"
#include "cutting/unit_measure.h"

namespace dogear::booklet {
namespace {

struct Middle {
  double x = 0, y = 0;
};

Middle middle_of(const dogear::Box& box) {
  return {(box.least.x.approx() + box.most.x.approx()) / 2,
          (box.least.y.approx() + box.most.y.approx()) / 2};
}

bool lies_along(const Segment& s, const Segment& edge) {
  const auto along = edge.b - edge.a;
  return cross(along, s.a - edge.a).is_zero() && cross(along, s.b - edge.a).is_zero();
}

class Sentences {
 public:
  Sentences(const Writer& writer, UnitId id, const std::map<UnitId, std::size_t>& steps)
      : w_(writer), unit_(writer.scene.piecing.units[id]), id_(id), steps_(steps) {}

  StepWords words() {
    StepWords out;
    if (unit_.strip_set) {
      strip_set(out);  // says how many
      out.measure = measure();
      grain(out);
      return out;
    }
    if (unit_.batch) {
      batch(out);
      return out;
    }
    if (unit_.foundation) {
      out.sew = foundation_sentence(w_, id_);
    } else {
      out.sew = sew() + odd_seams();
      out.press = press();
      out.pressing = pressing_note(w_, id_);
    }
    if (unit_.alternate) out.alternate = w_.words("press alternate");
    const auto made = w_.sewing().make.find(id_);
    if (made != w_.sewing().make.end())
      out.make =
          w_.words("make", {{"n", w_.said("make." + owned_name(), std::to_string(made->second))}});
    out.measure = measure();
    if (is_rectangle(unit_.outline)) out.size = rectangle_words(measured());
    for (const Seam& seam : unit_.seams) {
      if (unit_.foundation) break;
      if (seam.curve) {
        out.curved = true;
        continue;
      }
      if (seam.kind != SeamKind::straight && seam.kind != SeamKind::partial) continue;
      const auto out_by = out.unequal.empty() ? overhang(w_, unit_, seam) : std::nullopt;
      if (!out_by) continue;
      const Fraction eighths = Fraction::of(std::max(1LL, std::llround(*out_by * 8)), 8);
      out.unequal = w_.words("unequal edges", {{"length", w_.words.inches(eighths)}});
    }
    tips(out);
    grain(out);
    return out;
  }

 private:
  void batch(StepWords& out) const {
    out.sew = batch_sentence(w_, id_, owned_name());
    const bool crossed = unit_.batch->kind == ReadyMade::quarter_square;
    out.press = crossed ? w_.words("press last", {}) : press();
    if (unit_.batch->kind == ReadyMade::cornered) out.press.clear();
    out.make = batch_make(w_, id_, owned_name());
    out.size = rectangle_words(measured());
    out.measure =
        unit_.batch->oversize.is_zero() ? measure() : w_.words("trim to", {{"size", out.size}});
  }

  std::string noun(const Input& in, NounForm form = NounForm::bare) const {
    if (in.is_piece) {
      const Piece& piece = w_.scene.piecing.pieces[in.piece];
      if (piece.letter.empty())
        return w_.words.form("noun strip", form,
                             {{"n", std::to_string(w_.fabric(piece.fabric).number)}});
      return piece.label(w_.pattern());
    }
    return unit_noun(w_, in.unit, steps_, form);
  }

  // "one A3", "a ray unit".
  std::string each(const Input& in) const {
    return in.is_piece ? w_.words("one piece", {{"piece", noun(in)}}) : noun(in, NounForm::object);
  }

  // " to make a ray unit"; the steps of the assembly have their result for a title.
  std::string purpose() const {
    const std::string what = made(NounForm::to);
    return what.empty() ? "" : " " + w_.words("purpose", {{"what", what}});
  }

  // The same where the sentence is complete without it.
  std::string result() const {
    const std::string what = made(NounForm::object);
    return what.empty() ? "" : w_.words("result", {{"what", what}});
  }

  std::string made(NounForm form) const {
    const auto& assembly = w_.sewing().assembly;
    if (std::find(assembly.begin(), assembly.end(), id_) != assembly.end()) return {};
    for (const BlockSewing& block : w_.sewing().blocks) {
      const auto final = std::find(block.finals.begin(), block.finals.end(), id_);
      if (final == block.finals.end()) continue;
      const std::string& title = w_.pattern().uses[block.use].title;
      if (!comes_in_halves(w_.scene, block))
        return w_.words.form("noun block", form, {{"name", title}});
      if (form != NounForm::to) return w_.words.form("noun half", form, {{"name", title}});
      return w_.words.form(block.finals.front() == id_ ? "one half" : "other half", form,
                           {{"name", title}});
    }
    return w_.words.form(is_section(unit_.name) ? "noun section" : "noun unit", form,
                         {{"name", w_.words.name(unit_.name)}});
  }

  // How the seams are sewn that do not run from edge to edge.
  std::string odd_seams() const {
    std::string words;
    const auto say = [&](SeamKind kind, const char* key) {
      const auto& seams = unit_.seams;
      if (std::any_of(seams.begin(), seams.end(), [&](const Seam& s) { return s.kind == kind; })) {
        words += " " + w_.words(key);
      }
    };
    say(SeamKind::partial, "partial seam");
    say(SeamKind::set_in, "set in seam");
    say(SeamKind::finish, "finish seam");
    return words;
  }

  std::string sew() const {
    const auto& inputs = unit_.inputs;
    if (inputs.empty()) return {};
    std::string turned;
    for (const Input& a : inputs) {
      for (const Input& b : inputs) {
        if (!a.is_piece && !b.is_piece && a.unit == b.unit && a.where.turn != b.where.turn)
          turned = " " + w_.words("turn as shown");
      }
    }
    const bool alike = std::all_of(inputs.begin(), inputs.end(), [&](const Input& in) {
      return in.is_piece == inputs[0].is_piece &&
             (in.is_piece ? in.piece == inputs[0].piece : in.unit == inputs[0].unit);
    });
    if (alike && inputs.size() > 1) {
      const long long n = static_cast<long long>(inputs.size());
      const std::string name = noun(inputs[0]);
      const auto step = steps_.find(inputs[0].unit);
      if (!inputs[0].is_piece && is_section(w_.scene.piecing.units[inputs[0].unit].name) &&
          step != steps_.end())
        return w_.words("sew alike sections", {{"n", w_.words.number(n)},
                                               {"step", std::to_string(step->second)},
                                               {"purpose", purpose()}}) +
               turned;
      return w_.words(inputs[0].is_piece ? "sew alike pieces" : "sew alike units",
                      {{"n", w_.words.number(n)},
                       {"what", name},
                       {"many", noun(inputs[0], NounForm::many)},
                       {"purpose", purpose()}}) +
             turned;
    }
    if (is_mitred(unit_)) return mitred();
    if (const std::string around = each_side(); !around.empty()) return around + turned;
    if (const std::string around = all_round(); !around.empty()) return around + turned;
    const bool on_point = w_.size_def().setting == Setting::on_point;
    if (on_point && unit_.name == "center")
      return w_.words("sew diagonal rows",
                      {{"n", w_.words.number(static_cast<long long>(inputs.size()) - 2)}});
    const bool of_rows = std::all_of(inputs.begin(), inputs.end(), [&](const Input& in) {
      return !in.is_piece && is_row(w_.scene.piecing.units[in.unit].name);
    });
    if (of_rows)
      return w_.words(inputs.size() == 2 ? "sew two rows" : "sew rows",
                      {{"n", w_.words.number(static_cast<long long>(inputs.size()))}}) +
             turned;
    if (inputs.size() > 5)
      return w_.words("sew many",
                      {{"n", w_.words.number(static_cast<long long>(inputs.size()))},
                       {"way", w_.words(is_across() ? "left to right" : "top to bottom")},
                       {"purpose", purpose()}}) +
             turned;
    std::vector<std::string> names;
    names.reserve(inputs.size());
    for (const Input& in : inputs) names.push_back(noun(in, NounForm::object));
    return w_.words(inputs.size() == 2 ? "sew two" : "sew in order",
                    {{"what", w_.words.list(names)}, {"purpose", purpose()}}) +
           turned;
  }

  bool is_across() const {
    const Middle a = center(0), b = center(unit_.inputs.size() - 1);
    constexpr double steep = 0.5;  // what lies aslant is sewn from the left
    return std::abs(b.x - a.x) >= std::abs(b.y - a.y) * steep;
  }

  // Two of a kind with something else between them.
  std::string each_side() const {
    const auto& in = unit_.inputs;
    if (in.size() != 3 || in[0].is_piece != in[2].is_piece) return {};
    if (in[0].is_piece ? in[0].piece != in[2].piece : in[0].unit != in[2].unit) return {};
    return w_.words(is_across() ? "sew each side" : "sew top and bottom",
                    {{"what", noun(in[0])},
                     {"each", each(in[0])},
                     {"middle", the(1)},
                     {"part", noun(in[1], NounForm::object)},
                     {"purpose", purpose()},
                     {"result", result()}});
  }

  // Pieces alike, all sewn to one in the middle.
  std::string all_round() const {
    const auto& in = unit_.inputs;
    if (in.size() < 4) return {};
    for (std::size_t middle = 0; middle < in.size(); ++middle) {
      const std::size_t other = middle == 0 ? 1 : 0;
      const bool round = std::all_of(in.begin(), in.end(), [&](const Input& i) {
        return &i == &in[middle] ||
               (i.is_piece && in[other].is_piece && i.piece == in[other].piece);
      });
      const bool joined = std::all_of(unit_.seams.begin(), unit_.seams.end(), [&](const Seam& s) {
        return s.first == middle || s.second == middle;
      });
      if (round && joined && !(in[middle].is_piece && in[middle].piece == in[other].piece))
        return w_.words("sew all round", {{"what", noun(in[other])},
                                          {"each", each(in[other])},
                                          {"middle", the(middle)},
                                          {"part", noun(in[middle], NounForm::object)},
                                          {"purpose", purpose()},
                                          {"result", result()}});
    }
    return {};
  }

  // Borders whose corners are mitred: which goes where.
  std::string mitred() const {
    std::map<std::string, std::string> at;  // side -> label
    std::size_t within = 0;
    for (const Seam& seam : unit_.seams) {
      if (seam.kind != SeamKind::stopped) continue;
      const Input& second = unit_.inputs[seam.second];
      const bool outward = second.is_piece && w_.scene.piecing.pieces[second.piece].mitred;
      const std::size_t border = outward ? seam.second : seam.first;
      within = outward ? seam.first : seam.second;
      const Middle a = center(within), b = center(border);
      const double dx = b.x - a.x, dy = b.y - a.y;
      at[std::abs(dx) > std::abs(dy) ? (dx > 0 ? "right" : "left") : (dy > 0 ? "bottom" : "top")] =
          noun(unit_.inputs[border]);
    }
    const char* key = at["left"] != at["right"] || at["top"] != at["bottom"] ? "mitred each"
                      : at["left"] == at["top"]                              ? "mitred alike"
                                                                             : "mitred pairs";
    return w_.words(key, {{"side", at["left"]},
                          {"end", at["top"]},
                          {"other side", at["right"]},
                          {"other end", at["bottom"]},
                          {"middle", the(within)}});
  }

  // The fabric along a unit's shorter level edge, or at its tip.
  struct Narrow {
    std::string fabric;
    bool tip = false;
  };
  std::optional<Narrow> narrow(UnitId id) const {
    const Polygon& outline = w_.scene.piecing.units[id].outline;
    const Exact above = level_edge(outline, true), below = level_edge(outline, false);
    if (above == below) return {};
    const dogear::Box box = bounds(outline);
    const bool top = above < below;
    const Exact& y = top ? box.least.y : box.most.y;
    for (const PlacedPiece& p : flatten(w_.scene.piecing, id)) {
      const Piece& piece = w_.scene.piecing.pieces[p.piece];
      const dogear::Box own = bounds(p.where.apply(piece.shape));
      if ((top ? own.least.y : own.most.y) == y)
        return Narrow{w_.fabric(piece.fabric).name, min(above, below).is_zero()};
    }
    return {};
  }

  void strip_set(StepWords& out) const {
    const StripSet* found = strip_set_of(w_.quantities(), id_);
    if (found == nullptr) {
      out.sew = sew();
      return;
    }
    const std::vector<UnitId> units = cut_together(w_.scene, w_.size, id_);
    long long all = 0;
    std::vector<std::string> kinds;
    for (const UnitId unit : units) {
      const auto made = w_.sewing().make.find(unit);
      const long long n = made == w_.sewing().make.end() ? 0 : made->second;
      all += n;
      const auto at = narrow(unit);
      if (!at) continue;
      const char* key = !kinds.empty() ? "sorted" : at->tip ? "sorted tip" : "sorted edge";
      kinds.push_back(w_.words(key, {{"n", std::to_string(n)}, {"fabric", at->fabric}}));
    }
    const std::string count = "make." + owned_name() + (units.size() > 1 ? ".together" : "");
    out.sew = w_.words(found->cut.reading ? "cut from strip set turning" : "cut from strip set",
                       {{"set", std::to_string(found - w_.quantities().strip_sets.data() + 1)},
                        {"n", w_.said(count, std::to_string(all))},
                        {"cut", reading_words(w_, found->cut, "measure." + owned_name())}});
    if (units.size() > 1 && kinds.size() == units.size()) {
      out.sew += " " + w_.words("sort", {{"kinds", w_.words.list(kinds)}});
    } else if (const auto at = narrow(id_); at && units.size() == 1) {
      out.sew +=
          " " + w_.words(at->tip ? "all with tip" : "all with edge", {{"fabric", at->fabric}});
    }
    if (units.size() == 1 && !found->cut.reading && lies_turned(*found))
      out.sew += " " + w_.words("turn shapes as shown");
  }

  // Whether the strips of the shape, from its top, are not those of the set from its first.
  bool lies_turned(const StripSet& set) const {
    std::vector<std::pair<double, FabricId>> down;
    for (const Input& in : unit_.inputs) {
      if (!in.is_piece) return false;
      const Piece& piece = w_.scene.piecing.pieces[in.piece];
      down.emplace_back(middle_of(bounds(in.where.apply(piece.shape))).y, piece.fabric);
    }
    std::sort(down.begin(), down.end());
    return !std::equal(down.begin(), down.end(), set.strips.begin(), set.strips.end(),
                       [](const auto& a, const auto& b) { return a.second == b.first; });
  }

  // Where a seam allowance is pressed to, seen in the figure.
  std::string direction(const Seam& seam) const {
    const std::size_t to = seam.press == Press::to_first ? seam.first : seam.second;
    const std::size_t from = seam.press == Press::to_first ? seam.second : seam.first;
    const Middle a = center(from), b = center(to);
    const double dx = b.x - a.x, dy = b.y - a.y;
    if (std::abs(dx) >= std::abs(dy)) return w_.words(dx > 0 ? "to the right" : "to the left");
    return w_.words(dy > 0 ? "downward" : "upward");
  }

  Middle center(std::size_t input) const {
    const Input& in = unit_.inputs[input];
    const Polygon& own = in.is_piece ? w_.scene.piecing.pieces[in.piece].shape
                                     : w_.scene.piecing.units[in.unit].outline;
    return middle_of(bounds(in.where.apply(own)));
  }

  bool is_unique(std::size_t input) const {
    const std::string name = noun(unit_.inputs[input]);
    long long same = 0;
    for (const Input& in : unit_.inputs) same += noun(in) == name ? 1 : 0;
    return same == 1;
  }

  std::string the(std::size_t input) const { return noun(unit_.inputs[input], NounForm::towards); }

  std::string press() const {
    const auto& seams = unit_.seams;
    if (seams.empty()) return {};
    if (is_mitred(unit_)) return w_.words("press mitred");
    const std::string seams_words = w_.words(seams.size() == 1   ? "the seam"
                                             : seams.size() == 2 ? "both seams"
                                                                 : "all seams");
    const auto target = [](const Seam& s) {
      return s.press == Press::to_first ? s.first : s.second;
    };
    const auto source = [](const Seam& s) {
      return s.press == Press::to_first ? s.second : s.first;
    };
    const auto all = [&](auto&& test) { return std::all_of(seams.begin(), seams.end(), test); };
    if (all([](const Seam& s) { return s.press == Press::open; }))
      return w_.words("press open", {{"seams", seams_words}});
    if (!all([](const Seam& s) { return s.press != Press::open; }))
      return w_.words("press as shown", {{"seams", seams_words}});
    const std::size_t first_target = target(seams[0]), first_source = source(seams[0]);
    const bool from_within = all([&](const Seam& s) {
      return unit_.inputs[target(s)].is_piece && !unit_.inputs[source(s)].is_piece;
    });
    if (from_within && goes_around(unit_.name))
      return w_.words("press toward",
                      {{"seams", seams_words},
                       {"what", w_.words(is_border(unit_.name) ? "the borders" : "the sashing")}});
    if (seams.size() == 1 && is_unique(first_target))
      return w_.words("press toward", {{"seams", seams_words}, {"what", the(first_target)}});
    const std::string way = direction(seams[0]);
    if (seams.size() == 1) return w_.words("press way", {{"seams", seams_words}, {"way", way}});
    if (all([&](const Seam& s) { return target(s) == first_target; }) && is_unique(first_target))
      return w_.words("press toward", {{"seams", seams_words}, {"what", the(first_target)}});
    if (all([&](const Seam& s) { return source(s) == first_source; }) && is_unique(first_source))
      return w_.words("press away", {{"seams", seams_words}, {"what", the(first_source)}});
    if (all([&](const Seam& s) { return direction(s) == way; }))
      return w_.words("press way", {{"seams", seams_words}, {"way", way}});
    if (seams.size() > 2) return w_.words("press as shown", {{"seams", seams_words}});
    std::vector<std::string> ways;
    ways.reserve(seams.size());
    for (const Seam& s : seams) ways.push_back(direction(s));
    return w_.words("press each", {{"ways", w_.words.list(ways)}});
  }

  // What the ledger calls the unit, for the tags of a draft: "star.ray", "assembly.row-1".
  std::string owned_name() const {
    if (!w_.drafting) return {};
    std::string owner = "assembly";
    for (const BlockSewing& block : w_.sewing().blocks)
      if (std::find(block.steps.begin(), block.steps.end(), id_) != block.steps.end())
        owner = w_.pattern().uses[block.use].id;
    return dogear::owned_name(w_.scene.piecing, w_.sewing(), owner, id_);
  }

  std::string measure() const {
    const UnitMeasure m = measured();
    switch (m.kind) {
      case UnitMeasure::Kind::none:
        return {};
      case UnitMeasure::Kind::rectangle:
        return w_.words("measures", {{"size", rectangle_words(m)}});
      case UnitMeasure::Kind::level:
        return w_.words("measures high", {{"size", about("height", m.height)}});
      case UnitMeasure::Kind::trapezoid:
        return w_.words("measures trapezoid", {{"size", about("height", m.height)},
                                               {"long", about("long-edge", m.long_edge)},
                                               {"short", inches("short-edge", m.short_edge)}});
      case UnitMeasure::Kind::tip:
        return w_.words("measures tip", {{"size", about("height", m.height)}});
    }
    return {};
  }

  UnitMeasure measured() const {
    return unit_measure(w_.pattern(), w_.quantities(), w_.size_def().setting, unit_);
  }

  std::string rectangle_words(const UnitMeasure& m) const {
    // "about 51⅜ in × 68⅜ in" where both are.
    const bool both = !is_exact(m.width) && !is_exact(m.height);
    return about("width", m.width) + " × " +
           (both ? inches("height", m.height) : about("height", m.height));
  }

  std::string about(const std::string& side, const Exact& measure) const {
    const std::string text = inches(side, measure);
    return is_exact(measure) ? text : w_.words("about") + " " + text;
  }

  // As it is printed.
  static bool is_exact(const Exact& measure) { return Exact(measure.round_nearest(8)) == measure; }

  std::string inches(const std::string& side, const Exact& measure) const {
    return w_.said("measure." + owned_name() + "." + side,
                   w_.words.inches(measure.round_nearest(8)));
  }

  // Tips of one end of a seam keep its edges from being matched by their middles.
  void tips(StepWords& out) const {
    for (const PieceTip& tip : tips_in(w_.pattern(), w_.scene.piecing, w_.quantities(), id_)) {
      if (!tip.one_end) continue;
      const std::string words = w_.words(
          "trim tip", {{"piece", w_.scene.piecing.pieces[tip.trim.piece].label(w_.pattern())},
                       {"length", w_.words.inches(tip.printed)},
                       {"what", the(tip.trim.neighbour)}});
      if (std::find(out.tips.begin(), out.tips.end(), words) == out.tips.end())
        out.tips.push_back(words);
    }
  }

  void grain(StepWords& out) const {
    for (const Seam& s : unit_.seams) {
      out.two_bias = out.two_bias || s.bias_meets;
      out.one_bias = out.one_bias || (!s.bias_meets && (s.first_has_bias || s.second_has_bias));
    }
    const std::vector<PlacedPiece> placed = flatten(w_.scene.piecing, id_);
    constexpr std::size_t most_looked_at = 60;  // beyond that it is the top that grows
    constexpr std::size_t most_of_row = 600;
    if (placed.size() > (is_row(unit_.name) ? most_of_row : most_looked_at)) return;
    std::set<long> off;                            // degrees, of the bias edges told of
    bool any = false, all = true, slanted = true;  // of the sides, and just the slanted ones
    const auto take = [&](const EdgeGrain& e, const Segment& where) {
      const bool told = e.thread == Thread::bias && lies_along(e.where, where);
      if (told) off.insert(std::lround(e.off));
      return told;
    };
    for (const PlacedPiece& p : placed) {
      for (const EdgeGrain& e : edges(w_.scene.piecing, p)) {
        for (const Seam& s : unit_.seams) {
          if (s.bias_meets) take(e, s.where);
        }
      }
    }
    for (std::size_t i = 0; i < unit_.outline.size(); ++i) {
      const Segment side = unit_.outline.edge(i);
      bool is_bias = false;
      for (const PlacedPiece& p : placed) {
        for (const EdgeGrain& e : edges(w_.scene.piecing, p)) is_bias = take(e, side) || is_bias;
      }
      const bool slants = side.a.x != side.b.x && side.a.y != side.b.y;
      any = any || is_bias;
      all = all && is_bias;
      slanted = slanted && is_bias == slants;
    }
    if (any)
      out.outer_bias = is_row(unit_.name) ? "outer bias"
                       : all              ? "outer bias all"
                       : slanted          ? "outer bias slanted"
                                          : "outer bias";
    std::vector<std::string> degrees;
    for (const long each : off) degrees.push_back(std::to_string(each) + "°");
    if (!degrees.empty())
      out.off = " " + w_.words("off the thread", {{"degrees", w_.words.list(degrees)}});
  }

  const Writer& w_;
  const SewnUnit& unit_;
  UnitId id_;
  const std::map<UnitId, std::size_t>& steps_;
};

}  // namespace

namespace {

// Only a quilt has a quilt center.
std::string center_words(const Writer& w, NounForm form) {
  const SizeQuantities& q = w.quantities();
  const bool quilt = (q.batting || q.backing) &&
                     lower(w.size_def().title).find(w.words("pillow")) == std::string::npos;
  return w.words.form(quilt ? "noun quilt center" : "noun center", form);
}

}  // namespace

std::string unit_noun(const Writer& w, UnitId id, const std::map<UnitId, std::size_t>& steps,
                      NounForm form) {
  const std::string& name = w.scene.piecing.units[id].name;
  const auto say = [&](std::string_view key, WordValues values = {}) {
    return w.words.form(key, form, values);
  };
  const auto rest = [&](std::string_view head) { return name.substr(head.size()); };
  if (is_section(name)) {
    const auto step = steps.find(id);
    return step == steps.end() ? say("noun section")
                               : say("noun section of step", {{"n", std::to_string(step->second)}});
  }
  if (starts_with(name, "row ")) return say("noun row", {{"n", rest("row ")}});
  if (name == "sashing row") return say("noun sashing row");
  if (name == "center") return center_words(w, form);
  if (name == "outer sashing")
    return say(id == w.sewing().top ? "noun framed top" : "noun sashed center");
  if (name == "pieced border with corners") return say("noun pieced border with corners");
  if (is_pieced_border(name)) return say("noun pieced border");
  if (name == "border" || name == "border " + std::to_string(w.size_def().borders.size()))
    return say("noun bordered top");
  if (starts_with(name, "border ")) return say("noun top with border", {{"n", rest("border ")}});
  if (name == "center with side sashing")
    return say("with side sashing", {{"center", center_words(w, form)}});
  if (name == "center with side borders") {
    const auto& inputs = w.scene.piecing.units[id].inputs;
    const auto within = std::find_if(inputs.begin(), inputs.end(), [&](const Input& in) {
      return !in.is_piece && !is_pieced_border(w.scene.piecing.units[in.unit].name);
    });
    return say("with side borders",
               {{"center", within == inputs.end() ? center_words(w, form)
                                                  : unit_noun(w, within->unit, steps, form)}});
  }
  for (const BlockUse& use : w.pattern().uses)
    if (use.title == name) return say("noun block", {{"name", name}});
  for (const BlockSewing& block : w.scene.piecing.sizes[w.size].blocks) {
    const bool final =
        std::find(block.finals.begin(), block.finals.end(), id) != block.finals.end();
    if (!final) continue;
    return say(comes_in_halves(w.scene, block) ? "noun half" : "noun block",
               {{"name", w.pattern().uses[block.use].title}});
  }
  return say("noun unit", {{"name", w.words.name(name)}});
}

std::optional<Fraction> upper_reading(const PieceCut& cut) {
  return cut.upper_reading && cut.upper_reading->num > 0 ? cut.upper_reading : std::nullopt;
}

std::string reading_words(const Writer& w, const PieceCut& cut, const std::string& fact) {
  const auto inches = [&](const char* name, const Fraction& f) {
    return w.said(fact + name, w.words.inches(f));
  };
  if (const auto upper = upper_reading(cut); upper && cut.reading)
    return w.words("between readings", {{"upper", inches(".cut-from", *upper)},
                                        {"lower", inches(".cut-at", *cut.reading)}});
  if (cut.reading) return w.words("at reading", {{"reading", inches(".cut-at", *cut.reading)}});
  return w.words(cut.angle == 45 ? "every at 45" : "every",
                 {{"length", inches(".cut-every", cut.length)}});
}

std::vector<Runs> step_runs(const Writer& w, const Column& column, const StepWords& words,
                            Warned& warned) {
  std::vector<Runs> out;
  std::string text = words.sew;
  if (!words.press.empty()) text += " " + words.press;
  out.push_back({{text + " ", column.text(), false}, {words.make, column.bold(), false}});
  if (!words.last.empty()) out.back().push_back({" " + words.last, column.text(), false});
  std::string note = words.measure;
  const auto add = [&](const std::string& sentence) {
    note += (note.empty() ? "" : " ") + sentence;
  };
  if (!words.alternate.empty()) add(words.alternate);
  if (!words.pressing.empty()) add(words.pressing);
  if (!words.unequal.empty() && !warned.unequal) {
    warned.unequal = true;
    add(words.unequal);
  }
  for (const std::string& tip : words.tips) {
    if (!warned.rows && warned.tips.insert(tip).second) add(tip);
  }
  if (words.curved) add(w.words("curved seam"));
  if (words.two_bias && !words.outer_bias.empty()) {
    add(w.words("two and outer bias", {{"off", words.off}}));
  } else {
    if (words.two_bias) add(w.words("two bias", {{"off", words.off}}));
    if (!words.two_bias && words.one_bias) add(w.words("one bias"));
    if (!words.outer_bias.empty()) add(w.words(words.outer_bias, {{"off", words.off}}));
  }
  if (!note.empty()) {
    TextStyle s = column.small();
    s.color = w.style.colours.muted;
    out.push_back({{note, s, false}});
  }
  return out;
}

StepWords step_words(const Writer& writer, UnitId unit,
                     const std::map<UnitId, std::size_t>& steps) {
  return Sentences(writer, unit, steps).words();
}

}  // namespace dogear::booklet
