#pragma once
// Page, type, fonts, colours, order of the sections and words, read from templates/*.yaml or from a
// designer's copy. Measures are points.

#include <array>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "booklet/hyphens.h"
#include "canvas/display.h"
#include "canvas/font.h"
#include "diag/diagnostics.h"
#include "words/languages.h"
#include "words/words.h"

namespace dogear {

struct Template {
  std::string name;
  double page_width = 612, page_height = 792;
  double top = 72, bottom = 72, left = 72, right = 72;  // margins
  struct Type {
    double text = 10.5, leading = 15, small = 9, label = 8.5, running = 8;
    double heading1 = 26, heading2 = 15, heading3 = 11.5, title = 40;
  } type;
  struct Colours {
    canvas::Color ink, accent, muted, rule, tint;
  } colours;
  // The five faces; nothing where the template leaves them to dogear.
  std::optional<canvas::FontPaths> fonts;
  std::array<Span, canvas::font_count> font_spans{};
  std::vector<std::string> sections;  // of patterns that give none; empty: dogear's order
  Words words;                        // of the language asked for
  std::shared_ptr<const Hyphens> hyphens;
  bool in_grey = false;  // printed so: hatches tell apart what colours do not

  // The quilt as covers and lists show it.
  const char* quilt_figure() const { return in_grey ? "quilt" : "quilt/plain"; }

  Template another() const;  // the same for another thread

  double text_width() const { return page_width - left - right; }
  double text_height() const { return page_height - top - bottom; }
};

// `name` is a built-in paper ("letter", "a4", "half-letter", "a5") or the path of a YAML file,
// whose `with` names are looked for beside it and then among the built-in ones. The words are those
// of `language`, changed where the template's own words say otherwise. Errors: D410 (no such
// template), those of the strict readers (unknown keys), D408 (words of another language), D409 (a
// path that leaves the template's folder), D411 (words that are not known, or with a placeholder
// they do not take), D412 to D415, D416 (no such font file), D419 (templates that name each other
// in a circle).
std::optional<Template> load_template(const std::string& name, const std::string& language,
                                      const Files& files, Diagnostics& diagnostics);

// The template's own fonts. Errors: D417 (not a font that can be used), D418 (a font that lacks
// characters of the words).
std::optional<canvas::FontSet> load_own_fonts(const Template& design, const Files& files,
                                              Diagnostics& diagnostics);

}  // namespace dogear
