#pragma once
// Fonts loaded from bytes, and text shaped into glyphs with kerning, ligatures and real fractions.
//
// Fractions: "2½", "2 1/2", "15/16" and "1⁄16" in any text are set as the whole number, a thin gap
// and a diagonal fraction. The glyphs' texts read "2", U+2009, "1", U+2044, "2".

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "canvas/display.h"

struct hb_face_t;
struct hb_font_t;

namespace dogear {
class Files;
}

namespace dogear::canvas {

struct FontPaths {
  std::string text, text_bold, text_italic, sans, sans_bold;
  static FontPaths debian();  // Vollkorn and Lato where Debian's packages put them
};

struct Features {
  bool tabular = false;   // figures of one width, for columns of numbers
  bool lining = true;     // figures as high as capitals
  bool fractions = true;  // set fractions as fractions
  bool ligatures = true;
  bool small_caps = false;
  bool operator==(const Features&) const = default;
};

struct FontMetrics {  // as parts of the size, all positive
  double ascent = 0, descent = 0, cap_height = 0, x_height = 0;
  double underline_depth = 0, underline_thickness = 0;
};

// Glyphs in a row with the pen at (0, 0) at the start.
struct ShapedText {
  FontId font = FontId::text;
  double size = 10;
  std::vector<Glyph> glyphs;
  double width = 0, ascent = 0, descent = 0;  // pt

  // Appends after `gap` points; the other text must be of the same font and size.
  void append(const ShapedText& more, double gap = 0);
  std::string text() const;
};

struct MissingGlyph {
  char32_t character = 0;
  FontId font = FontId::text;
  std::string message;  // "Vollkorn Regular has no character ✂ (U+2702)"
};

// Not safe to use from several threads at once, as shaped words are kept: each has another().
class FontSet {
 public:
  // All five fonts, or nothing with `error` naming the file and what is wrong with it.
  static std::optional<FontSet> load(const Files& files, const FontPaths& paths,
                                     std::string& error);
  // The same fonts for another thread.
  FontSet another() const;
  FontSet(FontSet&&) noexcept;
  FontSet& operator=(FontSet&&) noexcept;
  ~FontSet();

  // One line of text. Any white space counts as one space each; there is no line breaking.
  // A character the font lacks is left out and remembered in missing().
  ShapedText shape(FontId font, double size, std::string_view utf8, Features features = {}) const;
  double width(FontId font, double size, std::string_view utf8, Features features = {}) const;
  // A space of the given width in points, or of its natural width: for justified lines, so that
  // extracted text keeps its spaces.
  ShapedText space(FontId font, double size, std::optional<double> width = {}) const;

  const FontMetrics& metrics(FontId font) const;
  const std::string& name(FontId font) const;             // "Vollkorn Regular"
  const std::string& postscript_name(FontId font) const;  // "Vollkorn-Regular"
  bool has(FontId font, char32_t character) const;

  std::vector<MissingGlyph> missing() const;  // each once, sorted by font and character
  void forget_missing() const;

  // For exporters.
  hb_face_t* face(FontId font) const;
  hb_font_t* hb_font(FontId font) const;  // scaled to units_per_em
  int units_per_em(FontId font) const;

 private:
  struct Impl;
  explicit FontSet(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

// The words between which a line may break, in order, without the spaces. What belongs together
// stays one word: a whole number and its fraction ("2 1/2"), a number and its unit ("2½ in"),
// anything joined by U+00A0, a product ("5 × 7"), a number and what it belongs to ("Make 6").
std::vector<std::string> words(std::string_view utf8);

// Part of a text that is a fraction, with its whole number if there is one.
struct FractionSpan {
  std::size_t begin = 0, end = 0;  // bytes
  std::string whole, num, den;     // digits; whole may be empty
};
std::vector<FractionSpan> find_fractions(std::string_view utf8);

// Every fraction spelled plainly: "2½", "2 1⁄2" and "2 1/2" all become "2 1/2".
std::string normal_fractions(std::string_view utf8);

}  // namespace dogear::canvas
