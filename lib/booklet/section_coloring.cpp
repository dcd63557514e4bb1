// The quilt to be colored by the reader, and in colorings of the designer's besides the first.

#include "booklet/writer.h"

namespace dogear::booklet {

void write_coloring_page(Writer& w, Column& column) {
  const std::size_t first = column.boxes.size();
  w.heading(column, 1, w.words("coloring page"), "coloring-page");
  column.boxes.at(first).new_page = true;
  column.paragraph(w.words("coloring page intro"));
  const double height = w.style.text_height();
  const auto boxes = w.picture("fabrics/line", column.width(), height * 0.3);
  double used = 0;
  stack(column.boxes, {first, column.boxes.size()}, &used);
  // Both on one page, with the space that stands round figures.
  const double room = height - used - (boxes ? boxes->height : 0) - w.style.type.leading * 3;
  if (const auto quilt = w.picture("quilt/line", column.width(), room)) column.figure(*quilt);
  if (!boxes) return;
  column.keep_last_with_next();
  column.figure(*boxes);
}

void write_other_colorings(Writer& w, Column& column) {
  const auto& colorings = w.pattern().colorings;
  if (colorings.empty()) return;
  w.heading(column, 1, w.words(colorings.size() == 1 ? "other coloring" : "other colorings"),
            "other-colorings");
  column.paragraph(w.words("other colorings intro"));
  const double height = w.style.text_height() * (colorings.size() == 1 ? 0.6 : 0.33);
  for (std::size_t n = 1; n <= colorings.size(); ++n) {
    const std::string of = "/coloring/" + std::to_string(n);
    w.heading(column, 2, colorings[n - 1].name, "coloring-" + std::to_string(n));
    if (const auto quilt = w.picture("quilt" + of, column.width(), height)) column.figure(*quilt);
    column.keep_last_with_next();
    if (const auto fabrics = w.picture("fabrics" + of, column.width(), height))
      column.figure(*fabrics);
  }
}

}  // namespace dogear::booklet
