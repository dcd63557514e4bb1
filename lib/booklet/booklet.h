#pragma once
// A pattern in one of its sizes as finished pages, or as parts to be laid out elsewhere.

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "booklet/element.h"
#include "booklet/photos.h"
#include "booklet/template.h"
#include "canvas/display.h"
#include "drawing/figure.h"

namespace dogear {

// Sections as they were written last, for those who set a booklet again with other prose. One
// memory serves one plan, template and set of fonts, and no photographs: nothing but Pattern::prose
// may differ from one setting to the next. What is set with it is the same as without it.
class SectionMemory {
 public:
  SectionMemory();
  ~SectionMemory();
  struct Impl;
  Impl& impl() { return *impl_; }

 private:
  std::unique_ptr<Impl> impl_;
};

// The booklet of one size. Errors, each at its place in the prose where it has one: D401 (unknown
// tag), D402 (unknown image address), D403 (a photograph not in `photos`), D404 (a character the
// fonts lack), D405 (prose that cannot be filled in), D406 (a link to no place), D407 (a section
// without a file), and those of the Markdown and tag readers. Nothing is returned if and only if an
// error was added.
std::optional<canvas::Document> set_booklet(const Scene& scene, std::size_t size,
                                            const Template& style, Diagnostics& diagnostics,
                                            const booklet::Photos& photos = {},
                                            SectionMemory* memory = nullptr);

// The same booklet as parts without pages, with the same errors.
struct BookletParts {
  std::string size, size_title;            // "lap", "Lap Quilt"
  std::vector<booklet::Element> sections;  // in order, each with what it holds
  std::vector<canvas::OutlineEntry> outline;
};
std::optional<BookletParts> write_booklet(const Scene& scene, std::size_t size,
                                          const Template& style, Diagnostics& diagnostics,
                                          const booklet::Photos& photos = {});

// What to buy for this size: its headings, sentences and tables alone.
std::vector<booklet::Element> requirements_of(const Scene& scene, std::size_t size,
                                              const Template& style, Diagnostics& diagnostics);

}  // namespace dogear
