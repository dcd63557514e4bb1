// Fabrics are told apart without colour, and a piece looks the same wherever it is drawn.

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <regex>
#include <set>

#include "drawing/figure.h"
#include "drawing/sketch.h"
#include "sample.h"
#include "support/legible.h"

using namespace dogear;

namespace {

using Matrix = std::array<std::array<double, 3>, 3>;

double linear(double c) { return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); }

// Machado, Oliveira and Fernandes, "A physiologically-based model for simulation of color vision
// deficiency", IEEE Transactions on Visualization and Computer Graphics 15 (2009), severity 1.0,
// for linear RGB. The numbers are from memory; their rows add up to 1, so that grey stays grey.
constexpr std::array<Matrix, 4> sights{{
    {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}},
    {{{0.152286, 1.052583, -0.204868},
      {0.114503, 0.786281, 0.099216},
      {-0.003882, -0.048116, 1.051998}}},  // protanopia
    {{{0.367322, 0.860646, -0.227968},
      {0.280085, 0.672501, 0.047413},
      {-0.011820, 0.042940, 0.968881}}},  // deuteranopia
    {{{1.255528, -0.076749, -0.178779},
      {-0.078411, 0.930809, 0.147602},
      {0.004733, 0.691367, 0.303900}}},  // tritanopia
}};

// How light it seems; the grey it is printed in, too.
double lightness(const canvas::Color& color, const Matrix& sight) {
  const std::array<double, 3> in{linear(color.r), linear(color.g), linear(color.b)};
  constexpr std::array<double, 3> weight{0.2126, 0.7152, 0.0722};  // of WCAG 2
  double out = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    double c = 0;
    for (std::size_t j = 0; j < 3; ++j) c += sight[i][j] * in[j];
    out += weight[i] * std::clamp(c, 0.0, 1.0);
  }
  return out;
}

double contrast(const canvas::Color& a, const canvas::Color& b, const Matrix& sight) {
  const double x = lightness(a, sight), y = lightness(b, sight);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

Fabric fabric(int number, const canvas::Color& colour) {
  Fabric f;
  f.number = number;
  f.colour = colour.hex();
  return f;
}

}  // namespace

TEST_CASE("the simulations leave grey as it is and take red and green together") {
  for (const Matrix& sight : sights) {
    for (const auto& row : sight) CHECK(row[0] + row[1] + row[2] == Approx(1).margin(2e-6));
    CHECK(lightness(canvas::Color::gray(0.5), sight) == Approx(0.2140).margin(1e-3));
  }
  // An unclamped red seems far darker to a protanope.
  CHECK(lightness({1, 0, 0}, sights[1]) < lightness({1, 0, 0}, sights[0]) * 0.6);
}

TEST_CASE("the hatch of a fabric shows on any colour, in grey and to the colour-blind") {
  for (int r = 0; r <= 10; ++r) {
    for (int g = 0; g <= 10; ++g) {
      for (int b = 0; b <= 10; ++b) {
        const canvas::Color base{r / 10.0, g / 10.0, b / 10.0};
        const canvas::Style style = drawing::cloth(fabric(1, base));
        REQUIRE(style.hatch);
        for (const Matrix& sight : sights) {
          CAPTURE(base.hex(), style.hatch->color.hex());
          CHECK(contrast(*style.fill, style.hatch->color, sight) > 1.6);
        }
      }
    }
  }
}

TEST_CASE("no two of three dozen fabrics have the same hatch") {
  std::set<std::pair<int, long>> hatches;
  for (int number = 1; number <= 36; ++number) {
    const canvas::Style style = drawing::cloth(fabric(number, canvas::Color::gray(0.5)));
    hatches.emplace(style.hatch->kind, std::lround(style.hatch->spacing * 100));
    CHECK(style.hatch->line >= 0.4);
  }
  CHECK(hatches.size() == 36);
}

namespace {

// The innermost cloth below a spot, as of what was painted before `at`.
std::optional<canvas::Shape> cloth_at(const std::vector<test::Painted>& all, std::size_t at,
                                      canvas::Point p) {
  for (std::size_t j = at; j-- > 0;) {
    const auto& shape = all[j].shape;
    if (shape && shape->style.fill && shape->style.hatch && test::lies_in(shape->path, p))
      return shape;
  }
  return {};
}

}  // namespace

TEST_CASE("a piece has one letter, colour and hatch in every figure") {
  // What letters look like in figures of pieces as they are sewn; cutting figures show the cloth.
  const std::regex label("([A-Z]+)([0-9]+)(R?)");
  for (const char* folder : {"harbor-lights", "reed-bed", "tide-star"}) {
    const sample::Real& real = sample::real(folder);
    const Scene scene = real.scene();
    const Pattern& pattern = real.checked.pattern;
    std::map<std::string, const Piece*> pieces;
    for (const Piece& piece : real.piecing.pieces) pieces[piece.label(pattern)] = &piece;
    std::size_t looked = 0;
    for (std::size_t size = 0; size < real.checked.sizes.size(); ++size) {
      for (const std::string& address : figure_addresses(scene, size)) {
        const auto figure = draw_figure(scene, size, address, 459, 640);
        REQUIRE(figure);
        CAPTURE(folder, size, address);
        // On strips every piece has its place, cloth under a clear ruler is paler, and other
        // colorings have other colours.
        const bool by_itself = address.starts_with("cutting/") || address.starts_with("ruler/") ||
                               address.find("/coloring/") != std::string::npos;
        std::vector<test::Painted> all;
        test::unfold(*figure->list, {}, all);
        for (std::size_t i = 0; i < all.size(); ++i) {
          if (const auto& shape = all[i].shape; shape && shape->style.hatch && !by_itself) {
            // Every cloth is one of the pattern's: its own colour with its own hatch; or waste.
            const bool known =
                shape->style.hatch == drawing::waste().hatch ||
                std::any_of(pattern.fabrics.begin(), pattern.fabrics.end(), [&](const Fabric& f) {
                  const canvas::Style style = drawing::cloth(f);
                  return style.fill == shape->style.fill &&
                         style.hatch->kind == shape->style.hatch->kind &&
                         style.hatch->color == shape->style.hatch->color;
                });
            CHECK(known);
          }
          if (!all[i].run || address == "key") continue;
          const std::string words = all[i].run->text();
          std::smatch parts;
          if (!std::regex_match(words, parts, label)) continue;
          CAPTURE(words);
          REQUIRE(pieces.count(words) == 1);
          const canvas::Point middle = test::letters_of(*all[i].run).center();
          const auto cloth = cloth_at(all, i, middle);
          if (!cloth) continue;  // outside, at the end of a leader
          const Fabric& f = pattern.fabrics.at(pieces[words]->fabric);
          CHECK(cloth->style.fill == drawing::cloth(f).fill);
          CHECK(cloth->style.hatch->kind == drawing::cloth(f).hatch->kind);
          ++looked;
          if (!address.starts_with("block/") && !address.starts_with("step/")) continue;
          // The patch has the piece's shape, whatever its size and turn: area to outline.
          const auto measure = [](const drawing::Ring& r) {
            double around = 0;
            for (std::size_t k = 0; k < r.size(); ++k)
              around += drawing::length(drawing::operator-(r[(k + 1) % r.size()], r[k]));
            return drawing::area(r) / (around * around);
          };
          drawing::Ring drawn;
          for (const auto& [a, b] : test::edges_of(cloth->path)) drawn.push_back(a);
          CHECK(measure(drawn) ==
                Approx(measure(drawing::ring(pieces[words]->shape, 1))).epsilon(1e-3));
        }
      }
    }
    CHECK(looked > 20);
  }
}

TEST_CASE("waste, the wrong side of cloth and every fabric are told apart") {
  const canvas::Style waste = drawing::waste();
  REQUIRE(waste.hatch);
  CHECK_FALSE(waste.dash.empty());
  for (int number = 1; number <= 24; ++number) {
    for (const char* colour : {"#ffffff", "#f4f0e6", "#808080", "#101418"}) {
      const Fabric f = fabric(number, *canvas::Color::parse(colour));
      const canvas::Style cloth = drawing::cloth(f);
      CHECK(cloth.dash.empty());
      CHECK_FALSE(cloth.hatch == waste.hatch);
    }
  }
}
