#pragma once
// Styled text set into lines.

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "booklet/hyphens.h"
#include "canvas/display.h"
#include "canvas/font.h"

namespace dogear::booklet {

struct TextStyle {
  canvas::FontId font = canvas::FontId::text;
  double size = 10.5;
  canvas::Color color;
  std::string destination;  // of a link: name of an anchor, or
  std::string uri;          // an outside address
  bool tabular = false;     // figures of one width
  bool hyphenate = true;
  bool operator==(const TextStyle&) const = default;
};

struct Run {
  std::string text;
  TextStyle style;
  bool line_break = false;  // instead of text
};
using Runs = std::vector<Run>;

enum class Align { justify, left, center, right };

struct ParagraphShape {
  double width = 400;
  double leading = 15;
  Align align = Align::justify;
};

struct TextLine {
  canvas::DisplayList content;  // left edge of the measure at x = 0, baseline at y = 0
  double left = 0;              // where ink starts
  double width = 0;             // of the text as set
  double ratio = 0;             // how far word spaces were stretched (+) or shrunk (-)
  bool hyphenated = false;
  bool last = false;
  std::string text;                             // as set, with spaces and hyphen
  std::vector<std::pair<double, double>> gaps;  // word spaces, from left to right edge
};

// The first of the lines over which word spaces stand one below another, more than three lines
// long, and how many lines that is; 0 lines where there is none.
struct River {
  std::size_t line = 0, lines = 0;
};
River longest_river(const std::vector<TextLine>& lines);

class Typesetter {
 public:
  Typesetter(const canvas::FontSet& fonts, std::shared_ptr<const Hyphens> hyphens)
      : fonts_(fonts), hyphens_(std::move(hyphens)) {}
  std::vector<TextLine> set(const Runs& runs, const ParagraphShape& shape) const;
  // The width of the text on one line, and of its widest word: for columns of tables.
  double natural_width(const Runs& runs) const;
  double widest_word(const Runs& runs) const;
  const canvas::FontSet& fonts() const { return fonts_; }

 private:
  const canvas::FontSet& fonts_;
  std::shared_ptr<const Hyphens> hyphens_;
};

}  // namespace dogear::booklet
