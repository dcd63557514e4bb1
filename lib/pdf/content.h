#pragma once
// Display lists as content streams of pages and form XObjects.

#include <map>
#include <optional>
#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "canvas/display.h"
#include "canvas/font.h"
#include "canvas/image.h"
#include "pdf/fonts.h"
#include "pdf/hatches.h"
#include "pdf/structure.h"

namespace dogear::pdf {

// Bytes of one stream and the numbers of the fonts ("F0"), forms ("X0") and photographs ("I0") it
// names.
struct Stream {
  std::string bytes;
  std::set<std::size_t> fonts, forms, images;
};

// "F0", "X12": how a stream names a font, form or photograph.
std::string resource_name(char kind, std::size_t number);

struct FormStream {
  Stream stream;
  canvas::Rect box;
};

struct PlacedLink {
  int page = 0;
  canvas::Rect area;  // y down
  canvas::Link link;
  Structure::Element element = Structure::root;
  std::string words;  // of the text it lies over
};

struct PlacedAnchor {
  int page = 0;
  canvas::Point at;  // y down
};

// What is learnt while the pages are painted, and needed when the file is put together.
struct Painted {
  explicit Painted(const canvas::FontSet& font_set, bool tagged);

  const canvas::FontSet& font_set;
  bool tagged;
  std::vector<FontUse> fonts;  // by FontId
  std::vector<FormStream> forms;
  std::vector<canvas::RasterRef> images;
  Swatches swatches;
  std::vector<PlacedLink> links;
  std::map<std::string, PlacedAnchor> anchors;
  Structure structure;
  std::vector<std::string> errors;

  void error(const std::string& text);  // kept once
  std::size_t image(const canvas::RasterRef& raster);

  // Facts about a list drawn somewhere, found once.
  struct Facts {
    int uses = 0;
    bool has_text = false, has_targets = false;
    canvas::Rect box;
    std::optional<std::size_t> form;
  };
  std::unordered_map<const canvas::DisplayList*, Facts> lists;
  void survey(const canvas::DisplayList& list);
};

// Paints page number `page` (from 0).
Stream paint_page(Painted& painted, const canvas::Page& page, int number);

}  // namespace dogear::pdf
