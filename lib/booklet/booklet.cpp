#include "booklet/booklet.h"

#include "base/text.h"
#include "booklet/manuscript.h"
#include "booklet/writer.h"
#include "diag/merge.h"

namespace dogear {

using booklet::Manuscript;
using booklet::WrittenSection;

namespace {

constexpr std::size_t most_pages = 1000;

}  // namespace

std::optional<canvas::Document> set_booklet(const Scene& scene, std::size_t size,
                                            const Template& style, Diagnostics& diagnostics,
                                            const booklet::Photos& photos, SectionMemory* memory) {
  const std::size_t errors = diagnostics.error_count();
  Manuscript written(scene, size, style, photos);
  written.write(memory);
  add_all(written.said, diagnostics);
  if (diagnostics.error_count() != errors) return std::nullopt;
  written.fit_blocks();

  // Boxes -> pages.
  std::vector<booklet::Box> boxes;
  for (WrittenSection& section : written.sections)
    std::move(section.boxes.begin(), section.boxes.end(), std::back_inserter(boxes));
  canvas::Document document;
  const Pattern& pattern = scene.checked.pattern;
  const SizeDef& size_def = pattern.sizes[size];
  document.title = pattern.title + " · " + size_def.title;
  document.author = pattern.designer;
  document.subject = pattern.summary;
  document.language = pattern.language;
  document.id = pattern.id + "/" + size_def.id + "/" + pattern.edition;
  document.pages =
      booklet::make_pages(boxes, style, scene.fonts, {document.title, "", pattern.designer});
  if (document.pages.size() > most_pages)
    diagnostics
        .error("D478", pattern.sizes[size].span,
               join({"the booklet has ", std::to_string(document.pages.size()), " pages, and ",
                     std::to_string(most_pages), " are the most"},
                    ""))
        .hints.push_back("look for words or blocks that stand in it many times");
  for (const booklet::OutlineItem& e : written.entries)
    document.outline.push_back({e.title, e.level, e.anchor});

  written.say_what_is_missing(diagnostics);
  if (diagnostics.error_count() != errors) return std::nullopt;
  return document;
}

std::optional<BookletParts> write_booklet(const Scene& scene, std::size_t size,
                                          const Template& style, Diagnostics& diagnostics,
                                          const booklet::Photos& photos) {
  const std::size_t errors = diagnostics.error_count();
  Manuscript written(scene, size, style, photos);
  written.write();
  add_all(written.said, diagnostics);
  written.say_what_is_missing(diagnostics);
  if (diagnostics.error_count() != errors) return std::nullopt;
  const SizeDef& size_def = scene.checked.pattern.sizes[size];
  BookletParts parts;
  parts.size = size_def.id;
  parts.size_title = size_def.title;
  for (WrittenSection& section : written.sections) {
    for (booklet::Element& e : section.elements) {
      if (!e.children.empty()) parts.sections.push_back(std::move(e));
    }
  }
  for (const booklet::OutlineItem& e : written.entries)
    parts.outline.push_back({e.title, e.level, e.anchor});
  return parts;
}

std::vector<booklet::Element> requirements_of(const Scene& scene, std::size_t size,
                                              const Template& style, Diagnostics& diagnostics) {
  booklet::Writer writer(scene, size, style, diagnostics);
  booklet::Column column = writer.column();
  booklet::write_requirements_table(writer, column);
  return column.take_elements();
}

}  // namespace dogear
