#pragma once
// Words on a figure: each in its own clear place on a white plate, or outside with a leader.

#include <optional>
#include <string>
#include <vector>

#include "canvas/font.h"
#include "drawing/sketch.h"

namespace dogear::drawing {

inline constexpr double largest_label = 9;   // pt
inline constexpr double smallest_label = 6;  // pt

struct LabelStyle {
  canvas::FontId font = canvas::FontId::sans_bold;
  double largest = largest_label;
  double smallest = smallest_label;
  bool plate = true;
  double clear = 1.2;  // pt between a plate and the patch's edge
};

class Labels {
 public:
  explicit Labels(const canvas::FontSet& fonts) : fonts_(fonts) {}

  // Keeps later words away from what is drawn there.
  void keep_off(const Rect& r) { taken_.push_back(r); }
  void keep_off(const Ring& r) { rings_.push_back(r); }
  bool is_free(const Rect& r) const;

  // In the ring at the largest size that fits, clear of everything put down before.
  std::optional<Rect> put_inside(const Ring& ring, const std::string& words,
                                 const LabelStyle& style = {});
  // Outside all rings, with a leader that ends in a dot at `target`.
  Rect put_outside(Spot target, const std::string& words, const LabelStyle& style = {});
  // Below, above, right or left of the box, whichever is free first; below in the end. Or left,
  // right, below, above.
  Rect put_by(const Rect& near, const std::string& words, const LabelStyle& style = {},
              bool left_first = false);
  // By a corner of rings[own], nearer to it than to any other ring; nothing where that cannot be.
  std::optional<Rect> put_nearest(const std::vector<Ring>& rings, std::size_t own,
                                  const std::string& words, const LabelStyle& style = {});
  // Exactly there: `at` is the middle of the words' box.
  Rect put_at(Spot at, const std::string& words, double size, const LabelStyle& style = {});

  Rect measure(const std::string& words, double size, const LabelStyle& style) const;
  void paint(canvas::DisplayList& list) const;

 private:
  struct Word {
    Rect plate;
    canvas::ShapedText text;
    bool has_plate = true;
  };
  struct Leader {
    Spot from, to;
  };
  Rect keep(const std::string& words, double size, const LabelStyle& style, const Rect& plate);

  const canvas::FontSet& fonts_;
  std::vector<Rect> taken_;
  std::vector<Ring> rings_;
  std::vector<Word> words_;
  std::vector<Leader> leaders_;
};

// A line of plain text, its baseline at (x, y).
double write(canvas::DisplayList& list, const canvas::FontSet& fonts, double x, double y,
             double size, const std::string& words, canvas::FontId font = canvas::FontId::sans);

}  // namespace dogear::drawing
