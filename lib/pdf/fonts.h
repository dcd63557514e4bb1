#pragma once
// The glyphs a document uses, and the subset fonts that hold them.
//
// A font is written as Type0 with Identity-H. Each pair of glyph and text gets a code of its own,
// so one glyph may stand for several texts; our own ToUnicode map says which.

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "canvas/font.h"
#include "pdf/objects.h"

namespace dogear::pdf {

class FontUse {
 public:
  FontUse(const canvas::FontSet& fonts, canvas::FontId font);

  struct Code {
    std::uint16_t code = 0;  // from 1; 0 if the font has no such glyph
    int width = 0;           // in thousandths of the size
  };
  Code code(std::uint32_t glyph, std::string_view text);
  bool used() const { return !entries_.empty(); }
  // The Type0 font object. Throws PdfFailure if the font cannot be subset.
  HPDF_Dict write(Objects& objects) const;

 private:
  struct Entry {
    std::uint32_t glyph;
    std::string text;
    int width;
  };
  std::string to_unicode() const;
  HPDF_Dict descriptor(Objects& objects, const std::string& name, std::string_view program) const;

  const canvas::FontSet* fonts_;
  canvas::FontId font_;
  std::uint32_t glyph_count_;
  std::vector<Entry> entries_;
  std::unordered_map<std::uint32_t, std::vector<std::uint16_t>> codes_;
};

}  // namespace dogear::pdf
