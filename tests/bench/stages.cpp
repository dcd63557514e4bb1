// How long each stage of a booklet takes, by itself and on one thread.
//
//   bench_stages PATTERN [RUNS]      a pattern's folder; 9 runs unless said
//
// For each size: the median of the runs in milliseconds, what is measured beside it, pages and
// bytes.

#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

#include "base/files.h"
#include "base/parallel.h"
#include "bench/haru.h"
#include "booklet/booklet.h"
#include "booklet/proofread.h"
#include "compile/compile.h"
#include "cutting/sew_along.h"
#include "diag/print.h"
#include "pdf/pdf.h"

namespace {

using namespace dogear;

double median_ms(int runs, const std::function<void()>& once) {
  std::vector<double> taken;
  for (int i = 0; i < runs; ++i) {
    const auto begin = std::chrono::steady_clock::now();
    once();
    taken.push_back(
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin)
            .count());
  }
  std::sort(taken.begin(), taken.end());
  return taken[taken.size() / 2];
}

template <class T>
T must(std::optional<T> value, const Session& session) {
  if (!value)
    throw std::runtime_error(print_for_people(session.diagnostics, session.sources, false));
  return std::move(*value);
}

void row(const char* stage, double ms, const std::string& beside = "") {
  fmt::print("| {} | {:.1f} | {} |\n", stage, ms, beside);
}

void measure(const std::string& folder, int runs) {
  use_threads(1);
  const DiskFiles files;
  Session loading(files);
  const double fonts_ms = median_ms(runs, [&] {
    Session session(files);
    must(load_fonts(session, canvas::FontPaths::debian()), session);
  });
  const canvas::FontSet fonts = must(load_fonts(loading, canvas::FontPaths::debian()), loading);

  fmt::print("| stage, all sizes | ms | beside |\n|---|--:|---|\n");
  row("fonts", fonts_ms);
  Session session(files);
  const auto load = [&] {
    Session fresh(files);
    return must(load_pattern(folder, files, fresh.sources, fresh.diagnostics), fresh);
  };
  row("read", median_ms(runs, [&] { load(); }));
  const Pattern pattern = load();
  const auto check = [&] {
    return must(check_pattern(Pattern(pattern), session.diagnostics), session);
  };
  row("check", median_ms(runs, [&] { check(); }));
  const CheckedPattern checked = check();
  const auto sew = [&] { return must(plan_piecing(checked, session.diagnostics), session); };
  row("plan the sewing", median_ms(runs, [&] { sew(); }));
  const Piecing piecing = sew();
  const auto cut = [&] {
    return must(plan_cutting(checked, piecing, session.diagnostics), session);
  };
  row("plan cuts and cloth", median_ms(runs, [&] { cut(); }),
      "a general solver: see the cloth below");

  const Plan plan = must(make_plan(folder, session), session);
  const Template style =
      must(load_template(pattern.paper, pattern.language, files, session.diagnostics), session);
  const booklet::Photos photos = booklet::read_photos(pattern, files, session.diagnostics);
  const Scene scene{plan.checked, plan.piecing, plan.quantities, fonts, style.words};
  std::vector<std::size_t> all;
  for (std::size_t size = 0; size < pattern.sizes.size(); ++size) all.push_back(size);
  row("proofread",
      median_ms(runs, [&] { proofread(scene, all, style.words, files, session.diagnostics); }));

  for (const std::size_t size : all) {
    const auto addresses = figure_addresses(scene, size);
    fmt::print("\n| stage, {} | ms | beside |\n|---|--:|---|\n", pattern.sizes[size].id);
    row("draw",
        median_ms(runs,
                  [&] {
                    for (const std::string& address : addresses)
                      draw_figure(scene, size, address, style.text_width(), style.text_height());
                  }),
        fmt::format("{} figures, each once", addresses.size()));
    const auto set = [&] {
      return must(set_booklet(scene, size, style, session.diagnostics, photos), session);
    };
    const double set_ms = median_ms(runs, [&] { set(); });
    const canvas::Document document = set();
    row("typeset, with its figures", set_ms,
        fmt::format("{} pages; a general typesetter: see the booklet above",
                    document.pages.size()));
    std::size_t bytes = 0, floor_bytes = 0;
    const double write_ms = median_ms(runs, [&] {
      std::string error;
      bytes = to_pdf(document, fonts, error).value_or("").size();
    });
    const double floor_ms = median_ms(
        runs, [&] { floor_bytes = bench::write_with_haru(document, canvas::FontPaths::debian()); });
    row("write", write_ms,
        fmt::format("{:.2f} MB; plain libharu, untagged: {:.1f} ms, {:.2f} MB",
                    static_cast<double>(bytes) / 1e6, floor_ms,
                    static_cast<double>(floor_bytes) / 1e6));
  }
  struct rusage used {};
  ::getrusage(RUSAGE_SELF, &used);
  fmt::print("\nPeak memory of all of it: {} MB\n", used.ru_maxrss / 1024);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    if (argc < 2) throw std::runtime_error("bench_stages PATTERN [RUNS]");
    measure(argv[1], argc > 2 ? std::max(1, std::atoi(argv[2])) : 9);
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 1;
  }
  return 0;
}
