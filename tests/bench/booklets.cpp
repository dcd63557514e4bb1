// How the time and memory of whole booklets grow with their pages and with the number of sizes.
//
//   bench_booklets [MOST]      patterns of 1 up to MOST blocks, and of 1 up to MOST sizes (32)

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <stdexcept>
#include <string>

#include "base/parallel.h"
#include "bench/memory.h"
#include "compile/compile.h"
#include "diag/print.h"
#include "support/pattern_files.h"

namespace {

using namespace dogear;

test::PatternFiles pattern(int blocks, int sizes) {
  test::PatternFiles files;
  std::string uses, row;
  for (int b = 0; b < blocks; ++b) {
    const std::string name = "b" + std::to_string(b);
    uses += "  " + name + ": {block: " + name + "}\n";
    row += (b == 0 ? "" : ", ") + name;
    files.content["p/blocks/" + name + ".yaml"] =
        "block: Star " + std::to_string(b) +
        "\ngrid: square\nunit: 2 in\nroles: [light, dark]\n"
        "units:\n"
        "  corner: {shape: square 1, fabric: light}\n"
        "  middle: {shape: square 2, fabric: dark}\n"
        "  goose: {shape: flying geese 2 x 1, fabrics: [light, dark]}\n"
        "  top: {row: [corner, goose, corner]}\n"
        "  across: {row: [goose turned 270, middle, goose turned 90]}\n"
        "stack: [top, across, top turned 180]\n";
  }
  std::string all =
      "title: T\ndesigner: D\n"
      "fabrics:\n  light: {colour: \"#f0e8d8\"}\n  dark: {colour: \"#203060\"}\n"
      "rulers:\n  straight: {angle: 90, highest: 24 in}\n"
      "blocks:\n" +
      uses + "sizes:\n";
  for (int s = 0; s < sizes; ++s)
    all += "  s" + std::to_string(s) + ":\n    setting: rows\n    rows:\n      - [" + row + "]\n";
  files.content["p/pattern.yaml"] = all;
  return files;
}

struct Made {
  std::size_t pages = 0, bytes = 0;
  double ms = 0;
};

Made make(int blocks, int sizes) {
  const test::PatternFiles files = pattern(blocks, sizes);
  Session session(files);
  const auto fonts = load_fonts(session, canvas::FontPaths::debian());
  const auto begin = std::chrono::steady_clock::now();
  const auto booklets = fonts ? compile("p", {}, *fonts, session) : std::nullopt;
  if (!booklets)
    throw std::runtime_error(print_for_people(session.diagnostics, session.sources, false));
  Made made;
  made.ms =
      std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
  for (const Output& output : booklets->outputs) {
    made.bytes += output.bytes.size();
    for (std::size_t at = 0; (at = output.bytes.find("/Type /Page\n", at)) != std::string::npos;
         ++at)
      ++made.pages;
  }
  return made;
}

void row(int blocks, int sizes) {
  Made best = make(blocks, sizes);
  for (int again = best.ms < 1000 ? 4 : 1; again > 0; --again) {
    const Made other = make(blocks, sizes);
    if (other.ms < best.ms) best = other;
  }
  fmt::print("| {} | {} | {} | {:.1f} | {:.2f} | {} |\n", blocks, sizes, best.pages, best.ms,
             static_cast<double>(best.bytes) / 1e6,
             bench::peak_memory([&] { make(blocks, sizes); }));
}

}  // namespace

int main(int argc, char** argv) {
  const int most = argc > 1 ? std::max(1, std::atoi(argv[1])) : 32;
  try {
    use_threads(1);
    fmt::print("| blocks | sizes | pages | ms | MB | peak MB |\n|--:|--:|--:|--:|--:|--:|\n");
    for (int n = 1; n <= most; n *= 2) row(n, 1);
    for (int n = 2; n <= most; n *= 2) row(1, n);
    const Made alone = make(1, most);
    use_threads(0);
    const Made together = make(1, most);
    fmt::print("\n{} sizes on one thread {:.0f} ms, on all {:.0f} ms\n", most, alone.ms,
               together.ms);
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 1;
  }
  return 0;
}
