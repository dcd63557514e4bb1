#include "cutting/strips.h"

#include <algorithm>
#include <cmath>

namespace dogear {

namespace {

// What sums of doubles may be off, in inches.
constexpr double slack = 1e-9;

Fraction up_to_eighth(double inches) {
  return Fraction::of(static_cast<std::int64_t>(std::ceil(inches * 8 - slack)), 8);
}

bool same(const Run& a, const Run& b) {
  return a.kind == b.kind && a.piece == b.piece && a.strip_set == b.strip_set &&
         a.count == b.count && a.height == b.height && a.length == b.length &&
         a.shared == b.shared && a.also == b.also;
}

Fraction plain_height(const Exact& e) { return e.as_fraction().value_or(e.round_up(16)); }

}  // namespace

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

namespace {

// One way to lay the demands, in their order. `whole`: a run is broken only where it is longer than
// a strip, even if that opens another strip.
std::vector<Strip> lay(const std::vector<StripDemand>& demands, const Exact& usable,
                       const std::optional<Exact>& cut_down, bool whole) {
  const double length = usable.approx();
  std::vector<Strip> strips;
  for (const StripDemand& demand : demands) {
    long long left = (demand.pieces + demand.per_cut - 1) / demand.per_cut;
    long long pieces = demand.pieces;
    const long long in_full = demand.cuts_in(length);
    if (in_full == 0) continue;  // longer than any strip: the caller has reported it
    const auto put = [&](Strip& strip, long long least) {
      const bool fits = strip.height == demand.height || (cut_down && demand.height < strip.height);
      const long long n = fits ? std::min(left, demand.cuts_in(length - strip.used)) : 0;
      if (n == 0 || n < least) return;
      Run run;
      run.kind = demand.kind;
      run.piece = demand.piece;
      run.strip_set = demand.strip_set;
      run.shared = demand.shared;
      run.count = std::min(pieces, n * demand.per_cut);
      run.height = plain_height(demand.height);
      run.length = demand.run_length(n);
      strip.used += run.length.approx();
      strip.runs.push_back(run);
      left -= n;
      pieces -= run.count;
    };
    const auto open = [&] {
      strips.push_back({cut_down.value_or(demand.height), usable, {}, 0});
      put(strips.back(), 1);
    };
    while (whole && left > in_full) open();
    for (Strip& strip : strips) put(strip, whole ? left : 1);
    while (left > 0) open();
  }
  return strips;
}

}  // namespace

std::vector<Strip> lay_on_strips(std::vector<StripDemand> demands, const Exact& usable,
                                 const std::optional<Exact>& cut_down) {
  std::stable_sort(demands.begin(), demands.end(), [&](const StripDemand& a, const StripDemand& b) {
    const bool set_a = a.kind == Run::Kind::strip_set;
    const bool set_b = b.kind == Run::Kind::strip_set;
    if (set_a != set_b) return set_a;
    if (!cut_down && a.height != b.height) return a.height > b.height;
    return a.first > b.first;
  });
  // Unbroken runs are simpler to cut; they are kept unless they cost a strip.
  std::vector<Strip> whole = lay(demands, usable, cut_down, true);
  std::vector<Strip> tight = lay(demands, usable, cut_down, false);
  return tight.size() < whole.size() ? tight : whole;
}

std::vector<StripPlan> gather(const std::vector<Strip>& strips, FabricId fabric,
                              const std::optional<std::size_t>& bundle) {
  std::vector<StripPlan> out;
  for (const Strip& strip : strips) {
    StripPlan plan;
    plan.fabric = fabric;
    plan.from_bundle = bundle.has_value();
    plan.bundle = bundle.value_or(0);
    plan.height = plain_height(strip.height);
    plan.usable = plain_height(strip.usable);
    plan.runs = strip.runs;
    plan.purpose = "pieces";
    const Exact rest = strip.usable - Exact(up_to_eighth(strip.used));
    if (rest >= Exact(1)) {
      Run end;
      end.kind = Run::Kind::leftover;
      end.height = plan.height;
      end.length = rest.round_down(8);
      plan.runs.push_back(end);
    }
    const auto equal = std::find_if(out.begin(), out.end(), [&](const StripPlan& p) {
      return p.height == plan.height && p.runs.size() == plan.runs.size() &&
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
