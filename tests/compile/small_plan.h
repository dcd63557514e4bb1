#pragma once
// A plan put together by hand, with names that are hard to print.

#include "compile/plan.h"

namespace dogear::test {

inline Plan small_plan() {
  Plan plan;
  Pattern& pattern = plan.checked.pattern;
  pattern.id = "small";
  pattern.title = "Small";
  pattern.fabrics = {{"cream", "Cream, \"light\"", "#ffffff", 1, {}},
                     {"ink", "Ink | blue", "#000000", 2, {}}};
  pattern.rulers = {{"straight",
                     "Rectangular ruler",
                     90,
                     false,
                     Exact::ratio(1, 2),
                     Exact(24),
                     Exact::ratio(1, 8),
                     {}}};
  SizeDef lap;
  lap.id = "lap";
  lap.title = "Lap quilt";
  SizeDef wall;
  wall.id = "wall";
  wall.title = "Wall hanging";
  pattern.sizes = {lap, wall};

  Piece piece;
  piece.fabric = 1;
  piece.letter = "A";
  piece.shape_words = "square";
  plan.piecing.pieces = {piece};
  plan.piecing.sizes.resize(2);

  SizeQuantities quantities;
  quantities.finished_width = Fraction::of(45, 2);
  quantities.finished_height = Fraction::of(24, 1);
  PieceCut cut;
  cut.strip = Fraction::of(5, 2);
  cut.length = Fraction::of(5, 2);
  cut.rulers = {0};
  quantities.pieces = {{0, cut, 16}};
  FabricNeed cream;
  cream.fabric = 0;
  cream.uses = {"blocks", "border"};
  cream.yards = Fraction::of(9, 8);
  cream.centimetres = 105;
  FabricNeed ink;
  ink.fabric = 1;
  ink.uses = {"blocks"};
  ink.bundle_strips = 3;
  quantities.fabrics = {cream, ink};
  quantities.binding = Binding{1, 3, Fraction::of(5, 2), Fraction::of(105, 1)};
  quantities.rulers = {0};
  plan.quantities.sizes = {quantities, quantities};
  plan.quantities.sizes[1].size = 1;
  return plan;
}

// 62 in square, of cloth 42 in wide, or else of 108 in.
inline Backing two_way_backing() {
  Backing backing;
  backing.name = "Backing";
  backing.width = backing.height = Fraction::of(62, 1);
  backing.panels = 2;
  backing.yards = Fraction::of(7, 2);
  backing.centimetres = 315;
  backing.wide = Fraction::of(108, 1);
  backing.wide_yards = Fraction::of(7, 4);
  backing.wide_centimetres = 160;
  return backing;
}

}  // namespace dogear::test
