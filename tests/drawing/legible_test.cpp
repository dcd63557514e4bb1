// Every figure of every pattern that comes with the project can be read.

#include <catch2/catch.hpp>
#include <functional>

#include "drawing/figure.h"
#include "drawing/labels.h"
#include "sample.h"
#include "support/legible.h"

using namespace dogear;

TEST_CASE("no label of a figure meets another, a leader or a line, and all are large and dark") {
  for (const char* folder : {"harbor-lights", "reed-bed", "tide-star"}) {
    const sample::Real& real = sample::real(folder);
    const Scene scene = real.scene();
    for (std::size_t size = 0; size < real.checked.sizes.size(); ++size) {
      for (const std::string& address : figure_addresses(scene, size)) {
        const auto figure = draw_figure(scene, size, address, 459, 640);
        REQUIRE(figure);
        test::Reading how;
        if (address == "layout") how.own_seams = 0.45;
        for (const std::string& fault : test::faults(*figure->list, how)) {
          INFO(folder << " " << size << " " << address << ": " << fault);
          CHECK(fault.empty());
        }
      }
    }
  }
}

namespace {

// What a label, put down as figures do, comes to with something else painted before or after it.
std::size_t faults_of(const std::function<void(canvas::DisplayList&, drawing::Labels&)>& before,
                      const std::function<void(canvas::DisplayList&)>& after = {}) {
  canvas::DisplayList list;
  drawing::Labels labels(sample::fonts());
  before(list, labels);
  labels.paint(list);
  if (after) after(list);
  return test::faults(list).size();
}

}  // namespace

TEST_CASE("what spoils a figure is found") {
  using canvas::Path;
  const auto line = [](double from, double to, double y, double width) {
    return [=](canvas::DisplayList& list, drawing::Labels& labels) {
      list.stroke_path(Path::segment({from, y}, {to, y}), drawing::ink, width);
      labels.put_at({50, 50}, "A1", 8);
    };
  };
  CHECK(faults_of(line(0, 100, 70, 0.5)) == 0);
  CHECK(faults_of(line(0, 100, 50, 0.5)) == 0);  // on its own measure line
  CHECK(faults_of(line(0, 100, 53, 0.5)) == 1);  // half hidden by the plate
  CHECK(faults_of(line(0, 100, 70, 0.3)) == 1);
  CHECK(faults_of(line(0, 100, 70, 0.5), [](canvas::DisplayList& list) {
          list.stroke_path(Path::segment({0, 50}, {100, 50}), drawing::ink, 0.5);
        }) == 1);
  CHECK(faults_of([](canvas::DisplayList&, drawing::Labels& labels) {
          labels.put_at({50, 50}, "A1", 8);
          labels.put_at({56, 52}, "B2", 8);
        }) > 0);
  CHECK(faults_of([](canvas::DisplayList&, drawing::Labels& labels) {
          labels.put_at({50, 50}, "A1", 5.5);
        }) == 1);
  const auto on = [](const char* colour, bool plate) {
    return [=](canvas::DisplayList& list, drawing::Labels& labels) {
      list.fill_path(Path::rect(0, 0, 100, 100), *canvas::Color::parse(colour));
      drawing::LabelStyle style;
      style.plate = plate;
      labels.put_at({50, 50}, "A1", 8, style);
    };
  };
  CHECK(faults_of(on("#b9b4a7", false)) == 0);
  CHECK(faults_of(on("#3f3a5c", false)) == 1);
  CHECK(faults_of(on("#3f3a5c", true)) == 0);
}
