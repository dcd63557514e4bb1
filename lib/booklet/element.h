#pragma once
// What a booklet says, part by part and without pages: for outputs that lay themselves out.
//
// A Column makes these as it makes its boxes, so both come of the same calls.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "booklet/paragraph.h"
#include "canvas/display.h"

namespace dogear::booklet {

// A picture ready to be placed; points.
struct Picture {
  canvas::ListRef list;
  double width = 0, height = 0;
  std::string alt;         // empty for decoration
  bool true_size = false;  // is measured or cut round as it is printed
  double scale = 0;        // pt an inch, of a step of the assembly
};

struct Cell {
  Runs runs;
  std::optional<Picture> picture;  // stands before the text
};

struct Element {
  enum class Kind {
    section,    // children
    cover,      // children
    entry,      // of the contents: runs, level 1 or 2, anchor of the heading
    heading,    // runs, level 1 to 3, anchor; picture: a swatch before the words
    paragraph,  // runs
    list,       // children are items or cards
    item,       // label ("1." or a bullet); children
    card,       // label (a step's number, or none), picture; children
    figure,     // picture, and runs under it
    figures,    // children are figures, side by side
    table,      // head, rows, align
    note,       // children
    rule
  };
  Kind kind = Kind::paragraph;
  int level = 1;
  bool ordered = false;  // of a list
  std::string anchor, label;
  Runs runs;
  std::optional<Picture> picture;
  std::vector<Cell> head;
  std::vector<std::vector<Cell>> rows;
  std::string align;  // of a table: one of l, c, r a column; shorter means l
  std::vector<Element> children;
};

// Elements in the order of their calls; parts are opened and closed around what they hold.
class Elements {
 public:
  void add(Element element) { open_part().push_back(std::move(element)); }
  void open(Element element);
  void close() { --depth_; }
  std::vector<Element> take() { return std::move(all_); }

 private:
  std::vector<Element>& open_part();
  std::vector<Element> all_;
  std::size_t depth_ = 0;  // the last element of the last ... that is open
};

std::string plain_text(const Runs& runs);
// A part of a role that elements know, or nothing.
std::optional<Element> part_of(canvas::Role role);

}  // namespace dogear::booklet
