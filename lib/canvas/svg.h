#pragma once
// A display list as a self-contained SVG picture: glyphs as outlines, no outside fonts.

#include <memory>
#include <string>
#include <string_view>

#include "canvas/display.h"
#include "canvas/font.h"

namespace dogear::canvas {

// `width` and `height` in points give the view box from (0, 0). Same input, same bytes.
// `id_prefix` keeps identifiers apart where several pictures are put into one web page.
// Texts are kept as aria-labels, alternative texts as <title>; anchors are left out.
std::string to_svg(const DisplayList& list, double width, double height, const FontSet& fonts,
                   std::string_view id_prefix = {});

// The pictures of one web page. What several of them draw alike (glyphs, words, hatches, parts,
// whole pictures) is stored once, so each is only a reference: `<use href="#..."/>`.
class SvgSheet {
 public:
  explicit SvgSheet(const FontSet& fonts);
  ~SvgSheet();
  // The identifier to refer to; equal drawings have the same one.
  std::string add(const DisplayList& list);
  // Everything referred to, as <defs> of an <svg> of its own.
  std::string definitions() const;

 private:
  class Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace dogear::canvas
