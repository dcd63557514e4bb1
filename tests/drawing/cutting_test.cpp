// Cloth with all that is cut from it: strips with rows, sheets, lengths of cloth.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "base/length.h"
#include "drawing/figure.h"
#include "drawing/layouts.h"
#include "drawing/sketch.h"
#include "look.h"
#include "sample.h"

using namespace dogear;

namespace {

constexpr FabricId coral = 1;  // of Tide Star: D2 squares, A2 halves, E2 cornerstones

Run part(Run::Kind kind, Fraction x, Fraction y, Fraction length, Fraction height) {
  Run r;
  r.kind = kind;
  r.x = x;
  r.y = y;
  r.length = length;
  r.height = height;
  return r;
}

// Tide Star with the cutting of its coral cloth replaced.
class Cut {
 public:
  Cut() : real_(sample::real("tide-star")) {
    auto& strips = real_.quantities.sizes[0].strips;
    std::erase_if(strips, [](const StripPlan& p) { return p.fabric == coral; });
  }

  PieceId piece(const std::string& label) const {
    for (const CutPiece& p : real_.quantities.sizes[0].pieces) {
      if (real_.piecing.pieces[p.piece].label(real_.checked.pattern) == label) return p.piece;
    }
    FAIL("no piece " + label);
    return 0;
  }

  Run pieces(const std::string& label, long long count, Fraction x, Fraction y, Fraction length,
             Fraction height) const {
    Run r = part(Run::Kind::piece, x, y, length, height);
    r.piece = piece(label);
    r.count = count;
    return r;
  }

  StripPlan& strip(Fraction height, Fraction usable, std::vector<Run> runs) {
    StripPlan plan;
    plan.fabric = coral;
    plan.height = height;
    plan.usable = usable;
    plan.purpose = "pieces";
    plan.runs = std::move(runs);
    real_.quantities.sizes[0].strips.push_back(plan);
    return real_.quantities.sizes[0].strips.back();
  }

  // A piece that is cut along the length of the cloth.
  void lengthwise(const std::string& label) {
    for (CutPiece& p : real_.quantities.sizes[0].pieces) {
      if (p.piece == piece(label)) p.cut.method = CutMethod::lengthwise;
    }
  }

  Pattern& pattern() { return real_.checked.pattern; }
  Fabric& fabric() { return real_.checked.pattern.fabrics[coral]; }

  std::vector<ClothLayout> layouts() const {
    return layouts_of(real_.checked.pattern, real_.quantities.sizes[0], coral);
  }

  Figure figure(const std::string& address = "cutting/coral", double width = 459) const {
    const auto drawn = draw_figure(real_.scene(), 0, address, width, 640);
    REQUIRE(drawn);
    return *drawn;
  }

 private:
  sample::Real real_;
};

std::vector<canvas::Rect> boxes_of(const look::Drawn& drawn, const canvas::Color& fill) {
  std::vector<canvas::Rect> out;
  for (const canvas::Shape& s : drawn.shapes) {
    if (s.style.fill == fill && s.path.points().size() > 2) out.push_back(s.path.bounds());
  }
  return out;
}

bool says(const look::Drawn& drawn, const std::string& words) {
  return std::any_of(drawn.runs.begin(), drawn.runs.end(), [&](const canvas::GlyphRun& r) {
    return canvas::normal_fractions(r.text()) == words;
  });
}

std::string all_words(const look::Drawn& drawn) {
  std::string out;
  for (const canvas::GlyphRun& r : drawn.runs) out += canvas::normal_fractions(r.text()) + "|";
  return out;
}

void check_apart(const look::Drawn& drawn) {
  for (std::size_t i = 0; i < drawn.runs.size(); ++i) {
    CHECK(drawn.runs[i].size >= 6 - 1e-6);
    for (std::size_t j = i + 1; j < drawn.runs.size(); ++j) {
      INFO(drawn.runs[i].text() << " and " << drawn.runs[j].text());
      CHECK_FALSE(look::meet(look::words_box(drawn.runs[i]), look::words_box(drawn.runs[j])));
    }
  }
  for (const canvas::Shape& s : drawn.shapes) {
    if (s.style.stroke) CHECK(s.style.width >= 0.4 - 1e-6);
  }
}

}  // namespace

TEST_CASE("rows of a strip lie one above the other, each where the plan has it") {
  Cut cut;
  cut.strip({13, 2}, {42, 1},
            {cut.pieces("D2", 2, {0, 1}, {0, 1}, {13, 1}, {13, 2}),
             cut.pieces("E2", 4, {13, 1}, {0, 1}, {10, 1}, {5, 2}),
             cut.pieces("A2", 4, {13, 1}, {5, 2}, {31, 4}, {31, 8}),
             part(Run::Kind::leftover, {23, 1}, {0, 1}, {19, 1}, {13, 2})});
  const Figure figure = cut.figure();
  const look::Drawn drawn = look::at(*figure.list);
  const auto boxes = boxes_of(drawn, drawing::colour(cut.fabric()));
  REQUIRE(boxes.size() == 10);
  const double scale = boxes[0].width() / 6.5, left = boxes[0].left, top = boxes[0].top;
  CHECK(boxes[1].left == Approx(left + 6.5 * scale));
  // The lower row ends with the strip, the upper one stands on it.
  CHECK(boxes[2].left == Approx(left + 13 * scale));
  CHECK(boxes[2].bottom == Approx(top + 6.5 * scale));
  CHECK(boxes[2].top == Approx(top + 4 * scale));
  CHECK(boxes[6].bottom == Approx(top + 4 * scale));
  CHECK(boxes[6].top == Approx(top + (4 - 3.875) * scale).margin(0.02 * scale));
  INFO(all_words(drawn));
  CHECK(says(drawn, "2 D2: 13 in"));
  CHECK(says(drawn, "4 E2: 10 in"));
  CHECK(says(drawn, "4 A2: 7 3/4 in"));
  CHECK(says(drawn, "6 1/2 × 19 in"));
  CHECK(says(drawn, "Cut 1"));
  CHECK(figure.alt.find("4 × E2, 2½ in squares, cut down to 2½ in") != std::string::npos);
  check_apart(drawn);
}

TEST_CASE("strips of all fabrics are drawn to one scale, and a strip cut often is drawn once") {
  Cut cut;
  cut.strip({5, 2}, {83, 2}, {cut.pieces("E2", 16, {0, 1}, {0, 1}, {40, 1}, {5, 2})}).times = 4;
  cut.strip({13, 2}, {21, 1}, {cut.pieces("D2", 3, {0, 1}, {0, 1}, {39, 2}, {13, 2})});
  const auto width_of = [&](const std::string& address) {
    const auto boxes = boxes_of(look::at(*cut.figure(address).list), drawing::colour(cut.fabric()));
    return boxes.empty() ? 0 : boxes[0].width();
  };
  CHECK(width_of("cutting/coral/1") / 2.5 == Approx(width_of("cutting/coral/2") / 6.5));
  const look::Drawn first = look::at(*cut.figure("cutting/coral/1").list);
  CHECK(boxes_of(first, drawing::colour(cut.fabric())).size() == 16);
  CHECK(says(first, "Cut 4"));
  CHECK(says(first, "2 1/2 in strips"));
  // Sand, another fabric: three pieces of 12½ in.
  const Scene scene = sample::real("tide-star").scene();
  const Fabric& sand = scene.checked.pattern.fabrics[3];
  const auto drawn = look::at(*draw_figure(scene, 0, "cutting/sand/1", 459, 640)->list);
  const auto sands = boxes_of(drawn, drawing::colour(sand));
  REQUIRE(sands.size() == 3);
  CHECK(sands[0].width() / 12.5 == Approx(width_of("cutting/coral/1") / 2.5));
}

TEST_CASE("sheets cut alike are one drawing, with all their strips") {
  Cut cut;
  ClothSource quarters;
  quarters.kind = ClothSource::Kind::fat_quarter;
  quarters.height = Exact(18);
  quarters.length = Exact(21);
  cut.fabric().sources = {quarters};
  for (const long long sheet : {1, 2, 3}) {
    StripPlan& high = cut.strip(
        {13, 2}, {21, 1}, {cut.pieces("D2", sheet == 3 ? 2 : 3, {0, 1}, {0, 1}, {39, 2}, {13, 2})});
    high.sheet = sheet;
    StripPlan& low =
        cut.strip({5, 2}, {21, 1}, {cut.pieces("E2", 8, {0, 1}, {0, 1}, {20, 1}, {5, 2})});
    low.sheet = sheet;
    low.times = 2;
  }
  const auto layouts = cut.layouts();
  REQUIRE(layouts.size() == 2);
  CHECK(layouts[0].times == 2);
  CHECK(layouts[0].first_sheet == 1);
  CHECK(layouts[1].times == 1);
  CHECK(layouts[1].first_sheet == 3);
  CHECK(layouts[0].height == Exact(18));
  const look::Drawn drawn = look::at(*cut.figure("cutting/coral/1").list);
  INFO(all_words(drawn));
  CHECK(boxes_of(drawn, drawing::colour(cut.fabric())).size() == 3 + 2 * 8);
  CHECK(says(drawn, "Fat quarters"));
  CHECK(says(drawn, "1 and 2"));
  CHECK(says(drawn, "2 of 2 1/2 in"));
  CHECK(says(drawn, "6 1/2 × 21 in"));  // the rest of the sheet: 18 - 6½ - 2 × 2½
  check_apart(drawn);
  CHECK(says(look::at(*cut.figure("cutting/coral/2").list), "Fat quarter"));
}

TEST_CASE("a bundle strip that is cut down says to what") {
  Cut cut;
  Bundle bundle;
  bundle.strip = Exact::ratio(7, 2);
  bundle.length = 42;
  cut.pattern().bundles = {bundle};
  ClothSource strips;
  strips.kind = ClothSource::Kind::bundle;
  strips.height = bundle.strip;
  strips.length = bundle.length;
  strips.had = 2;
  cut.fabric().sources = {strips};
  cut.strip({5, 2}, {42, 1}, {cut.pieces("E2", 16, {0, 1}, {0, 1}, {40, 1}, {5, 2})}).sheet = 1;
  const look::Drawn drawn = look::at(*cut.figure("cutting/coral/1").list);
  INFO(all_words(drawn));
  CHECK(says(drawn, "3 1/2 in strip"));
  CHECK(says(drawn, "to 2 1/2 in"));
  CHECK(says(drawn, "16 E2: 40 in"));
  CHECK(says(drawn, "1 × 42 in"));
}

TEST_CASE("strips along the length lie level in their cloth, what is cut beside them stands") {
  Cut cut;
  ClothSource yardage;
  yardage.length = Exact(42);
  cut.fabric().sources = {yardage};
  cut.lengthwise("E2");
  Run border = cut.pieces("E2", 1, {0, 1}, {0, 1}, {60, 1}, {11, 2});
  StripPlan& along = cut.strip(
      {11, 2}, {66, 1}, {border, part(Run::Kind::leftover, {60, 1}, {0, 1}, {6, 1}, {11, 2})});
  along.along = true;
  along.times = 2;
  // The longest one makes the length of cloth.
  Run longest = border;
  longest.length = {66, 1};
  cut.strip({11, 2}, {66, 1}, {longest}).along = true;
  StripPlan& beside = cut.strip({13, 2}, {51, 2},
                                {cut.pieces("D2", 3, {0, 1}, {0, 1}, {39, 2}, {13, 2}),
                                 part(Run::Kind::leftover, {39, 2}, {0, 1}, {6, 1}, {13, 2})});
  beside.beside = true;
  beside.sheet = 1;
  beside.times = 2;
  const auto layouts = cut.layouts();
  REQUIRE(layouts.size() == 1);
  CHECK(layouts[0].kind == ClothLayout::Kind::panel);
  CHECK(layouts[0].length == Exact(66));
  CHECK(layouts[0].taken == Exact::ratio(33, 2));
  CHECK(layouts[0].parts.size() == 2);
  REQUIRE(layouts[0].across.size() == 1);
  const look::Drawn drawn = look::at(*cut.figure("cutting/coral/1").list);
  INFO(all_words(drawn));
  const auto boxes = boxes_of(drawn, drawing::colour(cut.fabric()));
  // Three strips along, six squares across; squares of one upright strip lie one below the other.
  REQUIRE(boxes.size() == 9);
  const double scale = boxes[3].width() / 6.5;
  CHECK(boxes[4].left == Approx(boxes[3].left));
  CHECK(boxes[4].top == Approx(boxes[3].bottom));
  CHECK(boxes[6].left == Approx(boxes[3].right));
  CHECK(boxes[3].top == Approx(boxes[2].bottom));
  CHECK(boxes[0].width() / scale > 50);
  CHECK(says(drawn, "66 in along the length"));
  CHECK(says(drawn, "2 of 5 1/2 in"));
  CHECK(says(drawn, "2 of 6 1/2 in"));
  check_apart(drawn);
}

TEST_CASE("any strip cut edge to edge is drawn with every piece apart, and its words legible") {
  std::mt19937 random(20250);  // NOLINT: the same strips every time
  const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  struct Kind {
    const char* label;
    Fraction height;
    Fraction each;
    int per_cut;
  };
  const std::vector<Kind> kinds{
      {"D2", {13, 2}, {13, 2}, 1}, {"A2", {31, 8}, {31, 8}, 2}, {"E2", {5, 2}, {5, 2}, 1}};
  for (int trial = 0; trial < 60; ++trial) {
    Cut cut;
    const Exact height = Exact::ratio(13 + below(14), 2), usable = 42;
    std::vector<Run> runs;
    std::size_t pieces = 0;
    Exact x = 0;
    while (x + Exact(7) <= usable) {
      const Exact length = min(usable - x, Exact(7 + below(20)));
      Exact y = 0;
      for (int row = 0; row < 4; ++row) {
        const Kind& kind = kinds[static_cast<std::size_t>(below(3))];
        if (y + Exact(kind.height) > height) continue;
        const long long most = (length / Exact(kind.each)).round_down(1).num;
        if (most == 0) continue;
        const long long n = 1 + below(static_cast<int>(most));
        const Exact taken = Exact(kind.each) * Exact(n);
        runs.push_back(cut.pieces(kind.label, n * kind.per_cut, x.round_down(16), y.round_down(16),
                                  taken.round_up(16), kind.height));
        pieces += static_cast<std::size_t>(n * kind.per_cut);
        y += Exact(kind.height);
      }
      x += length;
    }
    cut.strip(height.round_up(16), {42, 1}, runs);
    for (const double width : {459.0, 324.0, 280.0}) {
      INFO("trial " << trial << ", width " << width);
      const look::Drawn drawn = look::at(*cut.figure("cutting/coral/1", width).list);
      check_apart(drawn);
      std::vector<drawing::Ring> rings;
      for (const canvas::Shape& s : drawn.shapes)
        if (s.style.fill == drawing::colour(cut.fabric())) rings.push_back(s.path.points());
      CHECK(rings.size() == pieces);
      for (std::size_t i = 0; i < rings.size(); ++i)
        for (std::size_t j = 0; j < rings.size(); ++j)
          if (i != j) CHECK(drawing::depth(rings[i], drawing::centroid(rings[j])) < 1e-6);
    }
  }
}

TEST_CASE("spare triangles of a square that is cut apart are shown as left over") {
  Cut cut;
  cut.strip({31, 8}, {42, 1}, {cut.pieces("A2", 3, {0, 1}, {0, 1}, {31, 4}, {31, 8})});
  const look::Drawn drawn = look::at(*cut.figure("cutting/coral/1").list);
  CHECK(boxes_of(drawn, drawing::colour(cut.fabric())).size() == 3);
  // The strip itself has the hatch, too, within an inked edge.
  CHECK(std::count_if(drawn.shapes.begin(), drawn.shapes.end(), [](const canvas::Shape& s) {
          return s.style.hatch == drawing::waste().hatch && s.style.stroke == drawing::pale;
        }) == 1);
}

TEST_CASE("every strip names what is cut from it, however thin it is drawn") {
  for (const char* folder : {"harbor-lights", "reed-bed", "tide-star", "uferwiese"}) {
    const sample::Real& real = sample::real(folder);
    const Pattern& pattern = real.checked.pattern;
    for (std::size_t size = 0; size < real.checked.sizes.size(); ++size) {
      for (FabricId f = 0; f < pattern.fabrics.size(); ++f) {
        const auto layouts = layouts_of(pattern, real.quantities.sizes[size], f);
        for (std::size_t n = 1; n <= layouts.size(); ++n) {
          const auto figure =
              draw_figure(real.scene(), size,
                          "cutting/" + pattern.fabrics[f].id + "/" + std::to_string(n), 297, 400);
          REQUIRE(figure);
          std::string said;
          for (const canvas::GlyphRun& run : look::at(*figure->list).runs)
            if (run.text().find(':') == std::string::npos) said += run.text() + "\n";
          for (const auto& part : layouts[n - 1].parts) {
            for (const Run& run : part.plan->runs) {
              if (run.kind != Run::Kind::piece) continue;
              const std::string label = real.piecing.pieces[run.piece].label(pattern);
              INFO(folder << " " << size << " " << pattern.fabrics[f].id << " " << n << " "
                          << label);
              CHECK(said.find(label) != std::string::npos);
            }
          }
        }
      }
    }
  }
}
