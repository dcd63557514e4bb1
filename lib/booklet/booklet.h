#pragma once
// A pattern in one of its sizes as finished pages.

#include <cstddef>
#include <optional>

#include "booklet/template.h"
#include "canvas/display.h"
#include "drawing/figure.h"

namespace dogear {

// The booklet of one size. Errors, each at its place in the prose where it has one: D401 (unknown
// tag), D402 (unknown image address), D403 (a photograph), D404 (a character the fonts lack), D405
// (prose that cannot be filled in), D406 (a link to no place), D407 (a section without a file), and
// those of the Markdown and tag readers. Nothing is returned if and only if an error was added.
std::optional<canvas::Document> set_booklet(const Scene& scene, std::size_t size,
                                            const Template& style, Diagnostics& diagnostics);

}  // namespace dogear
