// The small pictures of the binding: what they show, and to which scale.

#include <algorithm>
#include <catch2/catch.hpp>

#include "drawing/figure.h"
#include "drawing/sketch.h"
#include "look.h"
#include "sample.h"
#include "support/legible.h"

using namespace dogear;
using drawing::operator-;

namespace {

struct Bound {
  std::string folder;
  std::size_t size;
};

std::vector<Bound> bound_sizes() {
  std::vector<Bound> out;
  for (const char* folder : {"harbor-lights", "reed-bed", "tide-star"}) {
    const sample::Real& real = sample::real(folder);
    for (std::size_t size = 0; size < real.quantities.sizes.size(); ++size) {
      if (real.quantities.sizes[size].binding) out.push_back({folder, size});
    }
  }
  return out;
}

bool has_address(const Scene& scene, std::size_t size, const std::string& address) {
  const auto all = figure_addresses(scene, size);
  return std::find(all.begin(), all.end(), address) != all.end();
}

// The numbers of the pictures, as they follow each other.
std::string numbers(const Figure& figure) {
  std::string all;
  for (const canvas::GlyphRun& run : look::at(*figure.list).runs) {
    if (run.text().size() == 1 && run.text()[0] >= '0' && run.text()[0] <= '9') all += run.text();
  }
  return all;
}

using Line = std::pair<canvas::Point, canvas::Point>;

// In the order of painting: rows of stitches in plain sight, or lines to cut along.
std::vector<Line> dashed(const look::Drawn& drawn, bool stitches) {
  std::vector<Line> out;
  for (const canvas::Shape& s : drawn.shapes) {
    if (s.style.stroke != drawing::ink || s.style.dash.size() != 2) continue;
    if ((s.style.dash[0] < 0.1) != stitches) continue;
    out.emplace_back(s.path.points().front(), s.path.points().back());
  }
  return out;
}
std::vector<Line> seams(const look::Drawn& drawn) { return dashed(drawn, true); }
std::vector<Line> cuts(const look::Drawn& drawn) { return dashed(drawn, false); }

}  // namespace

TEST_CASE("a size that is bound has the pictures of its binding, another has none") {
  CHECK(bound_sizes().size() >= 4);
  for (const auto& [folder, n] : bound_sizes()) {
    const Scene scene = sample::real(folder).scene();
    CHECK(has_address(scene, n, "binding"));
    CHECK(numbers(*draw_figure(scene, n, "binding", 459, 300)) == "1234");
  }
  const Scene unbound = sample::star().scene();
  CHECK_FALSE(has_address(unbound, 0, "binding"));
  CHECK_FALSE(draw_figure(unbound, 0, "binding", 459, 300));
}

TEST_CASE("strips are sewn from corner to corner and trimmed an allowance beyond") {
  for (const auto& [folder, n] : bound_sizes()) {
    const sample::Real& real = sample::real(folder);
    const look::Drawn drawn = look::at(*draw_figure(real.scene(), n, "binding", 459, 300)->list);
    const double strip = real.quantities.sizes[n].binding->strip.approx();
    REQUIRE(cuts(drawn).size() == 1);
    // The first row of stitches is the diagonal of a square as wide as the strip.
    const auto [a, b] = seams(drawn).front();
    CHECK(b.x - a.x == Approx(b.y - a.y));
    const double scale = (b.x - a.x) / strip;
    const auto [c, d] = cuts(drawn).front();
    const drawing::Spot along = drawing::unit(b - a);
    CHECK(drawing::cross(along, d - c) == Approx(0).margin(1e-9));
    CHECK(std::abs(drawing::cross(along, c - a)) ==
          Approx(real.checked.pattern.seam_allowance.approx() * scale));
    // The ring that stops the seam lies as far from the next edge.
    double least = 1e9;
    for (const canvas::Shape& s : drawn.shapes) {
      if (s.style.stroke == drawing::ink && s.style.width == 1.1) {
        const canvas::Point ring = s.path.bounds().center();
        for (const canvas::Shape& other : drawn.shapes) {
          if (!other.style.hatch) continue;
          const canvas::Rect box = other.path.bounds();
          if (box.left < ring.x && box.right > ring.x && box.top < ring.y && box.bottom > ring.y)
            least = std::min(least, box.right - ring.x);
        }
      }
    }
    CHECK(least == Approx(0.25 * scale));  // binding is sewn a quarter inch from the edge: common
  }
}

TEST_CASE("pictures of the binding stand in one row, or in two where it is narrow") {
  for (const auto& [folder, n] : bound_sizes()) {
    const Scene scene = sample::real(folder).scene();
    for (const double width : {459.0, 400.0, 324.0, 280.0, 240.0}) {
      INFO(folder << " " << n << " at " << width);
      const auto figure = draw_figure(scene, n, "binding", width, 300);
      REQUIRE(figure);
      CHECK(figure->width <= width + 1e-6);
      CHECK(figure->height <= 300 + 1e-6);
      std::set<long long> rows;
      for (const canvas::GlyphRun& run : look::at(*figure->list).runs) {
        if (run.text().size() == 1) rows.insert(std::llround(run.y * 100));
      }
      CHECK(rows.size() == (width > 390 ? 1 : 2));
      for (const std::string& fault : test::faults(*figure->list)) {
        INFO(fault);
        CHECK(fault.empty());
      }
    }
  }
}

TEST_CASE("binding of one strip has no strips to join") {
  const sample::Real& real = sample::real("tide-star");
  Quantities one = real.quantities;
  std::size_t size = 0;
  while (!one.sizes[size].binding) ++size;
  Binding& binding = *one.sizes[size].binding;
  CHECK(is_joined(binding));
  binding.strips = 1;
  CHECK_FALSE(is_joined(binding));
  const Scene scene{real.checked, real.piecing, one, sample::fonts()};
  const auto figure = draw_figure(scene, size, "binding", 459, 300);
  REQUIRE(figure);
  CHECK(numbers(*figure) == "123");
  CHECK(cuts(look::at(*figure->list)).empty());
  CHECK(figure->alt.find("two strips") == std::string::npos);
  CHECK(figure->alt.find("1 the strip,") != std::string::npos);
  // One square of bias binding gives one strip; strips of two are joined.
  binding.square = Fraction::of(20, 1);
  binding.squares = 1;
  CHECK_FALSE(is_joined(binding));
  binding.squares = 2;
  CHECK(is_joined(binding));
  CHECK(numbers(*draw_figure(scene, size, "binding", 459, 300)) == "1234");
}

TEST_CASE("the marks of the binding stand in the key") {
  for (const auto& [folder, n] : bound_sizes()) {
    const std::string key = draw_figure(sample::real(folder).scene(), n, "key", 459, 300)->alt;
    for (const char* mark : {"Wrong side of the fabric", "Sew here", "Cut here", "ring"}) {
      INFO(folder << " " << n << " " << mark);
      CHECK(key.find(mark) != std::string::npos);
    }
  }
}
