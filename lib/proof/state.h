#pragma once
// One state of a pattern as a reviewer sees it: its pages and figures as pictures, its quantities
// as lists, and what there is to say about it.
//
// Pictures are SVG that shows itself: outlines for letters, nothing to fetch. The same source gives
// the same bytes.

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "canvas/display.h"
#include "compile/compare.h"
#include "compile/compile.h"
#include "compile/lists.h"

namespace dogear::proof {

// A place of a page that a figure fills, as shares of the page's width and height.
struct Spot {
  double left = 0, top = 0, width = 0, height = 0;
  std::vector<std::string> places;  // "blocks/star.yaml:12", most telling first
  std::string alt;
  bool operator==(const Spot&) const = default;
};

struct Picture {
  std::string name;  // a figure's address, or the number printed on a page (may be empty)
  std::string alt;
  std::vector<std::string> places;
  double width = 0, height = 0;  // pt
  std::string svg;
  canvas::ListRef list;
  std::shared_ptr<const canvas::FontSet> own_fonts;  // none: those given
  // Of a page:
  std::vector<Spot> spots;
  std::vector<std::string> words;  // what it says, sorted
};

struct SizeState {
  std::string id, title;
  std::vector<Picture> pages;
  std::vector<Picture> figures;
  std::vector<List> lists;
};

struct State {
  std::string title;
  bool planned = false;  // figures, lists and `side` are there
  bool whole = false;    // nothing is wrong: pages are there, too
  std::vector<SizeState> sizes;
  ComparedSide side;
};

// The source lines that a figure of this size is drawn from, most telling first, within the folder:
// "blocks/star.yaml:12". Never empty for an address of figure_addresses().
std::vector<std::string> places_of(const Plan& plan, std::size_t size, const std::string& address);

// All figures of a size as pictures. While they are made, `so_far` is given those that are there:
// of the first addresses, in order; one that cannot be drawn has no name.
std::vector<Picture> figure_pictures(
    const Plan& plan, std::size_t size, const canvas::FontSet& fonts,
    const std::shared_ptr<const canvas::FontSet>& own_fonts, const Words& words,
    const std::function<void(std::span<const Picture>)>& so_far = {});

// Where figures come from, by what they show in words; nothing where two that show the same come
// from different places.
class FigurePlaces {
 public:
  explicit FigurePlaces(const std::vector<Picture>& figures);
  const std::vector<std::string>* find(const std::string& alt) const;

 private:
  std::map<std::string, const std::vector<std::string>*> known_;
};

// A page without its spots, and the spots of it.
Picture page_picture(const canvas::Page& page, const canvas::FontSet& fonts,
                     std::shared_ptr<const canvas::FontSet> own_fonts);
void find_spots(Picture& page, const FigurePlaces& places);

// The source files below the folder, by path within it.
std::map<std::string, std::string> sources_within(const std::string& folder,
                                                  const Sources& sources);

}  // namespace dogear::proof
