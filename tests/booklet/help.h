#pragma once
// Fonts, a small pattern compiled in memory, and what finished pages say and paint.

#include <memory>
#include <string>
#include <vector>

#include "base/files.h"
#include "booklet/booklet.h"
#include "booklet/column.h"

namespace help {

using namespace dogear;

const canvas::FontSet& fonts();
const Template& letter();
std::shared_ptr<const Hyphens> hyphens();

// The files of a small pattern of squares in the sizes "one" and "four", in folder "p".
MemoryFiles small_pattern();

struct Compiled {
  CheckedPattern checked;
  Piecing piecing;
  Quantities quantities;
  Scene scene() const {
    return {checked, piecing, quantities, fonts(), dogear::words_of(checked.pattern.language)};
  }
};
std::unique_ptr<Compiled> compile(const std::string& folder, const Files& files);
// One size on a paper, in the pattern's language.
canvas::Document booklet_on(const Compiled& c, std::size_t size, const std::string& paper);

// Every text on a page in painting order, with the place of its baseline.
struct Said {
  std::string text;
  canvas::FontId font;
  double x = 0, y = 0, size = 0, width = 0;
  bool in_figure = false;
};
std::vector<Said> said(const canvas::DisplayList& list);
std::string words_of(const canvas::DisplayList& list);  // one line a text

// A figure on a page, and how it lies there.
struct Shown {
  canvas::ListRef list;
  canvas::Transform where;
  std::string alt;
};

void find_figures(const canvas::DisplayList& list, const canvas::Transform& t,
                  std::vector<Shown>& out);

// The words of pages, a text a line.
std::string words_of(const canvas::Document& document);

// The same with one blank between any two, fractions and hyphenated ends joined.
std::string running_words(const canvas::Document& document);

// The place in `text` where `needle` begins, as line and column counted from 1.
std::pair<std::size_t, std::size_t> place_of(const std::string& text, const std::string& needle);

}  // namespace help
