#pragma once
// Content flowed into pages: a column of boxes, each a line of text, a table row, a figure, ...

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "booklet/paragraph.h"
#include "booklet/template.h"
#include "canvas/display.h"

namespace dogear::booklet {

// A part of the document that boxes belong to; boxes of one part carry the same id.
struct Frame {
  canvas::Role role = canvas::Role::paragraph;
  int id = 0;
  std::string alt;
};

// Printed label of the page on which an anchor stands, "" when there is none.
using PageOf = std::function<std::string(const std::string&)>;

// A piece that no page break enters. Points; the box's left edge is the page's left margin.
struct Box {
  double height = 0;
  double before = 0, after = 0;  // space kept from neighbours (the larger wins), none at page ends
  double stretch = 0;            // most that it may stand lower to fill its page
  canvas::DisplayList content;   // from the top left corner
  std::function<canvas::DisplayList(const PageOf&)> late;  // content that needs page numbers
  std::vector<Frame> path;                                 // from the outermost part
  bool keep_with_next = false;
  double break_cost = 0;               // of a page that begins here; a page of its own costs 1
  bool new_page = false;               // always begins a page
  bool section_start = false;          // begins a page unless its whole section fits on one begun
  bool runs_on = false;                // or a good part of it
  bool bare = false;                   // its page has no running lines
  std::optional<std::string> running;  // what the running line says from here on
  std::vector<std::string> anchors;
  std::shared_ptr<const Box> repeat;  // drawn again above this box when it begins a page
};

struct FlowContext {
  const Template& style;
  const Typesetter& type;
  int next_id = 1;  // of Frames
  int id() { return next_id++; }
};

struct PageRun {
  std::size_t begin = 0, end = 0;  // boxes
};

// Boxes from `first` on stand on one page where it holds them: parting them costs this.
void keep_whole(std::vector<Box>& boxes, std::size_t first, double height, double cost);

// The best page breaks for a height, and what they cost; every page holds at least one box.
std::vector<PageRun> paginate(const std::vector<Box>& boxes, double height, double* cost = nullptr);

// Top of each box of a page, and the height of the whole.
std::vector<double> stack(const std::vector<Box>& boxes, const PageRun& run, double* height);

// How much lower a page becomes with the space between its boxes drawn in.
double most_drawn_in(const std::vector<Box>& boxes, const PageRun& run);

// Moves the boxes apart where they allow it, or together where they are too high, so that they fill
// a page of this height.
void spread(const std::vector<Box>& boxes, const PageRun& run, double used, double height,
            std::vector<double>& tops);

canvas::DisplayList moved(const canvas::DisplayList& list, double dx, double dy);

// The content of boxes [run) with `tops`, grouped by the parts they belong to.
canvas::DisplayList compose(const std::vector<Box>& boxes, const PageRun& run,
                            const std::vector<double>& tops, const PageOf& page_of);

struct RunningLines {
  std::string title;  // head, left
  std::string right;  // head, right
  std::string foot;   // foot, opposite the page number
};

// Finished pages, numbered from 1.
std::vector<canvas::Page> make_pages(const std::vector<Box>& boxes, const Template& style,
                                     const canvas::FontSet& fonts, const RunningLines& lines);

}  // namespace dogear::booklet
