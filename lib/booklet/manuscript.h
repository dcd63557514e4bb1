#pragma once
// All sections of a booklet as boxes and elements, not yet laid on pages.
//
// Sections are written beside each other where processors are free. Each is written as if it stood
// alone, with fonts, messages and numbers of parts of its own, so that the outcome is the same
// whoever writes it and when. What speaks of the rest, the abbreviations used and the contents, is
// written when they are done.

#include <map>
#include <memory>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "booklet/booklet.h"
#include "booklet/writer.h"
#include "diag/diagnostics.h"

namespace dogear::booklet {

struct WrittenSection {
  std::string name;
  bool is_prose = false;
  Span span;
  std::vector<Box> boxes;
  std::vector<Element> elements;
  std::vector<OutlineItem> entries;
  bool is(std::string_view wanted) const { return !is_prose && name == wanted; }
};

class Manuscript {
 public:
  Manuscript(const Scene& scene, std::size_t size, const Template& style, const Photos& photos);
  ~Manuscript();
  void write(SectionMemory* memory = nullptr);
  // Plans the blocks anew where their section begins below another on its page, if the pages are
  // better for it. To be called once, after writing without errors.
  void fit_blocks();

  std::vector<WrittenSection> sections;  // boxes may need the manuscript until they are on pages
  std::vector<OutlineItem> entries;      // what the contents list
  Diagnostics said;
  // Error D404 for each character that the fonts lack, in the sections or on the pages since.
  void say_what_is_missing(Diagnostics& diagnostics) const;

 private:
  class Desks;
  void begin_pages();

  const Scene scene_;
  const std::size_t size_;
  const Template& style_;
  std::unique_ptr<Desks> desks_;
  std::set<std::string> before_blocks_;  // anchors of the sections before them
  std::map<std::pair<canvas::FontId, char32_t>, std::string> missing_;
};

}  // namespace dogear::booklet
