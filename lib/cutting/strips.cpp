#include "cutting/strips.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace dogear {

namespace {

// What sums of doubles may be off, in inches.
constexpr double slack = 1e-9;

Fraction up_to_eighth(double inches) {
  return Fraction::of(static_cast<std::int64_t>(std::ceil(inches * 8 - slack)), 8);
}

bool same(const Run& a, const Run& b) {
  return a.kind == b.kind && a.piece == b.piece && a.strip_set == b.strip_set &&
         a.count == b.count && a.x == b.x && a.y == b.y && a.height == b.height &&
         a.length == b.length && a.shared == b.shared && a.also == b.also && a.purpose == b.purpose;
}

Fraction plain_height(const Exact& e) { return e.as_fraction().value_or(e.round_up(16)); }

Fraction along(stock::Steps steps) { return Fraction::of(steps, steps_along); }
Fraction across(stock::Steps steps) { return Fraction::of(steps, steps_across); }

// Not a sheet from which strips are cut first.
bool is_strip(const stock::Source& source) {
  return *source.height * steps_along * 4 <= source.length * steps_across;
}

// Lays the parts of a strip one beside and above another.
class StripLayer {
 public:
  StripLayer(const std::vector<StripDemand>& demands, std::vector<long long>& pieces_left)
      : demands_(demands), left_(pieces_left) {}

  std::vector<Run> lay(const stock::Strip& strip, stock::Steps usable) {
    runs_.clear();
    stock::Steps x = 0;
    for (const stock::Stretch& stretch : strip.stretches) {
      stock::Steps y = 0;
      for (const stock::Row& row : stretch.rows) {
        lay_row(row, x, y, stretch.length);
        y += row.height;
      }
      keep(x, y, stretch.length, strip.height - y);
      x += stretch.length;
    }
    keep(x, 0, usable - x, strip.height);
    return std::move(runs_);
  }

 private:
  void lay_row(const stock::Row& row, stock::Steps x, stock::Steps y, stock::Steps length) {
    const stock::Steps end = x + length;
    for (const stock::Run& part : row.runs) {
      const StripDemand& demand = demands_[part.kind];
      Run run = placed(x, y, part.length, row.height);
      run.kind = demand.kind;
      run.piece = demand.piece;
      run.strip_set = demand.strip_set;
      run.shared = demand.shared;
      run.purpose = demand.purpose;
      run.height = plain_height(demand.height);
      run.count = std::min(left_[part.kind], part.cuts * demand.per_cut);
      left_[part.kind] -= run.count;
      x += part.length;
      if (run.count > 0) runs_.push_back(std::move(run));
    }
    keep(x, y, end - x, row.height);
  }

  static Run placed(stock::Steps x, stock::Steps y, stock::Steps length, stock::Steps height) {
    Run run;
    run.x = along(x);
    run.y = across(y);
    run.length = along(length);
    run.height = across(height);
    return run;
  }

  void keep(stock::Steps x, stock::Steps y, stock::Steps length, stock::Steps height) {
    // An inch both ways is worth keeping.
    if (length < steps_along || height < steps_across) return;
    runs_.push_back(placed(x, y, length, height));
    runs_.back().kind = Run::Kind::leftover;
  }

  const std::vector<StripDemand>& demands_;
  std::vector<long long>& left_;
  std::vector<Run> runs_;
};

// Rows that run from end to end of a strip of cloth bought by the length are strips of their own.
std::vector<stock::Strip> parted(const std::vector<stock::Strip>& strips,
                                 const stock::Problem& problem) {
  std::vector<stock::Strip> out;
  for (const stock::Strip& strip : strips) {
    const bool whole = strip.stretches.size() == 1 && strip.stretches.front().rows.size() > 1;
    if (!whole || problem.sources[strip.source].height) {
      out.push_back(strip);
      continue;
    }
    for (const stock::Row& row : strip.stretches.front().rows) {
      stock::Stretch stretch;
      for (const stock::Run& run : row.runs) stretch.length += run.length;
      stretch.rows = {row};
      out.push_back({strip.source, strip.sheet, row.height, {stretch}});
    }
  }
  return out;
}

}  // namespace

stock::Steps steps_down(const Exact& inches, stock::Steps per_inch) {
  return (inches * Exact(per_inch)).round_down(1).num;
}

stock::Steps steps_up(const Exact& inches, stock::Steps per_inch) {
  return (inches * Exact(per_inch)).round_up(1).num;
}

Fraction StripDemand::run_length(long long cuts) const {
  // Between square cuts two pieces make a rectangle: the second closes the first one's slant.
  const bool closed = square_ends && cuts % 2 == 0;
  const double more = static_cast<double>(cuts) * pitch;
  return up_to_eighth(closed ? more : first + more - pitch);
}

long long StripDemand::cuts_in(double inches) const {
  const double room = std::floor(inches * 8 + slack) / 8;
  if (room + slack < first) return 0;
  auto n = 2 + static_cast<long long>(std::floor((room - first) / pitch + slack));
  while (n > 0 && run_length(n).approx() > inches + slack) --n;
  return n;
}

stock::Problem stock_problem(const std::vector<StripDemand>& demands,
                             std::vector<stock::Source> sources) {
  stock::Problem problem;
  problem.sources = std::move(sources);
  stock::Steps longest = 0;
  for (const stock::Source& s : problem.sources) longest = std::max(longest, s.length);
  for (const StripDemand& demand : demands) {
    stock::Kind kind;
    kind.height = steps_up(demand.height, steps_across);
    kind.need = demand.cuts();
    const long long most = std::min(kind.need, demand.cuts_in(along(longest).approx()));
    for (long long n = 1; n <= most; ++n) {
      kind.run.push_back(steps_up(Exact(demand.run_length(n)), steps_along));
    }
    // A kind that fits nothing keeps the length that shows it.
    if (kind.run.empty()) kind.run.push_back(steps_up(Exact(demand.run_length(1)), steps_along));
    problem.kinds.push_back(std::move(kind));
  }
  return problem;
}

std::vector<Strip> strips_of(const std::vector<StripDemand>& demands, const stock::Problem& problem,
                             const stock::Solution& solution) {
  std::vector<long long> left;
  left.reserve(demands.size());
  for (const StripDemand& demand : demands) left.push_back(demand.pieces);
  StripLayer layer(demands, left);
  std::map<std::pair<std::size_t, long long>, long long> in_sheet;
  for (const stock::Strip& s : solution.strips) ++in_sheet[{s.source, s.sheet}];
  std::vector<Strip> strips;
  for (stock::Strip s : parted(solution.strips, problem)) {
    const stock::Source& source = problem.sources[s.source];
    const stock::Steps usable = source.length;
    // A strip of a bundle is cut down only where it must be.
    if (source.height && in_sheet[{s.source, s.sheet}] == 1 && is_strip(source)) {
      s.height = *source.height;
    }
    Strip strip;
    strip.source = s.source;
    strip.sheet = s.sheet;
    strip.height = Exact(across(s.height));
    strip.usable = Exact(along(usable));
    strip.runs = layer.lay(s, usable);
    strips.push_back(std::move(strip));
  }
  return strips;
}

std::vector<StripPlan> gather(const std::vector<Strip>& strips, FabricId fabric,
                              const stock::Problem& problem) {
  std::vector<StripPlan> out;
  for (const Strip& strip : strips) {
    StripPlan plan;
    plan.fabric = fabric;
    plan.source = strip.source;
    plan.height = plain_height(strip.height);
    plan.usable = plain_height(strip.usable);
    plan.runs = strip.runs;
    const auto& sheet_height = problem.sources[strip.source].height;
    if (sheet_height && *sheet_height > steps_up(strip.height, steps_across))
      plan.sheet = strip.sheet + 1;
    const bool one_use = !plan.runs.empty() && plan.runs.front().kind == Run::Kind::whole_strip;
    plan.purpose = one_use ? plan.runs.front().purpose : "pieces";
    const auto equal = std::find_if(out.begin(), out.end(), [&](const StripPlan& p) {
      return p.source == plan.source && p.sheet == plan.sheet && p.height == plan.height &&
             p.runs.size() == plan.runs.size() &&
             std::equal(p.runs.begin(), p.runs.end(), plan.runs.begin(), same);
    });
    if (equal != out.end()) {
      ++equal->times;
    } else {
      out.push_back(std::move(plan));
    }
  }
  return out;
}

}  // namespace dogear
