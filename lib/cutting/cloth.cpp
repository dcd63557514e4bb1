#include "cutting/cloth.h"

#include <algorithm>
#include <map>

#include "cutting/along.h"
#include "cutting/border_cut.h"
#include "cutting/finish.h"
#include "cutting/leftovers.h"

namespace dogear {

namespace {

class ClothPlanner {
 public:
  ClothPlanner(const Pattern& pattern, const Piecing& piecing, const std::vector<PieceCut>& cuts,
               const ClothWants& wants, Diagnostics& d)
      : pattern_(pattern),
        piecing_(piecing),
        cuts_(cuts),
        wants_(wants),
        d_(d),
        fabric_(pattern.fabrics[wants.fabric]) {}

  std::optional<ClothPlan> plan() {
    const std::size_t before = d_.error_count();
    plan_.need.fabric = wants_.fabric;
    plan_panels();
    std::vector<stock::Source> sources;
    for (const Panel& panel : panels_) {
      // Cut down to nothing, a panel's rest is no source.
      const Exact rest = yard_width() - panel.taken - pattern_.allowances.strip_ends;
      sources.push_back({std::max<stock::Steps>(steps_down(rest, steps_along), 0),
                         steps_down(panel.length, steps_across), 1});
    }
    for (const ClothSource& s : fabric_.sources) {
      stock::Source source{steps_down(strip_length(pattern_, s), steps_along), {}, s.had};
      if (s.height) source.height = steps_down(*s.height, steps_across);
      sources.push_back(source);
    }
    sources.back().had.reset();  // what is beyond is told as an error
    for (const StripDemand& demand : wants_.demands) check_fits(demand);
    if (d_.error_count() > before) return std::nullopt;
    problem_ = stock_problem(wants_.demands, std::move(sources));
    problem_.effort = wants_.effort;
    for (const StripDemand& demand : wants_.demands) tallest_ = max(tallest_, demand.height);
    if (by_length()) {
      problem_.price = [this](stock::Steps use) { return bought_for(along_length_ + across(use)); };
    }
    if (!wants_.demands.empty()) {
      const auto solution = stock::solve(problem_);
      if (!solution) return too_few_large();
      const auto faults = stock::faults(problem_, solution->strips);
      if (!faults.empty()) return fault(faults.front());
      solution_ = *solution;
    }
    lay_out();
    buy();
    plan_.need.leftovers = leftovers_of(fabric_, cuts_, wants_, plan_);
    balance();
    if (d_.error_count() > before) return std::nullopt;
    return std::move(plan_);
  }

 private:
  bool by_length() const { return fabric_.sources.back().kind == ClothSource::Kind::yardage; }

  static Exact across(stock::Steps use) { return Exact(Fraction::of(use, steps_across)); }

  Exact yard_width() const {
    const ClothSource* yardage = yardage_of(pattern_, wants_.fabric);
    return yardage == nullptr ? Exact(0) : yardage->length;
  }

  // Eighths or quarters of a yard that are bought for so many inches of strips.
  long long bought_for(const Exact& length) const {
    const Exact inches = with_allowances(pattern_.allowances, length, tallest_).all;
    return (Exact(yards_up(inches, yard_parts())) * Exact(yard_parts())).round_up(1).num;
  }

  long long yard_parts() const { return pattern_.allowances.yard_parts; }

  bool fits(const StripDemand& demand, const ClothSource& source) const {
    return is_high_enough(demand, source) &&
           demand.cuts_in(strip_length(pattern_, source).approx()) > 0;
  }

  static bool is_high_enough(const StripDemand& demand, const ClothSource& source) {
    return !source.height || demand.height <= *source.height;
  }

  std::nullopt_t fault(const std::string& words) {
    d_.error("D504", fabric_.span,
             "the cutting of " + fabric_.name + " does not hold together (" + words +
                 "); please report this");
    return std::nullopt;
  }

  // Pieces that fit nothing but sheets of which there are too few.
  std::nullopt_t too_few_large() {
    const ClothSource& last = fabric_.sources.back();
    bool told = false;
    for (const StripDemand& demand : wants_.demands) {
      if (fits(demand, last)) continue;
      told = true;
      Diagnostic& e =
          d_.error("D503", demand.span,
                   "more of these are needed (" + std::to_string(demand.pieces) +
                       ") than the cloth of " + fabric_.name + " that is large enough gives");
      e.notes.push_back({last.span, "this cloth is too small for them"});
      e.hints.push_back("add cloth that is large enough before it, or piece them from two parts");
    }
    if (told) return std::nullopt;
    return fault("finds no cloth for every piece");
  }

  // -- what fits no cloth ------------------------------------------------------------------------

  void check_fits(const StripDemand& demand) {
    bool high_enough = false;
    for (const ClothSource& s : fabric_.sources) {
      if (fits(demand, s)) return;
      high_enough = high_enough || is_high_enough(demand, s);
    }
    const ClothSource& last = fabric_.sources.back();
    const bool by_the_yard = yardage_of(pattern_, wants_.fabric) != nullptr;
    const Note note = last.kind == ClothSource::Kind::yardage && !fabric_.width
                          ? Note{pattern_.usable_width_span, "the cloth is as wide as this"}
                          : Note{last.span, last.kind == ClothSource::Kind::bundle
                                                ? "the bundle is described here"
                                                : "the cloth is described here"};
    if (!high_enough) {
      Diagnostic& e = d_.error("D505", demand.span,
                               "this needs a strip of " + plain_inches(demand.height.round_up(16)) +
                                   ", but " + fabric_.name + " comes in " + sheets_words());
      e.notes.push_back(note);
      e.hints.push_back("use a fabric bought by the yard, or piece the shape from narrower strips");
      return;
    }
    Diagnostic& e =
        d_.error("D503", demand.span,
                 "this piece is cut " + plain_inches(demand.run_length(1)) +
                     (by_the_yard ? " long, more than the cloth is wide"
                                  : " long, more than the longest strip of " + fabric_.name));
    e.notes.push_back(note);
    e.hints.push_back("piece it from two parts that are each shorter than the cloth is wide");
    if (demand.cuts_in(last.length.approx()) > 0)
      e.hints.push_back(strip_ends_hint(pattern_.allowances.strip_ends, "strip ends"));
  }

  std::string sheets_words() const {
    Exact highest = 0;
    for (const ClothSource& s : fabric_.sources)
      highest = max(highest, s.height.value_or(Exact(0)));
    const std::string height = plain_inches(highest.round_nearest(16));
    const ClothSource& last = fabric_.sources.back();
    const bool bundle = last.kind == ClothSource::Kind::bundle;
    if (bundle && pattern_.bundles[last.bundle].squares) return "squares of " + height;
    return bundle && highest < Exact(6) ? "strips of " + height : "cloth no higher than " + height;
  }

  // -- strips along the length -------------------------------------------------------------------

  void plan_panels() {
    if (wants_.along.empty()) return;
    panels_ = lay_along(wants_.along, yard_width());
    for (const Panel& panel : panels_) along_length_ += panel.length;
  }

  void lay_out_panels() {
    if (panels_.empty()) return;  // as of a fabric that has no yardage
    std::size_t source = 0;
    while (fabric_.sources.at(source).kind != ClothSource::Kind::yardage) ++source;
    for (const Panel& panel : panels_) {
      plan_.need.cloth_area += (panel.length * yard_width()).approx();
      for (const Panel::Column& column : panel.columns) {
        const ClothWants::Along& wanted = wants_.along[column.along];
        StripPlan strip;
        strip.fabric = wants_.fabric;
        strip.source = source;
        strip.along = true;
        strip.height = wanted.width;
        strip.usable = panel.length.round_up(16);
        strip.purpose = "border";
        Run run;
        run.piece = wanted.piece;
        run.count = 1;
        run.height = wanted.width;
        run.length = wanted.length;
        strip.runs.push_back(run);
        Run rest;
        rest.kind = Run::Kind::leftover;
        rest.x = wanted.length;
        rest.height = wanted.width;
        rest.length = (panel.length - column.length).round_down(8);
        if (Exact(rest.length) >= Exact(1)) strip.runs.push_back(rest);
        const auto same =
            std::find_if(plan_.strips.begin(), plan_.strips.end(), [&](const StripPlan& s) {
              return s.along && s.height == strip.height && s.usable == strip.usable &&
                     s.runs[0].piece == run.piece;
            });
        if (same != plan_.strips.end()) {
          ++same->times;
        } else {
          plan_.strips.push_back(std::move(strip));
        }
      }
    }
  }

  // -- strips across -----------------------------------------------------------------------------

  void lay_out() {
    lay_out_panels();
    std::vector<Strip> strips = strips_of(wants_.demands, problem_, solution_);
    hand_out(wants_.families, strips);
    const ClothSource& last = fabric_.sources.back();
    const std::size_t last_index = problem_.sources.size() - 1;
    for (const Strip& s : strips) {
      if (last.had && s.source == last_index && s.sheet >= *last.had) plan_.find_none.push_back(s);
      if (s.source == last_index && by_length()) plan_.need.length += s.height;
    }
    for (std::size_t p = 0; p < panels_.size(); ++p) {
      Exact rest = panels_[p].length;
      for (const Strip& s : strips) rest -= s.source == p ? s.height : Exact(0);
      plan_.rests.emplace_back(rest.round_down(8), (yard_width() - panels_[p].taken).round_down(8));
    }
    std::vector<StripPlan> plans = gather(strips, wants_.fabric, problem_);
    for (StripPlan& plan : plans) {
      plan.beside = plan.source < panels_.size();
      plan.source = plan.beside ? fabric_.sources.size() - 1 : plan.source - panels_.size();
      const ClothSource& source = fabric_.sources[plan.source];
      plan.from_bundle = source.kind == ClothSource::Kind::bundle && plan.sheet == 0;
      plan.bundle = source.bundle;
      plan_.strips.push_back(std::move(plan));
    }
    if (!solution_.sheets.empty()) {
      for (std::size_t s = 0; s < fabric_.sources.size(); ++s) {
        const ClothSource& source = fabric_.sources[s];
        const long long used = solution_.sheets[panels_.size() + s];
        if (!source.height) continue;
        if (used > 0) plan_.need.sources.push_back({s, used, source.had.value_or(used)});
        plan_.need.cloth_area +=
            (*source.height * source.length).approx() * static_cast<double>(used);
        if (source.kind == ClothSource::Kind::bundle) {
          plan_.need.bundle_strips += used;
          plan_.need.bundle_strips_had += *source.had;
        }
        if (source.had && used > *source.had) plan_.short_by = used - *source.had;
      }
    }
    // Long strips are cut first, then the highest; the sleeve and the binding come last.
    const auto rank = [](const StripPlan& p) {
      return p.along                  ? 0
             : p.purpose == "border"  ? 1
             : p.purpose == "sleeve"  ? 3
             : p.purpose == "binding" ? 4
                                      : 2;
    };
    std::stable_sort(plan_.strips.begin(), plan_.strips.end(),
                     [&](const StripPlan& a, const StripPlan& b) {
                       if (rank(a) != rank(b)) return rank(a) < rank(b);
                       if (a.sheet != b.sheet) return a.sheet < b.sheet;
                       return Exact(b.height) < Exact(a.height);
                     });
  }

  // -- what is bought ----------------------------------------------------------------------------

  void buy() {
    FabricNeed& need = plan_.need;
    need.cloth_area += (need.length * yard_width()).approx();
    need.length += along_length_;
    LeastCloth least;
    least.bought = solution_.bound.price;
    least.met = solution_.least();
    if (!by_length()) {
      least.length = Fraction::of(solution_.bound.use, 1);
      if (!wants_.demands.empty()) need.least = least;
      return;
    }
    if (need.length.sign() <= 0) return;
    const WithAllowances with = with_allowances(pattern_.allowances, need.length, tallest_);
    need.squaring = with.squaring;
    need.shrinkage = with.shrinkage;
    need.margin = with.margin;
    need.yards = yards_up(with.all, yard_parts());
    need.centimetres = centimetres_up(with.all, pattern_.allowances.centimetre_step);
    const long long bought = bought_for(need.length);
    Exact length = across(solution_.bound.use);
    if (!panels_.empty()) {
      // Strips along the length and across it have one bound: their area, and the longest.
      length = least_with_panels();
      least.bought = bought_for(length);
      least.met = least.bought == bought;
    } else if (wants_.demands.empty()) {
      least.bought = bought;
      least.met = true;
    }
    least.length = length.round_up(16);
    need.least = least;
    need.sources.push_back({fabric_.sources.size() - 1, 0, 0});
  }

  Exact least_with_panels() const {
    Exact area = 0;
    Exact longest = 0;
    for (const ClothWants::Along& a : wants_.along) {
      area += Exact(a.width) * Exact(a.length) * Exact(a.count);
      longest = max(longest, Exact(a.length));
    }
    // What sheets give is not asked of the yardage; they are used up at the most.
    for (std::size_t k = 0; k < problem_.kinds.size(); ++k) {
      const stock::Kind& kind = problem_.kinds[k];
      Exact each = Exact(kind.run[0]);
      for (std::size_t n = 1; n < kind.run.size(); ++n) {
        each = min(each, Exact::ratio(kind.run[n], static_cast<std::int64_t>(n + 1)));
      }
      area += each * Exact(kind.need) * Exact::ratio(kind.height, steps_across * steps_along);
    }
    for (const ClothSource& s : fabric_.sources) {
      if (s.height && s.had) area -= *s.height * s.length * Exact(*s.had);
    }
    return max(longest, area / yard_width());
  }

  // -- two ways to each number -------------------------------------------------------------------

  double piece_area(const Run& run) const {
    if (run.kind != Run::Kind::piece) return run.length.approx() * run.height.approx();
    if (cuts_[run.piece].method == CutMethod::lengthwise) {
      return cut_area(piecing_.pieces[run.piece], cuts_[run.piece]);
    }
    double pieces = area(cuts_[run.piece].cut_shape).approx() * static_cast<double>(run.count);
    for (const auto& [piece, n] : run.also) {
      pieces += area(cuts_[piece].cut_shape).approx() * static_cast<double>(n);
    }
    return pieces;
  }

  void balance() {
    FabricNeed& need = plan_.need;
    std::map<PieceId, long long> cut;
    for (const StripPlan& plan : plan_.strips) {
      const auto times = static_cast<double>(plan.times);
      for (const Run& run : plan.runs) {
        const double rectangle = run.length.approx() * run.height.approx();
        if (run.kind == Run::Kind::leftover) {
          need.leftover_area += rectangle * times;
          continue;
        }
        need.piece_area += piece_area(run) * times;
        if (piece_area(run) > rectangle * (1 + 1e-9) + 1e-6) fault("a run holds more than fits");
        cut[run.piece] += run.kind == Run::Kind::piece ? run.count * plan.times : 0;
        for (const auto& [piece, n] : run.also) cut[piece] += n * plan.times;
      }
    }
    for (const Leftover& l : need.leftovers) {
      if (l.from != Leftover::From::sheet) continue;
      need.leftover_area += l.height.approx() * l.length.approx() * static_cast<double>(l.count);
    }
    need.waste_area = need.cloth_area - need.piece_area - need.leftover_area;
    if (need.waste_area < -1e-6 * (1 + need.cloth_area)) fault("more is cut than there is cloth");
    std::map<PieceId, long long> wanted;
    for (const StripDemand& demand : wants_.demands) {
      if (demand.kind == Run::Kind::piece) wanted[demand.piece] += demand.pieces;
    }
    for (const CutFamily& family : wants_.families) {
      for (const auto& [piece, n] : family.others) wanted[piece] += n;
    }
    for (const ClothWants::Along& a : wants_.along) wanted[a.piece] += a.count;
    std::erase_if(cut, [](const auto& c) { return c.second == 0; });
    std::erase_if(wanted, [](const auto& c) { return c.second == 0; });
    if (cut != wanted) fault("pieces cut are not the pieces sewn");
  }

  const Pattern& pattern_;
  const Piecing& piecing_;
  const std::vector<PieceCut>& cuts_;
  const ClothWants& wants_;
  Diagnostics& d_;
  const Fabric& fabric_;
  ClothPlan plan_;
  std::vector<Panel> panels_;
  Exact along_length_ = 0;
  Exact tallest_ = 0;
  stock::Problem problem_;
  stock::Solution solution_;
};

}  // namespace

std::string strip_ends_hint(const Exact& ends, const char* key) {
  return about_inches(ends) + " are kept for squaring the ends: where they need none, write `" +
         key + ": 0 in` under `allowances`";
}

WithAllowances with_allowances(const Allowances& a, const Exact& length, const Exact& tallest) {
  WithAllowances with;
  if (length.sign() <= 0) return with;
  with.squaring = a.squaring;
  with.shrinkage = (length + a.squaring) * a.shrinkage;
  with.margin = a.margin_length + length * a.margin_share + tallest * Exact(a.margin_strips);
  with.all = length + with.squaring + with.shrinkage + with.margin;
  return with;
}

std::optional<ClothPlan> plan_cloth(const Pattern& pattern, const Piecing& piecing,
                                    const std::vector<PieceCut>& cuts, const ClothWants& wants,
                                    Diagnostics& diagnostics) {
  return ClothPlanner(pattern, piecing, cuts, wants, diagnostics).plan();
}

}  // namespace dogear
