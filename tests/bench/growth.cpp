// How the time of each stage grows with the number of patches.
//
//   bench_growth [MOST]      tops of 100 patches up to MOST (100,000 unless said)
//
// For each kind of top: a table of patches and milliseconds a stage, the least of several runs, the
// peak memory of one, and the exponent of the power of n that fits the total from 1,000 patches up
// (1 is linear).

#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "base/files.h"
#include "bench/memory.h"
#include "cutting/quantities.h"
#include "diag/print.h"
#include "geom/tiling.h"
#include "piecing/order.h"

namespace {

using namespace dogear;

struct Run {
  long long patches = 0;
  std::vector<double> stages;  // ms
  double total() const {
    double sum = 0;
    for (const double s : stages) sum += s;
    return sum;
  }
};

class Clock {
 public:
  double lap() {
    const auto now = std::chrono::steady_clock::now();
    const double ms = std::chrono::duration<double, std::milli>(now - last_).count();
    last_ = now;
    return ms;
  }

 private:
  std::chrono::steady_clock::time_point last_ = std::chrono::steady_clock::now();
};

constexpr const char* star_block =
    "block: Star\ngrid: square\nunit: 2 in\nroles: [light, dark]\n"
    "units:\n"
    "  corner: {shape: square 1, fabric: light}\n"
    "  middle: {shape: square 2, fabric: dark}\n"
    "  sky: {shape: quarter-square triangle 2, fabric: light}\n"
    "  wing: {shape: half-square triangle 1, fabric: dark}\n"
    "  goose:\n"
    "    shape: rectangle 2 x 1\n"
    "    place:\n"
    "      - {unit: sky, at: [1, 0]}\n"
    "      - {unit: wing turned 90, at: [0, 0]}\n"
    "      - {unit: wing turned 180, at: [1, 0]}\n"
    "  top: {row: [corner, goose, corner]}\n"
    "  across: {row: [goose turned 270, middle, goose turned 90]}\n"
    "stack: [top, across, top turned 180]\n";

constexpr const char* hexagon_block =
    "block: Lamp\ngrid: triangle\nunit: 1 in\nroles: [light, dark]\n"
    "units:\n"
    "  ray: {shape: triangle 4, fabric: light}\n"
    "  gap: {shape: triangle 4, fabric: dark}\n"
    "  half: {row: [ray, gap turned, ray]}\n"
    "stack: [half, half turned]\n";

std::string list_of(long long n) {
  std::string out = "[";
  for (long long i = 0; i < n; ++i) out += i == 0 ? "b" : ", b";
  return out + "]";
}

// Wide rows, so that no column of hexagons falls below two.
std::string lists(long long rows, const std::function<long long(long long)>& length) {
  std::string out;
  for (long long r = 0; r < rows; ++r) out += "\n      - " + list_of(length(r));
  return out;
}

Run run_pattern(const std::string& block, const std::string& size) {
  MemoryFiles files;
  files.content["p/blocks/b.yaml"] = block;
  files.content["p/pattern.yaml"] =
      "title: T\ndesigner: D\n"
      "fabrics:\n  light: {colour: \"#f0e8d8\"}\n  dark: {colour: \"#203060\"}\n"
      "rulers:\n  sixty: {angle: 60, tip: blunt, lowest: 1 in, highest: 12 in, step: 1/2 in}\n"
      "  straight: {angle: 90, highest: 24 in}\n"
      "blocks:\n  b: {block: b}\nsizes:\n  one:\n" +
      size;
  Sources sources;
  Diagnostics diagnostics;
  Run run;
  Clock clock;
  auto pattern = load_pattern("p", files, sources, diagnostics);
  run.stages.push_back(clock.lap());
  std::optional<CheckedPattern> checked;
  if (pattern) checked = check_pattern(std::move(*pattern), diagnostics);
  run.stages.push_back(clock.lap());
  std::optional<Piecing> piecing;
  if (checked) piecing = plan_piecing(*checked, diagnostics);
  run.stages.push_back(clock.lap());
  std::optional<Quantities> quantities;
  if (piecing) quantities = plan_cutting(*checked, *piecing, diagnostics);
  run.stages.push_back(clock.lap());
  if (!quantities) {
    throw std::runtime_error(print_for_people(diagnostics, sources, false));
  }
  for (const auto& [piece, n] : piecing->sizes.at(0).pieces) run.patches += n;
  return run;
}

Run rows(long long patches) {
  const auto side = std::max(1LL, std::llround(std::sqrt(static_cast<double>(patches) / 17)));
  return run_pattern(star_block, "    setting: rows\n    rows:" + lists(side, [&](long long) {
                                   return side;
                                 }) + "\n");
}

Run on_point(long long patches) {
  const auto side = std::max(2LL, std::llround(std::sqrt(static_cast<double>(patches) / 34)));
  return run_pattern(star_block,
                     "    setting: on point\n    ground: dark\n    rows:" +
                         lists(2 * side - 1, [&](long long r) { return side - r % 2; }) + "\n");
}

Run hexagons(long long patches) {
  const auto side = std::max(2LL, std::llround(std::sqrt(static_cast<double>(patches) / 6)));
  return run_pattern(hexagon_block, "    setting: hexagon columns\n    ground: dark\n    columns:" +
                                        lists(side, [&](long long c) { return side - c % 2; }) +
                                        "\n");
}

// One whole of squares in no rows or units at all: fit, then the order of sewing.
Run flat(long long patches) {
  const auto side = static_cast<long long>(std::sqrt(static_cast<double>(patches)));
  std::vector<Polygon> parts;
  std::vector<PartView> views;
  const auto square = [](long long x, long long y, long long w) {
    return Polygon{{{Exact(x), Exact(y)},
                    {Exact(x + w), Exact(y)},
                    {Exact(x + w), Exact(y + w)},
                    {Exact(x), Exact(y + w)}}};
  };
  for (long long y = 0; y < side; ++y) {
    for (long long x = 0; x < side; ++x) {
      parts.push_back(square(x, y, 1));
      views.push_back({0, parts.back()});
    }
  }
  Run run;
  run.patches = side * side;
  Clock clock;
  const Fit found = fit(parts, square(0, 0, side));
  run.stages.push_back(clock.lap());
  const auto straight = [](std::size_t, const Meeting&) { return false; };
  const OrderAnswer answer = find_order({found.meetings, views, straight, {}, false});
  run.stages.push_back(clock.lap());
  if (!answer.order || answer.order->groups.size() != static_cast<std::size_t>(side)) {
    throw std::runtime_error("a grid of squares was not sewn in rows");
  }
  return run;
}

// The slope of log(time) over log(patches), by least squares.
double exponent(const std::vector<Run>& runs) {
  double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
  for (const Run& r : runs) {
    if (r.patches < 900) continue;
    const double x = std::log(static_cast<double>(r.patches));
    const double y = std::log(r.total());
    n += 1;
    sx += x;
    sy += y;
    sxx += x * x;
    sxy += x * y;
  }
  return n < 2 ? 0 : (n * sxy - sx * sy) / (n * sxx - sx * sx);
}

void measure(const std::string& title, const std::string& stages, Run (*once)(long long),
             long long most) {
  fmt::print("{}\n\n| patches | {} | all, ms | peak MB |\n|---|", title, stages);
  std::vector<Run> runs;
  for (double want = 100; want <= static_cast<double>(most) * 1.01; want *= std::sqrt(10.0)) {
    const auto patches = std::llround(want * (most > 1000 ? 0.98 : 1));
    Run best = once(patches);
    for (int again = best.total() < 100 ? 4 : 1; again > 0; --again) {
      Run other = once(patches);
      if (other.total() < best.total()) best = std::move(other);
    }
    if (runs.empty()) {
      for (std::size_t i = 0; i < best.stages.size() + 2; ++i) fmt::print("---|");
      fmt::print("\n");
    }
    fmt::print("| {} |", best.patches);
    for (const double s : best.stages) fmt::print(" {:.1f} |", s);
    fmt::print(" {:.1f} | {} |\n", best.total(), bench::peak_memory([&] { once(patches); }));
    runs.push_back(std::move(best));
  }
  fmt::print("\ntime grows with patches to the power of {:.2f}\n\n", exponent(runs));
}

}  // namespace

int main(int argc, char** argv) {
  long long most = 100000;
  if (argc > 1) {
    const std::string_view text = argv[1];
    std::from_chars(text.data(), text.data() + text.size(), most);
  }
  try {
    const char* stages = "load | check | piecing | cutting";
    measure("Star blocks in straight rows", stages, rows, most);
    measure("Star blocks on point", stages, on_point, most);
    measure("Hexagons of six triangles in columns", stages, hexagons, most);
    measure("One whole of squares, in no rows or units", "fit | order", flat, most);
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 1;
  }
  return 0;
}
