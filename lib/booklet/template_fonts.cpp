// The fonts that a template names, proved to be usable.

#include <set>

#include "base/files.h"
#include "base/text.h"
#include "booklet/template.h"

namespace dogear {
namespace {

constexpr std::size_t characters_named = 12;

// What every booklet prints: letters, digits, the marks of measures, and what the words are made
// of.
std::set<char32_t> needed_characters(const Words& words) {
  std::set<char32_t> out;
  for (char32_t c = 0x21; c < 0x7F; ++c) out.insert(c);
  for (const char32_t c : code_points("×–°½¼¾·")) out.insert(c);
  for (const auto& [key, text] : words.texts)
    for (const char32_t c : code_points(text))
      if (c > 0x20 && c != 0xA0) out.insert(c);
  return out;
}

}  // namespace

std::optional<canvas::FontSet> load_own_fonts(const Template& design, const Files& files,
                                              Diagnostics& diagnostics) {
  const canvas::FontPaths& paths = *design.fonts;
  const std::array<const std::string*, canvas::font_count> faces{
      &paths.text, &paths.text_bold, &paths.text_italic, &paths.sans, &paths.sans_bold};
  std::string why;
  auto fonts = canvas::FontSet::load(files, paths, why);
  if (!fonts) {
    // One line a font; a file that serves twice is told once.
    std::set<std::string> told;
    for (const std::string& line : split(why, '\n')) {
      for (std::size_t i = 0; i < faces.size(); ++i) {
        if (line.find(*faces[i]) == std::string::npos || !told.insert(*faces[i]).second) continue;
        diagnostics.error("D417", design.font_spans[i], line)
            .hints.push_back("a font is a TrueType file (.ttf) with outlines");
      }
    }
    return std::nullopt;
  }
  const std::set<char32_t> needed = needed_characters(design.words);
  std::set<std::string> told;
  for (std::size_t i = 0; i < faces.size(); ++i) {
    const auto id = static_cast<canvas::FontId>(i);
    std::string lacking;
    std::size_t count = 0;
    for (const char32_t c : needed) {
      if (fonts->has(id, c)) continue;
      if (++count <= characters_named) lacking += " " + utf8(c);
    }
    if (count == 0 || !told.insert(*faces[i]).second) continue;
    Diagnostic& e = diagnostics.error(
        "D418", design.font_spans[i],
        join(
            {fonts->name(id), " lacks characters that every booklet prints:", lacking,
             count > characters_named ? " and " + std::to_string(count - characters_named) + " more"
                                      : std::string()},
            ""));
    e.hints.push_back("choose a font with all Latin letters, fractions and typographic marks");
  }
  if (!told.empty()) return std::nullopt;
  return fonts;
}

}  // namespace dogear
