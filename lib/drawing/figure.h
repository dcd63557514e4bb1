#pragma once
// Figures of the booklet, each found by an address such as "block/lantern" or "step/lantern/2".

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "canvas/display.h"
#include "canvas/font.h"
#include "cutting/quantities.h"
#include "words/languages.h"

namespace dogear {

struct Figure {
  canvas::ListRef list;  // origin at the top left of the figure's box
  double width = 0;      // pt
  double height = 0;     // pt
  std::string alt;       // what it shows, in words
  double scale = 0;      // pt an inch, of a step of the assembly
};

// All that a figure or a page may need to know.
struct Scene {
  const CheckedPattern& checked;
  const Piecing& piecing;
  const Quantities& quantities;
  const canvas::FontSet& fonts;
  const Words& words = english_words();
};

// Every address that names a figure of this size, in the booklet's order.
std::vector<std::string> figure_addresses(const Scene& scene, std::size_t size);

// Draws a figure no wider and no higher than given; nothing when no such figure is known.
std::optional<Figure> draw_figure(const Scene& scene, std::size_t size, const std::string& address,
                                  double max_width, double max_height);

// Whether the binding is joined of several strips: the first picture of the figure "binding".
bool is_joined(const Binding& binding);
// Whether the rows, not the block's own steps, join it.
bool comes_in_halves(const Scene& scene, const BlockSewing& block);

// A step of a block at a scale of one's own, for pages that choose it.
struct StepLook {
  double scale = 14;  // pt an inch; strip sets and large units are drawn smaller
  bool down = false;  // what it becomes stands below what is sewn, not right of it
};
// The units of a block that one step cuts from a strip set, in order; any other unit by itself.
std::vector<UnitId> cut_together(const Scene& scene, std::size_t size, UnitId unit);
// Of a piece with one square end, cut at 60°: its narrower edge, to the nearest 1/8 in.
Fraction half_angled_short_edge(const PieceCut& cut);
// Pieces cut round one template: alike, or its mirror image (those come last). Or, with no pieces,
// the paper that a unit is sewn on.
struct TemplateUse {
  std::vector<PieceId> pieces;
  std::optional<UnitId> foundation = {};
};
std::vector<TemplateUse> templates_of(const Scene& scene, std::size_t size);
// In the order in which they are sewn.
std::vector<TemplateUse> foundations_of(const Scene& scene, std::size_t size);
struct FigureRoom {
  double width = 0, height = 0;  // pt
};
// A template in its true size, turned upright where only so it fits; nothing where neither does.
std::optional<Figure> whole_template(const Scene& scene, std::size_t size, const TemplateUse& use,
                                     FigureRoom room);
// A template larger than the room, over as few sheets as hold it, of equal size, which overlap by
// half an inch and are joined where marks of one letter meet.
struct TemplateSheet {
  Figure figure;
  bool squares = false;  // it holds the test squares, too
};
struct TemplateSheets {
  std::vector<TemplateSheet> sheets;  // row by row; sheets on which nothing lies are left out
  Figure overview;                    // small: how they lie
};
TemplateSheets template_sheets(const Scene& scene, std::size_t size, const TemplateUse& use,
                               FigureRoom room);
FigureRoom step_room(const Scene& scene, std::size_t size, UnitId unit, StepLook look);
Figure draw_step(const Scene& scene, std::size_t size, UnitId unit, StepLook look);
// The n-th step of the assembly (1-based) in the room, at no larger a scale than this (pt an inch).
std::optional<Figure> draw_assembly(const Scene& scene, std::size_t size, std::size_t n,
                                    FigureRoom room, double most);

}  // namespace dogear
