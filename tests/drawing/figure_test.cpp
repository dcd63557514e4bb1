#include "drawing/figure.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <set>

#include "canvas/svg.h"
#include "drawing/figures.h"
#include "drawing/sketch.h"
#include "drawing/strips.h"
#include "look.h"
#include "sample.h"
#include "support/project.h"

using namespace dogear;

namespace {

struct Case {
  std::string name;
  Scene scene;
  std::size_t sizes;
};

std::vector<Case> cases() {
  return {{"lantern", sample::lantern().scene(), 1},
          {"star", sample::star().scene(), 1},
          {"harbor-lights", sample::real("harbor-lights").scene(), 2},
          {"tide-star", sample::real("tide-star").scene(), 2}};
}

void check_figure(const Figure& figure, double width, double height) {
  REQUIRE(figure.list);
  CHECK(figure.width > 0);
  CHECK(figure.height > 0);
  CHECK(figure.width <= width + 1e-6);
  CHECK(figure.height <= height + 1e-6);
  CHECK_FALSE(figure.alt.empty());
  const canvas::Rect box = figure.list->bounds();
  CHECK(std::abs(box.left) < 1e-6);
  CHECK(std::abs(box.top) < 1e-6);
  CHECK(box.right <= figure.width + 1e-6);
  CHECK(box.bottom <= figure.height + 1e-6);
}

// Patches are what carries a hatch.
std::vector<drawing::Ring> patches(const look::Drawn& drawn) {
  std::vector<drawing::Ring> out;
  for (const canvas::Shape& s : drawn.shapes) {
    if (s.style.hatch) out.push_back(s.path.points());
  }
  return out;
}

void check_words(const look::Drawn& drawn, const std::string& address) {
  INFO(address);
  for (std::size_t i = 0; i < drawn.runs.size(); ++i) {
    CHECK(drawn.runs[i].size >= 6 - 1e-6);
    const canvas::Rect a = look::words_box(drawn.runs[i]);
    for (std::size_t j = i + 1; j < drawn.runs.size(); ++j) {
      INFO(drawn.runs[i].text() << " and " << drawn.runs[j].text());
      CHECK_FALSE(look::meet(a, look::words_box(drawn.runs[j])));
    }
  }
  for (const canvas::Shape& s : drawn.shapes) {
    if (s.style.stroke) CHECK(s.style.width >= 0.4 - 1e-6);
    if (s.style.hatch) CHECK(s.style.hatch->line >= 0.4 - 1e-6);
  }
}

}  // namespace

TEST_CASE("every address of a size names a figure that keeps to its room") {
  for (const Case& c : cases()) {
    for (std::size_t size = 0; size < c.sizes; ++size) {
      const auto addresses = figure_addresses(c.scene, size);
      CHECK(std::set<std::string>(addresses.begin(), addresses.end()).size() == addresses.size());
      for (const std::string& address : addresses) {
        INFO(c.name << " " << address);
        const auto figure = draw_figure(c.scene, size, address, 324, 300);
        REQUIRE(figure);
        check_figure(*figure, 324, 300);
      }
    }
  }
}

TEST_CASE("small rooms are kept to as well") {
  for (const Case& c : cases()) {
    for (const std::string& address : figure_addresses(c.scene, 0)) {
      INFO(c.name << " " << address);
      const auto figure = draw_figure(c.scene, 0, address, 130, 90);
      REQUIRE(figure);
      check_figure(*figure, 130, 90);
    }
  }
}

TEST_CASE("addresses that name nothing draw nothing") {
  const Scene scene = sample::lantern().scene();
  for (const char* address : {"",
                              "/",
                              "quilts",
                              "block",
                              "block/",
                              "block/anchor",
                              "step/lantern",
                              "step/lantern/0",
                              "step/lantern/3",
                              "step/lantern/01",
                              "step/lantern/x",
                              "step/lantern/1/1",
                              "assembly/0",
                              "assembly/99",
                              "cutting/linen",
                              "cutting/ink/9",
                              "cutting/strip-set/2",
                              "ruler/Z9",
                              "ruler/E4",
                              "swatch/linen",
                              "quilt/shiny",
                              "key/1",
                              "step/lantern/99999999999999999999999"}) {
    INFO(address);
    CHECK_FALSE(draw_figure(scene, 0, address, 324, 300));
  }
  CHECK_FALSE(draw_figure(scene, 7, "quilt", 324, 300));
  CHECK_FALSE(draw_figure(scene, 0, "quilt", 0, 300));
  CHECK_FALSE(draw_figure(sample::star().scene(), 0, "backing", 324, 300));
}

TEST_CASE("words keep apart, and neither words nor lines get too small") {
  for (const Case& c : cases()) {
    for (std::size_t size = 0; size < c.sizes; ++size) {
      for (const std::string& address : figure_addresses(c.scene, size)) {
        for (const double width : {324.0, 280.0}) {
          const auto figure = draw_figure(c.scene, size, address, width, width * 1.4);
          REQUIRE(figure);
          check_words(look::at(*figure->list),
                      c.name + " " + address + " at " + std::to_string(width));
        }
      }
    }
  }
}

TEST_CASE("a label lies within its patch or outside of all") {
  for (const Case& c : cases()) {
    for (const std::string& address : figure_addresses(c.scene, 0)) {
      const bool labelled = address.starts_with("block/") || address.starts_with("step/") ||
                            address.starts_with("assembly/");
      if (!labelled) continue;
      const look::Drawn drawn = look::at(*draw_figure(c.scene, 0, address, 324, 450)->list);
      for (const canvas::GlyphRun& run : drawn.runs) {
        const canvas::Rect box = look::words_box(run);
        for (const drawing::Ring& ring : patches(drawn)) {
          INFO(c.name << " " << address << ": " << run.text());
          CHECK((!drawing::meets(ring, box) || drawing::holds(ring, box, 0)));
        }
      }
    }
  }
}

TEST_CASE("the quilt shows every patch once, and stores repeated units once") {
  for (const Case& c : cases()) {
    INFO(c.name);
    const std::size_t expected = flatten(c.scene.checked, c.scene.checked.sizes[0].top).size();
    const bool bound = c.scene.checked.pattern.sizes[0].binding.has_value();
    const look::Drawn quilt = look::at(*draw_figure(c.scene, 0, "quilt", 324, 300)->list);
    CHECK(patches(quilt).size() == expected + (bound ? 1 : 0));
    CHECK(quilt.stored_shapes < quilt.shapes.size());
    const look::Drawn plain = look::at(*draw_figure(c.scene, 0, "quilt/plain", 324, 300)->list);
    CHECK(patches(plain).empty());
    CHECK(plain.shapes.size() == quilt.shapes.size());
  }
}

TEST_CASE("patches of the quilt cover it exactly") {
  for (const Case& c : cases()) {
    const auto figure = draw_figure(c.scene, 0, "quilt/plain", 324, 300);
    const bool bound = c.scene.checked.pattern.sizes[0].binding.has_value();
    double sum = 0, all = 0;
    const look::Drawn drawn = look::at(*figure->list);
    for (std::size_t i = 0; i < drawn.shapes.size(); ++i) {
      if (bound && i == 0) continue;
      sum += drawing::area(drawn.shapes[i].path.points());
    }
    const Part& top = c.scene.checked.parts[c.scene.checked.sizes[0].top];
    const canvas::Rect box = [&] {
      canvas::Rect b;
      for (std::size_t i = bound ? 1 : 0; i < drawn.shapes.size(); ++i) {
        b.add(drawn.shapes[i].path.bounds());
      }
      return b;
    }();
    const double scale = box.width() / c.scene.checked.sizes[0].width.approx();
    all = area(top.outline).approx() * scale * scale;
    INFO(c.name);
    CHECK(sum == Approx(all).epsilon(1e-6));
  }
}

TEST_CASE("a step names its pieces, its units and how many to make") {
  const Scene scene = sample::lantern().scene();
  const auto words = [&](const std::string& address) {
    std::multiset<std::string> out;
    for (const auto& run : look::at(*draw_figure(scene, 0, address, 324, 300)->list).runs) {
      out.insert(run.text());
    }
    return out;
  };
  const long long rays = scene.piecing.sizes[0].make.at(scene.piecing.sizes[0].blocks[0].steps[0]);
  CHECK(words("step/lantern/1") ==
        std::multiset<std::string>{"A2", "B3", "C1", "Make " + std::to_string(rays)});
  CHECK(words("step/lantern/2").count("ray") == 2);
  CHECK(words("step/lantern/2").count("D4") == 1);
  CHECK(draw_figure(scene, 0, "step/lantern/1", 324, 300)->alt ==
        "Sew A2, B3 and C1 together; make " + std::to_string(rays));
  CHECK(words("block/lantern").count("A2") == 4);
  CHECK(words("block/lantern").count("D4") == 2);
  CHECK(words("layout").count("Lantern") == 2);
  CHECK(words("layout").count("Row 1") == 1);
  CHECK(words("ruler/B3")
            .count("3\xE2\x80\x89"
                   "1⁄2 in line") == 1);
}

TEST_CASE("steps of one block share one scale") {
  // The sewn ray of step 1 and the rays to be sewn in step 2 are equally wide.
  const Scene scene = sample::lantern().scene();
  const auto widest_patch = [&](const std::string& address, const std::string& colour) {
    double widest = 0;
    for (const auto& s : look::at(*draw_figure(scene, 0, address, 324, 300)->list).shapes) {
      if (s.style.hatch && s.style.fill->hex() == colour) {
        widest = std::max(widest, s.path.bounds().width());
      }
    }
    return widest;
  };
  CHECK(widest_patch("step/lantern/1", "#1b2a49") ==
        Approx(widest_patch("step/lantern/2", "#1b2a49")));
}

TEST_CASE("a step at a scale of one's own keeps to the room it asks for") {
  for (const Case& c : cases()) {
    for (const BlockSewing& block : c.scene.piecing.sizes[0].blocks) {
      for (const UnitId unit : block.steps) {
        for (const double scale : {10.0, 16.0}) {
          for (const bool down : {false, true}) {
            INFO(c.name << " unit " << unit << " at " << scale << (down ? " down" : ""));
            const FigureRoom room = step_room(c.scene, 0, unit, {scale, down});
            const Figure figure = draw_step(c.scene, 0, unit, {scale, down});
            check_figure(figure, figure.width, figure.height);
            check_words(look::at(*figure.list), c.name);
            constexpr double labels = 34;  // pt, for words beside patches too small for them
            CHECK(figure.width <= room.width + labels);
            CHECK(figure.height <= room.height + labels);
          }
        }
      }
    }
  }
}

TEST_CASE("a step shows all that it cuts from a strip set") {
  const Scene scene = sample::real("harbor-lights").scene();
  std::size_t found = 0;
  for (const BlockSewing& block : scene.piecing.sizes[0].blocks) {
    if (block.steps.empty() || !scene.piecing.units[block.steps[0]].strip_set) continue;
    ++found;
    CHECK(cut_together(scene, 0, block.steps[0]) == block.steps);
    CHECK(cut_together(scene, 0, block.steps[1]) == block.steps);
    const look::Drawn drawn = look::at(*draw_step(scene, 0, block.steps[0], {16, false}).list);
    // Two strips in full color, and two units of two patches.
    CHECK(patches(drawn).size() == 2 + 4);
    const std::string cut = "Cut " + std::to_string(scene.piecing.sizes[0].make.at(block.steps[0]));
    CHECK(std::count_if(drawn.runs.begin(), drawn.runs.end(),
                        [&](const canvas::GlyphRun& run) { return run.text() == cut; }) == 2);
  }
  CHECK(found == scene.quantities.sizes[0].strip_sets.size());
}

TEST_CASE("a piece with one square end is shown with its mark and its short edge") {
  const Scene scene = sample::real("harbor-lights").scene();
  for (const char* address : {"ruler/F11", "ruler/F11R"}) {
    const auto figure = draw_figure(scene, 0, address, 200, 160);
    REQUIRE(figure);
    check_words(look::at(*figure->list), address);
    std::set<std::string> said;
    for (const canvas::GlyphRun& run : look::at(*figure->list).runs) said.insert(run.text());
    CHECK(said.size() == 2);
    CHECK(figure->alt.find("the mark at 3 in on the long edge") != std::string::npos);
  }
  for (const CutPiece& piece : scene.quantities.sizes[0].pieces) {
    if (piece.cut.method != CutMethod::half_angled) continue;
    // 3 in less 4 1/2 in/√3 is 0.402 in.
    CHECK(half_angled_short_edge(piece.cut) == Fraction::of(3, 8));
    const bool below = scene.piecing.pieces[piece.piece].reversed;
    CHECK(drawing::is_long_below(piece.cut) == below);
  }
}

TEST_CASE("the key shows the marks that a size uses") {
  const auto alt = [](const std::string& pattern, std::size_t size) {
    return draw_figure(sample::real(pattern).scene(), size, "key", 468, 200)->alt;
  };
  const std::string lap = alt("harbor-lights", 0), throw_size = alt("tide-star", 0),
                    pillow = alt("tide-star", 1);
  CHECK(lap.find("Seam between halves or panels") != std::string::npos);
  CHECK(alt("harbor-lights", 1).find("Seam between halves;") != std::string::npos);
  CHECK(lap.find("Cut here") != std::string::npos);
  CHECK(throw_size.find("Seam between panels") != std::string::npos);
  CHECK(throw_size.find("Cut here") != std::string::npos);  // beside the seam that joins strips
  CHECK(pillow.find("Cut here") != std::string::npos);      // where a tip is trimmed
  CHECK(pillow.find("Seam between") == std::string::npos);
  for (const std::string& key : {lap, throw_size, pillow}) {
    CHECK(key.find("Bias edge") != std::string::npos);
    CHECK(key.find("Press both allowances") != std::string::npos);
  }
  // Six points meet on the seams between rows of halves.
  CHECK(lap.find("Press the seam open") != std::string::npos);
  CHECK(throw_size.find("Press the seam open") == std::string::npos);
  CHECK(pillow.find("Press the seam open") == std::string::npos);
}

TEST_CASE("a backing of one piece has no panels to number") {
  const auto words = [](std::size_t size) {
    std::string all;
    const auto figure =
        draw_figure(sample::real("harbor-lights").scene(), size, "backing", 300, 300);
    for (const canvas::GlyphRun& run : look::at(*figure->list).runs) all += run.text() + "\n";
    return all;
  };
  CHECK(words(0).find("panel 2") != std::string::npos);
  CHECK(words(1).find("panel") == std::string::npos);
}

TEST_CASE("a step shows which shapes of its strip set are meant") {
  const sample::Real& real = sample::real("harbor-lights");
  // Each block as if another one made its second half.
  Piecing parted = real.piecing;
  std::vector<BlockSewing> more;
  for (BlockSewing& block : parted.sizes[0].blocks) {
    if (block.steps.size() != 2 || !parted.units[block.steps[0]].strip_set) continue;
    more.push_back(block);
    more.back().steps = {block.steps[1]};
    block.steps.pop_back();
  }
  auto& all = parted.sizes[0].blocks;
  all.insert(all.end(), more.begin(), more.end());
  const Scene scene{real.checked, parted, real.quantities, sample::fonts()};
  std::size_t found = 0;
  for (const BlockSewing& block : real.piecing.sizes[0].blocks) {
    std::vector<std::vector<double>> lefts;
    for (const UnitId unit : block.steps) {
      if (!scene.piecing.units[unit].strip_set) continue;
      const look::Drawn drawn = look::at(*draw_step(scene, 0, unit, {16, false}).list);
      std::vector<double> at;
      for (const drawing::Ring& r : patches(drawn)) at.push_back(drawing::box(r).left);
      lefts.push_back(std::move(at));
    }
    if (lefts.size() != 2) continue;
    ++found;
    // One shape in two strips, and the unit itself; the other unit comes from the other shape.
    CHECK(lefts[0].size() == 4);
    CHECK(lefts[1].size() == 4);
    CHECK(lefts[0] != lefts[1]);
  }
  CHECK(found == real.quantities.sizes[0].strip_sets.size());
}

TEST_CASE("the same figure is the same bytes") {
  for (const Case& c : cases()) {
    for (const char* address : {"quilt", "layout", "key", "assembly/1"}) {
      const auto a = draw_figure(c.scene, 0, address, 324, 300);
      const auto b = draw_figure(c.scene, 0, address, 324, 300);
      CHECK(canvas::to_svg(*a->list, a->width, a->height, c.scene.fonts) ==
            canvas::to_svg(*b->list, b->width, b->height, c.scene.fonts));
    }
  }
}

TEST_CASE("pictures stay as they were agreed on") {
  // DOGEAR_UPDATE=1 writes them anew; look at the difference before committing it.
  const Scene scene = sample::lantern().scene();
  DiskFiles disk;
  for (const std::string address : {"swatch/gold", "quilt/plain", "step/lantern/1"}) {
    std::string name = address;
    for (char& letter : name) letter = letter == '/' ? '-' : letter;
    const std::string path = test::project_folder() + "/tests/drawing/golden/" + name + ".svg";
    const auto figure = draw_figure(scene, 0, address, 324, 300);
    const std::string svg =
        canvas::to_svg(*figure->list, figure->width, figure->height, scene.fonts) + "\n";
    std::string error;
    if (std::getenv("DOGEAR_UPDATE") != nullptr) {
      REQUIRE(disk.write(path, svg, error));
    }
    const auto agreed = disk.read(path, error);
    INFO(path << " " << error);
    REQUIRE(agreed);
    CHECK((*agreed == svg));
  }
}

TEST_CASE("blocks whose titles find no room go by beginnings that tell them apart") {
  const sample::Real& reed = sample::real("reed-bed");
  std::set<std::string> short_ones;
  for (const auto& [use, name] : drawing::short_names(reed.scene(), 0)) short_ones.insert(name);
  CHECK(short_ones == std::set<std::string>{"Da", "Du", "Hi"});
  const sample::Real& harbor = sample::real("harbor-lights");
  std::set<std::string> all;
  for (const auto& [use, name] : drawing::short_names(harbor.scene(), 0)) {
    CHECK(name.size() <= 4);
    CHECK(all.insert(name).second);
  }
  CHECK(all.contains("SF1"));
  CHECK(all.contains("SF7"));
}
